"""Grade rules: for every place of a piece its shift from the sample size in each size, and the rule file that lists them.

The grammar of rule files is from memory of ASTM D6673-10, not checked against a copy. Shifts are counted from the sample size, not from
size to size: that one rule can be read alone, and no rounding adds up.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.dxf.write import tags
from notchwork_plugins.dxf.write.items import Piece
from notchwork_plugins.dxf.write.options import Unit

Complexes = NDArray[np.complex128]

SAME_PLACE = 1e-3
"""mm: shifts that differ by less are one."""


class Rules:
    """Numbers rules in the order in which they are first needed; equal shifts share one."""

    def __init__(self, unit: Unit) -> None:
        self._unit = unit
        self._numbers: dict[tuple[complex, ...], int] = {}

    def number(self, z: Complexes, sample: int) -> int:
        """The rule of a place (sizes,) in mm."""
        # Places are rounded before they are subtracted, so that base and shift give the other size's place as it would be written.
        written = np.round(z * self._unit.per_mm, self._unit.digits)
        shift = np.round(written - written[sample], self._unit.digits) + 0.0
        return self._numbers.setdefault(tuple(shift.tolist()), len(self._numbers) + 1)

    def __len__(self) -> int:
        return len(self._numbers)

    def file(self, table: str, sizes: Sequence[str], sample: str) -> bytes:
        """The rule file; names of sizes have no blanks, which part them."""
        lines = [
            f"UNITS: {self._unit.word}",
            f"GRADE RULE TABLE: {table}",
            f"NUMBER OF SIZES: {len(sizes)}",
            f"SIZE LIST: {' '.join(sizes)}",
            f"SAMPLE SIZE: {sample}",
        ]
        for shift, number in self._numbers.items():
            lines.append(f"RULE: DELTA {number}")
            lines.append(
                "  ".join(
                    f"{tags.number(z.real, self._unit.digits)}, {tags.number(z.imag, self._unit.digits)}"
                    for z in shift
                )
            )
        return tags.encoded("\n".join([*lines, "END", ""]))


def why_not_ruled(piece: Piece, sizes: Sequence[str | None], sample: str | None) -> str:
    """Why a piece cannot be graded by rules, in words that follow “because”; "" where it can."""
    if piece.alone:
        return piece.alone
    if piece.sizes != tuple(sizes):
        return f"it is not there in {'the sample size' if sample not in piece.sizes else 'every size'}"
    if any(len(said.holds) < len(sizes) for said in piece.said):
        return "its cut orders are not the same in every size"
    places = np.concatenate([item.z.reshape(len(sizes), -1) for item in piece.items], axis=1)
    if np.isnan(places).any():
        return "something on it is there in some sizes only"
    if _at_odds(places, sizes.index(sample)):
        return "two of its points that lie on each other in the sample size lie apart in others"
    return ""


def _at_odds(places: Complexes, sample: int) -> bool:
    """Whether places (sizes, n) that are one in the sample size are not one in others: a rule is found by its place."""
    _, first, which = np.unique(np.round(places[sample], 4), return_index=True, return_inverse=True)
    return bool(np.any(np.abs(places - places[:, first[which]]) > SAME_PLACE))
