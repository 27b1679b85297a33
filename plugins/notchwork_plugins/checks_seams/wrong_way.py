"""A seam runs the wrong way: no choice of copies sews it together, or its ends are exchanged."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest, Walk
from notchwork.sewing.names import seam_name, side_names
from notchwork.sewing.ways.way import WrongWay

WRONG_WAY = Rule(
    id="seams/wrong-way",
    title="A seam is sewn the wrong way round",
    rationale="Lay both pieces right side up: across a seam the cloth of one lies left, that of the other right of whoever "
    "walks it. If that does not hold for any choice of copies, or if the hem ends of two sides lie at opposite ends of the "
    "seam, one side is stated the wrong way round, and would be sewn twisted or inside out.",
    source="Follows from laying the pieces right sides together; no outside source.",
    quiet="by hands: about cloth without a right side, inner lines and basted layers, which decide nothing; "
    "about a piece that falls on itself when mirrored.",
    grade=Severity.ERROR,
)

ENDS = (
    "{one} and {other} run in opposite directions: {start} would meet {other_start}, and {stop} {other_stop}."
)
HANDS = (
    "As stated, {other} would come to lie inside out against {one}: with both pieces right side up, the cloth of both lies "
    "on one side of the seam."
)
AMONG = "One of these seams is stated the wrong way round, and nothing tells which: {among}."
SPANS = "The spans of this seam do not follow each other with the cloth on one side; one of them is stated the wrong way."
TURN = "Turn one of the two sides round (walk it from its other end)."
HAND = "Walk {other} from its other end, or say that it is the mirrored copy."
SPAN = "Look which span is walked from its wrong end, or is the mirrored copy."
WHICH = "Look at each: one of its sides is walked from its wrong end, or is the mirrored copy."


@check(WRONG_WAY)
def wrong_way(nest: Nest) -> Iterator[Finding]:
    for fault in nest.wrong_way.values():
        if fault.among and fault.seam != fault.among[0]:
            continue  # told with the first of them
        walk = nest.walks[fault.seam]
        text, hint, values = _words(nest, walk, fault)
        pieces = tuple(dict.fromkeys(p for s in fault.among or (walk.id,) for p in nest.walks[s].pieces))
        yield Finding(WRONG_WAY, Place(seam=walk.id), text, hint, values, pieces=pieces)


def _words(nest: Nest, walk: Walk, fault: WrongWay) -> tuple[str, str, dict[str, object]]:
    one, other = side_names(walk.sides[0], walk.sides[fault.side])
    values: dict[str, object] = {"one": one, "other": other}
    if fault.ends is not None:
        start, stop, other_start, other_stop = fault.ends
        values |= {"start": start, "stop": stop, "other_start": other_start, "other_stop": other_stop}
        return ENDS, TURN, values
    if fault.among:
        values["among"] = tuple(seam_name(nest.pattern, ident) for ident in fault.among)
        return AMONG, WHICH, values
    return (SPANS, SPAN, values) if fault.within else (HANDS, HAND, values)
