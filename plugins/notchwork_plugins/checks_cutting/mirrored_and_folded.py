"""A piece on a fold that is to be cut in pairs as well; and a symmetrical piece cut in pairs for nothing."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Place, Rule, Severity, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.pieces.symmetry import falls_on_itself

BOTH = Rule(
    id="cutting/mirrored-and-folded",
    title="A piece is cut on a fold and mirrored as well",
    rationale="A copy cut on a fold has both halves already and is its own mirror image; “mirrored” says that left and right are "
    "cut apart. One of the two is not meant, and they give different numbers of pieces.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

IN_VAIN = Rule(
    id="cutting/mirrored-in-vain",
    title="A symmetrical piece is cut in pairs",
    rationale="A piece that falls on itself when it is turned over is the same in either hand: cutting it in pairs does no harm, "
    "but says nothing.",
    source="Common practice, no source.",
    grade=Severity.INFO,
)

TEXT = "It lies on a fold (its {edge}) and is to be cut mirrored as well."
HINT = "If it is cut on the fold, leave “mirrored” out; if left and right are cut apart, take the fold off {edge}."


@check(BOTH)
def mirrored_and_folded(nest: Nest) -> Iterator[Finding]:
    for piece in nest.pieces.values():
        if piece.folds and any(cut.mirrored for cut in piece.written.cut or ()):
            yield Finding(
                BOTH,
                Place(piece=piece.id, line=piece.folds[0]),
                TEXT,
                HINT,
                {"edge": plain_name(piece.folds[0])},
                pieces=(piece.id,),
            )


@check(IN_VAIN, needs="shapes")
def mirrored_in_vain(nest: Nest) -> Iterator[Finding]:
    for piece in nest.pieces.values():
        mirrored = any(cut.mirrored for cut in piece.written.cut or ())
        if mirrored and not piece.folds and falls_on_itself(nest, piece):
            yield Finding(
                IN_VAIN,
                Place(piece=piece.id),
                "It is the same in either hand, so cutting it mirrored changes nothing.",
                "Leave “mirrored” out if you like.",
                pieces=(piece.id,),
            )
