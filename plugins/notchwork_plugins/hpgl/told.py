"""What is told of a plot."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from notchwork.drawing import Drawing
from notchwork.findings import Count, Finding, Length, Phrase, Place, Ratio
from notchwork_plugins.hpgl import rules
from notchwork_plugins.hpgl.commands import replaced
from notchwork_plugins.hpgl.device import UNIT, Device
from notchwork_plugins.hpgl.letters import missing
from notchwork_plugins.hpgl.plot import Plot
from notchwork_plugins.hpgl.settings import Settings

_PEN = "Set the device to its full size, and measure the test square before you cut cloth by the plot."
_KNIFE = (
    "Set the device to its full size, and measure the first piece before you use the rest. Try depth and force on a scrap, and keep "
    "hands away while it moves."
)


def plotted(stated: Settings, plots: Sequence[Plot], before: float, after: float) -> Finding:
    """On how many sheets, and how far the pen goes while it is up (mm), in the drawing's order and in the plot's."""
    one = len(plots) == 1
    what = ("stretch" if one else "stretches") if math.isinf(stated.along) else ("sheet" if one else "sheets")
    return Finding(
        rules.PLOTTED,
        Place(),
        "Plotted for the {device} on {count} {what}, {long} by {wide} at most. With the pen up it travels {after} m; in the order "
        "of the drawing it would be {before} m, {times} times as far.",
        _KNIFE if stated.device.knife else _PEN,
        {
            "device": stated.device.title,
            "count": Count(len(plots)),
            "what": what,
            "long": Length(max(plot.along for plot in plots)),
            "wide": Length(max(plot.across for plot in plots)),
            "after": f"{after / 1000:.1f}",
            "before": f"{before / 1000:.1f}",
            "times": Ratio(before / after if after else 1.0),
        },
    )


def beyond_limit(stated: Settings, longest: float, unit: float) -> Iterator[Finding]:
    """That numbers were scaled."""
    if unit == UNIT:
        return
    values = {
        "long": Length(longest),
        "limit": Length(stated.device.reach(UNIT)),
        "number": f"{stated.device.largest:,}",
        "twice": Length(stated.device.reach(unit)),
    }
    yield Finding(
        rules.BEYOND_LIMIT,
        Place(),
        "The plot is {long} long, and in plain plotter units its numbers would end at {limit} ({number}), where many devices "
        "cut off without a word. It is written in steps of 0.05 mm, which reach {twice}.",
        "Measure the longest piece before you cut cloth by it; a device that knows no scaling (IP, SC) would draw it at half its size.",
        values,
    )


_JOIN = (
    "Lay the crosses at the corners of neighbouring parts on one another, and measure from cross to cross that the paper was moved "
    "on truly."
)
_JOIN_CUT = (
    "That is for templates of paper: outlines end at the edge of a part, and parts are joined by laying the crosses at their corners "
    "on one another. Cut cloth in parts only where you mean to; else take a wider or longer device, or cut it by hand."
)


def in_parts(device: Device, parts: Sequence[tuple[str, int]]) -> Iterator[Finding]:
    """Pieces that are in parts, by what they are called, with how many."""
    if not parts:
        return
    yield Finding(
        rules.IN_PARTS,
        Place(),
        "Too large for the paper or for the numbers of the device, and plotted in so many parts: {pieces}.",
        _JOIN_CUT if device.knife else _JOIN,
        {
            "pieces": tuple(
                Phrase("{name} ({count})", {"name": name, "count": Count(count)}) for name, count in parts
            )
        },
    )


def letters(drawing: Drawing, stated: Settings) -> Iterator[Finding]:
    """The signs that cannot be written."""
    every = "".join(text.words for group in drawing.groups for text in group.texts)
    if stated.text == "none" or stated.device.draw is None:
        return
    by_device = stated.text == "labels"
    if signs := tuple(dict.fromkeys(replaced(every))) if by_device else missing(every):
        yield Finding(
            rules.LETTERS,
            Place(),
            "No letter is known for {signs}: {instead} stands instead.",
            "Write the name in Latin letters, or write it on the plot by hand.",
            {"signs": signs[:20], "instead": "a question mark" if by_device else "a box"},
        )
