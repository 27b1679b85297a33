"""Why a text is no document: found slowly and told with its place, once it is known that something is wrong."""

from __future__ import annotations

import json
import math
import re
from typing import Literal, overload

from notchwork.document.errors import UnreadableDocument

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\]:,]|[^\s{}\[\]:,"]+', re.DOTALL)
_LONGEST_INTEGER = 20

_MEANINGS = {
    "Expecting value": (
        "A value is missing or cannot be read here",
        'Text stands in double quotes ("hem"); a list or object has no comma after its last entry.',
    ),
    "Expecting property name enclosed in double quotes": (
        "The name of a key is missing or has no double quotes here",
        'Write "name": value; there is no comma after the last entry.',
    ),
    "Illegal trailing comma before end of object": (
        "There is a comma after the last entry of an object",
        "Take the comma away.",
    ),
    "Illegal trailing comma before end of array": (
        "There is a comma after the last entry of a list",
        "Take the comma away.",
    ),
    "Expecting ':' delimiter": ("A colon is missing here", 'Write "name": value.'),
    "Expecting ',' delimiter": (
        "A comma is missing before this place, or a bracket is closed too soon or not at all",
        "Look at the end of the line before.",
    ),
    "Unterminated string starting at": (
        "The quoted text that begins here has no end",
        "Close it with a double quote.",
    ),
    "Invalid control character at": (
        "A line break or tab stands inside quoted text here",
        "Close the quotes before it, or write \\n or \\t.",
    ),
    "Extra data": ("Something follows after the end of the document", "Keep one document in one file."),
}


def explained(error: json.JSONDecodeError, name: str) -> UnreadableDocument:
    """What the parser stumbled over, in plain words."""
    if not error.doc.strip():
        return UnreadableDocument(name, "The file is empty.", "Is this the right file?")
    if error.pos == len(error.doc.rstrip()) or error.pos >= len(error.doc):
        why, repair = (
            "The text ends in the middle of the document",
            "Was the file cut short? Every { and [ needs its } or ].",
        )
    elif error.doc.lstrip()[0] not in "{[":
        why, repair = "The text is not JSON", 'A pattern in the open format begins with { "notchwork": "1.0".'
    elif error.doc.startswith(("//", "/*", "#"), error.pos):
        why, repair = (
            "JSON has no comments",
            'Keep remarks in a key of their own, such as "x-note": "…".',
        )
    else:
        why, repair = _MEANINGS.get(
            error.msg, ("The text is not JSON here", "Look at this place and just before it.")
        )
    return UnreadableDocument(name, f"{why}.", repair, error.lineno, error.colno)


@overload
def first_trouble(text: str, name: str) -> UnreadableDocument: ...
@overload
def first_trouble(text: str, name: str, certain: Literal[False]) -> UnreadableDocument | None: ...
def first_trouble(text: str, name: str, certain: bool = True) -> UnreadableDocument | None:
    """The first equal key, impossible number or half character in a text whose brackets and commas are sound."""
    keys: list[dict[str, int]] = []
    before = ""
    for match in _TOKEN.finditer(text):
        token, start = match.group(), match.start()
        if token in "{[":
            keys.append({})
        elif token in "}]":
            keys.pop()
        elif token == ":" and keys:
            key, at = before, match.start() - len(before)
            first = keys[-1].setdefault(_unquoted(key), at)
            if first != at:
                return _at(
                    text,
                    text.rindex(key, 0, start),
                    name,
                    f"The key {key} stands twice in one object; the first is in line {text.count(chr(10), 0, first) + 1}.",
                    "Keep one of them.",
                )
        elif reason := _impossible(token):
            return _at(text, start, name, *reason)
        before = token
    if certain:
        return UnreadableDocument(name, "The text is not JSON that can be read.")
    return None


def _impossible(token: str) -> tuple[str, str] | None:
    if token in ("NaN", "Infinity", "-Infinity"):
        return f"{token} is no number.", "Write the number, or leave the key away."
    if token.startswith('"'):
        if "\\u" in token and any("\ud800" <= sign <= "\udfff" for sign in _unquoted(token)):
            return "This text holds half of a character (a lone surrogate).", "Write the character itself."
        return None
    if token.lstrip("-").isdigit():
        if len(token.lstrip("-")) > _LONGEST_INTEGER:
            return "This number has too many digits.", f"At most {_LONGEST_INTEGER} digits can be read."
        return None
    if token[0] in "-0123456789" and not math.isfinite(float(token)):
        return f"The number {token} is too large.", "No number beyond 1,000,000 is used in a pattern."
    return None


def _unquoted(token: str) -> str:
    return str(json.loads(token))


def _at(text: str, index: int, name: str, why: str, repair: str) -> UnreadableDocument:
    line = text.count("\n", 0, index) + 1
    return UnreadableDocument(name, why, repair, line, index - text.rfind("\n", 0, index))
