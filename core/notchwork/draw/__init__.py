"""Nest -> Drawing."""

from notchwork.draw.options import Options as Options
from notchwork.draw.pattern import draw_pattern as draw_pattern
