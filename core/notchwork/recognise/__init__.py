"""Drawings read as patterns: what was taken for what, and the pattern that comes of it."""

from notchwork.recognise.find import find_shapes as find_shapes
from notchwork.recognise.options import Options as Options
from notchwork.recognise.shape import Seen as Seen
from notchwork.recognise.shape import Shape as Shape
