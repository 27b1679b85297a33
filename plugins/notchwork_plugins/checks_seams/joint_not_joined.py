"""Two spans follow each other on a side, but nothing joins the corners between them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from notchwork.checks import check
from notchwork.findings import Finding, Phrase, Place, Rule, Severity, plain_name
from notchwork.sewing import Nest, Spot

NOT_JOINED = Rule(
    id="seams/joint-not-joined",
    title="Two pieces follow each other on a seam, but nothing joins them there",
    rationale="An armhole that runs from the front on to the back needs the shoulder seam to bring the two corners together. "
    "If no seam ends there and no fold lies there, a seam is missing, or a span runs from its wrong end.",
    source="Follows from what is sewn before; no outside source.",
    quiet="at one corner of one copy, at a fold, where a strip follows itself (it is lapped), and where a "
    "seam that runs the wrong way, or one that is forgotten and told as such, is the cause.",
    grade=Severity.WARNING,
)

TEXT = "{joints}, but no other seam and no fold joins them there."
JOINT = "{before} is followed by {after}"
HINT = "Add the seam that joins them, or turn the span that runs from its wrong end."


@check(NOT_JOINED)
def joint_not_joined(nest: Nest) -> Iterator[Finding]:
    for (seam, opening), joints in groupby(nest.loose_joints, lambda joint: (joint.seam, joint.opening)):
        loose = list(joints)
        told = tuple(
            Phrase(JOINT, {"before": _corner(nest, joint.before), "after": _corner(nest, joint.after)})
            for joint in loose
        )
        place = Place(seam=seam, opening=opening, piece=loose[0].after.piece)
        pieces = tuple(dict.fromkeys(spot.piece for joint in loose for spot in (joint.before, joint.after)))
        yield Finding(NOT_JOINED, place, TEXT, HINT, {"joints": told}, pieces=pieces)


def _corner(nest: Nest, spot: Spot) -> str:
    """ "Front where armhole meets shoulder", or "Front on its armhole"."""
    graded = nest.pieces[spot.piece]
    line = graded.lines[spot.line]
    if spot.tenth is None:
        return f"{graded.name} (where {plain_name(line.before)} meets {plain_name(line.name)})"
    return f"{graded.name} (on its {plain_name(line.name)})"
