"""SVG: drawings from general vector editors."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.formats import DRAWN, Format, Option, Read, Source
from notchwork.host import hookimpl
from notchwork_plugins.svg.rules import RULES
from notchwork_plugins.svg.write import write_drawing

_STARTS = tuple(f"{start}svg".encode(code) for code in ("ascii", "utf-16-le", "utf-16-be") for start in "<:")


def sniff(start: bytes) -> bool:
    return any(begin in start for begin in _STARTS)


def read(source: Source, options: Mapping[str, str]) -> Read:
    # The parser takes longer to import than most commands take to run.
    from notchwork_plugins.svg.read import read as read_drawing

    return read_drawing(source, options)


SVG = Format(
    name="svg",
    title="SVG drawing",
    suffixes=(".svg",),
    sniff=sniff,
    read=read,
    write_drawing=write_drawing,
    carries=DRAWN,
    attaches=True,
    options=(
        Option("scale", "what one unit of the drawing is, such as 1mm or 1in; a bare number is mm"),
        Option("dpi", "how many px are an inch, where the drawing counts in px: 96 (the standard), 90 or 72"),
    ),
    rules=RULES,
)


@hookimpl
def notchwork_formats() -> tuple[Format, ...]:
    return (SVG,)
