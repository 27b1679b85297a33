"""Rounds: the edges that one elastic runs through, or one binding goes along, over folds and across seams."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.model import InnerLine
from notchwork.sewing.counts.copies import cut_in_both_hands, only_interfacing, stands_for_its_image
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.ways.meeting import LineKey, beyond

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class Lip(NamedTuple):
    """One edge on one copy (or half, on a fold) of a piece. A piece cut in one hand only has no mirrored one."""

    piece: str
    edge: str
    mirrored: bool = False


def length_round(nest: Nest, piece: str, line: str, pieces: int = 1) -> Floats:
    """How long (mm, sizes) the whole run is on which a line lies: an edge finished alike all round, or a casing inside one.

    A sleeve's hem is one run of its own; half a waist on the fold runs on into its other half and into the back; six gores
    are one run. ``pieces`` is how many such runs there are where a piece is cut several times alike. NaN where it cannot be
    told: a seam beside it runs the wrong way or was forgotten, copies are lacking, or no cut order says how many there are.
    """
    inner = nest.pieces[piece].written.inner.get(line)
    if inner is not None and inner.parallel_to is None:
        return _all_of(nest, line)
    start = Lip(piece, inner.parallel_to if inner is not None and inner.parallel_to else line)
    found = _run(start, _links(nest), lambda lip: _alike(nest, start, lip, inner))
    return _total(nest, found, inner, pieces)


def rounds_along(nest: Nest, edges: Collection[tuple[str, str]]) -> list[Floats]:
    """The lengths (mm, sizes) of the runs that edges, by (piece, name), make in the whole garment.

    Layers that are caught in one run are counted once: a lining that is like the shell; a piece cut from two cloths; an
    overlay that is basted on. What is not cut from cloth (templates, interfacing) is left out.
    """
    links = _links(nest)
    lying_on = _basted_on(nest, edges)
    left = [
        lip
        for piece, edge in edges
        if (piece, edge) not in lying_on
        and nest.pieces[piece].written.use is None
        and not only_interfacing(nest, nest.pieces[piece])
        for lip in _lips(nest.pieces[piece], edge)
    ]
    runs: dict[frozenset[Lip], Floats] = {}
    while left:
        wanted = set(left)
        run = _run(left[0], links, wanted.__contains__)
        left = [lip for lip in left if lip not in run]
        layer = frozenset(lip._replace(piece=nest.pieces[lip.piece].root) for lip in run)
        total = _total(nest, run, None, 1)
        runs[layer] = np.fmax(runs[layer], total) if layer in runs else total
    return [total for layer, total in runs.items() if not any(layer < other for other in runs)]


def _basted_on(nest: Nest, edges: Collection[tuple[str, str]]) -> set[tuple[str, str]]:
    """Those edges that a basted seam lays on others of them: from then on they are one edge."""
    found: set[tuple[str, str]] = set()
    for ident, (base, *layers) in nest.sides.items():
        under = {stretch.line.key for stretch in base.stretches}
        if nest.pattern.seams[ident].construction == "basted" and under <= set(edges):
            found |= {stretch.line.key for layer in layers for stretch in layer.stretches} - under
    return found


def _lips(graded: GradedPiece, edge: str) -> list[Lip]:
    both = cut_in_both_hands(graded) is not False and not graded.is_strip
    return [Lip(graded.id, edge, mirrored) for mirrored in ((False, True) if both else (False,))]


def _run(start: Lip, links: Mapping[Lip, set[Lip]], goes_on: Callable[[Lip], bool]) -> set[Lip]:
    found, queue = {start}, [start]
    while queue:
        for lip in links.get(queue.pop(), ()):
            if lip not in found and goes_on(lip):
                found.add(lip)
                queue.append(lip)
    return found


def _links(nest: Nest) -> Mapping[Lip, set[Lip]]:
    """The edges that are brought together: across a fold, at a corner of one piece, at the end of a seam."""

    def lip(piece: str, edge: str, mirrored: bool) -> Lip:
        return Lip(piece, edge, mirrored and not stands_for_its_image(nest.pieces[piece]))

    links: dict[Lip, set[Lip]] = {}
    for a, b in _meetings(nest):
        for turned in (False, True):
            one, other = (lip(c.piece, c.edge, c.mirrored != turned) for c in (a, b))
            links.setdefault(one, set()).add(other)
            links.setdefault(other, set()).add(one)
    return links


def _meetings(nest: Nest) -> Iterator[tuple[Lip, Lip]]:
    for ident, graded in nest.pieces.items():
        for fold in graded.folds:
            for edge in (graded.lines[fold].before, graded.lines[fold].after):
                yield Lip(ident, edge), Lip(ident, edge, True)
        for edge in graded.edges if not graded.is_strip else ():
            if _kind(graded, edge) is not None:
                yield Lip(ident, edge), Lip(ident, graded.lines[edge].after)
    for ident, sides in nest.sides.items():
        if nest.pattern.seams[ident].construction == "basted":
            continue  # it lays one edge on another: nothing runs on from the one into the other
        for at_start in (True, False):
            ends = [side.stretches[0 if at_start else -1] for side in sides if side.stretches]
            lips = [
                Lip(*key, end.span.mirrored) for end in ends if (key := beyond(end, at_start)) is not None
            ]
            for other in lips[1:]:
                yield lips[0], other


def _alike(nest: Nest, start: Lip, lip: Lip, inner: InnerLine | None) -> bool:
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


def _total(nest: Nest, run: Collection[Lip], inner: InnerLine | None, pieces: int) -> Floats:
    """The length (mm, sizes) of a run; NaN where a fault that is told elsewhere keeps it from going on, or from being counted."""
    beside = {
        (lip.piece, line)
        for lip in run
        for line in (nest.line(lip.piece, lip.edge).before, nest.line(lip.piece, lip.edge).after)
    }
    if beside & _not_joined(nest) or any(lip.piece in nest.lacks for lip in run):
        return np.full(len(nest.sizes), np.nan)
    total: Floats = np.sum(
        [_length(nest, lip, inner) * _times(nest, lip, pieces) for lip in sorted(run)], axis=0
    )
    return total


def _not_joined(nest: Nest) -> set[LineKey]:
    """The edges of seams that run the wrong way, and those of forgotten seams."""
    turned = {s.line.key for ident in nest.wrong_way for side in nest.sides[ident] for s in side.stretches}
    return turned | {gap.line.key for seam in nest.forgotten for gap in seam.gaps}


def _length(nest: Nest, lip: Lip, inner: InnerLine | None) -> Floats:
    graded = nest.pieces[lip.piece]
    name = _inside(graded, lip.edge, inner) if inner is not None else None
    return graded.lines[name if name is not None else lip.edge].sewn_length


def _times(nest: Nest, lip: Lip, pieces: int) -> Floats:
    """How many copies alike one run goes through; the layers cut from several cloths lie on each other.

    NaN where no cut order says how often a piece is cut, unless it lies on the fold.
    """
    graded = nest.pieces[lip.piece]
    if not graded.written.cut:
        return np.full(len(nest.sizes), 1.0 if graded.folds else np.nan)
    if not stands_for_its_image(graded):
        return np.ones(len(nest.sizes))
    counts = [np.nan_to_num(by_size(cut.count, nest.sizes)) for cut in graded.written.cut]
    times: Floats = np.maximum(np.max(counts, axis=0) / pieces, 1.0)
    return times


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
