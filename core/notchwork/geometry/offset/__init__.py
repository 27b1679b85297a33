"""Outlines moved outward, each edge by its own width."""

from notchwork.geometry.offset.corners import Corner
from notchwork.geometry.offset.outlines import Offset, offset_outline, offset_outlines

__all__ = ["Corner", "Offset", "offset_outline", "offset_outlines"]
