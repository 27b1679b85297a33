"""One picture: an SVG body of a stated size, with words that say what it shows; on a page, or as a file by itself."""

from __future__ import annotations

from dataclasses import dataclass

from notchwork.drawing.xml import quoted, words
from notchwork.pictures.ink import n
from notchwork.pictures.lettering import clipped, isolated
from notchwork.pictures.roles import DARK, LIGHT, PATTERNS, PRINT, STYLE, variables

MM = 25.4 / 96.0
"""mm in a CSS px."""


@dataclass(frozen=True, slots=True)
class Picture:
    """``key`` is unique on a page ("seam-side-L"); ``width`` and ``height`` are in CSS px; ``body`` is SVG without ids.

    ``title`` names it; ``says`` is its text alternative: the verdict first, then everything that can be seen.
    """

    key: str
    width: float
    height: float
    body: str
    title: str
    says: str


def inline(picture: Picture) -> str:
    """An svg element for a page that has the style and the patterns."""
    key = picture.key
    return (
        f'<svg class="picture" id={quoted(key)} width="{n(picture.width)}" height="{n(picture.height)}" '
        f'viewBox="0 0 {n(picture.width)} {n(picture.height)}" role="group" '
        f"aria-labelledby={quoted(f'{key}-t')} aria-describedby={quoted(f'{key}-d')}>{_said(picture)}{picture.body}</svg>"
    )


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
