"""Bytes -> JSON value, with every guard that a file from a stranger needs."""

from __future__ import annotations

import json
import re
from typing import Any

from notchwork.document.errors import UnreadableDocument
from notchwork.document.trouble import explained, first_trouble

MOST_BYTES = 64 * 2**20
"""What is read at most unless more is asked for."""

MOST_LEVELS = 64
"""How deep lists and objects may lie in each other; the format itself needs about ten."""

_LIKE = bytes.maketrans(b"123456789ED", b"000000000ed")
_SUSPECTS = (b"0e000", b"0e+000", b"0e-000", b"0" * 21, b"\\ud")
"""What may be a number that no computer holds, or half a character, once all digits are 0; ordinary documents have none."""

_NEVER_IN_TEXT = bytes({*range(32), 127} - set(b"\t\n\v\f\r\x1b"))
_LOOKED_AT = 4096

_MARKS = bytes(set(range(256)) - set(b'[]{}"'))
_ROUND = bytes.maketrans(b"{}", b"[]")


def check_size(size: int, name: str, most: int = MOST_BYTES) -> None:
    """Refuse a file by its size alone, before it is read. Raises UnreadableDocument."""
    if size > most:
        has, may = f"{size / 2**20:.0f} MB", f"{most / 2**20:.0f} MB"
        raise UnreadableDocument(
            name,
            f"The file has {has if has != may else f'more than {may}'}; at most {may} are read.",
            "A pattern of forty pieces in ten sizes has well under 5 MB: is this the right file?",
        )


def parsed(data: bytes, name: str, most: int = MOST_BYTES) -> tuple[Any, str]:
    """The JSON value and the text of a document.

    ``name`` is what the file is called in messages. Raises UnreadableDocument for bytes over ``most``, other text than
    UTF-8, broken JSON, more than MOST_LEVELS levels, equal keys in one object, NaN, infinities, numbers beyond what a
    computer holds, and halves of a character.
    """
    check_size(len(data), name, most)
    text = _text(data, name)
    if _too_deep(data):
        raise UnreadableDocument(
            name,
            f"Lists and objects lie more than {MOST_LEVELS} deep in each other.",
            "No pattern needs more than about ten levels: is this the right file?",
        )
    try:
        value = json.loads(text, object_pairs_hook=_once, parse_constant=_refused)
    except json.JSONDecodeError as error:
        raise explained(error, name) from None
    except (_Refused, ValueError):
        raise first_trouble(text, name) from None
    if _suspect(data) and (trouble := first_trouble(text, name, certain=False)):
        raise trouble
    return value, text


class _Refused(Exception):
    """Something the parser would let pass; where it stands is found out afterwards."""


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    entries = dict(pairs)
    if len(entries) != len(pairs):
        raise _Refused
    return entries


def _refused(_: str) -> Any:
    raise _Refused


def _suspect(data: bytes) -> bool:
    alike = data.translate(_LIKE)
    return any(suspect in alike for suspect in _SUSPECTS)


def _text(data: bytes, name: str) -> str:
    if wide := _stored_wide(data):
        raise UnreadableDocument(name, f"The text is stored as {wide}.", "Save it as UTF-8.", 1, 1)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if any(sign in _NEVER_IN_TEXT for sign in data[:_LOOKED_AT]):
            raise UnreadableDocument(name, "The file holds no text.", "Is this the right file?") from None
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        raise UnreadableDocument(
            name, "The text is not stored as UTF-8.", "Save it as UTF-8.", line, column
        ) from None


def _stored_wide(data: bytes) -> str | None:
    """UTF-32 or UTF-16, told by the mark at the beginning or by where the zeros lie in a text that begins with plain signs."""
    if data.startswith((b"\xff\xfe\0\0", b"\0\0\xfe\xff")):
        return "UTF-32"
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "UTF-16"
    zeros = tuple(sign == 0 for sign in data[:4])
    if zeros in ((False, True, True, True), (True, True, True, False)):
        return "UTF-32"
    return "UTF-16" if zeros in ((False, True, False, True), (True, False, True, False)) else None


def _too_deep(data: bytes) -> bool:
    """Whether brackets nest deeper than allowed, found by peeling off the innermost pairs, level by level.

    Quoted text is taken out first. Works on broken JSON too, where the parser then says what is wrong.
    """
    if b"\\" in data:
        data = re.sub(rb"\\.", b"", data, flags=re.DOTALL)
    marks = data.translate(None, _MARKS).replace(b'""', b"")
    if b'"' in marks:
        marks = re.sub(rb'"[^"]*"?', b"", marks)
    marks = marks.translate(_ROUND)
    for _ in range(MOST_LEVELS):
        peeled = marks.replace(b"[]", b"")
        if len(peeled) == len(marks):
            break
        marks = peeled
    return b"[]" in marks or marks.count(b"[") > MOST_LEVELS
