"""Places on a line: from the maker's notation to arc positions in every size."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from notchwork.model import Place, in_size
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import SAME_SPOT, Floats, Line, agree


@dataclass(frozen=True, slots=True, eq=False)
class Misplaced:
    """A place that lies ``beyond`` (mm, sizes) the ends of its line and is taken at the nearer end."""

    line: Line
    place: Place
    beyond: Floats


class NoSuchPlace(LookupError):
    """A place names nothing on its line. Documents that were read are free of it."""


def position(graded: GradedPiece, line: Line, place: Place) -> Floats:
    """The arc position (mm, sizes) of a place on a line, darts and pleats open; may lie beyond the line.

    From a corner an offset runs into the edge; from a place inside it + is the outline's order. Raises NoSuchPlace.
    """
    at = _named(graded, line, place.name)
    if place.offset is None and place.percent is None:
        return at
    if place.percent is not None:
        shift = line.length * (place.percent / 100.0)
    else:
        assert place.offset is not None
        shift = np.array([in_size(place.offset, size) for size in graded.sizes], dtype=float)
    at_end = agree(at, line.length) and not line.closed
    return at - shift if at_end else at + shift


def try_position(graded: GradedPiece, line: Line, place: Place, misplaced: list[Misplaced]) -> Floats:
    """The arc position of a place, kept within the line; what lay beyond it is entered in ``misplaced``."""
    at = position(graded, line, place)
    kept = np.clip(at, 0.0, line.length)
    if not agree(at, kept, SAME_SPOT):
        misplaced.append(Misplaced(line, place, np.abs(at - kept)))
    return kept


def _named(graded: GradedPiece, line: Line, name: str) -> Floats:
    if name in line.nodes:
        return line.nodes[name]
    notch = graded.written.notches.get(name)
    if notch is not None and notch.edge == line.name:
        return position(graded, line, notch.at)
    for intake in line.intakes:
        if intake.name == name:
            return (intake.low + intake.high) / 2.0
    before, after = line.before, line.after
    if line.kind == "inner":
        followed = graded.written.inner.get(line.name)
        parent = (
            graded.lines.get(followed.parallel_to) if followed is not None and followed.parallel_to else None
        )
        if parent is not None:
            before, after = parent.before, parent.after
    if name == before and name != after:
        return np.zeros_like(line.length)
    if name == after and name != before:
        return line.length
    raise NoSuchPlace(f"{graded.id}.{line.name} has no place called {name}")
