"""Nodes of outlines and lines get the words that their strokes state of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, get_args

import numpy as np

from notchwork.findings import Finding
from notchwork.geometry import lengths
from notchwork.model import Dart, Node, Notch, Piece, Place, Pleat
from notchwork.model.piece import CutCorner
from notchwork.recognise.own.stated import StatedLine
from notchwork.recognise.own.tell import no_longer_fits
from notchwork.recognise.words.ids import valid

SHARE = 5e-4
"""Of a line's length: a node that lies further from its stated share was moved along the line."""
SPOT = 0.05
"""mm: a node of a piece lies this near to its node of the stroke; ends that do not meet are brought together."""
KNOWN: Mapping[str, Sequence[str]] = {"corner": ("point",), "cut_corner": get_args(CutCorner)}
"""What may be said of a corner."""

Key = tuple[str, int]
"""A line and the number of the node among those that it states."""


def with_nodes(
    pieces: Mapping[str, Piece], lines: Sequence[StatedLine]
) -> tuple[dict[str, Piece], list[Finding]]:
    """The pieces with what strokes state of nodes, and what no longer fits: a node must still lie where it is stated, on its
    line and in every size."""
    by_piece: defaultdict[str, list[StatedLine]] = defaultdict(list)
    for line in lines:
        by_piece[line.piece].append(line)
    found = dict(pieces)
    lost: list[Finding] = []
    for ident, stated in by_piece.items():
        if ident in pieces:
            found[ident], gone = _with_nodes(pieces[ident], stated)
            lost += [no_longer_fits(ident, line, what) for line, what in gone]
    return found, lost


def _with_nodes(piece: Piece, lines: Sequence[StatedLine]) -> tuple[Piece, list[tuple[str, str]]]:
    """The piece; and what is left out, as a line and words."""
    said: dict[Key, Mapping[str, Any]] = {}
    spots: defaultdict[Key, dict[str | None, complex]] = defaultdict(dict)
    edges: set[str] = set()
    for line in lines:
        for number, (share, words) in enumerate(line.nodes):
            key = line.line, number
            said.setdefault(key, words)
            if line.is_edge:
                edges.add(line.line)
            if (not line.is_edge or _starts(piece, line)) and (at := _at(line, share)) is not None:
                spots[key].setdefault(line.size, at)
    taken = {*_names(piece)}
    gone: list[tuple[str, str]] = []
    for key, words in said.items():
        name = words.get("name")
        fits = _are_known(words) and name not in taken
        changed = (
            _on_edge(piece, spots[key], words)
            if key[0] in edges
            else _inside(piece, key[0], spots[key], words)
        )
        if changed is None or not fits:
            gone.append((key[0], f"node {name}" if isinstance(name, str) else "corner"))
            continue
        piece = changed
        taken.add(str(name))
    return piece, gone


def _starts(piece: Piece, line: StatedLine) -> bool:
    """Whether an edge's stroke still starts where the edge before ends: one that was turned round has its nodes elsewhere."""
    nodes = piece.outline or (piece.outlines or {}).get(str(line.size), ())
    corners = [node for node in nodes if node.edge is not None]
    k = _nearest(corners, complex(line.cubics[0, 0])) if corners else None
    return k is not None and {corners[k - 1].edge, corners[k].edge} == {line.starts, line.line}


def _at(line: StatedLine, share: float) -> complex | None:
    """The node of a stroke that lies at a share of its length; None where none does any more."""
    run_up = np.cumsum([0.0, *lengths(line.cubics)])
    nodes = np.append(line.cubics[:, 0], line.cubics[-1, 3])
    far = np.abs(run_up / max(float(run_up[-1]), 1e-9) - share)
    nearest = int(np.argmin(far))
    return complex(nodes[nearest]) if far[nearest] <= SHARE else None


def _are_known(words: Mapping[str, Any]) -> bool:
    name = words.get("name")
    named = name is None or (isinstance(name, str) and bool(name) and valid(name) == name)
    return named and all(words.get(key) in (None, *values) for key, values in KNOWN.items())


def _on_edge(piece: Piece, spots: Mapping[str | None, complex], words: Mapping[str, Any]) -> Piece | None:
    """The piece with a node of its outline called so in every size."""
    made_up: str | None = None
    by_size: dict[str | None, tuple[Node, ...]] = {}
    outlines = {None: piece.outline} if piece.outline is not None else dict(piece.outlines or {})
    for size, nodes in outlines.items():
        at = spots.get(size)
        number = None if at is None else _nearest(nodes, at)
        if number is None:
            return None
        made_up = nodes[number].name
        by_size[size] = _worded(nodes, number, words)
    if not by_size:
        return None
    if piece.outline is not None:
        piece = replace(piece, outline=by_size[None])
    else:
        piece = replace(piece, outlines={str(size): nodes for size, nodes in by_size.items()})
    name = words.get("name")
    return piece if made_up is None or name is None else _renamed(piece, made_up, name)


def _inside(
    piece: Piece, line: str, spots: Mapping[str | None, complex], words: Mapping[str, Any]
) -> Piece | None:
    """The piece with a node of a line inside it called so; its nodes are those of one size."""
    inner, hole = piece.inner.get(line), piece.cutouts.get(line)
    for at in spots.values():
        if inner is not None and inner.line is not None and (k := _nearest(inner.line, at)) is not None:
            named = replace(inner, line=_worded(inner.line, k, words))
            return replace(piece, inner={**piece.inner, line: named})
        if hole is not None and (k := _nearest(hole.line, at)) is not None:
            return replace(
                piece, cutouts={**piece.cutouts, line: replace(hole, line=_worded(hole.line, k, words))}
            )
    return None


def _nearest(nodes: Sequence[Node], at: complex) -> int | None:
    far = [abs(node.at - at) for node in nodes]
    nearest = int(np.argmin(far))
    return nearest if far[nearest] <= SPOT else None


def _worded(nodes: Sequence[Node], number: int, words: Mapping[str, Any]) -> tuple[Node, ...]:
    known = {key: words[key] for key in ("name", *KNOWN) if words.get(key) is not None}
    return (*nodes[:number], replace(nodes[number], **known), *nodes[number + 1 :])


def _names(piece: Piece) -> Iterator[str]:
    """Every name on a piece that its maker or this drawing gave, but for those of nodes: they stand in one space."""
    for nodes in (piece.outline or (), *(piece.outlines or {}).values()):
        yield from (node.edge for node in nodes if node.edge is not None)
    for named in (piece.edges, piece.notches, piece.darts, piece.pleats, piece.inner, piece.cutouts):
        yield from named


def _renamed(piece: Piece, old: str, new: str) -> Piece:
    """The piece with the places that were told from a node under its made-up name told from it under its own."""

    def place(at: Place) -> Place:
        return replace(at, name=new) if at.name == old else at

    def notch(one: Notch | None) -> Notch | None:
        return one and replace(one, at=place(one.at))

    def dart(one: Dart | None) -> Dart | None:
        return one and replace(one, feet=one.feet and (place(one.feet[0]), place(one.feet[1])))

    def pleat(one: Pleat | None) -> Pleat | None:
        return one and replace(one, folds=(place(one.folds[0]), place(one.folds[1])))

    return replace(
        piece,
        notches={name: notch(one) for name, one in piece.notches.items()},
        darts={name: dart(one) for name, one in piece.darts.items()},
        pleats={name: pleat(one) for name, one in piece.pleats.items()},
    )
