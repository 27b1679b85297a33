"""How large the drawing is: what it says of its own size, and what that makes of its units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from notchwork.findings import Finding, Length, Place, Ratio, Rule
from notchwork.recognise.rules import inference

AGREES = 0.02
"""Scales this near to each other are one: figures are rounded."""

SETTLED = inference(
    "scale",
    "The drawing says how large it is",
    "A test square that a text names, or a dimension with its figure, tells how many mm of cloth a mm of the drawing stands for. "
    "Figures are rounded, so it is compared with what is usual before anything is changed.",
    "Common practice, no source.",
)
DOUBTFUL = inference(
    "scale-doubtful",
    "Two scales are plausible",
    "What the drawing says of its size does not agree with itself, or with the units of the file. Every length hangs on it.",
    "Common practice, no source.",
)
ASSUMED = inference(
    "scale-not-said",
    "Nothing says how large the drawing is",
    "The file has no units and the drawing no test square or dimension that a text names. Its own numbers are taken as mm.",
    "Common practice, no source.",
)


@dataclass(frozen=True, slots=True)
class Gauge:
    """A length (mm) that a text states, what is drawn (mm of the drawing), how far the figure may be rounded, and where.

    ``own``: it is stated by the drawing's own facts, which tell its size only where the file does not.
    """

    stated: float
    drawn: float
    rounded: float
    words: str
    at: complex
    is_test: bool = False
    own: bool = False

    @property
    def scale(self) -> float:
        return self.stated / self.drawn

    def agrees(self, scale: float) -> bool:
        """Whether the figure is right at a scale, as rounded."""
        return abs(self.stated - self.drawn * scale) <= max(self.rounded, AGREES * self.stated)


def settle(known: float | None, gauges: Sequence[Gauge]) -> tuple[float, list[Finding]]:
    """The scale by which the drawing is to be multiplied, and what is to be said of it.

    ``known`` is what the file's units say, None where they say nothing. A test square goes before dimensions, and both
    before the file's units.
    """
    gauges = [gauge for gauge in gauges if known is None or not gauge.own]
    if not gauges:
        if known is not None:
            return known, []
        return 1.0, [
            Finding(
                ASSUMED, Place(), "Nothing says how large the drawing is; its numbers are taken as mm.", _HOW
            )
        ]
    judges = [gauge for gauge in gauges if gauge.is_test] or list(gauges)
    candidates = [1.0 if known is None else known, *(gauge.scale for gauge in judges)]
    votes = [sum(gauge.agrees(scale) for gauge in judges) for scale in candidates]
    best = candidates[votes.index(max(votes))]
    against = [gauge for gauge in gauges if not gauge.agrees(best)]
    found: list[Finding] = []
    if best != candidates[0] or known is None:
        found.append(
            _said(
                SETTLED,
                next(gauge for gauge in judges if gauge.agrees(best)),
                best,
                "{words} is drawn {drawn} long, so a mm of the drawing is {scale} mm of cloth.",
            )
        )
    if 2 * len(against) >= len(gauges) or (len(judges) < len(gauges) and against):
        found.append(
            _said(
                DOUBTFUL,
                against[0],
                best,
                "{words} is drawn {drawn} long, which does not agree with a scale of {scale}.",
            )
        )
    return best, found


_HOW = "Draw a test square with its size beside it, or state the scale."


def _said(rule: Rule, gauge: Gauge, scale: float, text: str) -> Finding:
    values = {"words": gauge.words, "drawn": Length(gauge.drawn), "scale": Ratio(scale)}
    return Finding(rule, Place(point=gauge.at), text, _HOW if rule is DOUBTFUL else "", values)
