"""``notchwork walk`` and ``notchwork describe``."""

from __future__ import annotations

import sys
from argparse import Namespace

from notchwork import jobs
from notchwork.cli.complain import complain
from notchwork.cli.main import FAILED
from notchwork.cli.streams import say, tell
from notchwork.cli.terminal import called, loaded, once, paper, with_progress
from notchwork.findings import NotchworkError
from notchwork.report import (
    describe_report,
    describe_text,
    error_report,
    faults_text,
    printed,
    walk_report,
    walk_text,
)


def run(arguments: Namespace) -> int:
    """Measure every file; 2 if one of them could not be."""
    names = [arguments.file] if arguments.what == "walk" else arguments.files
    return max(_one(name, arguments, len(names) > 1) for name in with_progress(once(names)))


def _one(name: str, arguments: Namespace, several: bool) -> int:
    as_json = arguments.format == "json"
    source = None
    try:
        source = loaded(name, arguments)
        nest = jobs.describe(source)
        if arguments.what == "describe":
            text = (
                printed(describe_report(source.name, nest), several)
                if as_json
                else describe_text(source.name, nest, paper())
            )
        else:
            walks = [jobs.walk(nest, seam) for seam in arguments.seams or nest.pattern.seams]
            text = (
                printed(walk_report(source.name, nest, walks), several)
                if as_json
                else walk_text(source.name, nest, walks, paper())
            )
    except NotchworkError as error:
        faults = jobs.faults(source) if source is not None else ()
        if as_json:
            line = source.line if source is not None else None
            say(printed(error_report(arguments.what, called(name), error, faults, line), several))
        complain(str(error))
        if source is not None and not as_json:
            tell(faults_text(faults, source.line, paper(sys.stderr)), end="")
        return FAILED
    say(text.rstrip("\n") + ("\n" if several and not as_json else ""))
    return 0
