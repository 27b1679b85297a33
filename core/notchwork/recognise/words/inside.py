"""What else lies inside a piece: marks, cut-outs, casings, pleats, other lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Stroke, Text
from notchwork.geometry import is_straight, lengths, nearest
from notchwork.recognise.shape import Inner, InnerKind
from notchwork.recognise.words.grammar import says_casing, says_cut_out, says_pleat
from notchwork.recognise.words.rim import Rim, turn_between
from notchwork.recognise.words.signs import Folded, Spotted, ends_of, left_of

Complexes = NDArray[np.complex128]

CIRCLE = 12.0
"""mm: a larger circle is no mark."""
CROSS = 14.0
"""mm: a larger cross is two lines."""
ROUND = 0.1
"""How much a circle's radius may differ, as a share of it."""
LEAST = 10.0
"""mm: a shorter line of unknown meaning is left out."""
WITHIN = 1.0
"""mm by which a line inside a piece may reach beyond its outline."""
PLEAT_WIDTH = 150.0


def marks_of(strokes: Sequence[Stroke], used: set[int], dots: Sequence[Dot], rim: Rim) -> list[Spotted]:
    """Points, small circles and small crosses inside the piece; what was taken is entered in ``used``."""
    marks = [Spotted(dot.at) for dot in dots if rim.inside(np.array([dot.at]), -WITHIN)[0]]
    left = left_of(strokes, used)
    for k, stroke in left:
        middle = _circle(stroke)
        if middle is not None and rim.inside(np.array([middle]), -WITHIN)[0]:
            used.add(k)
            marks.append(Spotted(middle))
    arms = [
        (k, *ends_of(s))
        for k, s in left
        if k not in used
        and len(s.cubics) == 1
        and is_straight(s.cubics).all()
        and lengths(s.cubics)[0] <= CROSS
    ]
    for i, (k, a, b) in enumerate(arms):
        for m, c, d in arms[i + 1 :]:
            if k in used or m in used:
                continue
            centred = abs((a + b) / 2 - (c + d) / 2) <= 0.15 * max(abs(b - a), abs(d - c))
            middle = (a + b + c + d) / 4
            if centred and turn_between(b - a, d - c) > 30 and rim.inside(np.array([middle]), -WITHIN)[0]:
                used |= {k, m}
                marks.append(Spotted(middle))
    return marks


def _circle(stroke: Stroke) -> complex | None:
    cubics = stroke.cubics
    if not (stroke.closed or abs(cubics[0, 0] - cubics[-1, 3]) < 0.05) or is_straight(cubics).any():
        return None
    nodes = cubics[:, 0]
    halfway = (cubics[:, 0] + 3 * cubics[:, 1] + 3 * cubics[:, 2] + cubics[:, 3]) / 8
    rim = np.concatenate([nodes, halfway])
    middle = complex(rim.mean())
    radius = np.abs(rim - middle)
    if radius.max() > CIRCLE / 2 or radius.max() - radius.min() > ROUND * radius.max():
        return None
    return middle


def pleats_of(strokes: Sequence[Stroke], used: set[int], texts: Sequence[Text], rim: Rim) -> list[Folded]:
    """Pairs of lines from one edge with the word pleat or tuck between or beside them."""
    pleats: list[Folded] = []
    for text in texts:
        if not says_pleat(text.words):
            continue
        middle = sum(text.box) / 4
        feet: list[tuple[float, int, int, float]] = []
        for k, stroke in left_of(strokes, used):
            if stroke.closed or len(stroke.cubics) != 1 or lengths(stroke.cubics)[0] < 10.0:
                continue
            ends = np.array(ends_of(stroke))
            near = rim.near(ends)
            end = int(near.distance.argmin())
            if near.distance[end] <= WITHIN:
                far = float(np.abs(ends - middle).min())
                feet.append((far, k, int(near.edge[end]), float(near.arc[end])))
        feet.sort()
        if len(feet) < 2 or feet[0][2] != feet[1][2]:
            continue
        (far, k, edge, one), (further, m, _, other) = feet[:2]
        if further <= 10.0 * text.height + 20.0 and 2.0 < abs(one - other) <= PLEAT_WIDTH:
            used |= {k, m}
            pleats.append(Folded(edge, min(one, other), max(one, other)))
    return pleats


def rest_of(
    strokes: Sequence[Stroke], used: set[int], texts: Sequence[Text], rim: Rim
) -> tuple[list[Inner], list[Inner]]:
    """What is left, as inner lines and cut-outs, where it lies inside the piece; what was taken is entered in ``used``."""
    inner: list[Inner] = []
    cutouts: list[Inner] = []
    for k, stroke in left_of(strokes, used):
        cubics = stroke.cubics
        nodes = np.concatenate([cubics[:, 0], cubics[:, 3]])
        if lengths(cubics).sum() < LEAST or not rim.inside(nodes, -WITHIN).all():
            continue
        a, b = ends_of(stroke)
        closed = stroke.closed or abs(a - b) < 0.05
        used.add(k)
        if closed and _said(texts, says_cut_out, cubics):
            cutouts.append(Inner(cubics, True))
        else:
            use: InnerKind | None = "casing" if not closed and _said(texts, says_casing, cubics) else None
            inner.append(Inner(cubics, closed, use))
    return inner, cutouts


def _said(texts: Sequence[Text], says: Callable[[str], bool], cubics: Complexes) -> bool:
    return any(
        says(text.words)
        and float(nearest(cubics, np.array([*text.box, sum(text.box) / 4])).distance.min())
        <= max(3.0 * text.height, 10.0)
        for text in texts
    )
