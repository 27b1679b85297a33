"""Two sides of a seam whose allowances are not equally wide."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from notchwork.checks import by_the_odd_one, check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import GradedPiece, Nest, Stretch, Walk
from notchwork.sewing.pieces.allowances import stated_allowance
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.lines import Floats
from notchwork.sewing.shapes.facing import facing

DIFFER = Rule(
    id="seams/allowances-differ",
    title="The allowances of a seam differ",
    rationale="Two pieces are laid edge on edge and sewn at one distance from it. If one allowance is wider than the other, the "
    "stitching does not lie on one of the two stitch lines. What is trimmed to a width later is compared at that width. Felled, "
    "lapped and bound seams, applied pieces, faced and bound edges, strips, and the edges under a zip have allowances of "
    "their own. One edge or piece that is unlike all it is sewn to is told once, also where it states none at all.",
    source="Common practice, no source.",
    grade=Tolerance(warning=1.0),
)

TEXT = "The allowance is {a} on {one} but {b} on {other}."
HINT = "Give both the same allowance; if one is trimmed later, say to what with “trim_to”."
ODD_HINT = (
    "Look at {odd} first: it is unlike all of them. If it is trimmed later, say to what with “trim_to”."
)
NONE = "It states no allowance, but {other} has {b} where they are sewn to each other."
NONE_HINT = "State the allowance of the piece; 0, if it is cut without any."

UNLIKE_BY_NATURE = ("felled", "lapped", "bound", "applied")


@dataclass(frozen=True, slots=True, eq=False)
class _Pair:
    """Two stretches that lie on each other in a seam, and the allowances (mm, sizes) with which they are sewn."""

    walk: Walk
    a: Stretch
    b: Stretch
    one: Floats
    other: Floats

    def turned(self) -> _Pair:
        return replace(self, a=self.b, b=self.a, one=self.other, other=self.one)

    @property
    def odd(self) -> Hashable:
        """The piece at ``a`` with its allowance and what it is compared with: pairs that share it are one fault."""
        own = DIFFER.id in self.walk.seam.tolerances
        return (self.a.graded.id, _figures(self.one), _figures(self.other), self.walk.id if own else None)


@check(DIFFER)
def allowances_differ(nest: Nest) -> Iterator[Finding]:
    pairs = list(_pairs(nest))
    without = [pair for pair in (*pairs, *(pair.turned() for pair in pairs)) if _states_none(pair.a.graded)]
    told: set[str] = set()
    for pair in without:
        if pair.a.graded.id not in told and bool(np.any(np.nan_to_num(pair.other) > 0)):
            told.add(pair.a.graded.id)
            yield _none_stated(nest, pair)
    unlike = [pair for pair in pairs if bool(np.any(np.nan_to_num(np.abs(pair.one - pair.other)) > 0))]
    for group in by_the_odd_one(unlike, lambda pair: pair.odd, _Pair.turned):
        yield _finding(nest, group)


def _pairs(nest: Nest) -> Iterator[_Pair]:
    """What lies on each other in the seams whose allowances are to be alike; every two edges once a seam."""
    zipped = {
        (span.piece, span.line)
        for opening in nest.pattern.openings.values()
        if opening.kind == "zip"
        for group in opening.sections or opening.lips or ()
        for span in group
    }
    for walk in nest.walks.values():
        if walk.seam.construction in UNLIKE_BY_NATURE:
            continue
        seen: set[frozenset[tuple[str, str]]] = set()
        for further in walk.others:
            for a, b in facing(walk.sides[0], further.side):
                pair = frozenset((a.line.key, b.line.key))
                if pair not in seen and not any(_has_its_own(s, zipped) for s in (a, b)):
                    seen.add(pair)
                    yield _Pair(walk, a, b, _sewn_allowance(a), _sewn_allowance(b))


def _has_its_own(stretch: Stretch, zipped: set[tuple[str, str]]) -> bool:
    """Whether the edge's allowance follows from something else than the seam."""
    if stretch.line.kind != "edge" or stretch.graded.is_strip or stretch.line.key in zipped:
        return True
    written = stretch.graded.written.edges.get(stretch.line.name)
    return written is not None and written.finish is not None and written.finish.kind in ("bound", "faced")


def _states_none(graded: GradedPiece) -> bool:
    """Whether a drawn piece says nothing of any allowance."""
    stated = (edge.allowance for edge in graded.written.edges.values() if edge is not None)
    return graded.has_shape and graded.written.allowance is None and all(own is None for own in stated)


def _finding(nest: Nest, group: list[_Pair]) -> Finding:
    first = group[0]
    seams = list(dict.fromkeys(pair.walk.id for pair in group))
    here = [pair for pair in group if pair.walk is first.walk]
    rows = tuple(
        Row(size, wide - narrow, wide, narrow, {"a": Length(narrow), "b": Length(wide)})
        for size, narrow, wide in zip(nest.sizes, first.one.tolist(), first.other.tolist(), strict=True)
    )
    return Finding(
        DIFFER,
        Place(seam=first.walk.id, piece=first.a.graded.id, line=first.a.line.name),
        TEXT,
        HINT if len(group) == 1 else ODD_HINT,
        {
            "one": _names(pair.a for pair in here),
            "other": _names(pair.b for pair in here),
            "odd": first.a.graded.name,
        },
        rows,
        tuple(dict.fromkeys(s.graded.id for pair in group for s in (pair.a, pair.b))),
        tuple(Place(seam=seam) for seam in seams[1:]),
    )


def _none_stated(nest: Nest, pair: _Pair) -> Finding:
    rows = tuple(
        Row(size, wide, wide, None, {"b": Length(wide)})
        for size, wide in zip(nest.sizes, pair.other.tolist(), strict=True)
    )
    return Finding(
        DIFFER,
        Place(piece=pair.a.graded.id),
        NONE,
        NONE_HINT,
        {"other": _names([pair.b])[0]},
        rows,
        (pair.a.graded.id, pair.b.graded.id),
    )


def _sewn_allowance(stretch: Stretch) -> Floats:
    """What the allowance (mm, sizes) is when the seam is sewn: spare cloth is trimmed before, where that is stated."""
    written = stretch.graded.written.edges.get(stretch.line.name)
    trimmed = by_size(written.trim_to if written is not None else None, stretch.graded.sizes)
    return np.where(np.isnan(trimmed), stated_allowance(stretch.graded, stretch.line.name), trimmed)


def _figures(widths: Floats) -> tuple[float, ...]:
    return tuple(np.round(np.nan_to_num(widths, nan=-1.0), 3).tolist())


def _names(stretches: Iterable[Stretch]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{s.graded.name} ({plain_name(s.line.name)})" for s in stretches))
