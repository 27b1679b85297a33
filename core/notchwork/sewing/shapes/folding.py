"""An edge as it is sewn: the mouths of its darts and pleats left out, the rest turned or moved up to close them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.geometry import lengths, parameters_at, parts, reverse
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats, Line

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class Mouth(NamedTuple):
    """What is folded away between two arc positions (mm). A dart closes by a turn about its ``apex``; a pleat by a shift."""

    low: float
    high: float
    apex: complex | None


def part_of_run(run: Complex, arcs: Floats, low: float, high: float) -> Complex:
    """The stretch of a run of cubics (k, 4) with lengths ``arcs`` (k,) from one arc position (mm) to another.

    Positions beyond the run are taken at its ends; (0, 4) where nothing is left.
    """
    ends = np.cumsum(arcs)
    low, high = max(low, 0.0), min(high, float(ends[-1]) if len(ends) else 0.0)
    if high - low <= 1e-9:
        return np.empty((0, 4), dtype=complex)
    at = np.searchsorted(ends, [low, high], side="left").clip(0, len(run) - 1)
    t = parameters_at(run, at, np.array([low, high]) - (ends[at] - arcs[at]))
    rows = np.arange(at[0], at[1] + 1)
    first, last = np.zeros(len(rows)), np.ones(len(rows))
    first[0], last[-1] = t[0], t[1]
    cut = parts(run, rows, first, last)
    kept: Complex = cut[last > first]
    return kept


def part_of(nest: Nest, line: Line, low: float, high: float, size: int) -> Complex:
    """The stretch (k, 4) of a line between two arc positions (mm) in one size, in the outline's order."""
    assert line.rows is not None
    rows = line.rows[size]
    return part_of_run(nest.cubics[rows], nest.arc[rows], low, high)


def mouths(nest: Nest, line: Line, size: int) -> tuple[Mouth, ...]:
    """What darts and pleats fold away on a line in one size, in the line's order."""
    apexes = nest.pieces[line.piece].apexes
    found = [
        Mouth(
            float(intake.low[size]),
            float(intake.high[size]),
            complex(apexes[intake.name][size, 0])
            if intake.kind == "dart" and intake.name in apexes
            else None,
        )
        for intake in line.intakes
        if np.isfinite(intake.low[size])
    ]
    return tuple(sorted(found, key=lambda mouth: mouth.low))


def edge_shut(nest: Nest, line: Line, size: int, from_end: bool = False) -> Complex:
    """An edge (k, 4) in one size with its darts and pleats folded shut, in the outline's order.

    Its start stays where it is drawn and what follows is moved up to it; ``from_end``: its end stays.
    """
    run = nest.cubics_of(line, size)
    taken = mouths(nest, line, size)
    if not taken:
        return run
    if not from_end:
        return _shut(run, taken)
    whole = float(line.length[size])
    turned = [Mouth(whole - mouth.high, whole - mouth.low, mouth.apex) for mouth in reversed(taken)]
    return reverse(_shut(reverse(run), turned))


def _shut(run: Complex, taken: Sequence[Mouth]) -> Complex:
    arcs = lengths(run)
    pieces: list[Complex] = []
    turn, shift, reached = 1.0 + 0.0j, 0.0 + 0.0j, 0.0
    for mouth in taken:
        if mouth.low < reached:
            continue  # darts that overlap are another check's
        pieces.append(turn * part_of_run(run, arcs, reached, mouth.low) + shift)
        near, far = (turn * z + shift for z in _points_at(run, arcs, mouth.low, mouth.high))
        more = 1.0 + 0.0j
        if mouth.apex is not None:
            apex = turn * mouth.apex + shift
            more = _direction(near - apex) / _direction(far - apex)
        # After the turn the far foot comes to lie on the near one, even where the legs differ.
        turn, shift = more * turn, more * shift + near - more * far
        reached = mouth.high
    pieces.append(turn * part_of_run(run, arcs, reached, float(arcs.sum())) + shift)
    return np.concatenate(pieces)


def _points_at(run: Complex, arcs: Floats, *positions: float) -> tuple[complex, ...]:
    ends = np.cumsum(arcs)
    at = np.searchsorted(ends, positions, side="left").clip(0, len(run) - 1)
    t = parameters_at(run, at, np.array(positions) - (ends[at] - arcs[at]))
    return tuple(complex(parts(run, at[k : k + 1], t[k : k + 1], t[k : k + 1])[0, 0]) for k in range(len(at)))


def _direction(z: complex) -> complex:
    return z / abs(z) if abs(z) > 1e-9 else 1.0 + 0.0j
