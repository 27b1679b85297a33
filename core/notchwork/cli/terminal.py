"""Standard input and output as the commands use them."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Iterator, Sequence
from typing import TextIO

from notchwork import jobs
from notchwork.cli.reading import reading
from notchwork.cli.streams import width
from notchwork.findings import NotchworkError, safe
from notchwork.report import Paper

STDIN = "-"


def paper(stream: TextIO | None = None) -> Paper:
    """The width and colours of a stream, standard output if none is named; a pipe has no colours."""
    wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Paper(width(), wanted and (stream or sys.stdout).isatty())


def loaded(name: str, arguments: Namespace) -> jobs.Loaded:
    """The pattern of a file, or of standard input for ``-``, read as the arguments say."""
    how = reading(arguments)
    options, others = options_of(arguments), arguments.module == "convert"
    if name != STDIN:
        return jobs.load(name, None, arguments.from_format, options, how, others)
    if sys.stdin is None:
        raise NotchworkError(called(name), "It is closed.", "Name a file, or send a pattern to it.")
    return jobs.load(sys.stdin.buffer, called(name), arguments.from_format, options, how, others)


def once(names: Sequence[str]) -> Sequence[str]:
    """The same names. Raises NotchworkError where standard input is among them twice, which can be read once."""
    if names.count(STDIN) > 1:
        raise NotchworkError(called(STDIN), "It can be read only once.", f"Name {STDIN} only once.")
    return names


def options_of(arguments: Namespace) -> dict[str, str]:
    """The options of a format's own, each given as KEY=VALUE."""
    options: dict[str, str] = {}
    for text in arguments.options:
        name, equals, value = text.partition("=")
        if not equals:
            raise NotchworkError(f"-O {text}", "An option is written as KEY=VALUE.")
        options[name] = value
    return options


def checks_asked_for(stated: Sequence[str]) -> list[str]:
    """The checks and families asked for, of which one option may name several."""
    names = [name.strip() for text in stated for name in text.split(",") if name.strip()]
    if stated and not names:
        raise NotchworkError(f"--only {stated[0]}", "This names no check.")
    return names


def called(name: str) -> str:
    """What a file is called in messages."""
    return "standard input" if name == STDIN else name


def with_progress(names: Sequence[str]) -> Iterator[str]:
    """The names one after another, told on standard error where several take their time and someone looks on."""
    shown = len(names) > 1 and sys.stderr.isatty() and not sys.stdout.isatty()
    for number, name in enumerate(names, 1):
        if shown:
            print(f"\r\x1b[K{number} of {len(names)}: {safe(name)}", end="", file=sys.stderr, flush=True)
        yield name
    if shown:
        print("\r\x1b[K", end="", file=sys.stderr, flush=True)
