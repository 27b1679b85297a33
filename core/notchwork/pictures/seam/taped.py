"""What is put on the tape of a comparison: what is too long, or the ease against what is wanted, in every size."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.checks.walk_words import longer_and_shorter, side_pair
from notchwork.model import Unit
from notchwork.pictures.laid import SAME, Laid
from notchwork.pictures.lettering import short
from notchwork.pictures.seam.amounts import bare, full
from notchwork.pictures.seam.tape import Bar, Row, tape


def tape_of(laid: Sequence[tuple[str, Laid]], unit: Unit, column: float) -> tuple[list[str], float]:
    """The tape of one comparison, by labelled sizes; nothing, and no height, where there is nothing to be measured."""
    if any(one.told for _, one in laid):
        return _lengths(laid, unit, column)
    if laid[0][1].comparison.wanted is not None and any(
        one.ease is not None and (one.ease > SAME or not one.sews) for _, one in laid
    ):
        return _ease(laid, unit, column)
    return [], 0.0


def _lengths(laid: Sequence[tuple[str, Laid]], unit: Unit, column: float) -> tuple[list[str], float]:
    worst = max((one for _, one in laid), key=lambda one: (one.told, abs(one.by)))
    over = worst.by > 0
    off = [bay.interval for bay in worst.bays if bay.judged == "off"]
    longer, _ = longer_and_shorter(worst.comparison, over, off[0] if len(off) == 1 else None)
    rows = []
    for label, one in laid:
        by = abs(one.by)
        turned = one.by * worst.by < 0 and by > SAME
        said = f"{one.about}{full(by, unit)}" if by > SAME else "equal"
        if turned and not one.slipped:
            said += f", {short(longer_and_shorter(one.comparison, one.by > 0)[0], 14)}"
        kind = "figure" if one.told else "strong"
        bars = [Bar(0.0, by, "bar")] if by > SAME else []
        rows.append(Row(label, bars, said, kind, (0.0, worst.fine)))
    by_tape = " by tape" if worst.comparison.by_tape else ""
    what = "The notches miss by" if worst.slipped else f"{short(longer)} too long by"
    remark = f"life size; grey = fine{by_tape}, to {full(worst.fine, unit)}"
    return tape(what, remark, rows, unit, column)


def _ease(laid: Sequence[tuple[str, Laid]], unit: Unit, column: float) -> tuple[list[str], float]:
    comparison = laid[0][1].comparison
    wanted = comparison.wanted
    assert wanted is not None
    # A side that is to be stretched on is wanted shorter.
    sign = -1.0 if float(np.nanmax(wanted.most)) <= 0.0 and float(np.nanmin(wanted.least)) < 0.0 else 1.0
    rows = []
    for label, one in laid:
        bounds = sign * float(wanted.least[one.size]), sign * float(wanted.most[one.size])
        rows.append(_ease_row(label, one, sign * (one.ease or 0.0), (min(bounds), max(bounds)), unit))
    what = "Stretch" if sign < 0.0 else "Ease" if comparison.kind == "eased" else "Fullness"
    zones = {row.zone for row in rows}
    grey = (
        f"wanted, {bare(rows[0].zone[0], unit)} to {bare(rows[0].zone[1], unit)}"
        if len(zones) == 1
        else "wanted"
    )
    name = short(side_pair(comparison)[1])
    return tape(f"{what} in {name}", f"life size; grey = {grey}", rows, unit, column)


def _ease_row(label: str, one: Laid, ease: float, wanted: tuple[float, float], unit: Unit) -> Row:
    least, most = wanted
    zone = (max(least, 0.0), max(most, 0.0))
    bars = [Bar(0.0, max(min(ease, most), 0.0), "wanted")] if ease > SAME else []
    off = any(bay.judged != "fine" for bay in one.bays if bay.full)
    if off and ease > most:
        said = f"{one.about}{full(ease - most, unit)} too much"
        return Row(label, [*bars, Bar(zone[1], ease, "bar")], said, "figure", zone)
    if off and ease < least:
        said = f"{one.about}{full(least - ease, unit)} too little"
        return Row(label, [*bars, Bar(max(ease, 0.0), least, "gone")], said, "figure", zone)
    return Row(label, bars, f"{one.about}{full(ease, unit)}", "strong", zone)
