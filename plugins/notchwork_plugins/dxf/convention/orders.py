"""QUANTITY and MATERIAL as cut orders.

One number is what the maker wrote, and read as words are: an even one as pairs, which is told. Two numbers are copies as drawn
and copies turned over (from memory of ASTM D6673-10, not checked). The k-th quantity belongs to the k-th material.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import reduce
from operator import and_

from notchwork.drawing import Fact, Text
from notchwork.recognise.words.ids import slug
from notchwork_plugins.dxf.convention.sheet import Sheet

TYPE = 5.0
"""Height (mm) of the words of an order; the file's own may be 0."""
PLIES = " + "
"""Between the materials of one order that are cut together; this program's own."""
_NUMBERS = re.compile(r"\s*(\d{1,4})(?:\s*[,;/ ]\s*(\d{1,4}))?\s*")


@dataclass(frozen=True, slots=True)
class Order:
    """How many copies of what: ``mirrored`` in pairs, ``turned`` over; ``guessed``: whether in pairs was not said."""

    count: int
    materials: tuple[str, ...]
    mirrored: bool = False
    turned: bool = False
    guessed: bool = False


def orders_of(sheet: Sheet) -> tuple[list[Order], list[str]]:
    """The cut orders that a block states, and what it states instead in words that are no number."""
    quantities = [value for value in sheet.stated.get("quantity", ()) if value]
    materials = [value for value in sheet.stated.get("material", ()) if value]
    found: list[Order] = []
    odd: list[str] = []
    for k, value in enumerate(quantities):
        stuff = materials[k] if len(materials) == len(quantities) else materials[0] if materials else ""
        plies = tuple(name.strip() for name in stuff.split(PLIES) if name.strip())
        numbers = _NUMBERS.fullmatch(value)
        if numbers is None:
            odd.append(f"Quantity: {value}")
        elif numbers[2] is None:
            found.append(Order(int(numbers[1]), plies, guessed=True))
        else:
            found += _both(int(numbers[1]), int(numbers[2]), plies)
    if not quantities or len(materials) not in (0, 1, len(quantities)):
        odd += [f"Material: {value}" for value in materials]
    return [order for order in found if order.count], odd


def _both(plain: int, turned: int, plies: tuple[str, ...]) -> Iterator[Order]:
    pairs = min(plain, turned)
    yield Order(2 * pairs, plies, mirrored=True)
    yield Order(plain - pairs, plies)
    yield Order(turned - pairs, plies, turned=True)


def order_texts(by_size: Mapping[str | None, list[Order]], at: complex, folded: bool) -> Iterator[Text]:
    """The orders as texts with facts; one for each size in which it is not as in the others."""
    counts = {size: Counter(orders) for size, orders in by_size.items()}
    common = reduce(and_, counts.values(), next(iter(counts.values()), Counter()))
    for order in common.elements():
        yield _text(order, at, None, folded)
    for size, own in counts.items():
        for order in (own - common).elements():
            yield _text(order, at, size, folded)


def _text(order: Order, at: complex, size: str | None, folded: bool) -> Text:
    stuff = " with ".join(order.materials) or "cut"
    how = (
        ", on the fold"
        if folded
        else ", in pairs"
        if order.mirrored
        else ", turned over"
        if order.turned
        else ""
    )
    words = f"{order.count} × {stuff}{how}"
    if order.guessed and not folded and order.count % 2 == 0:
        # Left to be read as words, so that what is inferred is told.
        return Text(at, f"cut {order.count} {stuff if order.materials else ''}".strip(), TYPE, "note")
    facts: dict[Fact, str | float] = {"quantity": float(order.count)}
    if order.materials:
        facts["material"] = ".".join(slug(name) for name in order.materials)
    if order.mirrored:
        facts["kind"] = "mirrored"
    if order.turned:
        facts["use"] = "turned"
    if size is not None:
        facts["size"] = size
    return Text(at, words if size is None else f"{size}: {words}", TYPE, "note", facts=facts)
