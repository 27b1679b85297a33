"""What a card says: the sentences under its head, and the text alternative with every interval in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.checks import Graded, Names, also_in, in_size, message, right_in, sentence
from notchwork.checks.walk_words import interval_words, longer_and_shorter, side_pair, stretch_words
from notchwork.findings import Length, listed, worded
from notchwork.model import Unit
from notchwork.pictures.laid import SAME, Bay, Laid
from notchwork.pictures.lettering import clipped, short
from notchwork.pictures.seam.amounts import full, times
from notchwork.pictures.signs import verdict_word
from notchwork.pictures.told import Told
from notchwork.sewing import Nest
from notchwork.sewing.names import capital, station_name

MOST_LETTERS = 60
"""Of a name in the details."""
MOST = 2
"""As many findings of a seam are told on its card; the rest is told with the findings."""


def sentences(nest: Nest, names: Names, told: Told, laid: Sequence[Laid]) -> list[str]:
    """One or two sentences, each for a paragraph of its own. Of a seam with findings they are the findings' own words."""
    if told.loud:
        more = len(told.loud) - MOST
        said = [_told(graded, names) for graded in told.loud[:MOST]]
        return [*said, f"And {more} more, told with the findings."] if more > 0 else said
    said = ["Sews together in every size." if len(nest.sizes) > 1 else "Sews together."]
    if told.accepted:
        said.append(f"Accepted on purpose ({told.accepted[0].accepted}): {_told(told.accepted[0], names)}")
    remark = next(
        (graded for graded in told.quiet if graded.tolerance and graded.tolerance.unit == "mm"), None
    )
    if remark is not None:
        return [*said, _told(remark, names)]
    for one in _drafted(nest, laid):
        said.append(_of(nest, one, names.unit))
    return [" ".join(said)]


def _drafted(nest: Nest, laid: Sequence[Laid]) -> list[Laid]:
    """Every comparison in the size that is drafted, or in the first in which both sides are there."""
    found: dict[int, Laid] = {}
    for one in laid:
        if one.known and (one.size == nest.base or id(one.comparison) not in found):
            found[id(one.comparison)] = one
    return list(found.values())


def _told(graded: Graded, names: Names) -> str:
    """A finding without the seam's name, which stands above."""
    at = in_size(graded, names)
    said = f"{capital(at)}: {sentence(graded, names)}" if at else sentence(graded, names)
    return " ".join(part for part in (said, also_in(graded, names), right_in(graded, names)) if part)


def _of(nest: Nest, laid: Laid, unit: Unit) -> str:
    """What is to be known of two sides that sew."""
    one, other = _sides(laid)
    if laid.ease is not None and laid.ease > SAME:
        return f"{other} has {full(laid.ease, unit)} to ease in{stretch_words(nest, laid.walk, laid.comparison)}."
    if any(bay.shape == "wave" for bay in laid.bays):
        ratios = sorted(bay.ratio for bay in laid.bays if bay.full)
        span = " to ".join(dict.fromkeys((times(ratios[0]), times(ratios[-1]))))
        return f"{other} is {span} times as long as {one}{stretch_words(nest, laid.walk, laid.comparison)}."
    by = float(laid.comparison.difference[laid.size])
    if abs(by) > SAME:
        longer, shorter = (other, one) if by > 0 else (one, other)
        return f"{longer} is {laid.about}{full(abs(by), unit)} longer than {shorter}, too little to see."
    length = full(float(laid.comparison.one.length[laid.size]), unit)
    return f"{one} and {other}: {length} each."


