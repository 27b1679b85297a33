"""A pattern written in a format: as it stands, or drawn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from notchwork.document import write_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.findings import NotchworkError
from notchwork.formats.format import Format
from notchwork.model import Pattern
from notchwork.sewing import Nest


class NothingToDraw(NotchworkError):
    """No piece that is asked for has a shape."""


def goes_along(target: Format, drawing: Options) -> bool:
    """Whether the pattern's document travels inside the file."""
    return target.write_drawing is not None and target.attaches and drawing.document


def written(
    pattern: Pattern, target: Format, options: Mapping[str, str], drawing: Options
) -> Mapping[str, bytes]:
    """The files to be written, by suffix. ``options`` are the format's own, ``drawing`` says what is drawn.

    Raises NothingToDraw, and ValueError for a format that cannot be written.
    """
    if target.write is not None:
        return target.write(pattern, options)
    if target.write_drawing is None:
        raise ValueError(f"{target.name} cannot be written")
    drawn = draw_pattern(Nest(pattern), drawing)
    if not drawn.groups:
        raise NothingToDraw(
            pattern.title or "The pattern",
            "Nothing of it can be drawn: no piece that is asked for has a shape.",
            "Give pieces an outline, or choose others.",
        )
    if goes_along(target, drawing):
        drawn = replace(drawn, attached=write_pattern(pattern))
    return target.write_drawing(drawn, options)
