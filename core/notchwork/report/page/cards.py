"""A picture on the page, with the line below it that says what is pointed at, and the way back to what is said of it."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.checks import Graded
from notchwork.pictures import Picture, inline
from notchwork.report.page.markup import el, link, words
from notchwork.report.told import speaks

SAYS = '<p class="says" aria-live="polite"></p>'
"""What a script fills; without one it does not show."""


def cards(shown: Iterable[str]) -> str:
    """Cards side by side, as many as there is room for."""
    parts = "".join(shown)
    return el("div", parts, kind="cards") if parts else ""


def card(picture: Picture, ident: str, told: Iterable[tuple[str, Graded]] = ()) -> str:
    """One card; ``told`` are the findings that it shows, each with its id on the page."""
    ways = " · ".join(link(finding, _way(graded)) for finding, graded in told)
    back = el("p", ways, kind="ways") if ways else ""
    return el("article", inline(picture), back, SAYS, kind="card", id=ident, tabindex="-1")


def _way(graded: Graded) -> str:
    return words("What to do" if speaks(graded) else "A remark")
