"""Words written with single strokes."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.values import frozen

Complexes = NDArray[np.complex128]

CAPITAL = 0.7
"""The height of a capital as a share of the type's height; common practice, no source."""
GRID = 6.0
"""Steps of the letters' grid that a capital is high."""
SMALL = 4.0
"""The same for a small letter."""
BETWEEN = 1.4
"""Grid steps between two letters."""
BLANK = 2.4
_BELOW = frozenset("\u0323\u0326\u0327\u0328")
_BOX = "\ufffd"
_DOTLESS = {"i": "ı", "j": "ȷ"}


@frozen
class Letter:
    """A sign's width and strokes, in steps of the grid."""

    wide: float
    strokes: tuple[Complexes, ...]

    @property
    def top(self) -> float:
        """How high it reaches."""
        return max((float(stroke.imag.max()) for stroke in self.strokes), default=0.0)


@cache
def letters() -> Mapping[str, Letter]:
    """All signs that are known by themselves."""
    text = files("notchwork_plugins.hpgl").joinpath("letters.txt").read_text(encoding="utf-8")
    rows = [line.split(" ", 2) for line in text.splitlines()[2:]]
    return {_sign(sign): Letter(float(wide), tuple(_strokes(drawn))) for sign, wide, drawn in rows}


def _sign(said: str) -> str:
    return chr(int(said[2:], 16)) if said.startswith("U+") else said


def _strokes(drawn: str) -> Iterator[Complexes]:
    for stroke in drawn.split(" / "):
        pairs = [point.split(",") for point in stroke.split()]
        yield np.array([complex(float(x), float(y)) for x, y in pairs])


@cache
def letter(sign: str) -> Letter | None:
    """How a sign is written: as it is known, put together of letter and accents, or spelt; None where it cannot be."""
    if sign in letters():
        return letters()[sign]
    if sign.isspace():
        return Letter(BLANK, ())
    apart = unicodedata.normalize("NFD", sign)
    if len(apart) > 1 and apart[0] in letters() and all(mark in letters() for mark in apart[1:]):
        return _accented(apart[0], apart[1:])
    spelt = unicodedata.normalize("NFKD", sign)
    if spelt != sign and len(spelt) <= 8 and all(letter(part) is not None for part in spelt):
        return _row([known for part in spelt if (known := letter(part)) is not None])
    return None


def _accented(base: str, marks: str) -> Letter:
    above = any(mark not in _BELOW for mark in marks)
    known = letters()[_DOTLESS.get(base, base) if above else base]
    strokes, top = list(known.strokes), known.top + 0.7
    for mark in marks:
        low = 0.0 if mark in _BELOW else top
        strokes += [stroke + complex(known.wide / 2, low) for stroke in letters()[mark].strokes]
        top += 0.0 if mark in _BELOW else 1.8
    return Letter(known.wide, tuple(strokes))


def _row(row: list[Letter]) -> Letter:
    strokes: list[Complexes] = []
    x = 0.0
    for known in row:
        strokes += [stroke + x for stroke in known.strokes]
        x += known.wide + BETWEEN
    return Letter(max(x - BETWEEN, 0.0), tuple(strokes))


def missing(words: str) -> tuple[str, ...]:
    """The signs that stand as boxes."""
    return tuple(dict.fromkeys(sign for sign in _composed(words) if letter(sign) is None))


def strokes(text: Text) -> tuple[Complexes, ...]:
    """A line of words as strokes (mm) where it stands; signs that are not known are boxes."""
    row = _row([letter(sign) or letters()[_BOX] for sign in _composed(text.words)])
    step = CAPITAL * text.height / GRID
    left = {"start": 0.0, "middle": -row.wide / 2, "end": -row.wide}[text.anchor]
    turn = step * complex(np.exp(1j * np.radians(text.angle)))
    return tuple(text.at + turn * (stroke + left) for stroke in row.strokes)


def _composed(words: str) -> str:
    """Accents joined to their letters where such a sign exists; what cannot be seen left away."""
    return "".join(
        " " if sign.isspace() else sign
        for sign in unicodedata.normalize("NFC", words)
        if sign.isspace() or unicodedata.category(sign) not in ("Cc", "Cf", "Cs")
    )
