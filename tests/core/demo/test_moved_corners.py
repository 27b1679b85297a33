"""A seam whose end is moved along it speaks, and nothing that does not touch the moved corner does."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass

import numpy as np
import pytest
from patterns import Document, nest_of
from storm_petrel import loud, sound, verdict

from notchwork.checks import Graded
from notchwork.findings import Place
from notchwork.sewing.walks.spans import Stretch, stretches_of
from notchwork.sewing.walks.walk import Comparison

NEST = nest_of(sound())

STEP = 5.0
"""mm along the seam, in or out."""

HUNG = 20.0
"""mm outward where the corner lies on an edge that is levelled after hanging."""


@dataclass(frozen=True)
class Move:
    """A seam's end on one piece, moved ``out`` mm along the seam's edge (negative: in)."""

    seam: str
    piece: str
    line: str
    at_start_of_line: bool
    out: float

    @property
    def corner(self) -> str:
        line = NEST.line(self.piece, self.line)
        return self.line if self.at_start_of_line else line.after

    def __str__(self) -> str:
        return f"{self.seam}-{self.piece}-{self.line}-{self.corner}-{self.out:+.0f}"


def moves() -> Iterator[Move]:
    """Every end of every seam that lies on a corner, in and out."""
    for ident, walk in NEST.walks.items():
        for number, side in enumerate(walk.sides):
            compared = walk.others if number == 0 else (walk.others[number - 1],)
            for at_end, stretch in ((False, side.stretches[0]), (True, side.stretches[-1])):
                if _is_corner(stretch, at_end) and not _drawn_alike(walk.sides, stretch, at_end):
                    at_start = stretch.forward != at_end
                    for out in _steps(compared, stretch, at_start, at_end):
                        yield Move(ident, stretch.graded.id, stretch.line.name, at_start, out)


def _is_corner(stretch: Stretch, at_end: bool) -> bool:
    """Ends of inner lines and places inside an edge (a zip's end) are no corners."""
    return (
        stretch.spot(stretch.stop if at_end else stretch.start).tenth is None and stretch.line.kind == "edge"
    )


def _drawn_alike(sides: tuple[object, ...], stretch: Stretch, at_end: bool) -> bool:
    """Whether every side ends on one drawing, so that moving it moves all: an edge sewn to its own mirror image.

    A shell and its lining are one drawing too; the lining is moved alone below, and its seam with the shell must speak.
    """
    others = {
        (other.graded.id, other.line.name)
        for side in sides
        for other in [side.stretches[-1 if at_end else 0]]  # type: ignore[attr-defined]
    }
    roots = {(NEST.pieces[piece].root, line) for piece, line in others}
    is_root = NEST.pieces[stretch.graded.id].root == stretch.graded.id
    return len(roots) == 1 and is_root


def _steps(
    compared: tuple[Comparison, ...], stretch: Stretch, at_start_of_line: bool, at_end: bool
) -> Iterator[float]:
    """How far this end is moved; nothing where no side that it is compared with says so little as 3 mm."""
    beside = stretch.line.before if at_start_of_line else stretch.line.after
    edge = stretch.graded.written.edges.get(beside)
    if edge is not None and edge.trim_when == "hung":
        yield HUNG
        return
    reach = [_reach(comparison, at_end) for comparison in compared]
    found = [r for r in reach if r is not None]
    if found:
        yield from (min(found), -min(found))


def _reach(comparison: Comparison, at_end: bool) -> float | None:
    """How far an end must move to be heard against one further side; None where its range is meant to swallow it."""
    interval = comparison.intervals[-1 if at_end else 0]
    wanted = comparison.wanted
    if comparison.is_plain or not interval.full:
        return STEP
    assert wanted is not None
    if wanted.unit == "ratio":
        return float(interval.other[NEST.base]) / 4
    return STEP if float(np.max(wanted.most - wanted.least)) <= 3.0 else None


def damaged(move: Move) -> Document:
    """The sound demo with one corner moved; a piece that is like another gets an outline of its own."""
    document = sound()
    piece = document["pieces"][move.piece]
    drawn = document["pieces"][NEST.pieces[move.piece].root]
    for key in ("outline", "outlines"):
        if key in drawn:
            piece[key] = deepcopy(drawn[key])
    shift = move.out * _outward(move)
    for nodes in piece["outlines"].values() if "outlines" in piece else [piece["outline"]]:
        (node,) = [node for node in nodes if node.get("edge") == move.corner]
        for key in ("at", "in", "out"):
            if key in node:
                node[key] = [node[key][0] + shift.real, node[key][1] + shift.imag]
    return document


def _outward(move: Move) -> complex:
    """The direction in which the edge grows longer at the corner."""
    cubics = NEST.cubics_of(NEST.line(move.piece, move.line), NEST.base)
    points = cubics[0] if move.at_start_of_line else cubics[-1][::-1]
    beyond = next(p for p in points[1:] if p != points[0])
    return complex(points[0] - beyond) / abs(points[0] - beyond)


def family(piece: str) -> set[str]:
    """A piece and those that are drawn by it."""
    pieces = NEST.pattern.pieces
    return {piece} | {other for other, written in pieces.items() if written.like == piece}


def touches(move: Move, graded: Graded) -> bool:
    """Whether a finding is about something that touches the corner on the moved piece or on one like it."""
    return any(_touches(move, place) for place in graded.places)


def _touches(move: Move, place: Place) -> bool:
    moved = family(move.piece)
    if place.seam is not None:
        sides = NEST.sides[place.seam]
        return any(_passes(move, stretch) for side in sides for stretch in side.stretches)
    if place.notion is not None:
        return _serves(move, NEST.pattern.notions[place.notion].serves or "")
    if place.opening is not None:
        return _serves(move, place.opening)
    return place.piece in moved


def _serves(move: Move, served: str) -> bool:
    opening = NEST.pattern.openings.get(served)
    if opening is not None:
        spans = [span for section in opening.sections or () for span in section]
        return any(_passes(move, stretch) for span in spans for stretch in stretches_of(NEST, span))
    return served.partition(".")[0] in family(move.piece)


def _passes(move: Move, stretch: Stretch) -> bool:
    """Whether a stretch reaches the corner."""
    if stretch.graded.id not in family(move.piece):
        return False
    line = stretch.line
    at = {line.name: np.zeros_like(line.length), line.after: line.length}.get(move.corner)
    return at is not None and stretch.covers(at)


@pytest.mark.slow
@pytest.mark.parametrize("move", list(moves()), ids=str)
def test_a_moved_end_is_heard_on_its_seam_and_nowhere_else(move: Move) -> None:
    found = loud(verdict(damaged(move)))
    assert move.seam in {place.seam for graded in found for place in graded.places}
    assert [graded.rule.id for graded in found if not touches(move, graded)] == []


def test_every_seam_is_tried_but_those_that_one_drawing_keeps_equal() -> None:
    """An edge sewn to its own mirror image is as long as itself; lines inside pieces have no corner to move."""
    assert set(NEST.walks) - {move.seam for move in moves()} == {
        "skirt_center_back",
        "flounce_front",
        "flounce_back",
    }