def says(nest: Nest, names: Names, told: Told, laid: Sequence[Laid], shown: Sequence[Laid]) -> str:
    """The text alternative: the verdict, what is told, then every interval of the strips that are ``shown``."""
    sizes = nest.pattern.sizes
    parts = [f"{capital(verdict_word(told.worst))}."]
    parts += [clipped(message(graded, names)) for graded in told.loud]
    comparisons = {id(one.comparison): one for one in laid}
    for key, first in comparisons.items():
        strips = [one for one in shown if id(one.comparison) == key]
        parts.append(
            worded(
                "{one} above, {other} below.",
                dict(zip(("one", "other"), _sides(first), strict=True)),
            )
        )
        for one in strips:
            head = f"Size {nest.sizes[one.size]}: " if sizes is not None and len(sizes.names) > 1 else ""
            parts.append(head + " ".join(_intervals(nest, names, one)))
        sound = [
            str(nest.sizes[one.size]) for one in laid if id(one.comparison) == key and one.known and one.sews
        ]
        if len(sound) > 1 or (sound and len(strips) > 1):
            parts.append(f"{listed(sound)} {'sews' if len(sound) == 1 else 'sew'}.")
        absent = [str(nest.sizes[one.size]) for one in laid if id(one.comparison) == key and not one.known]
        if absent:
            parts.append(f"Not in {listed(absent)}.")
    return " ".join(parts)


def _intervals(nest: Nest, names: Names, laid: Laid) -> Iterator[str]:
    if laid.order != "right":
        yield order_says(nest, laid)
    for bay in laid.bays:
        yield interval_says(nest, laid, bay, names.unit)
    for told in laid.ends:
        yield f"Where it {'starts' if told.at_start else 'ends'}: {told.words(names.unit)}."


def order_says(nest: Nest, laid: Laid) -> str:
    """What is drawn of an order that is wrong."""
    one, other = _sides(laid)
    if laid.order == "way":
        return f"{other} is walked against {one}: the lines between what is pinned together cross."
    crossed = [
        " and ".join(short(station_name(nest, laid.walk.id, station), MOST_LETTERS) for station in pair)
        for pair in laid.comparison.pairing.crossed[:MOST]
    ]
    return f"The lines at {listed(crossed)} cross: they stand in another order on {other} than on {one}."


def interval_says(nest: Nest, laid: Laid, bay: Bay, unit: Unit) -> str:
    """One interval in a sentence: the stations by name, both lengths, the difference, and what is fine."""
    first, second = _cut(interval_words(nest, laid.walk, bay.interval))
    one, other = _cut(longer_and_shorter(laid.comparison, False, bay.interval))
    values: dict[str, object] = {
        "first": capital(first),
        "second": second,
        "one": one,
        "other": other,
        "long": Length(bay.one),
        "short": Length(bay.other),
    }
    said = worded("{first} to {second}: {one} {long:bare}, {other} {short}: ", values, unit)
    return said + _judged(laid, bay, one, other, unit)


def _sides(laid: Laid) -> tuple[str, str]:
    return _cut(side_pair(laid.comparison))


def _cut(names: tuple[str, str]) -> tuple[str, str]:
    return short(names[0], MOST_LETTERS), short(names[1], MOST_LETTERS)


def _judged(laid: Laid, bay: Bay, one: str, other: str, unit: Unit) -> str:
    by = bay.difference
    wanted = _wanted(laid, bay, unit)
    if bay.full and (bay.shape != "flat" or bay.judged != "fine"):
        if laid.comparison.kind in ("gathered", "stretched"):
            fits = {"fine": "", "much": ", too much", "little": ", too little", "off": ", too little"}[
                bay.judged
            ]
            if bay.is_let_pass:
                fits = ", which is let pass"
            return f"× {times(bay.ratio)}{fits}{wanted}."
        has = f"{full(by, unit)} to ease in" if by > -SAME else f"{other} is {full(-by, unit)} shorter"
        fits = {"fine": "", "much": ", too much", "little": ", too little", "off": ", too little"}[bay.judged]
        return f"{has}{fits}{wanted}."
    if abs(by) < SAME:
        return "equal."
    longer = other if by > 0 else one
    fine = f"fine to {full(laid.fine, unit)}"
    return f"{longer} {laid.about}{full(abs(by), unit)} longer; {fine}."


def _wanted(laid: Laid, bay: Bay, unit: Unit) -> str:
    wanted = laid.comparison.wanted
    if wanted is None or bay.wanted is None:
        return ""
    least, most = float(wanted.least[laid.size]), float(wanted.most[laid.size])
    if wanted.unit == "ratio":
        return f" (wanted: {times(least)} to {times(most)} times)"
    where = " in all" if len(laid.comparison.full) > 1 else ""
    return f" (wanted{where}: {full(least, unit)} to {full(most, unit)})"
