"""What the eye meets first: whether a seam sews, is to be looked at, or will not sew, told by shape and not by colour."""

from __future__ import annotations

from notchwork.findings import Severity
from notchwork.pictures import ink

SIDE = 18.0
"""px: a sign fits a square of this side."""
SMALL = 14.0
"""px: a small one fits a square of this side."""
_SCALE = 0.74

WORDS = {None: "sews", Severity.WARNING: "look", Severity.ERROR: "will not sew"}


def verdict_word(severity: Severity | None) -> str:
    """The sign in words."""
    return WORDS[_told(severity)]


def sign(severity: Severity | None, x: float, y: float) -> str:
    """A ring with a tick, a triangle with an exclamation mark, or a filled square with a cross, about a middle (px)."""
    match _told(severity):
        case Severity.ERROR:
            marks = [ink.path("M-8 -8H8V8H-8Z", "sign-off"), ink.path("M-4 -4l8 8m0 -8l-8 8", "sign-mark")]
        case Severity.WARNING:
            marks = [
                ink.path("M0 -8L9 8H-9Z", "sign-look"),
                ink.path("M0 -2.5V2.5M0 4.2V6.2", "sign-look-mark"),
            ]
        case _:
            marks = [ink.ring(0.0, 0.0, 7.0, "sign"), ink.path("M-3.5 0l2.5 3 4.5 -6", "sign")]
    return ink.moved(marks, x, y)


def small(severity: Severity | None, middle: complex) -> str:
    """The same within a picture, about a middle (px)."""
    drawn = sign(severity, 0.0, 0.0)
    return ink.moved([f'<g transform="scale({ink.n(_SCALE)})">{drawn}</g>'], middle.real, middle.imag)


def _told(severity: Severity | None) -> Severity | None:
    """A remark is no reason to look."""
    return severity if severity is not None and severity >= Severity.WARNING else None
