"""Two nests compared in what a drawing carries, and small patterns made up for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from notchwork.geometry import lengths, nearest, points
from notchwork.model import Cut, in_size
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.darts import darts_of

Complexes = NDArray[np.complex128]

WITHIN = 0.001
"""mm: two drawings of one line lie no further apart."""


def differences(one: Nest, other: Nest, within: float = WITHIN) -> list[str]:
    """In what two nests differ that a drawing shows: sizes, outlines, edge names, notches, grain, folds, darts, cut orders,
    allowances, pleats, marks, lines and cut-outs."""
    return list(_differences(one, other, within))


def _differences(one: Nest, other: Nest, within: float) -> Iterator[str]:
    if one.sizes != other.sizes:
        yield f"sizes: {one.sizes} / {other.sizes}"
        return
    if one.sizes[one.base] != other.sizes[other.base]:
        yield f"drafted size: {one.sizes[one.base]} / {other.sizes[other.base]}"
    drawn = {ident: piece for ident, piece in one.pieces.items() if piece.has_shape}
    if set(drawn) != set(other.pieces):
        yield f"pieces: {sorted(drawn)} / {sorted(other.pieces)}"
    for ident, piece in drawn.items():
        if ident in other.pieces:
            for what in _of_piece(one, piece, other, other.pieces[ident], within):
                yield f"{ident}: {what}"


def _of_piece(one: Nest, a: GradedPiece, other: Nest, b: GradedPiece, within: float) -> Iterator[str]:
    if a.name != b.name:
        yield f"name: {a.name} / {b.name}"
    if a.present.tolist() != b.present.tolist():
        yield f"present: {a.present} / {b.present}"
        return
    if _turned(a.edges) != _turned(b.edges):
        yield f"edges: {a.edges} / {b.edges}"
        return
    if a.sense != b.sense:
        yield f"sense: {a.sense} / {b.sense}"
    if set(a.folds) != set(b.folds):
        yield f"folds: {a.folds} / {b.folds}"
    if a.written.use != b.written.use:
        yield f"use: {a.written.use} / {b.written.use}"
    if _cuts(a, one) != _cuts(b, other):
        yield f"cut orders: {_cuts(a, one)} / {_cuts(b, other)}"
    yield from _lines(one, a, other, b, within)
    yield from _notches(one, a, other, b, within)
    yield from _darts(one, a, other, b, within)
    yield from _grain(one, a, other, b)
    yield from _marks(a, b, within)
    yield from _pleats(a, b, within)


def _turned(edges: tuple[str, ...]) -> tuple[str, ...]:
    """The same ring from the edge that is first by name."""
    k = edges.index(min(edges))
    return edges[k:] + edges[:k]


def _cuts(piece: GradedPiece, nest: Nest) -> list[str]:
    """Every cut order; which stands first means nothing."""

    def counts(cut: Cut) -> tuple[float, ...]:
        return tuple(
            float(in_size(cut.count, size))
            for size, there in zip(nest.sizes, piece.present, strict=True)
            if there
        )

    return sorted(
        f"{cut.materials} {counts(cut)} {cut.mirrored} {cut.hand}" for cut in piece.written.cut or ()
    )


def _lines(one: Nest, a: GradedPiece, other: Nest, b: GradedPiece, within: float) -> Iterator[str]:
    for kind in ("edge", "inner", "cutout"):
        names = [{n for n, line in p.lines.items() if line.kind == kind} for p in (a, b)]
        if names[0] != names[1]:
            yield f"{kind}s: {sorted(names[0])} / {sorted(names[1])}"
    for name, line in a.lines.items():
        if name not in b.lines:
            continue
        for size in np.flatnonzero(a.present):
            p, q = one.cubics_of(line, size), other.cubics_of(b.lines[name], size)
            off = apart(p, q)
            if off > within:
                yield f"line {name} in {one.sizes[size]}: {off:.4f} mm apart"
        if line.kind == "edge":
            wide = [allowance(p, name)[a.present] for p in (a, b)]
            if not np.allclose(*wide, atol=within):
                yield f"allowance of {name}: {wide[0]} / {wide[1]}"


def apart(p: Complexes, q: Complexes) -> float:
    """How far (mm) two runs of cubics lie from each other at most, as seen from points along either, ends with ends."""
    if not len(p) or not len(q):
        return 0.0 if len(p) == len(q) else float("inf")
    ends = max(abs(p[0, 0] - q[0, 0]), abs(p[-1, 3] - q[-1, 3]))
    if p.shape == q.shape and (near := float(np.abs(p - q).max())) <= 1e-4:
        return near
    return float(max(ends, nearest(p, _beads(q)).distance.max(), nearest(q, _beads(p)).distance.max()))


def _beads(cubics: Complexes) -> Complexes:
    drawn = cubics[lengths(cubics) > 1e-6]
    t = np.linspace(0, 1, 9)
    return points(drawn, np.repeat(np.arange(len(drawn)), len(t)), np.tile(t, len(drawn)))


def _notches(one: Nest, a: GradedPiece, other: Nest, b: GradedPiece, within: float) -> Iterator[str]:
    mine, yours = ({n: v for n, v in p.written.notches.items() if v is not None} for p in (a, b))
    if set(mine) != set(yours):
        yield f"notches: {sorted(mine)} / {sorted(yours)}"
    for name in set(mine) & set(yours):
        m, y = mine[name], yours[name]
        if (m.edge, m.kind, m.use, m.spacing or 8.0) != (y.edge, y.kind, y.use, y.spacing or 8.0):
            yield f"notch {name}: {m} / {y}"
        off = np.abs(one.notches[a.id, name] - other.notches[b.id, name])[a.present].max()
        if off > within:
            yield f"notch {name}: {off:.4f} mm apart"


def _darts(one: Nest, a: GradedPiece, other: Nest, b: GradedPiece, within: float) -> Iterator[str]:
    mine, yours = ({shape.name: shape for shape in darts_of(n, [p.id])} for n, p in ((one, a), (other, b)))
    if set(mine) != set(yours):
        yield f"darts: {sorted(mine)} / {sorted(yours)}"
    for name in set(mine) & set(yours):
        m, y = mine[name], yours[name]
        if (m.dart.edge, m.dart.press) != (y.dart.edge, y.dart.press):
            yield f"dart {name}: {m.dart} / {y.dart}"
        for what in ("feet", "apexes"):
            p, q = getattr(m, what)[a.present], getattr(y, what)[a.present]
            if p.shape != q.shape or np.abs(p - q).max() > within:
                yield f"{what} of dart {name}: {p.tolist()} / {q.tolist()}"
        if m.legs.shape != y.legs.shape:
            yield f"legs of dart {name}: {m.legs.shape} / {y.legs.shape}"
            continue
        legs = zip(m.legs[a.present].reshape(-1, 1, 4), y.legs[a.present].reshape(-1, 1, 4), strict=True)
        if (off := max(apart(p, q) for p, q in legs)) > within:
            yield f"legs of dart {name}: {off:.4f} mm apart"


STRIPS = {"lengthwise": 0.0, "cross": 90.0, "bias": 45.0}


def _direction(piece: GradedPiece, size: int) -> float | None:
    if piece.grainline is not None:
        along = piece.grainline[size, 1] - piece.grainline[size, 0]
        return float(np.degrees(np.angle(along))) % 180.0
    strip = piece.written.strip
    return STRIPS.get(strip.grain or "") if strip is not None else None


def _grain(one: Nest, a: GradedPiece, other: Nest, b: GradedPiece) -> Iterator[str]:
    wish = [p.written.grain if p.written.strip is None else p.written.strip.grain for p in (a, b)]
    if wish[0] != wish[1] or a.written.bias_to != b.written.bias_to:
        yield f"grain wanted: {wish[0]} {a.written.bias_to} / {wish[1]} {b.written.bias_to}"
    for size in np.flatnonzero(a.present):
        x, y = _direction(a, size), _direction(b, size)
        if (x is None) != (y is None) or (
            x is not None and y is not None and abs((x - y + 90.0) % 180.0 - 90.0) > 1e-3
        ):
            yield f"grain in {one.sizes[size]}: {x} / {y}"


def _marks(a: GradedPiece, b: GradedPiece, within: float) -> Iterator[str]:
    if set(a.marks) != set(b.marks):
        yield f"marks: {sorted(a.marks)} / {sorted(b.marks)}"
    for name in set(a.marks) & set(b.marks):
        off = np.abs(a.marks[name] - b.marks[name])[a.present].max()
        if off > within:
            yield f"mark {name}: {off:.4f} mm apart"


def _pleats(a: GradedPiece, b: GradedPiece, within: float) -> Iterator[str]:
    mine, yours = (
        {i.name: (line.name, i) for line in p.lines.values() for i in line.intakes if i.kind == "pleat"}
        for p in (a, b)
    )
    if set(mine) != set(yours):
        yield f"pleats: {sorted(mine)} / {sorted(yours)}"
    for name in set(mine) & set(yours):
        (edge, m), (edge_too, y) = mine[name], yours[name]
        off = max(np.abs(m.low - y.low)[a.present].max(), np.abs(m.high - y.high)[a.present].max())
        to, to_too = (p.written.pleats[name] for p in (a, b))
        if edge != edge_too or off > within or (to and to.to) != (to_too and to_too.to):
            yield f"pleat {name}: {edge} / {edge_too}, {off:.4f} mm apart"


Document = dict[str, Any]


@st.composite
def small_patterns(draw: Callable[[st.SearchStrategy[Any]], Any]) -> Document:
    """A pattern of one or two pieces in one or three sizes, with a little of everything that is drawn."""
    sizes = draw(st.booleans())
    document: Document = {
        "notchwork": "1.0",
        "title": "Made up",
        "materials": {"wool": {"name": "Wool"}, "silk": {}},
        "pieces": {name: draw(_pieces(sizes)) for name in draw(st.sampled_from([["a"], ["front", "back"]]))},
    }
    if sizes:
        document["sizes"] = {"names": ["S", "M", "L"], "base": "M"}
        document["grade_rules"] = {
            name: {"S": [-x, -y], "L": [x + 0.5, y]}
            for name, x, y in (("wide", 6, 0), ("tall", 0, 5), ("both", 4, 3))
        }
    return document


@st.composite
def _pieces(draw: Callable[[st.SearchStrategy[Any]], Any], sizes: bool) -> Document:
    tenths = st.integers(-200, 200).map(lambda n: n / 10)
    wide, tall = draw(st.integers(1500, 4000)) / 10, draw(st.integers(1500, 6000)) / 10
    rules = st.sampled_from([None, "wide", "tall", "both"] if sizes else [None])
    fold = draw(st.booleans())
    corners = [
        0j,
        complex(wide, draw(tenths)),
        complex(wide + draw(tenths), tall),
        complex(0, tall + draw(tenths)),
    ]
    outline = []
    for k, at in enumerate(corners):
        node: Document = {"at": [at.real, at.imag], "edge": ("hem", "side", "waist", "center")[k]}
        rule = (
            draw(rules)
            if not (fold and k in (0, 3))
            else draw(st.sampled_from([None, "tall"]))
            if sizes
            else None
        )
        if rule is not None:
            node["grade"] = rule
        outline.append(node)
    for k in (0, 1, 2):
        if draw(st.booleans()):
            a, b = corners[k], corners[k + 1]
            bulge = draw(tenths) * 1j * (b - a) / abs(b - a)
            for node, key, share in ((outline[k], "out", 0.3), (outline[k + 1], "in", 0.7)):
                z = a + share * (b - a) + bulge
                node[key] = [round(z.real, 3), round(z.imag, 3)]
    piece: Document = {
        "name": draw(st.sampled_from(["Front", "Rücken", "Side <1> & 2"])),
        "outline": outline,
        "allowance": draw(st.sampled_from([0, 6, 12.5, 30])),
        "edges": {"hem": {"allowance": draw(st.sampled_from([0, 20, 35]))}},
        "cut": [
            {"material": draw(st.sampled_from(["wool", "silk"])), "count": draw(st.sampled_from([1, 2, 6]))}
        ],
    }
    if draw(st.booleans()):
        piece["outline"] = [
            {**{key: node[old] for key, old in (("in", "out"), ("out", "in")) if old in node}}
            | {key: node[key] for key in ("at", "grade") if key in node}
            | {"edge": outline[k - 1]["edge"]}
            for k, node in reversed(list(enumerate(outline)))
        ]
    if fold:
        piece["edges"]["center"] = {"fold": True}
    else:
        piece["cut"][0] |= draw(st.sampled_from([{}, {"mirrored": True, "count": 4}, {"hand": "mirrored"}]))
    if draw(st.booleans()):
        turn = draw(st.sampled_from([0j, 30 + 0j, 100 + 5j]))
        piece["grainline"] = [[60, 40], [60 + turn.real, 120 + turn.imag]]
    if draw(st.booleans()):
        piece["grain"] = draw(st.sampled_from(["lengthwise", "cross", "any"]))
    notches: Mapping[str, Document] = {
        "single": {"edge": "side", "at": ["hem", draw(st.integers(20, 60))]},
        "pair": {
            "edge": "side",
            "at": ["waist", 40],
            "kind": "double",
            "spacing": draw(st.sampled_from([6, 10])),
        },
        "three": {"edge": "waist", "at": ["side", 60], "kind": "triple"},
        "end": {"edge": "hem", "at": ["side", 35], "use": "place"},
    }
    piece["notches"] = {name: notches[name] for name in draw(st.sets(st.sampled_from(sorted(notches))))}
    if draw(st.booleans()):
        piece["darts"] = {
            "dart": {
                "edge": "waist",
                "feet": [["side", 85], ["side", 97.5]],
                "apex": [wide / 2, tall - 110],
                "press": "center",
            }
            | ({"grade": "wide"} if sizes and draw(st.booleans()) else {})
        }
    if draw(st.booleans()):
        piece["pleats"] = {"pleat": {"edge": "hem", "folds": [["side", 50], ["side", 65]], "to": "side"}}
    if draw(st.booleans()):
        piece["marks"] = {
            "button": {"at": [40, 60]} | ({"grade": "tall"} if sizes and draw(st.booleans()) else {})
        }
    if draw(st.booleans()):
        piece["inner"] = {"tape": {"parallel_to": "hem", "distance": 25, "width": 8, "use": "casing"}}
    if draw(st.booleans()):
        piece["cutouts"] = {"eye": {"line": [{"at": [70, 70]}, {"at": [80, 70]}, {"at": [80, 82]}]}}
    return piece
