"""Rounds: the edges that one elastic or cord runs through, over folds and across the seams that join them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.model import InnerLine
from notchwork.sewing.lines import Floats
from notchwork.sewing.meeting import beyond
from notchwork.sewing.pieces import GradedPiece

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class _Lip(NamedTuple):
    """One edge on one copy (or half, on a fold) of a piece."""

    piece: str
    edge: str
    mirrored: bool


def length_round(nest: Nest, piece: str, line: str) -> Floats:
    """How long (mm, sizes) the whole run is on which a line lies: an edge finished alike all round, or a casing inside one.

    A sleeve's hem is one run of its own; half a waist on the fold runs on into its other half and into the back.
    """
    graded = nest.pieces[piece]
    inner = graded.written.inner.get(line)
    if inner is not None and inner.parallel_to is None:
        return _all_of(nest, line)
    start = _Lip(piece, inner.parallel_to if inner is not None and inner.parallel_to else line, False)
    links = _links(nest)
    found, queue = {start}, [start]
    while queue:
        for lip in links.get(queue.pop(), ()):
            if lip not in found and _alike(nest, start, lip, inner):
                found.add(lip)
                queue.append(lip)
    total: Floats = np.sum([_length(nest, lip, inner) for lip in sorted(found)], axis=0)
    return total


def _links(nest: Nest) -> Mapping[_Lip, set[_Lip]]:
    """The edges that are brought together: across a fold, at a corner of one piece, at the end of a seam."""
    links: dict[_Lip, set[_Lip]] = {}
    for a, b in _meetings(nest):
        for one, other in (
            (a, b),
            (a._replace(mirrored=not a.mirrored), b._replace(mirrored=not b.mirrored)),
        ):
            links.setdefault(one, set()).add(other)
            links.setdefault(other, set()).add(one)
    return links


def _meetings(nest: Nest) -> Iterator[tuple[_Lip, _Lip]]:
    for ident, graded in nest.pieces.items():
        for fold in graded.folds:
            for edge in (graded.lines[fold].before, graded.lines[fold].after):
                yield _Lip(ident, edge, False), _Lip(ident, edge, True)
        for edge in graded.edges if not graded.is_strip else ():
            if _kind(graded, edge) is not None:
                yield _Lip(ident, edge, False), _Lip(ident, graded.lines[edge].after, False)
    for sides in nest.sides.values():
        for at_start in (True, False):
            ends = [side.stretches[0 if at_start else -1] for side in sides if side.stretches]
            lips = [
                _Lip(*key, end.span.mirrored) for end in ends if (key := beyond(end, at_start)) is not None
            ]
            for other in lips[1:]:
                yield lips[0], other


def _alike(nest: Nest, start: _Lip, lip: _Lip, inner: InnerLine | None) -> bool:
    """Whether the run goes on along an edge: finished like the first, or with a casing inside where that is followed."""
    graded = nest.pieces[lip.piece]
    if inner is not None:
        return _inside(graded, lip.edge, inner) is not None
    return (
        _kind(nest.pieces[start.piece], start.edge) == _kind(graded, lip.edge)
        and lip.edge not in graded.folds
    )


def _kind(graded: GradedPiece, edge: str) -> str | None:
    written = graded.written.edges.get(edge)
    return written.finish.kind if written is not None and written.finish is not None else None


def _inside(graded: GradedPiece, edge: str, inner: InnerLine) -> str | None:
    """The line of the same use inside an edge."""
    return next(
        (
            name
            for name, other in graded.written.inner.items()
            if other is not None and other.parallel_to == edge and other.use == inner.use
        ),
        None,
    )


def _length(nest: Nest, lip: _Lip, inner: InnerLine | None) -> Floats:
    graded = nest.pieces[lip.piece]
    name = _inside(graded, lip.edge, inner) if inner is not None else None
    return graded.lines[name if name is not None else lip.edge].sewn_length


def _all_of(nest: Nest, line: str) -> Floats:
    """Lines with nodes of their own end anywhere: at most the run is all of that name or use, in both halves."""
    wanted = next(i for g in nest.pieces.values() if (i := g.written.inner.get(line)) is not None)
    total: Floats = 2.0 * np.sum(
        [
            graded.lines[name].sewn_length
            for graded in nest.pieces.values()
            for name, inner in graded.written.inner.items()
            if inner is not None and name in graded.lines and (name == line or inner.use == wanted.use)
        ],
        axis=0,
    )
    return total
