"""Text, numbers and ids as XML holds them."""

from __future__ import annotations

import re

DIGITS = 4
"""Decimals of a mm that are written: as fine as the open format."""


# The standard library has these too, but importing them takes longer than drawing a pattern.
_BETWEEN_TAGS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})
_IN_SINGLE_QUOTES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", "\n": "&#10;", "\t": "&#9;"})
_IN_QUOTES = {**_IN_SINGLE_QUOTES, ord('"'): "&quot;"}
_UNKNOWN_TO_XML = re.compile("[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def words(text: str) -> str:
    """Text between tags."""
    return clean(text).translate(_BETWEEN_TAGS)


def quoted(text: str) -> str:
    """Text as the value of an attribute, with its quotation marks: single ones round text, such as JSON, that has double ones."""
    if '"' in text and "'" not in text:
        return f"'{clean(text).translate(_IN_SINGLE_QUOTES)}'"
    return f'"{clean(text).translate(_IN_QUOTES)}"'


def clean(text: str) -> str:
    """Without the control characters and half characters that XML cannot hold."""
    return _UNKNOWN_TO_XML.sub(" ", text)


def number(value: float) -> str:
    """A number with no more digits than it needs, never in exponents. Raises ValueError for one that is not finite."""
    text = f"{value:.{DIGITS}f}"
    if "n" in text:
        raise ValueError(f"a drawing cannot hold the number {text}")
    text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def ascii_json(document: bytes) -> str:
    """A JSON document in UTF-8 as text that any XML may hold as it stands: what is not plain ASCII, and < > &, as escapes.

    Outside its strings JSON has none of these signs, so the document means what it meant.
    """
    text = document.decode("utf-8")
    if text.isascii() and not any(sign in text for sign in "<>&"):
        return text
    return "".join(c if c < "\x7f" and c not in "<>&" else _escape(c) for c in text)


def _escape(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[k]:02x}{units[k + 1]:02x}" for k in range(0, len(units), 2))


class Idents:
    """Ids for elements: made of names, each given once."""

    def __init__(self) -> None:
        self._taken: dict[str, int] = {}

    def of(self, *names: str) -> str:
        """An id that reads like the names, with a number behind it where another element has that one."""
        plain = "-".join("".join(c if _in_names(c) else "_" for c in name) for name in names)
        base = plain if plain[:1].isalpha() or plain[:1] == "_" else f"_{plain}"
        ident, count = base, self._taken.get(base, 0)
        while ident in self._taken:
            count += 1
            ident = f"{base}-{count + 1}"
        self._taken[base] = max(count, 0)
        self._taken.setdefault(ident, 0)
        return ident


def _in_names(c: str) -> bool:
    return c in "_-" or (c.isascii() and c.isalnum()) or ("À" <= c <= "\ufffd" and c.isalpha())
