"""``notchwork demo``."""

from __future__ import annotations

from argparse import Namespace
from importlib import import_module
from pathlib import Path

from notchwork import jobs
from notchwork.cli.terminal import paper
from notchwork.findings import NotchworkError
from notchwork.report import check_text


def run(arguments: Namespace) -> int:
    """Write the example, check it, and say what to try next."""
    write = getattr(import_module("notchwork.demo"), "write", None)
    if write is None:
        raise NotchworkError("demo", "This version comes without an example.")
    paths: list[Path] = list(write(Path(arguments.folder)))
    for path in paths:
        source = jobs.load(path)
        print(check_text(source.name, jobs.check(source), source.line, paper()))
    print("Try next:")
    for path in paths:
        print(f"  notchwork check {path} --verbose")
    print(f"  notchwork describe {paths[0]}")
    print(f"  notchwork walk {paths[0]}")
    return 0
