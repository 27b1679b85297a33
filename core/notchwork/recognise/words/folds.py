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


def folds_said(texts: Sequence[Text], rim: Rim) -> frozenset[int]:
    """The edges beside which a text says that they lie on the fold; a cut order on the fold names no edge."""
    saying = (text for text in texts if says_fold(text.words) and not cut_orders(text.words))
    places = (beside(text, [rim]) for text in saying)
    return frozenset(place.edge for place in places if place is not None)


def folds_drawn(rim: Rim, said: Collection[int], strokes: Sequence[Stroke]) -> frozenset[int]:
    """The edges that are folds, by words (``said``) or by dashes and dots; only straight ones can be.

    ``strokes`` are those of the whole drawing, to which the outline's sources refer.
    """
    found: set[int] = set()
    for edge in range(rim.count):
        if not rim.is_straight(edge):
            continue
        sources = rim.contour.sources[rim.contour.rows(edge)]
        own = {int(source) for source in sources if 0 <= source < len(strokes)}
        if edge in said or (own and all(_dash_dotted(strokes[source]) for source in own)):
            found.add(edge)
    return frozenset(found)


def _dash_dotted(stroke: Stroke) -> bool:
    dashes = stroke.look.dashes if stroke.look is not None else ()
    drawn = dashes[::2]
    return len(dashes) >= 4 and len(drawn) >= 2 and max(drawn) >= DASH_DOT * max(min(drawn), 1e-6)
