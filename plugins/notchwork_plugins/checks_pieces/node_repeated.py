"""Two nodes of an outline lie on one spot."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity, plain_name
from notchwork.sewing import Nest

SPOT = 0.01
"""mm"""

REPEATED = Rule(
    id="pieces/node-repeated",
    title="A node is drawn twice",
    rationale="Two nodes on one spot do no harm to lengths: they are taken as one. They do make a drawing hard to edit, and "
    "other programs may trip over them.",
    source="Common practice, no source.",
    grade=Severity.INFO,
)

TEXT = "A node on its {edge} is drawn twice; it is taken as one."
HINT = "Take one of the two away."


@check(REPEATED, needs="shapes")
def node_repeated(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        for name in graded.edges if graded.has_shape else ():
            line = graded.lines[name]
            rows = line.rows[nest.base] if line.rows is not None else slice(0, 0)
            repeated = np.flatnonzero(nest.arc[rows] < SPOT)
            if len(repeated) and rows.stop - rows.start > 1:
                place = Place(
                    piece=graded.id, line=name, point=complex(nest.cubics[rows.start + int(repeated[0]), 0])
                )
                yield Finding(REPEATED, place, TEXT, HINT, {"edge": plain_name(name)}, pieces=(graded.id,))
