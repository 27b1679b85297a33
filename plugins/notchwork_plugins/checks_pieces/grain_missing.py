"""A piece without a grainline."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest

WITHOUT_GRAIN = ("felt", "leather", "net", "interfacing")

MISSING = Rule(
    id="pieces/no-grain",
    title="A piece has no grainline",
    rationale="Cloth hangs and stretches differently along, across and between its threads. Without a grainline nobody who "
    "cuts the piece knows how to lay it. Felt, leather, net and fusible interfacing have no grain, and a strip states its own.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

TEXT = "It has no grainline, so it cannot be laid on the cloth."
HINT = "Draw the direction of the lengthwise thread, or state that any grain will do."


@check(MISSING, needs="shapes")
def grain_missing(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        written = graded.written
        grainless = bool(graded.materials) and all(m.kind in WITHOUT_GRAIN for m in graded.materials)
        exempt = graded.is_strip or grainless or written.grain == "any" or written.use is not None
        if graded.has_shape and graded.grainline is None and not exempt:
            yield Finding(MISSING, Place(piece=graded.id), TEXT, HINT, pieces=(graded.id,))
