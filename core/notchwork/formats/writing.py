"""A pattern written in a format: as it stands, or drawn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from notchwork.document import write_pattern
from notchwork.findings import NotchworkError
from notchwork.formats.format import Format, Written
from notchwork.formats.guarded import write_by
from notchwork.model import Pattern
from notchwork.sewing import Nest

if TYPE_CHECKING:
    from notchwork.draw import Options


class NothingToDraw(NotchworkError):
    """No piece that is asked for has a shape."""


def goes_along(target: Format, drawing: Options) -> bool:
    """Whether the pattern's document travels inside the file."""
    return target.write_drawing is not None and target.attaches and drawing.document


def written(pattern: Pattern, target: Format, options: Mapping[str, str], drawing: Options) -> Written:
    """The files to be written, by suffix, and what is to be said of them. ``options`` are the format's own, ``drawing`` says what is drawn.

    Raises NothingToDraw, BrokenFormat, and ValueError for a format that cannot be written.
    """
    name = pattern.title or "The pattern"
    write, write_drawing = target.write, target.write_drawing
    if write is not None:
        return write_by(target, name, lambda: write(pattern, options))
    if write_drawing is None:
        raise ValueError(f"{target.name} cannot be written")
    # Drawing is imported where it is used: most commands draw nothing.
    from notchwork.draw import draw_pattern

    drawn = draw_pattern(Nest(pattern), drawing)
    if not drawn.groups:
        raise NothingToDraw(
            name,
            "Nothing of it can be drawn: no piece that is asked for has a shape.",
            "Give pieces an outline, or choose others.",
        )
    if goes_along(target, drawing):
        drawn = replace(drawn, attached=write_pattern(pattern))
    return write_by(target, name, lambda: write_drawing(drawn, options))
