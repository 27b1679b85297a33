"""How wide words are, and where they break, before any font is at hand."""

from __future__ import annotations

import re

from notchwork.drawing import Text, text_style

_WIDTHS = {
    0.35: " ijlI|.,:;'’‘",
    0.44: "tfr!()[]/\\-·",
    0.60: 'cskvxyzJFL?“”"*_–`',
    0.64: "abdeghnopqu0123456789EPTS$€",
    0.72: "{}ZABKRVXY°",
    0.79: "CDGHNOQU&",
    0.84: "#+=<>~^×÷±",
    1.00: "mMwW@%—…",
}
"""How many type sizes a letter is wide: upper bounds of groups of letters in DejaVu Sans, a wide face among sans-serifs."""
_WIDTH = {letter: wide for wide, letters in _WIDTHS.items() for letter in letters}
_OTHER, _WIDER = 0.79, 1.15
"""Of letters that stand nowhere above; and by how much bold ones are wider, if they are not narrow ones."""
_UNIT, _TIE = re.compile(r"(?<=\d) (?=(?:%|mm|cm|in|×)(?!\w))|(?<=×) "), "\0"
_FULL = 0x1100
"""From here on letters are as wide as they are high."""
_CUT_OFF = "…"


def width(words: str, height: float, bold: bool = False) -> float:
    """About how wide (mm) a line of words is at a type size (mm): rather more than less."""
    return sum(map(_em, words)) * _size(height, bold)


def fitting(words: str, height: float, wide: float, bold: bool = False) -> int:
    """How many letters from the first on are together no wider than ``wide`` (mm). No letter beyond is looked at."""
    most, ems = wide / _size(height, bold), 0.0
    for count, letter in enumerate(words):
        ems += _em(letter)
        if ems > most:
            return count
    return len(words)


def _em(letter: str) -> float:
    return _WIDTH.get(letter, 1.0 if ord(letter) >= _FULL else _OTHER)


def _size(height: float, bold: bool) -> float:
    return height * (_WIDER if bold else 1.0)


def box(text: Text) -> tuple[complex, complex]:
    """Lower left and upper right corner (mm) of about the space that level or upright words take."""
    wide = width(text.words, text.height, text_style(text.meaning).bold)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
    turn = {0: 1, 90: 1j, 180: -1, 270: -1j}[round(text.angle) % 360]
    a = text.at + turn * complex(left, -0.25 * text.height)
    b = text.at + turn * complex(left + wide, 0.8 * text.height)
    return complex(min(a.real, b.real), min(a.imag, b.imag)), complex(
        max(a.real, b.real), max(a.imag, b.imag)
    )


def wrapped(words: str, height: float, wide: float, bold: bool = False) -> tuple[str, ...]:
    """Words as lines that are no wider than ``wide`` (mm). A word that is wider than a line is broken where it must be.

    A number stays with its unit.
    """
    lines: list[str] = []
    line = ""
    for tied in _UNIT.sub(_TIE, " ".join(words.split())).split(" "):
        word = tied.replace(_TIE, " ")
        longer = f"{line} {word}" if line else word
        if width(longer, height, bold) <= wide:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while (fits := max(1, fitting(line, height, wide, bold))) < len(line):
            lines.append(line[:fits])
            line = line[fits:]
    return (*lines, line) if line or not lines else tuple(lines)


def shortened(words: str, height: float, wide: float, bold: bool = False) -> str:
    """Words on one line, cut off with an ellipsis where they are wider than ``wide`` (mm)."""
    if fitting(words, height, wide, bold) == len(words):
        return words
    room = wide - width(_CUT_OFF, height, bold)
    return words[: fitting(words, height, room, bold)].rstrip() + _CUT_OFF


def at_most(count: int, words: str, height: float, wide: float, bold: bool = False) -> tuple[str, ...]:
    """Words as so many lines at most, the last cut off with an ellipsis where there would be more."""
    lines = wrapped(words, height, wide, bold)
    if len(lines) <= count:
        return lines
    return (*lines[: count - 1], shortened(" ".join(lines[count - 1 :]), height, wide, bold))
