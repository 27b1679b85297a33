"""The corners as sewn, where edges run on across a seam or a fold."""

from __future__ import annotations

from notchwork.pictures.corner import CornerPicture
from notchwork.report.about_pattern import counted
from notchwork.report.page.cards import card, cards
from notchwork.report.page.markup import Section, el, words
from notchwork.report.page.subject import Subject, corner_of

_HOW = (
    "Sewn together, the first edge goes on beyond the seam as a broken line; what lies between that line and the real edge is "
    "hatched."
)


def corners(subject: Subject) -> Section:
    """Those that are not right, worst first; the sound ones open at a click."""
    wrong = [corner for corner in subject.album.corners if corner.severity is not None]
    right = [corner for corner in subject.album.corners if corner.severity is None]
    body = cards(_card(subject, corner) for corner in wrong)
    if right:
        summary = el(
            "summary", words(f"{counted(len(right), 'corner')} that {'run' if len(right) > 1 else 'runs'} on")
        )
        body += el("details", summary, cards(_card(subject, corner) for corner in right), kind="quiet")
    return Section("corners", "The corners, as sewn", el("p", words(_HOW), kind="how") + body if body else "")


def _card(subject: Subject, corner: CornerPicture) -> str:
    told = [(subject.ident_of(graded), graded) for graded in corner.findings]
    return card(corner.picture, corner_of(corner.picture), told)
