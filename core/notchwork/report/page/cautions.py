"""What whoever sews from a checked pattern should know."""

from __future__ import annotations

from notchwork.report.page.markup import el, listing, words
from notchwork.sewing.cautions import CAUTIONS


def cautions() -> str:
    """The cautions, at the foot of the page."""
    return el("h2", "Before you cut") + listing(map(words, CAUTIONS))
