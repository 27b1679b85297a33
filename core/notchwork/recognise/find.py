"""From a drawing to shapes."""

from __future__ import annotations

from notchwork.drawing import Drawing
from notchwork.geometry import TooManyPairs
from notchwork.recognise.bounds import check_strokes, crowded
from notchwork.recognise.meant import is_legend, is_meant, meant_shapes
from notchwork.recognise.options import Options
from notchwork.recognise.shape import Aside, Seen
from notchwork.recognise.tell import not_known, set_aside
from notchwork.recognise.unmeant import unmeant_shapes


def find_shapes(drawing: Drawing, options: Options | None = None) -> Seen:
    """The pieces in a drawing, one shape for each piece and size, with what was set aside and everything that was inferred.

    Groups whose strokes say what they mean are taken at their word; all others are looked at together. Raises TooMuchDrawn.
    """
    options = options or Options()
    legends = {k for k, group in enumerate(drawing.groups) if is_legend(group)}
    others = {k for k, group in enumerate(drawing.groups) if not is_meant(group)} - legends
    check_strokes(sum(len(drawing.groups[k].strokes) for k in others))
    try:
        found = unmeant_shapes(drawing, others, options)
    except TooManyPairs as error:
        raise crowded() from error
    meant, told = meant_shapes(drawing, options, found.scale)
    aside = [
        Aside("legend", box[0], words=tuple(text.words for text in group.texts))
        for k in sorted(legends)
        if (box := (group := drawing.groups[k]).bounds) is not None
    ]
    shapes = (*meant, *found.shapes)
    return Seen(
        shapes,
        (*aside, *found.aside),
        (*told, *found.findings, *set_aside(found.aside), *not_known(shapes)),
        found.texts,
        drawing.title,
        drawing.sizes,
        drawing.base,
        found.scale,
        drawing.rules,
    )
