"""Small equations in chains: every unknown is tied to the one before and the one after, all chains solved at once."""

from __future__ import annotations

import numpy as np

from notchwork.geometry.cubics import Floats, Ints


def solved(diagonal: Floats, beside: Floats, right: Floats, first: Ints, last: Ints) -> Floats:
    """The unknowns (n,) of symmetric positive definite tridiagonal equations.

    ``beside[k]`` ties the unknowns k and k + 1, and is 0 from one chain to the next. Chains from ``first[r]`` to
    ``last[r]`` are rings: their first unknown and their last (at least two further on) are one and the same, and their
    equations are added up.
    """
    if first.size == 0:
        return _reduced(diagonal, beside, right[:, None])[:, 0]
    # With the shared unknown known, the others follow as p + q · shared.
    own, ties = diagonal.copy(), beside.copy()
    both = np.zeros((len(diagonal), 2))
    both[:, 0] = right
    own[first], own[last] = 1.0, 1.0
    ties[first], ties[last - 1] = 0.0, 0.0
    out, home = beside[first], beside[last - 1]
    both[first, 0], both[last, 0] = 0.0, 0.0
    np.add.at(both[:, 1], first + 1, -out)
    np.add.at(both[:, 1], last - 1, -home)
    p, q = _reduced(own, ties, both).T
    total = diagonal[first] + diagonal[last] + out * q[first + 1] + home * q[last - 1]
    shared = (right[first] + right[last] - out * p[first + 1] - home * p[last - 1]) / total
    spread = np.zeros(len(diagonal))
    for at, far, value in zip(first.tolist(), last.tolist(), shared.tolist(), strict=True):
        spread[at : far + 1] = value
    found: Floats = p + q * spread
    found[first], found[last] = shared, shared
    return found


def _reduced(diagonal: Floats, beside: Floats, right: Floats) -> Floats:
    """Parallel cyclic reduction (R. W. Hockney, C. R. Jesshope, Parallel Computers, 1981): ties twice as long each time."""
    d, b = diagonal, right
    low, high = np.append(0.0, beside[:-1]), beside.copy()
    high[-1:] = 0.0
    step = 1
    while step < len(d) and (low.any() or high.any()):
        down = np.zeros_like(d)
        up = np.zeros_like(d)
        down[step:] = -low[step:] / d[:-step]
        up[:-step] = -high[:-step] / d[step:]
        new_d, new_b = d.copy(), b.copy()
        new_low, new_high = np.zeros_like(d), np.zeros_like(d)
        new_d[step:] += down[step:] * high[:-step]
        new_d[:-step] += up[:-step] * low[step:]
        new_b[step:] += down[step:, None] * b[:-step]
        new_b[:-step] += up[:-step, None] * b[step:]
        new_low[step:] = down[step:] * low[:-step]
        new_high[:-step] = up[:-step] * high[step:]
        d, b, low, high = new_d, new_b, new_low, new_high
        step *= 2
    return b / d[:, None]
