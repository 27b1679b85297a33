"""What a drawing states and no longer fits it, put into words."""

from __future__ import annotations

from notchwork.findings import Finding, Place, plain_name
from notchwork.recognise.words.rules import NO_LONGER_FITS

REPAIR = "State it anew, or draw what it names as before."


def seam_lost(seam: str) -> Finding:
    """A seam whose letter states it."""
    return Finding(
        NO_LONGER_FITS,
        Place(),
        "The seam {what}, which its letter states, does not fit what is drawn, so it is left out.",
        REPAIR,
        {"what": seam},
    )


def opening_lost(opening: str) -> Finding:
    """An opening that the edge at which it begins states."""
    return Finding(
        NO_LONGER_FITS,
        Place(),
        "The opening {what}, which its edge states, does not fit what is drawn, so it is left out.",
        REPAIR,
        {"what": opening},
    )


def material_lost(material: str) -> Finding:
    """A material of which a cut order states more than its name."""
    return Finding(
        NO_LONGER_FITS,
        Place(),
        "What a cut order states of the material {what} is not as it was written, so it is left out.",
        "State it anew in the pattern.",
        {"what": material},
    )


def no_longer_fits(piece: str, line: str, what: str) -> Finding:
    """Anything else that a line states: ``what`` is "finish" or "node crown"."""
    return Finding(
        NO_LONGER_FITS,
        Place(piece=piece),
        "The {what}, which the line {line} states, does not fit what is drawn, so it is left out.",
        REPAIR,
        {"what": what, "line": plain_name(line)},
        pieces=(piece,),
    )
