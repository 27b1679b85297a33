"""The grainline stands at an odd angle to the fold."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Angle, Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork_plugins.checks_pieces.directions import between, chord

AGAINST = Rule(
    id="pieces/grain-against-fold",
    title="The grainline does not suit the fold",
    rationale="Cloth is folded along a thread, across it, or on the true bias. At any other angle the two halves hang "
    "differently, and the fold cannot be laid along the selvage.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0, unit="deg"),
)

TEXT = "The grainline stands at {angle} to its fold ({fold}); it should lie along it, across it, or at 45°."
HINT = "Turn the grainline, or lay the fold along the thread."


@check(AGAINST, needs="shapes")
def grain_against_fold(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        if graded.grainline is None or not graded.has_shape or graded.written.grain == "bias":
            continue  # what claims the bias is held to 45° by a check of its own
        grain = graded.grainline[:, 1] - graded.grainline[:, 0]
        for fold in graded.folds:
            angle = between(grain, chord(nest, graded.lines[fold]))
            wanted = 45.0 * np.round(angle / 45.0)
            rows = tuple(
                Row(size, float(a - w), float(a), float(w), {"angle": Angle(float(a))})
                for size, a, w in zip(nest.sizes, angle, wanted, strict=True)
            )
            place = Place(piece=graded.id, line=fold)
            yield Finding(AGAINST, place, TEXT, HINT, {"fold": plain_name(fold)}, rows, (graded.id,))
