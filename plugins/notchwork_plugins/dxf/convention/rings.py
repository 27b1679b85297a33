"""Outlines closed up: lines put end to end, a gap along the mirror line bridged, a vertex wherever a turn or curve point lies on them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import Length, Place
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.places import NEAR, Places
from notchwork_plugins.dxf.convention.sheet import Complexes, Line, Sheet, without_twins
from notchwork_plugins.dxf.convention.told import OPEN, Told

JOINED = 0.5
"""mm: ends of lines this near meet, as everywhere where drawings are read."""


def closed_up(sheet: Sheet, told: Told) -> Sheet:
    """The block with its outlines and cut-outs as closed lines, and with a vertex on them wherever a turn or curve point stands.

    Lines of the sew line that do not close stay open: they are lines inside the piece.
    """
    mirrors = sheet.on(layers.MIRROR)
    kept = [line for line in sheet.lines if line.layer not in (*layers.OUTLINES, layers.CUT_OUTS)]
    for layer in (layers.BOUNDARY, layers.SEW_LINES, layers.CUT_OUTS):
        closed, loose = _joined(sheet.on(layer), mirrors)
        if layer == layers.BOUNDARY and loose and not closed:
            _tell_open(sheet.name, loose, told)
        elif layer != layers.SEW_LINES:
            for line in loose:
                told.unknown(f"an open line on layer {layer}, which has closed ones", line.line)
            loose = []
        kept += [*closed, *loose]
    # A point that is a vertex of any line needs no other; beside a line that runs near, it belongs to its own.
    vertices = Places(np.concatenate([np.zeros(0, dtype=complex), *(line.z for line in kept)]))
    marked = sheet.marked(layers.TURNS, layers.CURVES)
    free = marked[vertices.numbers(marked) < 0].tolist()
    return replace(sheet, lines=tuple(with_vertices(line, free) if line.closed else line for line in kept))


def _joined(lines: Sequence[Line], mirrors: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """Closed lines, those that were put end to end among them, and what is left open."""
    closed = [line for line in lines if line.closed]
    left = [line for line in lines if not line.closed]
    ends = _Ends(left)
    loose: list[Line] = []
    for k, first in enumerate(left):
        if ends.used[k]:
            continue
        ends.used[k] = True
        z = ends.drawn_on(first.z)
        if abs(z[-1] - z[0]) > JOINED:
            # It may have been begun in the middle of an open way.
            z = ends.drawn_on(z[::-1])[::-1]
        if len(z) > 3 and abs(z[-1] - z[0]) <= JOINED:
            closed.append(replace(first, z=without_twins(z[:-1]), closed=True))
        elif len(z) > 2 and any(on_line(z[[0, -1]], mirror).all() for mirror in mirrors):
            closed.append(replace(first, z=z, closed=True))
        else:
            loose.append(replace(first, z=z))
    return closed, loose


class _Ends:
    """The ends of open lines, found by where they lie; ``used`` are the lines that are taken."""

    def __init__(self, lines: Sequence[Line]) -> None:
        self._lines = lines
        self.used = [False] * len(lines)
        self._cells: dict[tuple[int, int], list[tuple[complex, int, bool]]] = {}
        for number, line in enumerate(lines):
            for end, turned in ((0, False), (-1, True)):
                z = complex(line.z[end])
                self._cells.setdefault(self._cell(z), []).append((z, number, turned))

    @staticmethod
    def _cell(z: complex) -> tuple[int, int]:
        return math.floor(z.real / JOINED), math.floor(z.imag / JOINED)

    def drawn_on(self, first: Complexes) -> Complexes:
        """A line with all that follow its end, until they come back to its start."""
        way = [first]
        start, end = complex(first[0]), complex(first[-1])
        while (found := self._next_to(end)) is not None:
            far, number, turned = found
            if abs(end - start) <= min(far, JOINED) and sum(map(len, way[:3])) > 2:
                break
            self.used[number] = True
            on = self._lines[number].z
            way.append((on[::-1] if turned else on)[1:])
            end = complex(way[-1][-1])
        return np.concatenate(way)

    def _next_to(self, z: complex) -> tuple[float, int, bool] | None:
        """The line with the nearest free end within JOINED: how far (mm) that is, its number, and whether it is its last end."""
        across, up = self._cell(z)
        near = [
            (abs(at - z), number, turned)
            for x in (across - 1, across, across + 1)
            for y in (up - 1, up, up + 1)
            for at, number, turned in self._cells.get((x, y), ())
            if not self.used[number] and abs(at - z) <= JOINED
        ]
        return min(near, default=None)


def _tell_open(name: str, loose: Sequence[Line], told: Told) -> None:
    longest = max(loose, key=lambda line: float(np.abs(np.diff(line.z)).sum()))
    told.add(
        OPEN,
        "The boundary of block “{name}” (line {line}) does not close: {gap} are missing.",
        "Draw it closed.",
        Place(point=complex(longest.z[0])),
        name=name,
        line=str(longest.line),
        gap=Length(float(abs(longest.z[-1] - longest.z[0]))),
    )


def on_line(z: Complexes, line: Line) -> NDArray[np.bool_]:
    """Which points lie on the straight way through the ends of a line, however far it is drawn on."""
    a, b = complex(line.z[0]), complex(line.z[-1])
    across = ((z - a) * np.conj(b - a)).imag / max(abs(b - a), 1e-9)
    found: NDArray[np.bool_] = np.abs(across) <= NEAR
    return found


def with_vertices(line: Line, at: Iterable[complex]) -> Line:
    """The closed line with a vertex at every one of some points that lies on it; nothing is moved."""
    z = line.z
    chord = following(z) - z
    where: list[float] = []
    for point in at:
        share = np.clip(((point - z) * chord.conj()).real / np.abs(chord) ** 2, 0.0, 1.0)
        off = np.abs(z + share * chord - point)
        row = int(off.argmin())
        if off[row] <= NEAR:
            where.append(row + float(share[row]))
    if not where:
        return line
    order = np.sort(where)
    rows = order.astype(np.intp)
    found = np.insert(z, rows + 1, z[rows] + (order - rows) * chord[rows])
    return replace(line, z=without_twins(found))


def enclosed(line: Line) -> float:
    """The area (mm²) of a closed line, below 0 where it runs clockwise."""
    return float(np.vdot(line.z, following(line.z)).imag) / 2.0


def following(z: Complexes) -> Complexes:
    """The vertex after each of a closed line."""
    return np.concatenate([z[1:], z[:1]])
