"""Which group codes stand for numbers, and how binary files pack them.

Source: the DXF reference of Autodesk (2012 and later), "Group Code Value Types" and "Writing a DXF Interface Program".
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

LEAST, MOST = -9, 9999
"""Codes lie between these; the standard's own go from -5 to 1071."""

COMMENT = 999
EXTENDED = 1000
"""From here on codes are extended data, which belong to whoever wrote them."""

CHUNKS = frozenset((*range(310, 320), 1004))
"""Bytes: in text as hexadecimal, in a binary file behind a byte that counts them."""

_REALS = (range(10, 60), range(110, 150), range(210, 240), range(460, 470), range(1010, 1060))
_INT8 = (range(290, 300),)
_INT16 = (
    range(60, 80),
    range(170, 180),
    range(270, 290),
    range(370, 390),
    range(400, 410),
    range(1060, 1071),
)
_INT32 = (range(90, 100), range(420, 430), range(440, 460), range(1071, 1072))
_INT64 = (range(160, 170),)

PACKED: Mapping[int, str] = {
    code: packed
    for packed, ranges in (("<d", _REALS), ("<b", _INT8), ("<h", _INT16), ("<i", _INT32), ("<q", _INT64))
    for codes in ranges
    for code in codes
}
"""How a binary file packs the number of a code, as ``struct`` writes it."""


def _marked(codes: Iterable[int]) -> NDArray[np.bool_]:
    found = np.zeros(MOST - LEAST + 1, bool)
    found[np.fromiter(codes, int) - LEAST] = True
    return found


_NUMBERS = _marked(PACKED)
_IS_REAL = _marked(code for code, packed in PACKED.items() if packed == "<d")


def numeric(codes: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Which of the codes (n,) stand for numbers."""
    found: NDArray[np.bool_] = _NUMBERS[codes - LEAST]
    return found


def real(codes: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Which of the codes (n,) stand for coordinates, lengths, factors and angles, and not for counts and flags."""
    found: NDArray[np.bool_] = _IS_REAL[codes - LEAST]
    return found
