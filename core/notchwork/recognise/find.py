"""From a drawing to shapes."""

from __future__ import annotations

from notchwork.drawing import Drawing
from notchwork.findings import Finding
from notchwork.recognise.meant import is_legend, meant_shapes
from notchwork.recognise.options import Options
from notchwork.recognise.shape import Aside, Seen


def find_shapes(drawing: Drawing, options: Options | None = None) -> Seen:
    """The pieces in a drawing, one shape for each piece and size, with what was set aside and everything that was inferred.

    Groups whose strokes say what they mean are taken at their word; all others are looked at together.
    """
    options = options or Options()
    scale = options.scale or drawing.scale or 1.0
    findings: list[Finding] = []
    shapes, told = meant_shapes(drawing, options.tolerance, scale)
    findings += told
    aside = [
        Aside("legend", box[0], words=tuple(text.words for text in group.texts))
        for group in drawing.groups
        if is_legend(group) and (box := group.bounds) is not None
    ]
    return Seen(
        tuple(shapes),
        tuple(aside),
        tuple(findings),
        (),
        drawing.title,
        drawing.sizes,
        drawing.base,
        scale,
        drawing.rules,
    )
