"""Letters that DXF writes as escapes within a line of text.

Source: the DXF reference of Autodesk: \\U+XXXX is a character of Unicode, \\M+nXXXX one of a code page of two bytes, and a caret
with a letter a control character ("^J" a new line, "^ " the caret itself).
"""

from __future__ import annotations

import re

_WIDE = re.compile(r"\\U\+([0-9A-Fa-f]{4})|\\M\+([1-5])([0-9A-Fa-f]{4})")
_CARET = re.compile(r"\^([ IJM])")
_PAGES = {"1": "cp932", "2": "cp950", "3": "cp949", "4": "johab", "5": "gbk"}
_CONTROL = {" ": "^", "I": "\t", "J": "\n", "M": "\r"}
_PAIR = re.compile("[\ud800-\udbff][\udc00-\udfff]")
_HALF = re.compile("[\ud800-\udfff]")


def widened(text: str) -> str:
    """The text with \\U+ and \\M+ put into letters. Line ends and the like become blanks, so that lines stay lines."""
    text = _WIDE.sub(_letter, text)
    if _HALF.search(text):
        text = _PAIR.sub(lambda pair: pair[0].encode("utf-16", "surrogatepass").decode("utf-16"), text)
        text = _HALF.sub("\ufffd", text)
    return text


def uncareted(text: str) -> str:
    """The text with carets put into the control characters that they stand for."""
    return _CARET.sub(lambda found: _CONTROL[found[1]], text) if "^" in text else text


def _letter(found: re.Match[str]) -> str:
    if found[1]:
        letter = chr(int(found[1], 16))
    else:
        try:
            letter = bytes.fromhex(found[3]).decode(_PAGES[found[2]])
        except UnicodeDecodeError:
            return found[0]
    return letter if letter >= " " and not "\x7f" <= letter <= "\x9f" else " "
