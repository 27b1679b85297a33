"""Whether what stands for a number is one that can be measured with."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import safe
from notchwork_plugins.dxf.file.codes import EXTENDED, numeric, real
from notchwork_plugins.dxf.file.errors import COMMA, DAMAGED
from notchwork_plugins.dxf.file.tags import Tags

FARTHEST = 1e9
"""No coordinate, length or angle of a drawing is more than this in its own unit."""

CHECKED = frozenset({"HEADER", "TABLES", "BLOCKS", "ENTITIES"})
"""The sections of which numbers are read."""
_DRAWN = frozenset({"BLOCKS", "ENTITIES"})


def unsound(tags: Tags, first: int, end: int, section: str) -> NDArray[np.int64]:
    """The tags, from ``first`` up to ``end``, whose numbers are none. Those of drawn things must lie within bounds too; a header
    may say 1e20 for the size of a drawing with nothing in it."""
    if section not in CHECKED:
        return np.empty(0, np.int64)
    codes, numbers = tags.codes[first:end], tags.numbers[first:end]
    wrong = numeric(codes) & ~np.isfinite(numbers)
    if section in _DRAWN:
        wrong |= real(codes) & ~(np.abs(numbers) <= FARTHEST)
    return first + np.flatnonzero(wrong & (codes < EXTENDED))


def why_unsound(tags: Tags, at: int) -> tuple[str, str]:
    """What is wrong with the number of a tag, and how to mend it."""
    said = safe(tags.values(at, at + 1)[0].strip())[:40]
    if not said:
        return "A number should stand here, and the line is empty.", DAMAGED
    if "," in said:
        return f"“{said}” is no number in DXF, which writes decimals with a point.", COMMA
    if np.isfinite(tags.numbers[at]):
        return f"“{said}” is larger than anything that is drawn.", DAMAGED
    return f"“{said}” is no number that can be measured with.", DAMAGED
