"""A picture on the page, with the line below it that says what is pointed at, and the way back to what is said of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

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


def card(picture: Picture, ident: str, told: Sequence[tuple[str, Graded]] = ()) -> str:
    """One card; ``told`` are the findings that it shows, each with its id on the page."""
    ways = " ".join(link(finding, words(_way(graded, len(told)))) for finding, graded in told)
    back = el("p", ways, kind="ways") if ways else ""
    return el("article", inline(picture), back, SAYS, kind="card", id=ident, tabindex="-1")


def _way(graded: Graded, of: int) -> str:
    """The words of a link to a finding, which are those of its rule where there are several."""
    if of > 1:
        return graded.rule.title if speaks(graded) else f"A remark: {graded.rule.title}"
    return "What to do" if speaks(graded) else "A remark"
