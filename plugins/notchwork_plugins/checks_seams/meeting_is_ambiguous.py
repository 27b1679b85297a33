"""What a mark is to meet stands in several places of the other side, or in none."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity, listed
from notchwork.sewing import Nest, Walk
from notchwork.sewing.walks.stations import resolve

AMBIGUOUS = Rule(
    id="seams/meeting-is-ambiguous",
    title="What a mark is to meet stands in several places, or nowhere",
    rationale="A seam that ends in several places of a side (both shoulders on a neckline walked all round) does not say "
    "which of them is meant. Guessing would pin the seam in the wrong place. What stands nowhere on the side pins nothing.",
    source="The format's own rule; no outside source.",
    quiet="on a seam that runs the wrong way or whose joints are loose, of which that is told.",
    grade=Severity.ERROR,
)

TEXT = "“{name}” stands in {count} places of side {side}."
NOWHERE = "“{name}” stands nowhere on side {side}."
FEWER = "“{name}” stands nowhere on side {side}: “{bare}” stands there {count}."
NOWHERE_HINT = "Name a mark or a seam's end that lies on this side."
COUNTED = "Count the places in walking order, from 1."
HINT = "Say which is meant, in walking order: {choices}."


@check(AMBIGUOUS)
def meeting_is_ambiguous(nest: Nest) -> Iterator[Finding]:
    loose = {joint.seam for joint in nest.loose_joints}
    for walk in nest.walks.values():
        if walk.id not in nest.wrong_way and walk.id not in loose:
            yield from _of(nest, walk)


def _of(nest: Nest, walk: Walk) -> Iterator[Finding]:
    for number, row in enumerate(walk.seam.meet):
        for side, entry in zip(walk.sides, row, strict=False):
            count = len(resolve(entry, side, nest.seam_ends)) if entry is not None else 1
            if entry is None or count == 1:
                continue
            values: dict[str, object] = {"name": entry, "side": str(side.number + 1), "count": str(count)}
            text, hint = TEXT, HINT
            bare, numbered, _ = entry.partition("#")
            if count > 1:
                values["choices"] = listed((f"“{entry}#{k + 1}”" for k in range(count)), "or")
            elif numbered and (times := len(resolve(bare, side, nest.seam_ends))):
                text, hint = FEWER, COUNTED
                values |= {"bare": bare, "count": "once" if times == 1 else f"{times} times"}
            else:
                text, hint = NOWHERE, NOWHERE_HINT
            place = Place(seam=walk.id, pointer=f"/seams/{walk.id}/meet/{number}/{side.number}")
            yield Finding(AMBIGUOUS, place, text, hint, values, pieces=side.pieces)
