"""Marks that meet stand in one order on one side of a seam and in another on the other."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest, Station
from notchwork.sewing.names import side_names, station_name, turned

CROSS = Rule(
    id="seams/stations-cross",
    title="Notches stand in different order on the two sides of a seam",
    rationale="If the single notch comes before the double one on one side and behind it on the other, the side is on the "
    "wrong way round, or a notch is of the wrong kind: pinned notch to notch the seam would have to cross itself.",
    source="Common practice, no source.",
    quiet="on a seam that runs the wrong way, of which that is told.",
    grade=Severity.ERROR,
)

TEXT = (
    "On {one} {first} comes before {second}; on {other} what they meet stands the other way round "
    "({other_second} before {other_first})."
)
HINT = (
    "{other} seems to be walked from its wrong end: turn it round; else look for a notch of the wrong kind."
)


@check(CROSS)
def stations_cross(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for comparison in (*walk.others, *walk.by_notches):
            if walk.id in nest.wrong_way or not comparison.pairing.crossed:
                continue
            a, b = comparison.pairing.crossed[0]
            one, other = side_names(comparison.one, comparison.side)
            values = {
                "one": one,
                "other": other,
                "first": station_name(nest, walk.id, a),
                "second": station_name(nest, walk.id, b),
                "other_first": station_name(nest, walk.id, turned(a)),
                "other_second": station_name(nest, walk.id, turned(b)),
            }
            yield Finding(CROSS, _place(walk.id, a), TEXT, HINT, values, pieces=walk.pieces)


def _place(seam: str, station: Station) -> Place:
    return Place(seam=seam, piece=station.other_piece or None)
