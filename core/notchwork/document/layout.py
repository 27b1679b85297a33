"""JSON as a person likes to read it: small things on one line, one node of an outline a line."""

from __future__ import annotations

from json.encoder import encode_basestring
from math import isfinite
from typing import Any

WIDTH = 120
_STEP = 2


def laid_out(document: Any) -> str:
    """The text of a JSON value, without a newline at its end. Raises ValueError for a number that is not finite."""
    return _text(document, 0, 0)


def _text(value: Any, indent: int, taken: int) -> str:
    """A value that starts at column ``indent + taken``; on one line where it fits and does not list several objects."""
    if isinstance(value, dict):
        parts = [_entry(key, entry, indent + _STEP) for key, entry in value.items()]
        opening, closing = "{", "}"
    elif isinstance(value, (list, tuple)):
        parts = [_text(entry, indent + _STEP, 1) for entry in value]
        opening, closing = "[", "]"
    else:
        return _scalar(value)
    listed = isinstance(value, (list, tuple)) and sum(isinstance(entry, dict) for entry in value) > 1
    if not listed and not any("\n" in part for part in parts):
        line = f"{opening}{', '.join(parts)}{closing}"
        if indent + taken + len(line) < WIDTH and (indent > 0 or not parts):
            return line
    inner = ",\n".join(" " * (indent + _STEP) + part for part in parts)
    return f"{opening}\n{inner}\n{' ' * indent}{closing}"


def _entry(key: str, value: Any, indent: int) -> str:
    name = encode_basestring(key)
    return f"{name}: {_text(value, indent, len(name) + 3)}"


def _scalar(value: Any) -> str:
    if isinstance(value, str):
        return encode_basestring(value)
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if not isfinite(value):
        raise ValueError(f"{value} cannot be written in JSON")
    text = repr(value)
    if "e" in text and float(plain := f"{value:.6f}".rstrip("0")) == value:
        return plain + "0" if plain.endswith(".") else plain
    return text
