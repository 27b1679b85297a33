"""Inferences put into words, each with its place on the drawing."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Text
from notchwork.findings import Count, Finding, Length, Phrase, Place, Rule
from notchwork.recognise.measures import measures, says_allowance
from notchwork.recognise.placed import Line
from notchwork.recognise.rules import (
    ASIDE,
    BESIDE,
    DOUBLED,
    GAP,
    NOTHING,
    OPEN,
    STEP,
    SWALLOWED,
    TOGETHER,
    TURN,
    UNCLEAR,
    UNKNOWN,
    WIDTH,
)
from notchwork.recognise.shape import Aside, Shape

MENDED = 0.05
"""Gaps up to this (mm) are closed without a word."""
LONG = 150.0
"""mm: a shorter open line is no outline. Common practice, no source."""
NEARLY = 0.08
"""An open line whose ends lie this share of its length apart seems meant to be closed."""
SHOWN = 6
"""Names of pieces that are listed one by one."""


def doubled(places: Sequence[complex]) -> list[Finding]:
    """Closed strokes drawn twice."""
    return at_all(DOUBLED, places, "Outlines that are drawn twice count once: {count}.")


def allowance_beside(at: complex, widths: Sequence[float | None]) -> Finding:
    """Two outlines, one in the other."""
    return _widths(
        BESIDE,
        at,
        widths,
        "Two outlines, one in the other: the inner is taken as the stitch line, the outer as the cut line{by}.",
    )


def allowance_bands(at: complex, widths: Sequence[float | None]) -> Finding:
    """Bands round a shape."""
    return _widths(BESIDE, at, widths, "The bands along the edges are taken as the allowance{by}.")


def turn_inside(at: complex, widths: Sequence[float | None]) -> Finding:
    """Strips inside an edge."""
    return _widths(
        TURN,
        at,
        widths,
        "The strips inside along its edges are taken as turns{by}, and the outline as the cut line.",
    )


def allowance_unclear(at: complex) -> Finding:
    """Bands that leave a width open."""
    return Finding(
        UNCLEAR,
        Place(point=complex(at)),
        "The width of the allowance is not the same all along an edge, so it is not known there.",
        "Let the band end where the edge does, or write the width beside it.",
    )


def parts_together(at: complex, count: int) -> Finding:
    """Shapes that abut."""
    return Finding(
        TOGETHER,
        Place(point=complex(at)),
        "{count} shapes that abut are taken as one piece.",
        "If they are pieces of their own, leave a gap between them or put each into a group.",
        {"count": Count(count)},
    )


def _widths(rule: Rule, at: complex, widths: Sequence[float | None], text: str) -> Finding:
    known = sorted({round(width, 2) for width in widths if width})
    by: object = ""
    if known:
        by = Phrase(", {low} wide", {"low": Length(known[0])})
        if known[-1] - known[0] > 0.05:
            by = Phrase(", {low} to {high} wide", {"low": Length(known[0]), "high": Length(known[-1])})
    return Finding(rule, Place(point=complex(at)), text, values={"by": by})


def at_all(
    rule: Rule, places: Sequence[complex], text: str, hint: str = "", **values: object
) -> list[Finding]:
    """One finding for all places of one kind, none without any."""
    if not len(places):
        return []
    first, *others = (Place(point=complex(z)) for z in places)
    return [Finding(rule, first, text, hint, {"count": Count(len(places)), **values}, also=tuple(others))]


def gaps_mended(gaps: Sequence[tuple[complex, float]]) -> list[Finding]:
    """Gaps wider than what is closed without a word."""
    wide = sorted(((at, width) for at, width in gaps if width > MENDED), key=lambda gap: -gap[1])
    if not wide:
        return []
    return at_all(
        GAP,
        [at for at, _ in wide],
        "Ends that do not meet were brought together in {count} places, at most {width} apart.",
        width=Length(wide[0][1]),
    )


def steps_straightened(steps: Sequence[complex]) -> list[Finding]:
    """Small steps."""
    return at_all(STEP, steps, "Steps smaller than the tolerance were straightened in {count} places.")


def nothing_says(at: complex) -> Finding:
    """Outlines that cross without any words."""
    return Finding(
        NOTHING,
        Place(point=complex(at)),
        "Nothing says which of the outlines are pieces: there are no words, and they cross each other.",
        "Write its name on each piece, or keep lines that only helped to draw on a layer of their own and hide it.",
    )


def stitch_from_cut(at: complex) -> Finding:
    """A cut line without room for its allowance."""
    return Finding(
        SWALLOWED,
        Place(point=complex(at)),
        "The allowance leaves no room for a stitch line inside this outline, so it stays a cut line.",
        "State a narrower allowance, or draw the stitch line.",
    )


def width_stated(widths: Sequence[float | None], texts: Sequence[Text]) -> list[Finding]:
    """Words that state another allowance than the one that is drawn."""
    known = sorted(width for width in widths if width)
    if not known:
        return []
    for text in texts:
        stated = measures(text.words) if says_allowance(text.words) else []
        if len(stated) == 1 and all(abs(width - stated[0]) > 0.005 for width in known):
            values: dict[str, object] = {
                "words": text.words,
                "drawn": Phrase("{low} to {high}", {"low": Length(known[0]), "high": Length(known[-1])})
                if known[-1] - known[0] > 0.05
                else Length(known[0]),
            }
            return [
                Finding(
                    WIDTH,
                    Place(point=text.at),
                    "“{words}” is said, and {drawn} is drawn; the drawn width is used.",
                    values=values,
                )
            ]
    return []


def open_outlines(loose: Sequence[Line], of_none: Sequence[Line], tol: float) -> list[Finding]:
    """Long open lines of no piece whose ends lie so near that they seem meant to meet."""
    seem = [
        line
        for line in of_none
        if line.length > LONG and tol < abs(line.end - line.start) < NEARLY * line.length
    ]
    return [outline_open(str(line.stroke.facts.get("name", line.within[-1])), [line]) for line in seem]


def mended(at: complex, width: float) -> Finding:
    """A gap that was closed."""
    return Finding(
        GAP, Place(point=at), "Ends {width} apart were brought together.", values={"width": Length(width)}
    )


def outline_open(name: str, lines: Sequence[Line]) -> Finding:
    """An outline whose lines do not close, with the widest gap between ends that have no partner."""
    ends = np.array([z for line in lines if not line.closed for z in (line.start, line.end)])
    far = np.abs(ends[:, None] - ends[None, :])
    np.fill_diagonal(far, np.inf)
    worst = int(far.min(axis=1).argmax()) if len(ends) > 1 else 0
    gap = float(far.min(axis=1)[worst]) if len(ends) > 1 else 0.0
    return Finding(
        OPEN,
        Place(point=complex(ends[worst]) if len(ends) else None),
        "The outline of “{name}” does not close: {gap} are missing ({count} strokes).",
        "Draw it closed, or read the drawing with a larger tolerance.",
        {"name": name, "gap": Length(gap), "count": Count(len(lines))},
    )


def set_aside(things: Sequence[Aside]) -> list[Finding]:
    """One finding for each kind of thing that was set aside."""
    kinds: dict[str, list[complex]] = {}
    for thing in things:
        kinds.setdefault(thing.what, []).append(thing.at)
    found: list[Finding] = []
    for what, places in kinds.items():
        found += at_all(ASIDE, places, "Set aside as {what}: {count}.", what=what)
    return found


def not_known(shapes: Sequence[Shape]) -> list[Finding]:
    """The pieces of whose outline nothing says what it is."""
    names = tuple(dict.fromkeys(shape.ident for shape in shapes if shape.kind != "stitch"))
    if not names:
        return []
    shown = (*names[:SHOWN], f"{len(names) - SHOWN} more") if len(names) > SHOWN + 1 else names
    return [
        Finding(
            UNKNOWN,
            Place(),
            "Of {names} one outline is drawn, and nothing says whether it is the stitch line, or how far the cut line lies from it.",
            "Read the drawing with --outline stitch, or with --outline cut and --allowance and its width.",
            {"names": shown},
            pieces=names,
        )
    ]
