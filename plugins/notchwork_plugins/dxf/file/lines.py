"""Lines of a file as group codes and numbers, many at once.

``breaks`` (2k + 1,) are the places in the bytes where k pairs of lines begin, and where the last one ends.
"""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import safe
from notchwork_plugins.dxf.file.codes import LEAST, MOST

_CODE = re.compile(rb"[ \t\r]*+([+-]?\d{1,4})[ \t\r]*+\n")
_DIGITS = 4
_WIDEST = 8
"""Codes are written up to this wide with blanks before them; wider ones are looked at one by one."""


def codes_of(buffer: NDArray[np.uint8], breaks: NDArray[np.int32]) -> NDArray[np.int16]:
    """The codes (k,) of the first lines of pairs, or those before the first one that is none."""
    begins, ends = breaks[:-1:2], breaks[1::2] - 1
    codes = np.zeros(len(begins), np.int16)
    usual = (ends > begins) & (ends - begins <= _WIDEST)
    in_digits = np.ones(len(begins), bool)
    # From the last digit to the first, and then blanks.
    for place in range(min(int((ends - begins).max(initial=0)), _WIDEST)):
        at = ends - 1 - place
        written = buffer[np.maximum(at, 0)]
        written[at < begins] = 32
        digit = written - np.uint8(48)
        is_digit = digit < (10 if place < _DIGITS else 0)
        usual &= is_digit & in_digits | (written == 32) & (place > 0)
        in_digits &= is_digit
        if place < _DIGITS:
            codes += np.where(is_digit, digit, 0).astype(np.int16) * np.int16(10**place)
    for k in np.flatnonzero(~usual).tolist():
        found = _CODE.fullmatch(buffer[begins[k] : ends[k] + 1].tobytes())
        if found is None or not LEAST <= (code := int(found[1])) <= MOST:
            return codes[:k]
        codes[k] = code
    return codes


def numbers_of(
    buffer: NDArray[np.uint8], breaks: NDArray[np.int32], is_number: NDArray[np.bool_]
) -> NDArray[np.float64]:
    """The second lines of those pairs (k,) that hold numbers, NaN for what is none."""
    wanted = np.zeros(2 * len(is_number), bool)
    wanted[1::2] = is_number
    written = buffer[breaks[0] : breaks[-1]][np.repeat(wanted, np.diff(breaks))].tobytes()
    values = written.split(b"\n")[:-1]
    # float() reads 1_000 as a number, DXF does not.
    if b"_" not in written:
        try:
            return np.array(list(map(float, values)))
        except ValueError:
            pass
    return np.array([_number(value) for value in values])


def said(line: bytes) -> str:
    """What a line says, for messages about one that says something wrong."""
    text = safe(line[:40].decode("ascii", "replace")).strip()
    return f"there is “{text}”" if text else "the line is empty"


def _number(value: bytes) -> float:
    try:
        return np.nan if b"_" in value else float(value)
    except ValueError:
        return np.nan
