"""``notchwork demo``."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from notchwork import jobs
from notchwork.cli.streams import say
from notchwork.cli.terminal import paper
from notchwork.demo import write
from notchwork.findings import safe
from notchwork.report import check_text
from notchwork.sewing.cautions import CAUTIONS


def run(arguments: Namespace) -> int:
    """Write the example, check it, and say what to try next."""
    sheet = paper()
    sound, faulty = write(Path(arguments.folder))
    for path in (sound, faulty):
        source = jobs.load(path)
        say(check_text(source.name, jobs.check(source), source.line, sheet))
    program = sys.argv[0] if Path(sys.argv[0]).name == "notchwork" else "notchwork"
    say("Try next:")
    for command in (f"report {faulty}", f"check {faulty} --verbose", f"describe {sound}", f"walk {sound}"):
        say(safe(f"  {program} {command}"))
    say("\nBefore you sew it:")
    for caution in CAUTIONS:
        say("\n".join(sheet.wrapped(caution, 2)))
    return 0
