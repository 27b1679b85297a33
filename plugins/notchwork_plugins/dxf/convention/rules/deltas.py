"""Whether a table states shifts from the sample size or from size to size.

Facts known of the convention do not settle it. Stepwise, a size's pair is its shift from the neighbour that is nearer to the
sample size. Where a grade is regular the second size off moves twice as far as the first, if shifts are from the sample size, and
just as far, if they are steps.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from notchwork_plugins.dxf.convention.rules.table import Table
from notchwork_plugins.dxf.convention.told import DELTAS, DELTAS_UNCLEAR, Told

Deltas = Literal["cumulative", "stepwise"]

TWICE = 1.5
"""The second size off moves so many times further than the first at least, where shifts are from the sample size."""
CLEAR = 2.0 / 3.0
"""The share of all movement that must speak for the same."""
LEAST = 1e-3
"""mm: what moves by less says nothing."""

WORDS = {"cumulative": "shifts from the sample size", "stepwise": "steps from size to size"}


def shifts_of(table: Table, stated: Deltas | None, told: Told) -> dict[int, dict[str, complex]]:
    """For each rule the shift (mm) of every size from the sample size. What the numbers were taken for is told."""
    base = table.sizes.index(table.sample)
    kind = stated
    if kind is None and (base > 1 or base + 2 < len(table.sizes)) and table.rules:
        kind = told_apart(table)
        if kind is None:
            told.add(
                DELTAS_UNCLEAR,
                "Nothing tells whether the rules state shifts from the sample size or steps from size to size; they are taken as "
                "shifts from the sample size.",
                "Say which: deltas=cumulative or deltas=stepwise.",
            )
        else:
            told.add(
                DELTAS, "The numbers of the rules are taken as {what}, for so they grow.", what=WORDS[kind]
            )
    elif kind is not None:
        told.add(DELTAS, "The numbers of the rules are taken as {what}, as stated.", what=WORDS[kind])
    found: dict[int, dict[str, complex]] = {}
    for ident, written in table.rules.items():
        z = np.array(written)
        if kind == "stepwise":
            z[base:] = np.cumsum(z[base:])
            z[: base + 1] = np.cumsum(z[base::-1])[::-1]
        found[ident] = {size: complex(shift) for size, shift in zip(table.sizes, z, strict=True)}
    return found


def told_apart(table: Table) -> Deltas | None:
    """What the numbers themselves say, None where they do not."""
    base = table.sizes.index(table.sample)
    votes = {"cumulative": 0.0, "stepwise": 0.0}
    for written in table.rules.values():
        for one, two in ((base - 1, base - 2), (base + 1, base + 2)):
            if not (0 <= two < len(written)) or abs(written[one]) < LEAST:
                continue
            grows = abs(written[two]) >= TWICE * abs(written[one])
            votes["cumulative" if grows else "stepwise"] += abs(written[one])
    total = sum(votes.values())
    if total == 0.0:
        return None
    if votes["cumulative"] >= CLEAR * total:
        return "cumulative"
    return "stepwise" if votes["stepwise"] >= CLEAR * total else None
