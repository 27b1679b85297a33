"""A pattern written in a format: as it stands, or drawn first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from notchwork.document import write_pattern
from notchwork.findings import NotchworkError
from notchwork.formats.format import Format, Written
from notchwork.formats.guarded import write_by
from notchwork.formats.losses import undrawn
from notchwork.model import Pattern
from notchwork.sewing import Nest

if TYPE_CHECKING:
    from notchwork.draw import Options
    from notchwork.drawing import Drawing
    from notchwork.pages import Paper


class NothingToDraw(NotchworkError):
    """No piece that is asked for has a shape."""


def goes_along(target: Format, options: Mapping[str, str], drawing: Options) -> bool:
    """Whether the pattern's document travels inside the file. ``options`` are the format's own."""
    attaches = target.attaches(options) if callable(target.attaches) else target.attaches
    return target.draws and attaches and drawing.document


def written(
    pattern: Pattern, target: Format, options: Mapping[str, str], drawing: Options, paper: Paper
) -> Written:
    """The files to be written, by suffix, and what is to be said of them.

    ``options`` are the format's own, ``drawing`` says what is drawn, ``paper`` on what, where the format has pages. Raises
    NothingToDraw, BrokenFormat, whatever NotchworkError the writer raises, and ValueError for a format that cannot be written.
    """
    name = pattern.title or "The pattern"
    write, write_drawing, write_pages = target.write, target.write_drawing, target.write_pages
    if write is not None:
        return write_by(target, name, lambda: write(pattern, options))
    if not target.draws:
        raise ValueError(f"{target.name} cannot be written")
    nest = Nest(pattern)
    drawn = _drawn(nest, name, drawing)
    missed = tuple(undrawn(nest, drawing.pieces))
    if goes_along(target, options, drawing):
        drawn = replace(drawn, attached=write_pattern(pattern))
    if write_pages is not None:
        done = write_by(target, name, lambda: write_pages(drawn, paper, options))
    else:
        assert write_drawing is not None
        done = write_by(target, name, lambda: write_drawing(drawn, options))
    return replace(done, findings=(*missed, *done.findings))


def _drawn(nest: Nest, name: str, options: Options) -> Drawing:
    # Drawing is imported where it is used: most commands draw nothing.
    from notchwork.draw import draw_pattern

    drawn = draw_pattern(nest, options)
    if not drawn.groups:
        raise NothingToDraw(
            name,
            "Nothing of it can be drawn: no piece that is asked for has a shape.",
            "Give pieces an outline, or choose others.",
        )
    return drawn
