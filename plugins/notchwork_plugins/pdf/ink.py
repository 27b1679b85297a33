"""What is set and painted in a content stream. Source: ISO 32000-1:2008, 8.4 and 8.5."""

from __future__ import annotations

from functools import lru_cache

from notchwork.drawing import LineStyle
from notchwork_plugins.pdf.numbers import fine, um

_ROUND, _BUTT = 1, 0
"""Caps and joins (8.4.3)."""


class Ink:
    """A content stream that grows. What is set stays set, so only what changes is written."""

    def __init__(self) -> None:
        self._said: list[str] = []
        self._line: LineStyle | None = None
        self._filling = ""
        self._set: dict[str, str] = {}

    @property
    def data(self) -> bytes:
        """The stream as it stands."""
        return "\n".join([*self._said, ""]).encode("ascii")

    def say(self, operators: str) -> None:
        """Operators as they are."""
        self._said.append(operators)

    def line(self, style: LineStyle) -> None:
        """How lines look from here on; ``width`` and ``dashes`` in mm."""
        if style == self._line:
            return
        self._line = style
        for name, operator in _line_operators(style):
            if self._set.get(name) != operator:
                self._set[name] = operator
                self._said.append(operator)

    def filling(self, colour: str) -> None:
        """The colour (``#rrggbb``) of fillings and letters from here on."""
        if colour != self._filling:
            self._filling = colour
            self._said.append(_colour(colour, "rg", "g"))


@lru_cache(maxsize=256)
def _line_operators(style: LineStyle) -> tuple[tuple[str, str], ...]:
    # Round caps would close short gaps and make dots of dashes.
    cap = _BUTT if style.dashes and min(style.dashes) >= 1.0 else _ROUND
    return (
        ("colour", _colour(style.colour, "RG", "G")),
        ("width", f"{um(style.width)} w"),
        ("dashes", f"[{' '.join(str(um(dash)) for dash in style.dashes)}] 0 d"),
        ("caps", f"{cap} J"),
        ("joins", f"{_ROUND} j"),
    )


@lru_cache(maxsize=256)
def _colour(code: str, rgb: str, grey: str) -> str:
    """A colour as an operator; a grey as a grey, so that it is printed with black alone."""
    shares = [fine(round(int(code[k : k + 2], 16) / 255, 3)) for k in (1, 3, 5)]
    if shares[0] == shares[1] == shares[2]:
        return f"{shares[0]} {grey}"
    return f"{' '.join(shares)} {rgb}"
