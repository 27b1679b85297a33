"""Nothing says how many copies of a piece to cut, and from what."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity
from notchwork.sewing import Nest

NO_ORDER = Rule(
    id="cutting/no-cut-order",
    title="A piece without a cut order",
    rationale="Who cuts the cloth must know how many copies to cut, from which material, and whether in pairs. Without it nothing "
    "can say whether the copies suffice for the seams. Templates and placement guides are not cut from cloth.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

TEXT = "Nothing says how often to cut it, and from what."
NONE = "Nothing says of any piece how often to cut it, and from what."
HINT = "Give it a cut order (material, count, whether mirrored), or mark it as a template or guide."
EACH = "Give each piece a cut order (material, count, whether mirrored), or mark it as a template or guide."


@check(NO_ORDER)
def no_cut_order(nest: Nest) -> Iterator[Finding]:
    cloth = [piece for piece in nest.pieces.values() if piece.written.use is None]
    without = [piece for piece in cloth if not piece.written.cut]
    if len(without) == len(cloth) > 1:
        places = [Place(piece=piece.id) for piece in without]
        yield Finding(NO_ORDER, Place(), NONE, EACH, pieces=tuple(p.id for p in without), also=tuple(places))
        return
    for piece in without:
        yield Finding(NO_ORDER, Place(piece=piece.id), TEXT, HINT, pieces=(piece.id,))
