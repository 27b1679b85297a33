"""Signs that a text of CAD writes with two percent signs. Source: the DXF reference of Autodesk, TEXT (from memory)."""

from __future__ import annotations

import re

_SIGN = re.compile(r"%%(\d{3}|[dDpPcC%oOuUkK])")
_MEANT = {"d": "°", "p": "±", "c": "⌀", "%": "%"}


def signs(words: str) -> str:
    """The words with degrees, plus or minus and diameters as signs; lines above, below and through are left away."""
    return _SIGN.sub(_meant, words) if "%%" in words else words


def _meant(found: re.Match[str]) -> str:
    code = found[1]
    if code.isdigit():
        number = int(code)
        return chr(number) if 32 <= number < 127 or 160 <= number < 256 else ""
    return _MEANT.get(code.lower(), "")
