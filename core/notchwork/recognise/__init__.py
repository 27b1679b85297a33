"""Drawings read as patterns: what was taken for what, and the pattern that comes of it."""

from notchwork.recognise.all_rules import RULES as RULES
from notchwork.recognise.bounds import TooMuchDrawn as TooMuchDrawn
from notchwork.recognise.find import find_shapes as find_shapes
from notchwork.recognise.options import Options as Options
from notchwork.recognise.recognise import Recognised as Recognised
from notchwork.recognise.recognise import recognise as recognise
from notchwork.recognise.reconcile import fineness as fineness
from notchwork.recognise.reconcile import reconcile as reconcile
from notchwork.recognise.shape import Seen as Seen
from notchwork.recognise.shape import Shape as Shape
