"""Hub 2: drawings in mm, each part with a meaning or none, and how they look."""

from notchwork.drawing.about import About as About
from notchwork.drawing.about import CutRow as CutRow
from notchwork.drawing.drawing import ADVANCE as ADVANCE
from notchwork.drawing.drawing import Dot as Dot
from notchwork.drawing.drawing import Drawing as Drawing
from notchwork.drawing.drawing import Group as Group
from notchwork.drawing.drawing import Look as Look
from notchwork.drawing.drawing import Stroke as Stroke
from notchwork.drawing.drawing import Text as Text
from notchwork.drawing.meaning import Fact as Fact
from notchwork.drawing.meaning import Facts as Facts
from notchwork.drawing.meaning import Meaning as Meaning
from notchwork.drawing.styles import LineStyle as LineStyle
from notchwork.drawing.styles import TextStyle as TextStyle
from notchwork.drawing.styles import line_style as line_style
from notchwork.drawing.styles import text_style as text_style
from notchwork.drawing.svg import as_svg as as_svg
