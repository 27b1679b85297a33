"""One picture: an SVG body of a stated size, with words that say what it shows; on a page, or as a file by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from notchwork.drawing.xml import quoted, words
from notchwork.pictures.ink import moved, n
from notchwork.pictures.lettering import clipped, isolated
from notchwork.pictures.roles import DARK, LIGHT, PATTERNS, PRINT, STYLE, variables

MM = 25.4 / 96.0
"""mm in a CSS px."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a picture from side to side that no end of a sheet of paper may cut; its marks from y 0 down, in CSS px."""

    height: float
    body: str


@dataclass(frozen=True, slots=True)
class Picture:
    """``key`` is unique on a page ("seam-side-L"); ``width`` is in CSS px; ``parts`` stand one under the other, SVG without ids.

    ``title`` names it; ``says`` is its text alternative: the verdict first, then everything that can be seen.
    """

    key: str
    width: float
    parts: Sequence[Part]
    title: str
    says: str

    @property
    def height(self) -> float:
        """The height of all parts in CSS px."""
        return sum(part.height for part in self.parts)

    @property
    def body(self) -> str:
        """The marks of all parts."""
        y, bodies = 0.0, []
        for part in self.parts:
            bodies.append(moved([part.body], 0.0, y) if y else part.body)
            y += part.height
        return "".join(bodies)


def inline(picture: Picture) -> str:
    """For a page that has the style and the patterns: an svg element, or one for each part in a box of their own."""
    key = picture.key
    said = f'role="group" aria-labelledby={quoted(f"{key}-t")} aria-describedby={quoted(f"{key}-d")}'
    if len(picture.parts) == 1:
        return _svg(picture, picture.parts[0], f"id={quoted(key)} {said}", _said(picture))
    first, *further = picture.parts
    shown = _svg(picture, first, "", _said(picture)) + "".join(_svg(picture, part) for part in further)
    return f'<div class="parts" id={quoted(key)} {said}>{shown}</div>'


def _svg(picture: Picture, part: Part, facts: str = "", said: str = "") -> str:
    wide, tall = n(picture.width), n(part.height)
    return (
        f'<svg class="picture" {facts} width="{wide}" height="{tall}" viewBox="0 0 {wide} {tall}">{said}{part.body}</svg>'
    ).replace("  ", " ", 1)


def standalone(picture: Picture) -> str:
    """A whole SVG file, as wide as it is on paper, which follows a dark screen and prints in ink."""
    style = (
        f":root{{{variables(LIGHT)}}}@media (prefers-color-scheme:dark){{:root{{{variables(DARK)}}}}}"
        f"@media print{{:root{{{variables(PRINT)}}}}}{STYLE}"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="picture" width="{n(picture.width * MM)}mm" '
        f'height="{n(picture.height * MM)}mm" viewBox="0 0 {n(picture.width)} {n(picture.height)}" role="img" '
        f"aria-labelledby={quoted(f'{picture.key}-t')} aria-describedby={quoted(f'{picture.key}-d')}>{_said(picture)}"
        f"<style>{style}</style><defs>{PATTERNS}</defs>{picture.body}</svg>\n"
    )


def _said(picture: Picture) -> str:
    key = picture.key
    return (
        f"<title id={quoted(f'{key}-t')}>{words(isolated(clipped(picture.title)))}</title>"
        f"<desc id={quoted(f'{key}-d')}>{words(isolated(clipped(picture.says)))}</desc>"
    )
