"""A nick or an inward curve so narrow that its allowances fill it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.geometry import first_crossings
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.counts.accounts import NOTHING
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.cutlines import CutLine, cut_lines

NO_ROOM = Rule(
    id="cutting/no-room-for-allowance",
    title="A nick leaves no room for its allowances",
    rationale="Where an outline runs inward, the allowances of both sides grow towards each other. In a nick that is narrower than "
    "both together they meet, and the cut line passes over it: the allowance that is stated there cannot be cut. That is how a "
    "slash that is faced, or a deep corner, is made: sewn first, and then clipped up to the stitching. Where it is wider than two "
    "allowances of an inch, an allowance is likely to be stated too wide.",
    source="Plane geometry; what is an ordinary allowance is common practice, no source.",
    quiet="Folds, edges of less than a millimetre and outlines that cross themselves, which are told as that.",
    grade=Tolerance(info=0.0, warning=50.8),
)

TEXT = "Its {edges} {lie} in {what} {mouth} wide, which the allowances fill: none of the {allowance} stated there can be cut."
ON_THE_LINE = "Its {edges} {lie} in {what} {mouth} wide, which the allowances beside it fill: it cannot be cut on the stitch line."
HINT = (
    "Mark the stitch line there, sew, and clip the cloth up to the stitching; or state narrower allowances there, "
    "or make it wider."
)

_Run = tuple[str, ...]
"""Edges of one piece that follow each other."""


@check(NO_ROOM, needs="shapes")
def no_room_for_allowance(nest: Nest) -> Iterator[Finding]:
    found: dict[str, dict[int, CutLine]] = {}
    for (ident, size), cut in cut_lines(nest, _whole(nest)).items():
        if cut.swallowed:
            found.setdefault(ident, {})[size] = cut
    for ident, cuts in found.items():
        for runs in _nicks(nest.pieces[ident], cuts):
            yield _finding(nest, nest.pieces[ident], runs)


def _whole(nest: Nest) -> list[str]:
    """The pieces with allowances whose outline crosses itself in no size."""
    wide = [
        graded
        for graded in nest.pieces.values()
        if graded.has_shape and any(np.any(allowance(graded, edge) > 0) for edge in graded.edges)
    ]
    drawn = [(graded.id, size) for graded in wide for size in np.flatnonzero(graded.present).tolist()]
    crossed = first_crossings([nest.outline(*of_size) for of_size in drawn])
    crossing = {ident for (ident, _), found in zip(drawn, crossed, strict=True) if found is not None}
    return [graded.id for graded in wide if graded.id not in crossing]


def _nicks(graded: GradedPiece, cuts: Mapping[int, CutLine]) -> list[dict[int, _Run]]:
    """Every nick as the edges that it swallows in every size in which it does."""
    nicks: list[dict[int, _Run]] = []
    for size, cut in cuts.items():
        for run in _runs(graded, size, cut):
            known = next((n for n in nicks if any(set(run) & set(other) for other in n.values())), None)
            if known is None:
                nicks.append({size: run})
            else:
                known[size] = (*known.get(size, ()), *run)
    return nicks


def _runs(graded: GradedPiece, size: int, cut: CutLine) -> Iterator[_Run]:
    lost = [edge in cut.swallowed and edge not in graded.folds for edge in graded.edges]
    first = lost.index(False) if False in lost else 0
    run: list[str] = []
    for k in [*range(first, len(lost)), *range(first + 1)]:
        if lost[k] and graded.edges[k] not in run:
            run.append(graded.edges[k])
        elif run:
            if any(graded.lines[edge].length[size] > NOTHING for edge in run):
                yield tuple(run)
            run = []


def _finding(nest: Nest, graded: GradedPiece, runs: Mapping[int, _Run]) -> Finding:
    rows = tuple(
        _row(nest, graded, runs.get(size, ()), size) for size in np.flatnonzero(graded.present).tolist()
    )
    longest = max(runs.values(), key=len)
    wide = any(allowance(graded, edge)[size] > 0 for size, run in runs.items() for edge in run)
    return Finding(
        NO_ROOM,
        Place(piece=graded.id, line=longest[0]),
        TEXT if wide else ON_THE_LINE,
        HINT,
        {
            "edges": tuple(plain_name(edge) for edge in longest),
            "lie": "lie" if len(longest) > 1 else "lies",
            "what": "a nick" if len(longest) > 1 else "an inward curve",
        },
        rows,
        (graded.id,),
    )


def _row(nest: Nest, graded: GradedPiece, run: _Run, size: int) -> Row:
    """How wide the nick is from where its first edge begins to where its last one ends; nothing, where none is swallowed."""
    if not run:
        return Row(nest.sizes[size])
    first, last = (nest.cubics_of(graded.lines[edge], size) for edge in (run[0], run[-1]))
    mouth = abs(complex(last[-1, 3] - first[0, 0]))
    widest = max(float(allowance(graded, edge)[size]) for edge in run)
    values = {"mouth": Length(mouth), "allowance": Length(widest)}
    # A slit whose sides meet is a nick too.
    return Row(
        nest.sizes[size], off=max(mouth, NOTHING), measured=mouth, expected=2.0 * widest, values=values
    )
