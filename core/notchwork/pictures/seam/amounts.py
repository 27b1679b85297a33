"""The figures beside a bay, in the person's unit: what is too long, what is eased in, how full it is drawn up."""

from __future__ import annotations

from notchwork.findings import Length, Ratio, worded
from notchwork.model import Unit
from notchwork.pictures.laid import SAME, Bay, Laid

_OUT = {
    ("gathered", "little"): "flat",
    ("gathered", "much"): "full",
    ("stretched", "little"): "tight",
    ("stretched", "much"): "loose",
}
"""What a side is that is drawn up too little or too much."""


def bare(mm: float, unit: Unit) -> str:
    """A length without its unit."""
    return worded("{length:bare}", {"length": Length(mm)}, unit)


def full(mm: float, unit: Unit) -> str:
    """A length with its unit."""
    return worded("{length}", {"length": Length(mm)}, unit)


def times(ratio: float) -> str:
    """How many times."""
    return worded("{ratio}", {"ratio": Ratio(ratio)})


def figure(laid: Laid, bay: Bay, unit: Unit) -> tuple[str, str] | None:
    """The words beside a bay and their kind; None for one that lies flat."""
    if bay.shape == "flat":
        return None
    by = abs(bay.difference)
    kind = laid.comparison.kind
    if bay.judged == "off":
        return f"{laid.about}{bare(by, unit)} longer", "figure"
    if bay.shape == "wave" and bay.full and kind != "eased":
        said = f"× {times(bay.ratio)}"
        return (said, "muted") if bay.judged == "fine" else (f"{said} {_out(kind, bay)}", "figure")
    if bay.judged == "little":
        return "too flat", "figure"
    if bay.difference < -SAME:
        return f"{laid.about}{bare(by, unit)} longer", "ease"
    return f"{laid.about}{bare(by, unit)} ease", "ease" if bay.judged == "fine" else "figure"


def _out(kind: str, bay: Bay) -> str:
    return _OUT.get((kind, bay.judged), "full" if bay.judged == "much" else "flat")
