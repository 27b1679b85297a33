"""A drawing written as SVG."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from notchwork.formats import Written

if TYPE_CHECKING:
    from notchwork.drawing import Drawing


def write_drawing(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """One file, in UTF-8."""
    # Drawings take longer to import than declaring the format.
    from notchwork.drawing import as_svg

    return Written({".svg": as_svg(drawing).encode()})
