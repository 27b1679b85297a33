"""What the convention can show of a pattern."""

from __future__ import annotations

from notchwork.formats import Feature

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
"""What lines, points and texts of the convention show; the rest travels in the attached document only. Allowances are what lies
between sew line and boundary, and seams are not in it: the convention knows no relation between pieces (ASTM D6673-10, 1.1)."""
