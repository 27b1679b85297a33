"""The command line: arguments, wording and exit codes; no logic."""

from notchwork.cli.main import main as main
