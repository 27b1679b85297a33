"""What a person states of a plot."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import get_args

from notchwork.findings import NotchworkError, listed
from notchwork.pages import Paper
from notchwork.values import frozen
from notchwork_plugins.hpgl.device import Device, Lettering
from notchwork_plugins.hpgl.options import DEFAULT, MOST_OVERCUT
from notchwork_plugins.hpgl.profile import device

MARGIN = 5.0
"""mm that a device leaves free at the edges of a paper, unless ``--margin`` says otherwise; common practice, no source."""
LEAST = 60.0
"""mm: a smaller sheet holds nothing of a pattern."""


@frozen
class Settings:
    """The device, what it can reach of the paper across and along (mm; inf for a roll), how words are written, and the
    overcut in mm."""

    device: Device
    across: float
    along: float
    text: Lettering
    overcut: float


def settings(paper: Paper, options: Mapping[str, str]) -> Settings:
    """What is stated, with the device's own where nothing is. Raises NotchworkError."""
    chosen = device(options.get("device", DEFAULT))
    if paper.layout is not None or paper.overlap is not None or paper.bold or paper.join != "overlap":
        raise NotchworkError(
            "A plot",
            "Layout, joins, overlap and bold lines are for printed pages.",
            "Leave them out: parts of a piece that is too long are joined edge to edge.",
        )
    if paper.margin is not None and not paper.sizes:
        raise NotchworkError(
            "Margin",
            "It is left free at the edges of a paper, and none is named.",
            "Name the paper too (--paper); what the device itself cannot reach is left free without it.",
        )
    across, along = _area(chosen, paper)
    if across < LEAST or along < LEAST:
        raise NotchworkError(
            chosen.title, "Hardly anything of that paper can be reached.", "Choose a larger one."
        )
    return Settings(chosen, across, along, _lettering(chosen, options), _overcut(chosen, options))


def _area(chosen: Device, paper: Paper) -> tuple[float, float]:
    """What both the device and every paper have, the longer side along."""
    across, along = chosen.across, chosen.along
    margin = 2.0 * (MARGIN if paper.margin is None else paper.margin)
    for size in paper.sizes:
        short, long = (size.wide, size.tall) if size.is_roll else sorted((size.wide, size.tall))
        across, along = min(across, short - margin), min(along, long - margin)
    return across, along


def _lettering(chosen: Device, options: Mapping[str, str]) -> Lettering:
    said = options.get("text", chosen.text).strip().lower()
    for known in get_args(Lettering):
        if said == known:
            return known  # type: ignore[no-any-return]
    raise NotchworkError(
        "Option text", f"It cannot be “{said[:40]}”.", f"Choose {listed(get_args(Lettering), 'or')}."
    )


def _overcut(chosen: Device, options: Mapping[str, str]) -> float:
    said = options.get("overcut", "0")
    try:
        value = float(said.strip().removesuffix("mm"))
    except ValueError:
        value = math.nan
    if not 0.0 <= value <= MOST_OVERCUT:
        raise NotchworkError(
            "Option overcut",
            f"It cannot be “{said[:40]}”.",
            f"Give mm from 0 to {MOST_OVERCUT:g}, such as 0.5.",
        )
    if value and not chosen.knife:
        raise NotchworkError(
            "Option overcut",
            f"The {chosen.title} has no knife.",
            "Leave it out, or choose a cutter (-O device=cutter-600, or a profile with knife = true).",
        )
    return value
