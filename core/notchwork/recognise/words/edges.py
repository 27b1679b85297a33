"""Names for the edges of a piece: by facts, by words beside them, by the ids of their paths, by where they lie."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from notchwork.drawing import Stroke
from notchwork.recognise.shape import Shape
from notchwork.recognise.words.ids import is_made_up, slug, unique, valid
from notchwork.recognise.words.rim import Rim


def edge_names(
    shape: Shape, rim: Rim, said: Mapping[int, str], strokes: Sequence[Stroke], taken: Sequence[str] = ()
) -> tuple[tuple[str, ...], dict[int, str]]:
    """A name for every edge, unique and without dots, and how those came about that the drawing does not state itself.

    ``said`` are the words beside edges; ``strokes`` those of the whole drawing in their order.
    """
    names: list[str] = []
    how: dict[int, str] = {}
    stated = dict(enumerate(shape.edges))
    paths = _by_path(shape, strokes)
    places = _by_place(rim)
    for edge in range(rim.count):
        given = stated.get(edge)
        if given:
            name = valid(given)
        elif edge in said and slug(said[edge]):
            name, how[edge] = slug(said[edge]), "words"
        elif edge in paths:
            name, how[edge] = valid(paths[edge]), "path"
        else:
            name, how[edge] = places[edge], "place"
        names.append(unique(name, [*names, *taken]))
    return tuple(names), how


def _by_path(shape: Shape, strokes: Sequence[Stroke]) -> dict[int, str]:
    """The ids of paths that are one edge each."""
    outline = shape.outline
    edge_of = np.searchsorted(np.array(outline.corners), np.arange(len(outline.cubics)), side="right") - 1
    found: dict[int, str] = {}
    for source in np.unique(outline.sources):
        edges = set(edge_of[outline.sources == source].tolist())
        if source < 0 or source >= len(strokes) or len(edges) != 1:
            continue
        edge = edges.pop()
        whole = bool(np.isin(outline.sources[edge_of == edge], (source, -1)).all())
        name = strokes[source].facts.get("name")
        if whole and isinstance(name, str) and name and not is_made_up(name):
            found[edge] = name
    return found


def _by_place(rim: Rim) -> list[str]:
    """top, right, bottom or left by where the edge looks, with numbers in the outline's order where several look there."""
    if rim.count == 1:
        return ["outline"]
    looks: list[str] = []
    for edge in range(rim.count):
        rows = rim.contour.edge(edge)
        out = -1j * rim.sense * (rows[-1, 3] - rows[0, 0])
        if abs(out.imag) >= abs(out.real):
            looks.append("top" if out.imag > 0 else "bottom")
        else:
            looks.append("right" if out.real > 0 else "left")
    often = Counter(looks)
    count: Counter[str] = Counter()
    names: list[str] = []
    for look in looks:
        count[look] += 1
        names.append(look if often[look] == 1 else f"{look}_{count[look]}")
    return names
