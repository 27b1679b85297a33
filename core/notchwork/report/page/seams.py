"""Every seam pinned, as a sewer lays it; and its corners as sewn."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.findings import Severity
from notchwork.pictures import Picture, inline
from notchwork.report.page import subject as at
from notchwork.report.page.markup import Section, el, link, words
from notchwork.report.page.subject import Subject

_HOW = (
    "Pins stand where both sides meet. Flat and stitched: it sews. A hatched bulge: that cloth is too long there. Dotted: "
    "fullness that is wanted. Crossed lines: the order is wrong. Lengths and bulges are to one scale; the tape is life size."
)


def seams(subject: Subject) -> Section:
    """A card for every seam: first those that are not right, worst first, then those that sew."""
    ranked = sorted(subject.album.seams, key=lambda seam: -(subject.severity_of(seam) or 0))
    wrong = [seam for seam in ranked if subject.severity_of(seam) is not None]
    right = [seam for seam in ranked if subject.severity_of(seam) is None]
    parts = [
        f"{el('h3', words(heading)) if wrong and right else ''}{_cards(subject, idents)}"
        for heading, idents in ((f"Not right: {len(wrong)}", wrong), (f"These sew: {len(right)}", right))
        if idents
    ]
    body = el("p", words(_HOW), kind="how") + "".join(parts) if parts else ""
    return Section("seams", "The seams, pinned", body)


def corners(subject: Subject) -> Section:
    """Where edges run on across a seam."""
    cards = "".join(
        card_of(pictures, at.corners(seam), _back(subject, seam))
        for seam, pictures in subject.album.corners.items()
        if pictures
    )
    return Section("corners", "The corners, as sewn", el("div", cards, kind="cards") if cards else "")


def card_of(pictures: Sequence[Picture], ident: str, back: str = "") -> str:
    """Pictures that belong together, with the line below them that says what is pointed at, and the way back."""
    shown = "".join(inline(picture) for picture in pictures)
    return el(
        "article",
        shown,
        '<p class="says" aria-live="polite"></p>',
        back,
        kind="card",
        id=ident,
        tabindex="-1",
    )


def _cards(subject: Subject, idents: Sequence[str]) -> str:
    return el(
        "div",
        *(card_of(subject.album.seams[seam], at.card(seam), _back(subject, seam)) for seam in idents),
        kind="cards",
    )


def _back(subject: Subject, seam: str) -> str:
    """Links to what is said of a seam."""
    said = [
        link(ident, words("What to do" if graded.severity >= Severity.WARNING else "A remark"))
        for ident, graded in subject.concerning(seam)
    ]
    return el("p", " · ".join(said), kind="ways") if said else ""
