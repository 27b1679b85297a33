"""Copies that are to be cut in pairs, but in an odd number."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Count, Finding, Place, Row, Rule, Severity
from notchwork.sewing import Nest
from notchwork.sewing.pieces.amounts import by_size

ODD = Rule(
    id="cutting/odd-mirrored-count",
    title="An odd number of copies is to be cut in pairs",
    rationale="The count of a mirrored cut order holds both hands, half of each: 2 is one pair. An odd count cannot be halved.",
    source="Common practice, no source.",
    grade=Severity.ERROR,
)

TEXT = "It is to be cut {count} times in pairs (mirrored), and {count} is odd."
HINT = "The count holds both hands: say {even} for {pairs}, or leave “mirrored” out."


@check(ODD)
def odd_mirrored_count(nest: Nest) -> Iterator[Finding]:
    for piece in nest.pieces.values():
        for cut in piece.written.cut or ():
            if not cut.mirrored or piece.folds:
                continue
            counts = np.nan_to_num(by_size(cut.count, nest.sizes))
            rows = tuple(
                Row(size, measured=count, expected=count + 1, values=_values(int(count)))
                for size, count in zip(nest.sizes, counts.tolist(), strict=True)
                if count % 2
            )
            if rows:
                yield Finding(ODD, Place(piece=piece.id), TEXT, HINT, rows=rows, pieces=(piece.id,))


def _values(count: int) -> dict[str, object]:
    pairs = (count + 1) // 2
    return {
        "count": Count(count),
        "even": Count(count + 1),
        "pairs": "one pair" if pairs == 1 else f"{pairs} pairs",
    }
