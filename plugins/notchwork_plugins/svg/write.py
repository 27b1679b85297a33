"""A drawing written as SVG, and what of a pattern it shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from notchwork.formats import Feature, Written

if TYPE_CHECKING:
    from notchwork.drawing import Drawing

CARRIES = frozenset(
    {
        Feature.SIZES,
        Feature.OUTLINES,
        Feature.EDGE_NAMES,
        Feature.ALLOWANCES,
        Feature.FOLDS,
        Feature.NOTCHES,
        Feature.DARTS,
        Feature.PLEATS,
        Feature.INNER_LINES,
        Feature.MARKS,
        Feature.CUTOUTS,
        Feature.GRAINLINES,
        Feature.CUT_ORDERS,
    }
)
"""What is drawn, or said beside what is drawn; the rest travels in the attached document only."""


def write_drawing(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """One file, in UTF-8."""
    # Drawings take longer to import than declaring the format.
    from notchwork.drawing import as_svg

    return Written({".svg": as_svg(drawing).encode()})
