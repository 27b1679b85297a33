"""Signs whose meaning the drawing states: by meanings and facts, exactly as they were drawn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Fact, Facts, Stroke
from notchwork.geometry import intersections
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.signs import Folded, Nick, Signs, Spotted, Wedge, ends_of

Complexes = NDArray[np.complex128]


def stated_signs(
    strokes: Sequence[Stroke], dots: Sequence[Dot], rim: Rim, edges: Sequence[str], used: set[int]
) -> Signs:
    """The notches, darts, pleats, grain and marks that the drawing names as such; what was taken is entered in ``used``."""
    signs = Signs()
    numbers = {name: k for k, name in enumerate(edges)}
    named: defaultdict[tuple[str, str], list[tuple[int, Stroke]]] = defaultdict(list)
    for k, stroke in enumerate(strokes):
        if stroke.meaning in ("notch", "dart", "pleat", "mark", "grain") and len(stroke.cubics):
            name = stroke.facts.get("name")
            if name is None and stroke.meaning in ("notch", "dart", "pleat"):
                continue
            named[stroke.meaning, str(name)].append((k, stroke))
    for (meaning, name), parts in named.items():
        drawn = [stroke for _, stroke in parts if stroke.facts.get("kind") not in ("arrow", "cross")]
        if meaning == "notch":
            taken = _nick(name, drawn, rim, numbers, signs)
        elif meaning == "dart":
            taken = _wedge(name, drawn, rim, numbers, signs)
        elif meaning == "pleat":
            taken = _pleat(name, drawn, rim, numbers, signs)
        elif meaning == "grain":
            if drawn:
                signs.grain = ends_of(drawn[0])
            taken = True
        else:
            # A cross of ours stands about a point of its own.
            taken = all(stroke.facts.get("kind") == "cross" for _, stroke in parts)
        if taken:
            used |= {k for k, _ in parts}
    for dot in dots:
        if dot.meaning == "mark":
            signs.marks.append(Spotted(dot.at, _text(dot.facts, "kind"), _text(dot.facts, "name")))
    return signs


def _text(facts: Facts, key: Fact) -> str | None:
    value = facts.get(key)
    return str(value) if value is not None else None


def _edge(drawn: Sequence[Stroke], rim: Rim, numbers: Mapping[str, int], foot: complex) -> int:
    """The edge that strokes name, else the one that their foot is nearest to."""
    name = drawn[0].facts.get("edge")
    number = numbers.get(str(name)) if name is not None else None
    return number if number is not None else int(rim.near(np.array([foot])).edge[0])


def _nick(name: str, drawn: Sequence[Stroke], rim: Rim, numbers: Mapping[str, int], signs: Signs) -> bool:
    if not drawn:
        return False
    feet = [_foot(stroke, rim) for stroke in drawn]
    edge = _edge(drawn, rim, numbers, feet[0])
    arcs = tuple(sorted(float(a) for a in rim.near_edge(edge, np.array(feet)).arc))
    signs.nicks.append(Nick(edge, arcs[:3], name, drawn[0].facts.get("use") == "place"))
    return True


def _foot(stroke: Stroke, rim: Rim) -> complex:
    """Where a tick stands on the outline: by its stated depth beyond it, else where it crosses."""
    a, b = ends_of(stroke)
    depth = stroke.facts.get("depth")
    if isinstance(depth, float | int) and abs(b - a) > depth:
        return b - float(depth) * (b - a) / abs(b - a)
    met = intersections(stroke.cubics, rim.cubics)
    if len(met.points):
        return complex(met.points[0])
    return a if rim.near(np.array([a])).distance[0] < rim.near(np.array([b])).distance[0] else b


def _wedge(name: str, drawn: Sequence[Stroke], rim: Rim, numbers: Mapping[str, int], signs: Signs) -> bool:
    legs = [stroke.cubics[0] for stroke in drawn if len(stroke.cubics) == 1]
    press = _text(drawn[0].facts, "to") if drawn else None
    if len(legs) == 4:
        signs.wedges.append(Wedge(None, (0.0, 0.0), np.array(legs), name, press))
        return True
    if len(legs) != 2:
        return False
    edge = _edge(drawn, rim, numbers, complex(legs[0][0]))
    arcs = rim.near_edge(edge, np.array([leg[0] for leg in legs])).arc
    signs.wedges.append(Wedge(edge, (float(arcs[0]), float(arcs[1])), np.array(legs), name, press))
    return True


def _pleat(name: str, drawn: Sequence[Stroke], rim: Rim, numbers: Mapping[str, int], signs: Signs) -> bool:
    if len(drawn) != 2:
        return False
    feet = np.array([ends_of(stroke)[0] for stroke in drawn])
    edge = _edge(drawn, rim, numbers, complex(feet[0]))
    low, high = sorted(float(a) for a in rim.near_edge(edge, feet).arc)
    signs.pleats.append(Folded(edge, low, high, _text(drawn[0].facts, "to"), name))
    return True
