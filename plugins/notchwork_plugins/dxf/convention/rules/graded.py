"""A block in every size: points with a rule moved by it, all others carried along by the open format's own law of grading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from notchwork.model import Node
from notchwork.sewing.pieces.grading import grade_line
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.places import NEAR, Places
from notchwork_plugins.dxf.convention.rings import following
from notchwork_plugins.dxf.convention.sheet import Complexes, Line, Sheet, Spot
from notchwork_plugins.dxf.convention.told import NO_SUCH_RULE, Told

Shifts = Mapping[int, Mapping[str, complex]]


def graded(sheet: Sheet, shifts: Shifts, sizes: Sequence[str], told: Told) -> dict[str, Sheet]:
    """The block in every size, from its sample size. Lines keep their vertices and their order.

    A point between two with rules goes where the turn-and-scale carries it that carries those two; what lies on the outline
    moves with it; what has no rule and lies on nothing stays.
    """
    known = {number: np.array([by[size] for size in sizes]) for number, by in shifts.items()}
    there = [rule for rule in sheet.rules if rule[1] in known]
    for _, number, where in sheet.rules:
        if number not in known:
            told.at_line(
                NO_SUCH_RULE, "The rule table has no rule {number} ({things}).", where, number=str(number)
            )
    places = Places(np.array([at for at, _, _ in there], dtype=np.complex128))

    def rules_at(z: Complexes) -> list[int | None]:
        return [there[k][1] if k >= 0 else None for k in places.numbers(z).tolist()]

    rings = [line for line in sheet.lines if line.closed and line.layer in layers.OUTLINES]
    moved = {id(line): _moved(line, rules_at(line.z), known, len(sizes)) for line in rings}

    carriers = [_Carrier(ring, moved[id(ring)]) for ring in rings]

    def carried(z: complex) -> Complexes | None:
        """How far a point of an outline moves in every size."""
        steps = (carrier.along(z) for carrier in carriers)
        return next((step for step in steps if step is not None), None)

    for line in sheet.lines:
        if id(line) not in moved:
            numbers = rules_at(line.z)
            own = dict(known)
            if not line.closed:
                for k, end in ((0, -1), (len(line.z) - 1, -2)):
                    step = carried(complex(line.z[k])) if numbers[k] is None else None
                    if step is not None:
                        own[end], numbers[k] = step, end
            moved[id(line)] = _moved(line, numbers, own, len(sizes))
    nothing = np.zeros(len(sizes), dtype=complex)
    steps = []
    for spot, rule in zip(
        sheet.spots, rules_at(np.array([spot.at for spot in sheet.spots], dtype=complex)), strict=True
    ):
        # Points of outlines are not asked for again.
        wanted = spot.layer in layers.NOTCH_SHAPES or spot.layer == layers.DRILL_HOLES
        step = known[rule] if rule is not None else carried(spot.at) if wanted else None
        steps.append((nothing if step is None else step).tolist())
    return {
        size: replace(
            sheet,
            lines=tuple(replace(line, z=moved[id(line)][k]) for line in sheet.lines),
            spots=tuple(
                Spot(s.at + step[k], s.layer, s.line, s.depth, s.width, s.angle)
                for s, step in zip(sheet.spots, steps, strict=True)
            ),
        )
        for k, size in enumerate(sizes)
    }


def _moved(
    line: Line, numbers: Sequence[int | None], shifts: Mapping[int, Complexes], count: int
) -> Complexes:
    """The vertices of a line in every size (sizes, n)."""
    if None not in numbers:
        steps: Complexes = np.array([shifts[n] for n in numbers if n is not None]).T
        return line.z + steps
    nodes = [
        Node(at=z, grade=None if number is None else str(number))
        for z, number in zip(line.z.tolist(), numbers, strict=True)
    ]
    by_name = {str(number): shift for number, shift in shifts.items()}
    rows = grade_line(nodes, line.closed, by_name, count)
    return rows[:, :, 0] if line.closed else np.concatenate([rows[:, :, 0], rows[:, -1:, 3]], axis=1)


class _Carrier:
    """A ring whose vertices move in every size, with what lies on it."""

    def __init__(self, ring: Line, moved: Complexes) -> None:
        self._z = ring.z
        self._chord = following(ring.z) - ring.z
        self._square = np.maximum(np.abs(self._chord) ** 2, 1e-18)
        self._steps = moved - ring.z

    def along(self, z: complex) -> Complexes | None:
        """How far a point moves in every size that lies on the ring; None for one that does not."""
        off = z - self._z
        share = np.minimum(np.maximum((off * self._chord.conj()).real / self._square, 0.0), 1.0)
        far = np.abs(share * self._chord - off)
        row = int(far.argmin())
        if far[row] > NEAR:
            return None
        after = (row + 1) % len(self._z)
        step: Complexes = self._steps[:, row] * (1.0 - share[row]) + self._steps[:, after] * share[row]
        return step
