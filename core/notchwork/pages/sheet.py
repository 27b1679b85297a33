"""Sheets: windows on drawings that are shared by all of them."""

from __future__ import annotations

from dataclasses import dataclass, field

from notchwork.drawing import About, Drawing, Group
from notchwork.findings import Finding
from notchwork.values import frozen


@frozen
class Window:
    """What of a shared drawing a sheet shows, and where: a point z (mm) of the group lies at ``turn * z + shift`` on the sheet.

    ``turn`` is of length one. ``low`` and ``high`` (mm on the sheet) are the corners of the window; nothing beyond it is printed.
    """

    group: int
    turn: complex
    shift: complex
    low: complex
    high: complex


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """One page of ``size`` mm, origin at its lower left corner, y upward: windows, ``marks`` that stand on it alone, on top of
    them, and ``ground`` below them, which holds lines only.

    ``label`` is what it is called in the plan and at the edges of its neighbours (A1, B3, …), ``title`` what a list of pages says.
    """

    size: complex
    windows: tuple[Window, ...] = ()
    marks: Group = field(default_factory=lambda: Group("marks"))
    label: str = ""
    title: str = ""
    ground: Group = field(default_factory=lambda: Group("ground"))


@dataclass(frozen=True, slots=True, eq=False)
class Sheets:
    """What is printed: ``groups`` in their own coordinates, each drawn once and shown through windows of the sheets.

    ``drawing`` is the one they were taken from; its sizes and title hold for them. ``bold`` is how much wider lines are drawn.
    """

    drawing: Drawing
    groups: tuple[Group, ...]
    sheets: tuple[Sheet, ...]
    bold: float = 1.0
    findings: tuple[Finding, ...] = ()

    @property
    def about(self) -> About:
        """What is to be said of the pattern as a whole."""
        return self.drawing.about
