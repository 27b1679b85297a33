"""The ease is said to lie between notches that are no stations of the seam."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity, listed
from notchwork.sewing import Nest

NO_STATION = Rule(
    id="seams/between-is-no-station",
    title="Ease is to lie between places that meet nothing",
    rationale="Ease that lies between two notches can be judged only if both meet a mark on the other side; otherwise nothing "
    "says where on the other side it begins and ends.",
    source="The format's own rule; no outside source.",
    quiet="where unlike notches are the cause, of which that is told.",
    grade=Severity.ERROR,
)

TEXT = "The {kind} stretch is to lie between {ends}, but {lost} meets nothing on the other side."
HINT = "Give the other side a notch of the same kind, or say in a meet row what {lost} meets."


@check(NO_STATION)
def between_is_no_station(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for comparison in walk.others:
            pairing = comparison.pairing
            if walk.id in nest.wrong_way or pairing.crossed or pairing.unequal:
                continue  # that finding says why the place meets nothing
            if comparison.lost and comparison.join is not None and comparison.join.between is not None:
                values = {
                    "kind": comparison.kind,
                    "ends": listed(comparison.join.between),
                    "lost": listed(comparison.lost),
                }
                yield Finding(NO_STATION, Place(seam=walk.id), TEXT, HINT, values, pieces=walk.pieces)
