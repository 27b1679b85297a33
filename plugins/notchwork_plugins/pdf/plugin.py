"""PDF: patterns on paper."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from notchwork.formats import DRAWN, Format, Option, Read, Source, Written
from notchwork.host import hookimpl
from notchwork.pages.rules import RULES as PAGES
from notchwork_plugins.pdf.rules import RULES

if TYPE_CHECKING:
    from notchwork.drawing import Drawing
    from notchwork.pages import Paper


def sniff(start: bytes) -> bool:
    """Whether it begins as a PDF does, perhaps after what a mail program put in front."""
    return b"%PDF-" in start[:1024]


def read(source: Source, options: Mapping[str, str]) -> Read:
    """The pattern that a PDF carries along. Raises NotchworkError."""
    # The libraries take longer to import than most commands take to run.
    from notchwork_plugins.pdf.read import read as read_attached

    return read_attached(source)


def write_pages(drawing: Drawing, paper: Paper, options: Mapping[str, str]) -> Written:
    """A drawing on paper. Raises NotchworkError."""
    from notchwork_plugins.pdf.write import write_pages as write

    return write(drawing, paper, options)


PDF = Format(
    name="pdf",
    title="PDF at life size",
    suffixes=(".pdf",),
    sniff=sniff,
    read=read,
    write_pages=write_pages,
    carries=DRAWN,
    attaches=True,
    options=(Option("font", "a TTF or OTF file for letters that the program's own font lacks"),),
    rules=(*RULES, *PAGES),
)


@hookimpl
def notchwork_formats() -> tuple[Format, ...]:
    return (PDF,)
