"""HP-GL: what pen plotters and cutters take."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from notchwork.formats import DRAWN, Format, Written
from notchwork.host import hookimpl
from notchwork_plugins.hpgl.options import OPTIONS
from notchwork_plugins.hpgl.rules import RULES

if TYPE_CHECKING:
    from notchwork.drawing import Drawing
    from notchwork.pages import Paper


def write(drawing: Drawing, paper: Paper, options: Mapping[str, str]) -> Written:
    """Sheets or one roll. Raises NotchworkError."""
    # Layout and drawing take longer to import than declaring the format.
    from notchwork_plugins.hpgl.write import write_pages

    return write_pages(drawing, paper, options)


HPGL = Format(
    name="hpgl",
    title="HP-GL for pen plotters and cutters",
    suffixes=(".hpgl", ".plt"),
    sniff=lambda start: False,
    write_pages=write,
    carries=DRAWN,
    options=OPTIONS,
    rules=RULES,
)


@hookimpl
def notchwork_formats() -> tuple[Format, ...]:
    return (HPGL,)
