"""The words of an MTEXT without the codes that format them, line by line.

Source: the DXF reference of Autodesk, MTEXT, and its table of format codes (from memory).
"""

from __future__ import annotations

import re

from notchwork_plugins.dxf.plain.signs import signs

_CODE = re.compile(
    r"\\P|\\N|\\X"  # a new line, a new column, a new line of a dimension
    r"|\\~"  # a blank that does not break
    r"|\\[\\{}]"  # the sign itself
    r"|\\S([^;]*);?"  # one over the other
    r"|\\[ACHQTWacfFp][^;\\{}]*;?"  # alignment, colour, height, slant, tracking, width, font, paragraph
    r"|\\[LlOoKk]"  # lines below, above and through
    r"|[{}]"
    r"|\r\n|\n|\r"
)
_STACK = re.compile(r"\s*(?:\^|/|#)\s*")


def lines_of(words: str) -> list[str]:
    """The lines of a text, the empty ones too."""
    return [" ".join(signs(line).split()) for line in _CODE.sub(_plain, words).split("\n")]


def _plain(found: re.Match[str]) -> str:
    code = found[0]
    if code[:2] in ("\\P", "\\N", "\\X") or code[0] in "\r\n":
        return "\n"
    if code[:2] == "\\~":
        return " "
    if code[:2] in ("\\\\", "\\{", "\\}"):
        return code[1]
    if code[:2] == "\\S":
        return _stacked(found[1])
    return ""


def _stacked(words: str) -> str:
    """A fraction, or what stands above with what stands below."""
    above, *below = _STACK.split(words, maxsplit=1)
    if not below:
        return above
    return f"{above}/{below[0]}" if above and below[0] else above or below[0]
