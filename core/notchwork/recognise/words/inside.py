"""What else lies inside a piece: marks, cut-outs, casings, pleats, other lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Text
from notchwork.geometry import flatten, inside, nearest
from notchwork.recognise.shape import Inner, InnerKind
from notchwork.recognise.words.grammar import says_casing, says_cut_out, says_pleat
from notchwork.recognise.words.rim import turn_between
from notchwork.recognise.words.signs import Folded, Spotted
from notchwork.recognise.words.sketch import Sketch

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
"""mm: lines further apart are no pleat (common practice, no source)."""


def marks_of(sketch: Sketch, dots: Sequence[Dot]) -> list[Spotted]:
    """Points, small circles and small crosses inside the piece; those strokes are then used."""
    marks = [Spotted(dot.at) for dot in dots if _is_inside(sketch, dot.at)]
    bent = ~sketch.is_straight & (sketch.length <= 4.0 * CIRCLE)
    for k in sketch.left(bent):
        middle = _circle(sketch, k)
        if middle is not None and _is_inside(sketch, middle):
            sketch.used.add(k)
            marks.append(Spotted(middle))
    arms = sketch.left(sketch.is_line & (sketch.length <= CROSS))
    middles = sketch.ends[arms].mean(axis=1)
    for i, k in enumerate(arms):
        if k in sketch.used:
            continue
        for j in (np.flatnonzero(np.abs(middles[i + 1 :] - middles[i]) <= 0.15 * CROSS) + i + 1).tolist():
            m = arms[j]
            longer = max(sketch.length[k], sketch.length[m])
            centred = abs(middles[i] - middles[j]) <= 0.15 * longer
            crossed = turn_between(*(np.diff(sketch.ends[n])[0] for n in (k, m))) > 30.0
            middle = complex((middles[i] + middles[j]) / 2)
            if m not in sketch.used and centred and crossed and _is_inside(sketch, middle):
                sketch.used |= {k, m}
                marks.append(Spotted(middle))
                break
    return marks


def _is_inside(sketch: Sketch, at: complex) -> bool:
    return bool(sketch.rim.inside(np.array([at]), -WITHIN)[0])


def _circle(sketch: Sketch, number: int) -> complex | None:
    """The middle of a stroke that is a small circle."""
    cubics = sketch.strokes[number].cubics
    if not (sketch.closed[number] or abs(np.diff(sketch.ends[number])[0]) < 0.05):
        return None
    halfway = (cubics[:, 0] + 3 * cubics[:, 1] + 3 * cubics[:, 2] + cubics[:, 3]) / 8
    rim = np.concatenate([cubics[:, 0], halfway])
    middle = complex(rim.mean())
    radius = np.abs(rim - middle)
    round_enough = radius.max() - radius.min() <= ROUND * radius.max()
    return middle if round_enough and radius.max() <= CIRCLE / 2 else None


def pleats_of(sketch: Sketch, texts: Sequence[Text]) -> list[Folded]:
    """Pairs of lines from one edge with the word pleat or tuck between or beside them; those strokes are then used."""
    pleats: list[Folded] = []
    for text in texts:
        if not says_pleat(text.words):
            continue
        middle = sum(text.box) / 4
        feet: list[tuple[float, int, int, float]] = []
        for k in sketch.left((sketch.rows == 1) & ~sketch.closed & (sketch.length >= LEAST)):
            end = int(sketch.distance[k].argmin())
            if sketch.distance[k, end] <= WITHIN:
                far = float(np.abs(sketch.ends[k] - middle).min())
                feet.append((far, k, int(sketch.edge[k, end]), float(sketch.arc[k, end])))
        feet.sort()
        if len(feet) < 2 or feet[0][2] != feet[1][2]:
            continue
        (_, k, edge, one), (further, m, _, other) = feet[:2]
        if further <= 10.0 * text.height + 20.0 and 2.0 < abs(one - other) <= PLEAT_WIDTH:
            sketch.used |= {k, m}
            pleats.append(Folded(edge, min(one, other), max(one, other)))
    return pleats


def rest_of(sketch: Sketch, texts: Sequence[Text]) -> tuple[list[Inner], list[Inner]]:
    """What is left, as inner lines and cut-outs, where it lies inside the piece; those strokes are then used."""
    inner: list[Inner] = []
    cutouts: list[Inner] = []
    left = sketch.left(sketch.length >= LEAST)
    nodes = np.concatenate([sketch.cubics[:, 0], sketch.cubics[:, 3]])
    owner = np.concatenate([sketch.owner, sketch.owner])
    outside = np.ones(len(nodes), dtype=bool)
    wanted = np.isin(owner, left)
    if wanted.any():
        outside[wanted] = ~sketch.rim.inside(nodes[wanted], -WITHIN)
    reach_out = set(owner[wanted & outside].tolist())
    for k in left:
        if k in reach_out:
            continue
        cubics = sketch.strokes[k].cubics
        closed = bool(sketch.closed[k] or abs(np.diff(sketch.ends[k])[0]) < 0.05)
        sketch.used.add(k)
        if closed and (_said(texts, says_cut_out, cubics) or _said_in(texts, says_cut_out, cubics)):
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


def _said_in(texts: Sequence[Text], says: Callable[[str], bool], ring: Complexes) -> bool:
    middles = np.array([sum(text.box) / 4 for text in texts if says(text.words)], dtype=complex)
    return bool(len(middles)) and bool(inside(flatten(ring).points, middles).any())
