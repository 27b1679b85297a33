"""A group of a drawing as what is written of a piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Group
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.write.alike import Unlike, rings_alike
from notchwork_plugins.dxf.write.chords import CORNER, Vertices
from notchwork_plugins.dxf.write.graded import Sized
from notchwork_plugins.dxf.write.inside import darts, inner_lines, label, marks, notches
from notchwork_plugins.dxf.write.items import Item, Line, Piece, Words
from notchwork_plugins.dxf.write.options import Choices
from notchwork_plugins.dxf.write.outlines import mirror_lines, outlines
from notchwork_plugins.dxf.write.stated import further, notes, stated
from notchwork_plugins.dxf.write.tags import in_lines

Complexes = NDArray[np.complex128]

TYPE = 4.0
"""mm: the height of annotations that the drawing does not have."""
LEADING = 1.5
"""Heights of type from one line of words to the next."""


def pieces_of(group: Group, sizes: Sequence[str | None], choices: Choices) -> list[Piece]:
    """The piece in all sizes at once; where something is not drawn alike in all of them, one for each size, and none of a group
    without an outline."""
    sized = Sized(group, sizes)
    try:
        found = [_piece(sized, choices)]
    except Unlike as why:
        alone = [_piece(Sized(group, sizes, [k]), choices) for k in sized.numbers]
        found = [replace(piece, alone=str(why)) for piece in alone]
    return [piece for piece in found if piece.items]


def _piece(sized: Sized, choices: Choices) -> Piece:
    found = [outlines(sized.in_size(k)) for k in range(len(sized.sizes))]
    boundary = rings_alike([each.boundary for each in found], choices.chord, "its boundary")
    sewn = rings_alike([each.sewn for each in found], choices.chord, "its sew line")
    at = next((text.at for text in sized.group.texts if text.meaning == "name"), 0j)
    items: list[Item] = []
    if boundary:
        items += [
            *(Line(layers.BOUNDARY, ring.z, True, ring.kinds) for ring in boundary[:1]),
            *(Line(layers.CUT_OUTS, ring.z, True, ring.kinds) for ring in boundary[1:]),
            *(Line(layers.SEW_LINES, ring.z, True, ring.kinds) for ring in sewn),
            *_edge_names(sewn or boundary),
            *_folds(sized),
            *_grain(sized),
            *notches(sized, boundary[0], choices),
            *inner_lines(sized, choices.chord),
            *darts(sized, choices.chord),
            *marks(sized),
            *_of_seams(sized),
            *_notes(sized, at),
        ]
    return Piece(
        sized.group.name,
        sized.sizes,
        tuple(items),
        at,
        tuple(stated(sized, "" if sewn else _boundary_is(sized), choices.in_pairs)),
        sized.group.shift,
    )


def _boundary_is(sized: Sized) -> str:
    """What the outline is where it alone is drawn, and the pattern does not say that it is the cut line."""
    if any(stroke.meaning == "stitch" for stroke in sized.group.strokes):
        return "the boundary is the sew line, no allowance is drawn"
    if any(stroke.facts.get("kind") == "unknown" for stroke in sized.group.strokes):
        return "not known whether the boundary is the cut line or the sew line"
    return ""


def _edge_names(rings: Sequence[Vertices]) -> Iterator[Words]:
    """The name of every edge in the middle of each of its stretches from corner to corner; stretches of one name that follow each
    other are one edge."""
    for ring in rings:
        corners = np.flatnonzero(ring.kinds == CORNER)
        if not len(corners):
            corners = np.zeros(1, dtype=np.intp)
        count = ring.z.shape[1]
        for first, last in zip(corners, np.roll(corners, -1), strict=True):
            if name := ring.names[first]:
                steps = np.arange(first, last + (1 if last > first else count + 1)) % count
                yield label("EDGE", name, _middles(ring.z[:, steps]))


def _middles(z: Complexes) -> Complexes:
    """The places (sizes,) halfway along polylines (sizes, n)."""
    middles = np.empty(len(z), dtype=np.complex128)
    for k, line in enumerate(z):
        along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line)))])
        half = along[-1] / 2
        middles[k] = complex(np.interp(half, along, line.real), np.interp(half, along, line.imag))
    return middles


def _folds(sized: Sized) -> Iterator[Line]:
    found: dict[str, Complexes] = {}
    for k in range(len(sized.sizes)):
        for name, a, b in mirror_lines(sized.in_size(k)):
            found.setdefault(name, sized.nowhere(2))[k] = a, b
    for z in found.values():
        yield Line(layers.MIRROR, z)


def _grain(sized: Sized) -> Iterator[Line]:
    for _, drawn in sized.strokes("grain"):
        z = sized.nowhere(2)
        for k, stroke in drawn.items():
            z[k] = stroke.cubics[0, 0], stroke.cubics[-1, 3]
        yield Line(layers.GRAIN, z)


def _of_seams(sized: Sized) -> Iterator[Words]:
    """The letters of seams, and where gathers, ease and openings begin and end."""
    for text in sized.group.texts:
        if text.meaning in ("match", "limit"):
            yield label(text.meaning.upper(), text.words, sized.everywhere(text.at))


def _notes(sized: Sized, at: complex) -> Iterator[Words]:
    for k, words in enumerate(further(sized)):
        yield Words(layers.ANNOTATION, sized.everywhere(at + 1j * LEADING * TYPE * (k + 1)), words, TYPE)
    for text in notes(sized.group):
        for k, line in enumerate(in_lines(text.words)):
            z = sized.nowhere()
            z[list(sized.holds(text.facts))] = text.at - 1j * LEADING * text.height * k
            yield Words(layers.ANNOTATION, z, line, text.height)
