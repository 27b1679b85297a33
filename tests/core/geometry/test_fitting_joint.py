"""The least squares behind fitting, against scipy with every unknown free, and its chained equations against numpy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import least_squares

from notchwork.geometry.fitting.chains import solved
from notchwork.geometry.fitting.joint import fit
from notchwork.geometry.fitting.pieces import Beads, Pieces

NONE = np.zeros(0, dtype=np.intp)


@pytest.mark.parametrize("seed", range(6))
def test_no_cubic_comes_closer_than_scipys(seed: int) -> None:
    """scipy.optimize.least_squares over handles and the parameters of all points, from the same start."""
    rng = np.random.default_rng(seed)
    p = np.array([0, 40 * np.exp(0.6j), 150 - 55 * np.exp(-0.8j), 150])
    t = np.linspace(0, 1, 24)[1:-1]

    def at(handles: np.ndarray, u: np.ndarray) -> np.ndarray:
        w = 1 - u
        return 3 * w * w * u * handles[0] + 3 * w * u * u * handles[1] + u**3 * p[3]

    z = at(p[1:3], t) + 0.2 * (rng.normal(size=22) + 1j * rng.normal(size=22))

    def gaps(x: np.ndarray) -> np.ndarray:
        gap = at(x[:2] + 1j * x[2:4], x[4:]) - z
        return np.concatenate([gap.real, gap.imag])

    start = np.array([50 * np.exp(0.4j), 150 - 50 * np.exp(-0.5j)])
    reference = least_squares(
        gaps, np.concatenate([start.real, start.imag, t]), method="lm", xtol=1e-14, ftol=1e-14
    )
    pieces = Pieces(
        p[:1], p[3:], np.array([170.0]), np.array([0]), np.array([0]), np.zeros(2, dtype=bool), NONE, NONE
    )
    found = fit(
        pieces, Beads(z, np.zeros(22, dtype=np.intp), t), np.array([0.4, -0.5]), np.full((2, 1), 50.0)
    )
    assert (found.beside**2).sum() == pytest.approx(2 * reference.cost, rel=1e-3)
    assert found.cubics[0, 1:3] == pytest.approx(reference.x[:2] + 1j * reference.x[2:4], abs=0.05)


@pytest.mark.parametrize("sizes", [[5], [1, 2, 7, 1, 4], [40, 3]])
@pytest.mark.parametrize("closed", [False, True])
def test_chains_of_equations_are_solved(sizes: list[int], closed: bool) -> None:
    """Against numpy.linalg.solve of the whole matrix; of a ring the first unknown and the last are one."""
    rng = np.random.default_rng(3)
    last = np.cumsum(sizes) - 1
    first = last - np.array(sizes) + 1
    count = int(last[-1]) + 1
    beside = rng.normal(size=count)
    beside[last] = 0.0
    diagonal = np.abs(beside) + np.abs(np.append(0.0, beside[:-1])) + rng.uniform(0.1, 1, count)
    right = rng.normal(size=count)
    whole = np.diag(diagonal) + np.diag(beside[:-1], 1) + np.diag(beside[:-1], -1)
    rings = np.flatnonzero(last - first >= 2) if closed else NONE
    same = np.arange(count)
    same[last[rings]] = first[rings]
    used, number = np.unique(same, return_inverse=True)
    tied = np.eye(len(used))[number]
    expected = tied @ np.linalg.solve(tied.T @ whole @ tied, tied.T @ right)
    assert solved(diagonal, beside, right, first[rings], last[rings]) == pytest.approx(expected, abs=1e-9)
