"""What is to be said of large sheets: that there are several, and why."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from notchwork.findings import Count, Finding, Length, Phrase, Place
from notchwork.pages.layouts.allot import Allotted
from notchwork.pages.layouts.split import extent
from notchwork.pages.order import Order
from notchwork.pages.papers import roll_for
from notchwork.pages.reading.scale import MOST
from notchwork.pages.rules import MORE_SHEETS, ROLL_LENGTH, SPLIT_SHEET, WIDER_THAN_PAPER
from notchwork.pages.setting.labels import name_of
from notchwork.pages.sheet import Sheet

_PRINTED = "it is printed on {count} sheets, which are joined along printed lines."
_JOIN = "Join them as the plan of assembly shows"
_ELSE = f"{_JOIN}, or take {{roll}}, or print tiles (--layout tiles)."
_TOO_WIDE = (
    WIDER_THAN_PAPER,
    f"{{piece}} is at least {{across}} wide whichever way it is turned, and {{paper}} leaves {{wide}} inside its margins: {_PRINTED}",
    _ELSE,
)
_TOO_LONG = (
    WIDER_THAN_PAPER,
    f"{{piece}} is {{along}} long, and {{paper}} leaves {{wide}} by {{tall}} inside its margins: {_PRINTED}",
    _ELSE,
)
_TOO_LONG_FOR_PDF = (
    SPLIT_SHEET,
    f"{{piece}} is {{along}} long, and a page of a PDF is at most {{most}}: {_PRINTED}",
    f"{_JOIN}.",
)


def on_roll(order: Order, sheets: Sequence[Sheet]) -> Iterator[Finding]:
    """How long (mm) the sheets that are cut off a roll are together."""
    if math.isinf(order.page.imag):
        long = sum(sheet.size.imag for sheet in sheets if sheet.size.real == order.page.real)
        values = {"long": Length(long), "roll": order.paper}
        yield Finding(ROLL_LENGTH, Place(), "It takes {long} of the {roll}.", values=values)


def told(order: Order, laid: Allotted, page: complex, sheets: Mapping[int, int]) -> Iterator[Finding]:
    """Findings for pieces that fit no sheet, ``sheets`` being on how many each is, and for sheets beyond the first."""
    is_roll = math.isinf(order.page.imag)
    left = page - 2 * complex(order.margin, order.margin)
    for k in laid.large:
        group = order.groups[k]
        across, along = extent(order.shapes[k])
        values = {
            "piece": name_of(group),
            "across": Length(across),
            "along": Length(along),
            "wide": Length(left.real),
            "tall": Length(left.imag),
            "paper": order.paper,
            "count": Count(sheets[k]),
            "roll": _roll(across + 2 * order.margin),
            "most": Length(MOST),
        }
        too_long = _TOO_LONG_FOR_PDF if is_roll and along > left.imag else _TOO_LONG
        rule, text, hint = _TOO_WIDE if across > min(left.real, left.imag) else too_long
        yield Finding(rule, Place(piece=str(group.facts.get("piece", group.name))), text, hint, values)
    count = len(laid.wholes) + (0 if is_roll else laid.joined)
    if is_roll and count > 1:
        yield Finding(
            SPLIT_SHEET,
            Place(),
            "All pieces together are longer than {most}, the most that a page of a PDF can be: they are on {count} sheets, each "
            "piece whole.",
            "Print all of them; nothing is joined.",
            {"most": Length(MOST), "count": Count(count)},
        )
    elif count > 1:
        yield Finding(
            MORE_SHEETS,
            Place(),
            "Not all pieces fit on one sheet of {paper}: there are {count}.",
            "Print all of them, or on a roll, which is as long as it needs to be.",
            {"paper": order.paper, "count": Count(count)},
        )


def _roll(wide: float) -> Phrase:
    """A roll of at least that width (mm), by its name if there is a usual one."""
    usual = roll_for(wide)
    if usual is None:
        return Phrase("a roll of {wide} or more", {"wide": Length(wide)})
    return Phrase("a {roll}", {"roll": usual.name})
