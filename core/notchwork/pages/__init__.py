"""Drawing -> Sheets."""

from notchwork.pages.paper import Join as Join
from notchwork.pages.paper import Layout as Layout
from notchwork.pages.paper import Paper as Paper
from notchwork.pages.paper import Size as Size
from notchwork.pages.paper import Turn as Turn
from notchwork.pages.paper import Turning as Turning
from notchwork.pages.papers import papers as papers
from notchwork.pages.sheet import Sheet as Sheet
from notchwork.pages.sheet import Sheets as Sheets
from notchwork.pages.sheet import Window as Window
