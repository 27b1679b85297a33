"""All runs of a file at once: what they show, what is fitted to it, and the rows of each run in their order."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry.cubics import Bools, Complexes, Floats, Ints
from notchwork.geometry.fitting.alone import Limits, Trials
from notchwork.geometry.fitting.chords import measured
from notchwork.geometry.fitting.cleaned import Run, run
from notchwork.geometry.fitting.dividing import divided
from notchwork.geometry.fitting.fitted import Fitted
from notchwork.geometry.fitting.joining import joined


def fit_runs(
    runs: Sequence[Complexes],
    closed: Sequence[bool],
    corners: Sequence[Sequence[int]] | None,
    nodes: Sequence[Sequence[int]] | None,
    off: float,
    stray: float,
) -> list[Fitted]:
    """See fitted."""
    many = range(len(runs))
    given = [
        run(
            runs[k],
            closed[k],
            None if corners is None else np.asarray(corners[k], dtype=np.intp),
            None if nodes is None else np.asarray(nodes[k], dtype=np.intp),
            off,
        )
        for k in many
    ]
    found = [Fitted(np.empty((0, 4), np.complex128), np.zeros(0, np.intp), np.zeros(0, np.intp), 0.0)] * len(
        given
    )
    long = [k for k in many if len(given[k].z) > 1]
    if long:
        for k, one in zip(
            long, _all([given[k] for k in long], [closed[k] for k in long], Limits(off, stray)), strict=True
        ):
            found[k] = one
    return found


def _all(runs: list[Run], closed: list[bool], limits: Limits) -> list[Fitted]:
    chords = measured(runs, limits.off, limits.stray)
    sizes = np.array([len(one.z) for one in runs])
    ends = np.cumsum(sizes)
    first_of = ends - sizes
    node = np.flatnonzero(chords.node)
    start, end = node[:-1], node[1:]
    within = ~np.isin(start, ends - 1)
    start, end = start[within], end[within]
    line = chords.straight[start]
    rings = [(first_of[k], ends[k] - 1) for k, one in enumerate(runs) if one.ring]
    start, end, line = _ring_halves(start, end, line, rings)
    trials = Trials(chords, limits)
    bent_start, bent_end = divided(chords, start[~line], end[~line], limits, trials)
    bent = joined(chords, bent_start, bent_end, rings, limits, trials)
    z = chords.z
    lines = np.stack([z[start[line]], z[start[line]], z[end[line]], z[end[line]]], axis=1)
    cubics = np.concatenate([lines, bent.cubics])
    begin = np.concatenate([start[line], bent.start])
    beside = np.concatenate([_beside_lines(z, start[line], end[line]), bent.off])
    order = np.argsort(begin)
    cubics, begin, beside = cubics[order], begin[order], beside[order]
    bounds = np.searchsorted(begin, np.append(first_of, len(z)))
    made = []
    for k, one in enumerate(runs):
        low, high = bounds[k], bounds[k + 1]
        local = begin[low:high] - first_of[k]
        cornered = chords.corner[begin[low:high]]
        cornered[: not closed[k]] = False
        made.append(
            Fitted(
                cubics[low:high],
                np.flatnonzero(cornered),
                one.source[local],
                float(beside[low:high].max(initial=0.0)),
            )
        )
    return made


def _ring_halves(
    start: Ints, end: Ints, line: Bools, rings: list[tuple[int, int]]
) -> tuple[Ints, Ints, Bools]:
    """A ring without corners is two cubics at least: one cannot go on smoothly into itself."""
    for a, b in rings:
        k = int(np.searchsorted(start, a))
        if end[k] == b and b - a > 1:
            middle = (a + b) // 2
            start = np.insert(start, k + 1, middle)
            end = np.insert(end, k, middle)
            line = np.insert(line, k, line[k])
    return start, end, line


def _beside_lines(z: Complexes, start: Ints, end: Ints) -> Floats:
    chord = z[end] - z[start]
    of = np.repeat(np.arange(len(start)), end - start)
    vertex = np.arange(len(of)) - np.repeat(np.cumsum(end - start) - (end - start), end - start) + start[of]
    aside = np.abs(((z[vertex] - z[start][of]) * chord[of].conj()).imag) / np.maximum(
        np.abs(chord[of]), 1e-12
    )
    most = np.zeros(len(start))
    np.maximum.at(most, of, aside)
    return most
