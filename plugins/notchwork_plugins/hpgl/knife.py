"""What is told of a plot that a knife cuts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from notchwork.draw.words import shortened
from notchwork.drawing import Drawing, Group
from notchwork.findings import Count, Finding, Phrase, Place
from notchwork_plugins.hpgl import rules
from notchwork_plugins.hpgl.device import Device
from notchwork_plugins.hpgl.nicks import nicks
from notchwork_plugins.hpgl.settings import Settings

ASKEW = 0.01
"""As the sine of an angle: pieces may lie so far off their grain, 1 cm to the metre; the program's own, no outside source."""


def cut(drawing: Drawing, stated: Settings, left_out: int) -> Iterator[Finding]:
    """What a knife makes of it."""
    if not stated.device.knife:
        return
    if len(drawing.sizes) > 1:
        yield Finding(
            rules.SEVERAL_SIZES,
            Place(),
            "The knife would cut {count} sizes one through another: {sizes}.",
            "Choose one size (--size).",
            {"count": Count(len(drawing.sizes)), "sizes": drawing.sizes},
        )
    if halves := _names(
        group for group in _pieces(drawing) if any(s.meaning == "fold" for s in group.strokes)
    ):
        yield Finding(
            rules.HALVES,
            Place(),
            "The knife cuts along the folds of what is drawn as a half: {pieces}.",
            "For cloth, have them drawn whole (--unfold); templates of paper are laid on the fold.",
            {"pieces": halves},
        )
    if once := tuple(_cut_once(drawing)):
        yield Finding(
            rules.ONCE,
            Place(),
            "Cut once each, though more are ordered: {pieces}.",
            "To have as many cut as are ordered, in either hand, add --copies.",
            {"pieces": once},
        )
    if left_out:
        yield _left_out(drawing, stated.device, left_out)


def off_grain(device: Device, laid: Iterable[tuple[Group, complex]]) -> Iterator[Finding]:
    """Pieces, each with how it was turned, whose lengthwise thread does not lie along the roll under a knife."""
    if not device.knife:
        return
    off = [
        group
        for group, turn in laid
        for stroke in group.strokes
        if stroke.meaning == "grain" and "angle" in stroke.facts
        if abs((turn * np.exp(1j * np.radians(float(stroke.facts["angle"])))).real) > ASKEW
    ]
    if pieces := _names(off):
        yield Finding(
            rules.OFF_GRAIN,
            Place(),
            "The grainline does not run along the roll: {pieces}.",
            "For cloth, have pieces turned by their grain (--turn grain, which is usual for a knife); for templates of paper it is "
            "all the same.",
            {"pieces": pieces},
        )


def _left_out(drawing: Drawing, device: Device, count: int) -> Finding:
    """What no pen draws, so many lines and words; notches that are cut as nicks are not missed."""
    notches = sum(stroke.meaning == "notch" for group in _pieces(drawing) for stroke in group.strokes)
    uncut = notches - sum(len(list(nicks(group))) for group in _pieces(drawing))
    said = "The {device} has no pen: {count} lines and words that are to be drawn were left out"
    return Finding(
        rules.NOT_DRAWN,
        Place(),
        f"{said}, and {{notches}} notches where no allowance is to cut a nick into." if uncut else f"{said}.",
        "Write on the pieces by hand what they are called, or choose a device with a pen.",
        {"device": device.title, "count": Count(max(count - notches, 0)), "notches": Count(uncut)},
    )


def _pieces(drawing: Drawing) -> Iterator[Group]:
    return (group for group in drawing.groups if "piece" in group.facts)


def _names(groups: Iterable[Group]) -> tuple[str, ...]:
    """What the pieces are called, each once."""
    called: dict[object, str] = {}
    for group in groups:
        called.setdefault(group.facts["piece"], shortened(str(group.facts.get("name", group.name))))
    return tuple(called.values())


def _cut_once(drawing: Drawing) -> Iterator[Phrase]:
    """The pieces of which more are ordered than one, with how many; none where copies are drawn."""
    if any(text.facts.get("kind") == "copy" for group in drawing.groups for text in group.texts):
        return
    for group in _pieces(drawing):
        by_size: dict[object, float] = {}
        for text in group.texts:
            if "quantity" in text.facts:
                layers = len(str(text.facts.get("material", "")).split("."))
                size = text.facts.get("size")
                by_size[size] = by_size.get(size, 0.0) + layers * float(text.facts["quantity"])
        # Orders that are the same in all sizes name none.
        count = by_size.pop(None, 0.0) + max(by_size.values(), default=0.0)
        if count > 1.0:
            yield Phrase("{name} ({count})", {"name": _names([group])[0], "count": Count(round(count))})
