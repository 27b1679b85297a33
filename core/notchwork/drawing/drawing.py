"""Hub 2: a drawing. Strokes, points and texts in groups, in mm, y upward, each with a meaning or none; never a file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing.about import About
from notchwork.drawing.meaning import FACTS, MEANINGS, Facts, Meaning
from notchwork.findings import PersonUnit
from notchwork.geometry import bounds

Complexes = NDArray[np.complex128]
Anchor = Literal["start", "middle", "end"]

ADVANCE = 0.58
"""The width of a letter as a share of the type's height, on average over common sans-serif faces; for laying out only."""


@dataclass(frozen=True, slots=True)
class Look:
    """How a stroke looks in the drawing it came from: colours as ``#rrggbb``, None where no line or no filling is drawn.

    ``width`` and ``dashes`` (drawn, left out, ...) are in mm.
    """

    line: str | None = "#000000"
    filling: str | None = None
    width: float = 0.0
    dashes: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Stroke:
    """A run of cubics (k, 4) in mm; ``closed`` joins its end to its start.

    ``look`` is how it was drawn, None where that is not known or follows from what it means.
    """

    cubics: Complexes
    meaning: Meaning | None = None
    closed: bool = False
    facts: Facts = field(default_factory=dict)
    look: Look | None = None


@dataclass(frozen=True, slots=True)
class Dot:
    """A point in mm: a drill hole, a button, the point of a dart."""

    at: complex
    meaning: Meaning | None = None
    facts: Facts = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words. ``at`` (mm) lies on its base line; ``height`` is the type's size in mm, ``angle`` in degrees."""

    at: complex
    words: str
    height: float
    meaning: Meaning | None = None
    anchor: Anchor = "start"
    angle: float = 0.0
    facts: Facts = field(default_factory=dict)

    @property
    def box(self) -> tuple[complex, complex, complex, complex]:
        """The corners (mm) of about the space the words take, from the lower left, counter-clockwise."""
        wide = ADVANCE * self.height * len(self.words)
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[self.anchor]
        turn = complex(np.exp(1j * np.radians(self.angle)))
        low, high = -0.25 * self.height, 0.8 * self.height
        corners = (
            complex(left, low),
            complex(left + wide, low),
            complex(left + wide, high),
            complex(left, high),
        )
        a, b, c, d = (self.at + turn * corner for corner in corners)
        return a, b, c, d


@dataclass(frozen=True, slots=True, eq=False)
class Group:
    """What belongs together: a piece, a layer, a legend. Its parts lie where their numbers say, moved by ``shift`` (mm).

    ``within`` names the layers, groups or blocks round it, the outermost first.
    """

    name: str
    strokes: tuple[Stroke, ...] = ()
    dots: tuple[Dot, ...] = ()
    texts: tuple[Text, ...] = ()
    shift: complex = 0j
    facts: Facts = field(default_factory=dict)
    within: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        parts: list[Stroke | Dot | Text] = [*self.strokes, *self.dots, *self.texts]
        for facts in (self.facts, *(part.facts for part in parts)):
            if unknown := set(facts) - FACTS:
                raise ValueError(f"a drawing has no such facts: {', '.join(sorted(unknown))}")
        for part in parts:
            if part.meaning is not None and part.meaning not in MEANINGS:
                raise ValueError(f"a drawing has no such meaning: {part.meaning}")

    @property
    def bounds(self) -> tuple[complex, complex] | None:
        """Lower left and upper right corner (mm) of all it holds, as placed; None where it holds nothing."""
        corners = [corner for text in self.texts for corner in text.box] + [dot.at for dot in self.dots]
        drawn = [stroke.cubics for stroke in self.strokes if len(stroke.cubics)]
        if drawn:
            corners += bounds(np.concatenate(drawn))
        if not corners:
            return None
        z = np.array(corners) + self.shift
        return complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())


@dataclass(frozen=True, slots=True, eq=False)
class Drawing:
    """Groups side by side. ``unit`` is what their maker counts in; every number here is in mm all the same.

    ``sizes`` are named in order where what is drawn holds for several, ``base`` is the one that is drafted. ``scale`` is how
    many mm of cloth a mm of the drawing stands for, None where that is not known. ``rules`` is a grade table: by rule and
    size a shift in mm from the base size. ``attached`` is a document that came or goes along, unread. ``fine`` (mm) is how far its
    lines may lie beside those they stand for: 0 where they are as they were drawn, more where a file had chords of them.
    ``about`` is what a first page says of the whole.
    """

    groups: tuple[Group, ...]
    title: str = ""
    sizes: tuple[str, ...] = ()
    base: str | None = None
    scale: float | None = 1.0
    rules: Mapping[str, Mapping[str, complex]] = field(default_factory=dict)
    attached: bytes | None = None
    unit: PersonUnit = "mm"
    fine: float = 0.0
    about: About = field(default_factory=About)

    @property
    def bounds(self) -> tuple[complex, complex] | None:
        """Lower left and upper right corner (mm) of all groups; None of an empty drawing."""
        found = [box for group in self.groups if (box := group.bounds) is not None]
        if not found:
            return None
        low, high = np.array([box[0] for box in found]), np.array([box[1] for box in found])
        return complex(low.real.min(), low.imag.min()), complex(high.real.max(), high.imag.max())

    def strokes(self, meaning: Meaning | None) -> Iterator[tuple[Group, Stroke]]:
        """Every stroke of one meaning with its group."""
        for group in self.groups:
            for stroke in group.strokes:
                if stroke.meaning == meaning:
                    yield group, stroke
