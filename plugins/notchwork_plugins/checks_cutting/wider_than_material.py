"""A piece that does not fit between the selvages."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.sewing import Nest
from notchwork.sewing.shapes.cut_width import cut_width, may_be_turned, width_at_most

WIDER = Rule(
    id="cutting/wider-than-material",
    title="A piece is wider than its material",
    rationale="A piece is laid with its grainline along the selvages, opened out if it is drawn on a fold, with its allowances. "
    "If it is then wider than the cloth it cannot be cut in one. A piece without a grainline, or of a material without a "
    "grain, is turned to where it is narrowest.",
    source="Common practice, no source.",
    grade=Tolerance(warning=0.0),
)

TEXT = "With its allowances it is {wide} wide {how}, but {material} is only {width} wide."
HINT = "Take wider cloth, or give it a seam; if it may lie across the cloth, turn its grainline."


@check(WIDER, needs="shapes")
def wider_than_material(nest: Nest) -> Iterator[Finding]:
    for piece in nest.pieces.values():
        widths = {
            name: material.width
            for cut in piece.written.cut or ()
            for name in cut.materials
            if (material := nest.pattern.materials.get(name)) is not None
            and material.width is not None
            and material.kind != "interfacing"
        }
        if not widths:
            continue
        narrowest = min(widths, key=lambda name: widths[name] or 0.0)
        width = widths[narrowest]
        assert width is not None
        if not piece.has_shape or width_at_most(nest, piece) <= width:
            continue
        wide = cut_width(nest, piece)
        rows = tuple(
            Row(size, max(0.0, by - width) if by == by else by, by, width, {"wide": Length(by)})
            for size, by in zip(nest.sizes, wide.tolist(), strict=True)
        )
        if bool(np.any(np.nan_to_num(wide) > width)):
            yield Finding(
                WIDER,
                Place(piece=piece.id),
                TEXT,
                HINT,
                {
                    "how": "where it is narrowest" if may_be_turned(piece) else "across the grain",
                    "material": nest.pattern.materials[narrowest].name or narrowest,
                    "width": Length(width),
                },
                rows,
                (piece.id,),
            )
