"""``notchwork convert``."""

from __future__ import annotations

import sys
from argparse import Namespace

from notchwork import jobs
from notchwork.cli.complain import complain
from notchwork.cli.lengths import length
from notchwork.cli.main import FAILED
from notchwork.cli.streams import give, say, tell
from notchwork.cli.terminal import loaded, options_of, paper
from notchwork.draw import Options
from notchwork.findings import NotchworkError, safe
from notchwork.pages import Paper, papers
from notchwork.report import faults_text

_STDOUT = "-"
_LISTED = 3
"""Further files that are named one by one."""
_OPEN = "open_json"


def run(arguments: Namespace) -> int:
    """Convert one pattern and show what was left out."""
    options = options_of(arguments)
    source = loaded(arguments.source, arguments)
    to_stdout = arguments.target == _STDOUT
    try:
        done = jobs.convert_loaded(
            source,
            arguments.target,
            arguments.to_format or (_OPEN if to_stdout else None),
            options,
            _drawing(arguments),
            _paper(arguments),
        )
    except jobs.FaultyDocument as error:
        complain(str(error))
        tell(faults_text(jobs.faults(source), source.line, paper(sys.stderr)), end="")
        return FAILED
    if to_stdout:
        if len(done.files) != 1:
            raise NotchworkError(
                done.format.title, "It is written as several files.", "Name a file to write to."
            )
        give(next(iter(done.files.values())))
    else:
        jobs.write_together(done.files)
        main, *others = done.files
        say(safe(f"Wrote {main} ({done.format.title})."))
        if len(others) > _LISTED:
            say(safe(f"Wrote {others[0]} to {others[-1]}: {len(others)} more files, which belong to it."))
        else:
            for path in others:
                say(safe(f"Wrote {path}, which belongs to it."))
    sheet = paper(sys.stderr if to_stdout else sys.stdout)
    (tell if to_stdout else say)(faults_text(done.findings, source.line, sheet, done.pattern), end="")
    return 0


def _drawing(arguments: Namespace) -> Options:
    return Options(
        pieces=tuple(arguments.pieces) or None,
        sizes=tuple(arguments.sizes) or None,
        materials=tuple(arguments.materials) or None,
        copies=arguments.copies,
        unfolded=arguments.unfold,
        allowances=not arguments.no_allowance,
        document=not arguments.no_document,
    )


def _paper(arguments: Namespace) -> Paper:
    return Paper(
        sizes=() if arguments.paper is None else papers(arguments.paper),
        layout=arguments.layout,
        join=arguments.join,
        margin=_width("--margin", arguments.margin),
        overlap=_width("--overlap", arguments.overlap),
        turn=arguments.turn,
        bold=arguments.bold,
    )


def _width(option: str, text: str | None) -> float | None:
    return None if text is None else length(option, text)
