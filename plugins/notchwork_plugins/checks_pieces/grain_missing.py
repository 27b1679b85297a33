"""A piece without a grainline."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Place, Row, Rule, Severity
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.cut_width import thread_of

WITHOUT_GRAIN = ("felt", "leather", "net", "interfacing")

MISSING = Rule(
    id="pieces/no-grain",
    title="A piece has no grainline",
    rationale="Cloth hangs and stretches differently along, across and between its threads. Without a grainline nobody who "
    "cuts the piece knows how to lay it. Felt, leather, net and fusible interfacing have no grain, and a strip states its own.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

ONE_SPOT = "Both points of its grainline lie on one spot, so it shows no direction."
ONE_SPOT_HINT = "Draw the grainline as long as the piece allows, in the direction of the lengthwise thread."

TEXT = "It has no grainline, so it cannot be laid on the cloth."
HINT = "Draw the direction of the lengthwise thread, or say that any will do: “grain”: “any”."
EACH = "Draw the direction of the lengthwise thread in each, or say that any will do: “grain”: “any”."


@check(MISSING, needs="shapes")
def grain_missing(nest: Nest) -> Iterator[Finding]:
    """One finding for all pieces; those that are accepted by name each on their own."""
    accepted = {a.piece for a in nest.pattern.accepted if a.check == MISSING.id}
    missing = [graded.id for graded in nest.pieces.values() if _is_missing(nest, graded)]
    together = [ident for ident in missing if ident not in accepted]
    for ident in missing:
        if ident in accepted:
            yield Finding(MISSING, Place(piece=ident), TEXT, HINT, pieces=(ident,))
    if together:
        places = [Place(piece=ident) for ident in together]
        hint = HINT if len(together) == 1 else EACH
        yield Finding(MISSING, places[0], TEXT, hint, pieces=tuple(together), also=tuple(places[1:]))
    yield from _without_direction(nest)


def _without_direction(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        if graded.grainline is None or graded.written.grain == "any":
            continue
        lost = [size for size in np.flatnonzero(graded.present) if thread_of(graded, int(size)) is None]
        if lost:
            rows = tuple(Row(nest.sizes[int(size)]) for size in lost)
            yield Finding(MISSING, Place(piece=graded.id), ONE_SPOT, ONE_SPOT_HINT, {}, rows, (graded.id,))


def _is_missing(nest: Nest, graded: GradedPiece) -> bool:
    exempt = graded.is_strip or graded.written.grain == "any" or graded.written.use is not None
    return graded.has_shape and graded.grainline is None and not exempt and not _grainless(nest, graded)


def _grainless(nest: Nest, graded: GradedPiece) -> bool:
    """Whether it is cut from what has no grain, or may be: where nothing says from what, and the pattern has such."""
    if graded.materials:
        return all(material.kind in WITHOUT_GRAIN for material in graded.materials)
    return any(material.kind in WITHOUT_GRAIN for material in nest.pattern.materials.values())
