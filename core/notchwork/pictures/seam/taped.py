"""What is put on the tape of a comparison: what is too long, or the ease against what is wanted, in every size."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.checks.walk_words import longer_and_shorter, side_pair
from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.lettering import short
from notchwork.pictures.seam.amounts import bare, full
from notchwork.pictures.seam.laid import SAME, Laid
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
        rows.append(Row(label, [Bar(0.0, by, "bar")] if by > SAME else [], said, kind))
    by_tape = " by tape" if worst.comparison.by_tape else ""
    what = "The notches miss by" if worst.slipped else f"{short(longer)} too long by"
    title = f"{what} (life size; grey = fine{by_tape}, to {full(worst.fine, unit)})"
    return tape(title, rows, (0.0, worst.fine), unit, column)


def _ease(laid: Sequence[tuple[str, Laid]], unit: Unit, column: float) -> tuple[list[str], float]:
    comparison = laid[0][1].comparison
    assert comparison.wanted is not None
    rows, zones = [], []
    for label, one in laid:
        least, most = float(comparison.wanted.least[one.size]), float(comparison.wanted.most[one.size])
        zones.append((max(least, 0.0), most))
        rows.append(_ease_row(label, one, least, most, unit))
    what = "Ease" if comparison.kind == "eased" else "Fullness"
    title = f"{what} in {short(side_pair(comparison)[1])} (life size; grey = wanted, "
    if len(set(zones)) == 1 and zones[0][1] > 0.0:
        least, most = zones[0]
        return tape(f"{title}{bare(least, unit)} to {bare(most, unit)})", rows, zones[0], unit, column)
    marks, y = [], 0.0
    for row, zone in zip(rows, zones, strict=True):
        again, high = tape(
            f"{title}{bare(zone[0], unit)} to {bare(zone[1], unit)})", [row], zone, unit, column
        )
        marks.append(ink.moved(again, 0.0, y))
        y += high + 4.0
    return marks, y


def _ease_row(label: str, one: Laid, least: float, most: float, unit: Unit) -> Row:
    ease = one.ease or 0.0
    wanted = [Bar(0.0, max(min(ease, most), 0.0), "wanted")] if ease > SAME else []
    off = any(bay.judged != "fine" for bay in one.bays if bay.full)
    if off and ease > most:
        said = f"{one.about}{full(ease - most, unit)} too much"
        return Row(label, [*wanted, Bar(max(most, 0.0), ease, "bar")], said, "figure")
    if off and ease < least:
        said = f"{one.about}{full(least - ease, unit)} too little"
        return Row(label, [*wanted, Bar(max(ease, 0.0), least, "gone")], said, "figure")
    return Row(label, wanted, f"{one.about}{full(ease, unit)}", "strong")
