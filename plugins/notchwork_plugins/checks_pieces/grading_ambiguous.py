"""A node between two corners that lie on one spot and are graded apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Rule, Severity, plain_name
from notchwork.model import Node
from notchwork.sewing import Nest
from notchwork.sewing.grading import Shifts, anchors_around, anchors_of, grade_point, shifts_by_size

AMBIGUOUS = Rule(
    id="pieces/grading-ambiguous",
    title="A node cannot follow its corners from size to size",
    rationale="A node without a rule of its own follows the turn and scale that carries the corners before and after it. If "
    "those lie on one spot in the base size and move apart in others, no turn and scale does that.",
    source="Follows from the format's grading law; no outside source.",
    grade=Severity.ERROR,
)

TEXT = (
    "On its {line}, the nodes before and after one without a rule lie on one spot but are graded up to {apart} apart, "
    "so it is not known where that node goes."
)
HINT = "Give that node a grade rule of its own, or give both corners the same one."


@check(AMBIGUOUS, needs="shapes")
def grading_ambiguous(nest: Nest) -> Iterator[Finding]:
    shifts = shifts_by_size(nest.pattern.grade_rules, nest.sizes)
    for graded in nest.pieces.values():
        written = graded.written
        lines: list[tuple[str, Sequence[Node], bool]] = [("outline", written.outline or (), True)]
        lines += [
            (name, i.line, i.closed)
            for name, i in written.inner.items()
            if i is not None and i.line is not None
        ]
        lines += [(name, c.line, True) for name, c in written.cutouts.items() if c is not None]
        for name, nodes, closed in lines:
            for k, apart in _torn(nodes, closed, shifts, len(nest.sizes)):
                place = Place(piece=graded.id, line=name if name != "outline" else None, point=nodes[k].at)
                values = {"line": plain_name(name), "apart": Length(apart)}
                yield Finding(AMBIGUOUS, place, TEXT, HINT, values, pieces=(graded.id,))


def _torn(nodes: Sequence[Node], closed: bool, shifts: Shifts, count: int) -> Iterator[tuple[int, float]]:
    """The nodes that follow two others on one spot, and how far (mm) those move apart at most."""
    if not any(node.grade for node in nodes):
        return
    anchors = anchors_of(nodes, closed)
    for k in range(len(nodes)):
        if k in anchors:
            continue
        before, after = (nodes[a] for a in anchors_around(k, anchors))
        if before is not after and before.at == after.at:
            moved = grade_point(before.at, before.grade, shifts, count) - grade_point(
                after.at, after.grade, shifts, count
            )
            apart = float(np.max(np.abs(moved)))
            if apart > 0.001:
                yield k, apart
