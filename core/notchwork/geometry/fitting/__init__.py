"""Smooth curves back from the polylines that files hold of them."""

from notchwork.geometry.fitting.fitted import Fitted, fitted

__all__ = ["Fitted", "fitted"]
