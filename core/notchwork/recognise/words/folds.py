"""Which edges lie on the fold of the cloth: those that words call so, or that are drawn in dashes and dots."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from notchwork.drawing import Stroke, Text
from notchwork.recognise.words.beside import beside
from notchwork.recognise.words.cut_words import cut_orders
from notchwork.recognise.words.grammar import says_fold
from notchwork.recognise.words.rim import Rim

DASH_DOT = 2.0
"""How many times longer the dashes of a dash-dotted line are than its dots."""

NEARLY_ALL = 0.9
"""The share of an outline that is drawn in dashes and dots as a matter of course."""


def folds_said(texts: Sequence[Text], rim: Rim) -> frozenset[int]:
    """The edges beside which a text says that they lie on the fold; a cut order on the fold names no edge."""
    saying = (text for text in texts if says_fold(text.words) and not cut_orders(text.words))
    places = (beside(text, [rim]) for text in saying)
    return frozenset(place.edge for place in places if place is not None)


def folds_drawn(rim: Rim, said: Collection[int], strokes: Sequence[Stroke]) -> frozenset[int]:
    """The edges that are folds, by words (``said``) or by dashes and dots; only straight ones can be.

    ``strokes`` are those of the whole drawing, to which the outline's sources refer. Dashes tell an edge from the others: where
    nearly all of an outline is drawn in them, they are only its line.
    """
    edges = [rim.contour.sources[rim.contour.rows(edge)] for edge in range(rim.count)]
    drawn = [{int(source) for source in own if 0 <= source < len(strokes)} for own in edges]
    dashed = {edge for edge, own in enumerate(drawn) if own and all(_dash_dotted(strokes[k]) for k in own)}
    if sum(rim.length(edge) for edge in dashed) > NEARLY_ALL * sum(map(rim.length, range(rim.count))):
        dashed = set()
    return frozenset(edge for edge in {*said, *dashed} if rim.is_straight(edge))


def _dash_dotted(stroke: Stroke) -> bool:
    dashes = stroke.look.dashes if stroke.look is not None else ()
    drawn = dashes[::2]
    return len(dashes) >= 4 and len(drawn) >= 2 and max(drawn) >= DASH_DOT * max(min(drawn), 1e-6)
