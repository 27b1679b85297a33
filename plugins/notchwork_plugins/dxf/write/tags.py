"""Tags of DXF R12 as text: numbers, words, and the few entities that the sewn-products convention uses.

Source: the DXF reference of Autodesk, as it stood for Release 12 (AC1009). Lines end as R12 under DOS ended them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from notchwork_plugins.dxf.attached import APPLICATION

MOST_LETTERS = 250
"""Bytes of one string; the reference allows 255."""
ELLIPSIS = "\\U+2026"
"""…, at the end of words that were cut short."""

_STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029]+")
_ESCAPED = re.compile(r"[^\x20-\x7e]|\^|\\(?=[UuMm]\+)")


def number(value: float, digits: int) -> str:
    """A number with a point, no more digits than it needs, never in exponents. Raises ValueError for one that is not finite."""
    text = f"{value:.{digits}f}"
    if "n" in text:
        raise ValueError(f"a file cannot hold the number {text}")
    text = text.rstrip("0")
    if text[-1] == ".":
        text += "0"
    return "0.0" if text == "-0.0" else text


def escaped(words: str) -> str:
    """Words in plain ASCII: what is not, as \\U+XXXX, which every code page carries; line ends and control characters as blanks.

    A caret, which would begin a control character, and a backslash that would begin an escape, are escaped too, so that the
    words are read as they were meant.
    """
    plain = _STEERING.sub(" ", words).strip()
    if plain.isascii() and "^" not in plain and "\\" not in plain:
        return plain
    return _ESCAPED.sub(lambda found: _units(found[0]), plain)


def _units(letter: str) -> str:
    if "\ud800" <= letter <= "\udfff":
        letter = "\ufffd"
    units = letter.encode("utf-16-be")
    return "".join(f"\\U+{units[k]:02X}{units[k + 1]:02X}" for k in range(0, len(units), 2))


def fitted(words: str) -> str:
    """The words, escaped, and cut short where they take more room than a string has: they end in … then."""
    text = escaped(words)
    if len(text) <= MOST_LETTERS:
        return text
    return (
        escaped(_start(_STEERING.sub(" ", words).strip(), MOST_LETTERS - len(ELLIPSIS))).rstrip() + ELLIPSIS
    )


def in_lines(words: str) -> list[str]:
    """The words in as many lines as are needed for each to have room in a string, parted at blanks where there are any."""
    text, found = _STEERING.sub(" ", words).strip(), []
    while len(escaped(text)) > MOST_LETTERS:
        line = _start(text, MOST_LETTERS)
        blank = line.rfind(" ")
        line = line[:blank] if blank > 0 else line
        found.append(line)
        text = text[len(line) :].lstrip()
    return [*found, text]


def _start(text: str, room: int) -> str:
    """As much of the text as has room, escaped."""
    taken = 0
    for k, letter in enumerate(text):
        taken += len(_ESCAPED.sub(lambda found: _units(found[0]), letter)) + 6 * (letter == "\\")
        if taken > room:
            return text[:k]
    return text


def point(layer: int, at: str, more: str = "") -> str:
    """A POINT; ``at`` is its place as tags (see Scale)."""
    return f"0\nPOINT\n8\n{layer}\n{at}{more}"


def line(layer: int, start: str, end: str) -> str:
    return f"0\nLINE\n8\n{layer}\n{start}{end}"


def polyline(layer: int, xy: Iterable[tuple[str, str]], closed: bool) -> str:
    """A POLYLINE with its vertices and their end."""
    head = f"0\nVERTEX\n8\n{layer}\n10\n"
    body = "".join([f"{head}{x}\n20\n{y}\n30\n0.0\n" for x, y in xy])
    return (
        f"0\nPOLYLINE\n8\n{layer}\n66\n1\n10\n0.0\n20\n0.0\n30\n0.0\n70\n{int(closed)}\n"
        f"{body}0\nSEQEND\n8\n{layer}\n"
    )


def text(layer: int, at: str, height: str, words: str, carried: Sequence[str] = ()) -> str:
    """A TEXT of words that are escaped; ``carried`` are strings of extended data."""
    return f"0\nTEXT\n8\n{layer}\n{at}40\n{height}\n1\n{words}\n{extended(carried)}"


def extended(strings: Sequence[str]) -> str:
    """Extended data of ours, nothing where there is none."""
    return f"1001\n{APPLICATION}\n" + "".join(f"1000\n{s}\n" for s in strings) if strings else ""


def block(name: str, base: str, entities: Iterable[str]) -> str:
    return f"0\nBLOCK\n8\n0\n2\n{name}\n70\n0\n{base}3\n{name}\n1\n\n{''.join(entities)}0\nENDBLK\n8\n0\n"


def insert(layer: int, name: str, at: str) -> str:
    return f"0\nINSERT\n8\n{layer}\n2\n{name}\n{at}"


def comment(words: str) -> str:
    """A comment, which readers skip."""
    return f"999\n{words}\n"


def section(name: str, content: Iterable[str]) -> str:
    return f"0\nSECTION\n2\n{name}\n{''.join(content)}0\nENDSEC\n"


def table(name: str, entries: Sequence[str]) -> str:
    return f"0\nTABLE\n2\n{name}\n70\n{len(entries)}\n{''.join(entries)}0\nENDTAB\n"


def encoded(parts: Iterable[str]) -> bytes:
    return "".join(parts).replace("\n", "\r\n").encode("ascii")
