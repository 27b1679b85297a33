"""A side is to be eased, gathered or stretched, but by how much is not said."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.checks.walk_words import side_pair
from notchwork.findings import Finding, Length, Place, Row, Rule, Severity
from notchwork.sewing import Nest

NOT_STATED = Rule(
    id="seams/fullness-not-stated",
    title="How much a side is to be eased, gathered or stretched is not stated",
    rationale="Without an amount, a percentage or a ratio nothing can be held against what is drawn; the difference is told "
    "so that it can be looked at and stated.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

TEXT = "{other} is to be {kind} onto {one}, but how much is not stated. As drawn {other} is {long} and {one} {short}."
HINT = "State the {what} of the join, so that it can be checked."


@check(NOT_STATED)
def fullness_not_stated(nest: Nest) -> Iterator[Finding]:
    for walk in nest.walks.values():
        for comparison in walk.others:
            if comparison.is_plain or comparison.wanted is not None:
                continue
            one, other = side_pair(comparison)
            base = nest.base
            values = {
                "one": one,
                "other": other,
                "kind": comparison.kind,
                "what": "amount" if comparison.kind == "eased" else "ratio",
                "long": Length(float(np.nan_to_num(comparison.side.length[base]))),
                "short": Length(float(np.nan_to_num(comparison.one.length[base]))),
            }
            yield Finding(
                NOT_STATED,
                Place(seam=walk.id),
                TEXT,
                HINT,
                values,
                (Row(nest.sizes[base]),),
                pieces=walk.pieces,
            )
