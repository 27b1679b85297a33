"""Every seam pinned, as a sewer lays it."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.report.page.cards import card, cards
from notchwork.report.page.markup import Section, el, words
from notchwork.report.page.subject import Subject, card_of

_HOW = (
    "Pins stand where both sides meet. Flat and stitched: it sews. A hatched bulge: that cloth is too long there. Dotted: "
    "fullness that is wanted. Crossed lines: the order is wrong. Each seam is drawn to its own scale, its bulges to the same; "
    "the tape is life size."
)


def seams(subject: Subject) -> Section:
    """A card for every seam: first those that are not right, worst first, then those that sew."""
    ranked = sorted(subject.album.seams, key=lambda seam: -(subject.severity_of(seam) or 0))
    wrong = [seam for seam in ranked if subject.severity_of(seam) is not None]
    right = [seam for seam in ranked if subject.severity_of(seam) is None]
    parts = [
        f"{el('h3', words(heading)) if wrong and right else ''}{_cards(subject, idents)}"
        for heading, idents in (("Not right", wrong), ("These sew", right))
        if idents
    ]
    body = el("p", words(_HOW), kind="how") + "".join(parts) if parts else ""
    return Section("seams", "The seams, pinned", body)


def _cards(subject: Subject, idents: Sequence[str]) -> str:
    return cards(
        card(
            subject.album.seams[seam],
            card_of(seam),
            [(subject.ident_of(graded), graded) for graded in subject.concerning(seam)],
        )
        for seam in idents
    )
