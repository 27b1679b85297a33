"""Lines, points and fillings as operators of a content stream. Source: ISO 32000-1:2008, 8.4 and 8.5."""

from __future__ import annotations

import numpy as np

from notchwork.drawing import LineStyle
from notchwork.drawing.drawing import Complexes
from notchwork.geometry import is_straight
from notchwork_plugins.pdf.numbers import DIGITS, mm, pair

BREAK = 1e-6
"""mm: a cubic that begins further than this from where the one before it ends is a new run."""
ROUND, BUTT = 1, 0
_QUARTER = 4 * (2**0.5 - 1) / 3
"""How far the handles of a quarter of a circle reach, as a share of its radius."""


class Ink:
    """A content stream that grows. What is set stays set, so only what changes is written."""

    def __init__(self) -> None:
        self._said: list[str] = []
        self._set: dict[str, str] = {}

    def __len__(self) -> int:
        return len(self._said)

    @property
    def data(self) -> bytes:
        """The stream as it stands."""
        return "\n".join([*self._said, ""]).encode("ascii")

    def say(self, *operators: str) -> None:
        """Operators as they are."""
        self._said += operators

    def line(self, style: LineStyle) -> None:
        """How lines look from here on."""
        self._state("colour", _colour(style.colour, "RG", "G"))
        self._state("width", f"{mm(style.width)} w")
        self._state("dashes", f"[{' '.join(map(mm, style.dashes))}] 0 d")
        # Round caps would close short gaps and make dots of dashes.
        self._state("caps", f"{BUTT if style.dashes and min(style.dashes) >= 1.0 else ROUND} J")
        self._state("joins", f"{ROUND} j")

    def filling(self, colour: str) -> None:
        """The colour of fillings and letters from here on."""
        self._state("filling", _colour(colour, "rg", "g"))

    def path(self, cubics: Complexes, closed: bool, shift: complex, paint: str) -> None:
        """A run of cubics (n, 4) in mm, painted."""
        if len(cubics):
            self._said.append(_path(cubics, closed, shift) + paint)

    def spot(self, centre: complex, radius: float) -> None:
        """A filled circle; lengths in mm."""
        turns = (1, 1j, -1, -1j)
        arcs = [[radius * turn * z for z in (1, 1 + _QUARTER * 1j, _QUARTER + 1j, 1j)] for turn in turns]
        self.path(np.array(arcs), True, centre, "f")

    def _state(self, name: str, operator: str) -> None:
        if self._set.get(name) != operator:
            self._set[name] = operator
            self._said.append(operator)


def _path(cubics: Complexes, closed: bool, shift: complex) -> str:
    z = np.round(cubics + shift, DIGITS)
    straight = is_straight(cubics, 0.5 * 10.0**-DIGITS).tolist()
    apart = np.concatenate([[True], np.abs(cubics[1:, 0] - cubics[:-1, 3]) > BREAK])
    points, begins = z.tolist(), apart.tolist()
    last, single = len(points) - 1, not apart[1:].any()
    parts: list[str] = []
    for k, (start, out, into, end) in enumerate(points):
        if begins[k]:
            parts.append(f"{pair(start)} m ")
        if straight[k]:
            # The last side of a polygon is what closing draws.
            if not (closed and single and k == last > 0 and end == points[0][0]):
                parts.append(f"{pair(end)} l ")
        else:
            parts.append(f"{pair(out)} {pair(into)} {pair(end)} c ")
    return "".join(parts) + ("h " if closed else "")


def _colour(code: str, rgb: str, grey: str) -> str:
    """``#rrggbb`` as an operator; a grey as a grey, so that it is printed with black alone."""
    shares = [int(code[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    if shares[0] == shares[1] == shares[2]:
        return f"{mm(shares[0])} {grey}"
    return f"{' '.join(map(mm, shares))} {rgb}"
