"""What is put on the scale of fullness: every interval, or in several sizes the one of each that is furthest off."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.checks.walk_words import interval_words, longer_and_shorter, side_pair
from notchwork.pictures.laid import Bay, Laid
from notchwork.pictures.lettering import short
from notchwork.pictures.seam.amounts import times
from notchwork.pictures.seam.ratio import Row, ratio_scale
from notchwork.sewing import Nest
from notchwork.sewing.walks.fit import SHORTEST

MOST = 8
"""As many intervals get a row; of more, those that are furthest off."""


def fullness_of(nest: Nest, strips: Sequence[tuple[str, Sequence[Laid]]]) -> tuple[list[str], float]:
    """The scale for sides whose ratio is stated, by labelled sizes, of the layer that is furthest off."""
    layers = range(len(strips[0][1]))
    worst = max(
        layers,
        key=lambda layer: max(
            (_badness(one, b) for _, of in strips for one in [of[layer]] for b in _judged(one)), default=0.0
        ),
    )
    shown = [(label, of[worst]) for label, of in strips]
    comparison = shown[0][1].comparison
    rows: list[Row] = []
    if len(shown) == 1:
        one = shown[0][1]
        bays = sorted(_judged(one), key=lambda bay: -_badness(one, bay))[:MOST]
        rows = [
            _row(label, one, bay)
            for label, bay in _labelled(nest, one, [b for b in _judged(one) if b in bays])
        ]
    else:
        for label, one in shown:
            bay = max(_judged(one), key=lambda bay: _badness(one, bay), default=None)
            rows += [_row(label, one, bay)] if bay is not None else []
    if not rows:
        return [], 0.0
    name, against = (short(said) for said in side_pair(comparison))
    zones = {row.wanted for row in rows}
    grey = (
        f"wanted, {times(rows[0].wanted[0])} to {times(rows[0].wanted[1])}" if len(zones) == 1 else "wanted"
    )
    where = ", where it is furthest off" if len(shown) > 1 and len(comparison.full) > 1 else ""
    return ratio_scale(f"How many times as long {against} is as {name}{where} (grey = {grey})", rows)


def _judged(one: Laid) -> list[Bay]:
    wanted = one.comparison.wanted
    if wanted is None or wanted.unit != "ratio":
        return []
    return [bay for bay in one.bays if bay.full and bay.one > SHORTEST]


def _badness(one: Laid, bay: Bay) -> float:
    """How far (percent) a bay lies outside what is wanted; inside, how near it comes to a bound, as less than nothing."""
    least, most = _wanted(one)
    if bay.ratio < least:
        return 100.0 * (least - bay.ratio) / least if least else 0.0
    if bay.ratio > most:
        return 100.0 * (bay.ratio - most) / most if most else 0.0
    return -min(bay.ratio - least, most - bay.ratio)


def _wanted(one: Laid) -> tuple[float, float]:
    wanted = one.comparison.wanted
    assert wanted is not None
    return float(wanted.least[one.size]), float(wanted.most[one.size])


def _row(label: str, one: Laid, bay: Bay) -> Row:
    return Row(label, bay.ratio, bay.judged, _wanted(one), bay.is_let_pass)


def _labelled(nest: Nest, one: Laid, bays: Sequence[Bay]) -> list[tuple[str, Bay]]:
    """By the pieces of the side gathered to; where these are alike, by the stations."""
    names = [longer_and_shorter(one.comparison, False, bay.interval)[0] for bay in bays]
    if len(set(names)) < len(names):
        words = [interval_words(nest, one.walk, bay.interval) for bay in bays]
        names = [f"{a.removeprefix('the ')} – {b.removeprefix('the ')}" for a, b in words]
    return list(zip(names, bays, strict=True))
