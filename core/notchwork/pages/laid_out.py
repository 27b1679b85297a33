"""A drawing on the paper that was chosen."""

from __future__ import annotations

from dataclasses import replace

from notchwork.drawing import Drawing
from notchwork.pages.layouts.one_sheet import on_sheets
from notchwork.pages.layouts.projector import projected
from notchwork.pages.layouts.tiled import tiled
from notchwork.pages.order import Order, ordered
from notchwork.pages.paper import Paper
from notchwork.pages.sheet import Sheet, Sheets, Window

BOLD = 2.0
"""How much wider bold lines are."""
LIGHT = 2.0
"""How much wider lines are in a beam, whose dots are about half a mm to a mm wide on the table; common practice, no source."""


def laid_out(drawing: Drawing, paper: Paper | None = None) -> Sheets:
    """The sheets on which a drawing is printed, every piece at its size.

    Raises NotchworkError for paper on which nothing can be printed so, with what to choose instead.
    """
    paper = paper or Paper()
    order = ordered(drawing, paper)
    match order.layout:
        case "tiles":
            sheets, findings = tiled(order)
        case "sheet":
            sheets, findings = on_sheets(order)
        case "projector":
            sheets, findings = projected(order)
    bold = (BOLD if paper.bold else 1.0) * (LIGHT if order.layout == "projector" else 1.0)
    return Sheets(drawing, order.groups, tuple(_from_drawn(sheet, order) for sheet in sheets), bold, findings)


def _from_drawn(sheet: Sheet, order: Order) -> Sheet:
    """The sheet with its windows' turns counted from the drawing, not from how pieces were turned first."""

    def counted(window: Window) -> Window:
        turn = window.turn * order.first[window.group]
        return Window(window.group, turn, window.shift, window.low, window.high)

    return replace(sheet, windows=tuple(counted(window) for window in sheet.windows))
