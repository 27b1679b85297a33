"""From a nest to a drawing."""

from notchwork.draw.pattern import draw_pattern as draw_pattern
