"""A hem is too deep for its curve."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Percent, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork.sewing.shapes.hems import Hem, hems

NARROW = 6.0
"""mm: a hem no deeper than this is eased in by any hand."""
TOO_SHORT = 2.0
"""Percent by which the turned edge may be shorter than the line it comes to lie on."""
TOO_LONG = 5.0
"""Percent by which it may be longer."""

MOST_SAID = 1000.0
"""Percent; where the hem is deeper than its curve is round there is no line left to lie on."""

DEEP = Rule(
    id="hems/too-deep-for-its-curve",
    title="A hem is too deep for its curve",
    rationale="The cut edge of a curved hem lies on a wider line than the one on to which it is turned. For a fold line of "
    "radius r and a finished depth d the two are as (r + d) : (r - d); that much has to be eased in, or stands in pleats. On a "
    "hem that bends inward the cut edge is too short and cannot lie flat.",
    source="The top of a curved hem is longer than its bottom and must be eased; circle hems 1/4 in or rolled: T. Johnson, It's "
    "Fun to Sew a Cotton School Dress (extension bulletin). The ratio: plane geometry. The steps of 3 % and 5 %, and 2 % for an "
    "edge too short: common practice, no source.",
    grade=Tolerance(info=3.0, warning=TOO_LONG, unit="percent"),
)

TIGHT = replace(DEEP, grade=Tolerance(warning=TOO_SHORT, unit="percent"))

LONG = (
    "Turned up {depth}, the {edge} is cut {cut} long but comes to lie on {line}: {excess} have to be eased in "
    "(up to {most} is fine)."
)
LONG_HINT = "Make the hem {better} deep or less, face the edge, or state that it is eased."
SHORT = "Turned up {depth}, the {edge} is cut {cut} long but has to lie on {line}: it is {excess} too short to lie flat."
SHORT_HINT = "Make the hem {better} deep or less, or face the edge."


@check(DEEP, needs="shapes")
def too_deep(nest: Nest) -> Iterator[Finding]:
    for hem in hems(nest):
        if hem.finish.eased or not (hem.depth > NARROW).any():
            continue
        excess = hem.excess
        worst = float(np.nanmax(excess, initial=0.0))
        short = worst < 3.0 and bool(np.nanmin(excess, initial=0.0) < -TOO_SHORT)
        rows = tuple(_row(hem, size, name, short) for size, name in enumerate(nest.sizes))
        place = Place(piece=hem.line.piece, line=hem.line.name)
        text, hint = (SHORT, SHORT_HINT) if short else (LONG, LONG_HINT)
        values = {"edge": plain_name(hem.line.name), "most": Percent(TOO_LONG)}
        yield Finding(TIGHT if short else DEEP, place, text, hint, values, rows, (hem.line.piece,))


def _row(hem: Hem, size: int, name: str | None, short: bool) -> Row:
    excess, depth = float(hem.excess[size]), float(hem.depth[size])
    share = (-TOO_SHORT if short else TOO_LONG) / 100.0
    turn, length = float(hem.turn[size]), float(hem.length[size])
    # (length + turn d) / (length - turn d) = 1 + share, solved for d.
    better = share / (2.0 + share) * length / turn if turn else depth
    values = {
        "depth": Length(depth),
        "cut": Length(float(hem.cut[size])),
        "line": Length(max(float(hem.lies_on[size]), 0.0)),
        "excess": Percent(min(abs(excess), MOST_SAID)),
        "better": Length(max(float(np.floor(better)), 1.0)),
    }
    wrong_way = (excess > 0) if short else (excess < 0)
    off = 0.0 if depth <= NARROW or wrong_way else min(abs(excess), MOST_SAID)
    return Row(name, off, min(abs(excess), MOST_SAID), abs(100.0 * share), values)
