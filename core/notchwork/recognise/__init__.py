"""Drawings read as patterns: what was taken for what, and the pattern that comes of it."""

from notchwork.recognise.options import Options as Options
