"""The page to look at: one file of HTML that needs nothing beside it."""

from notchwork.report.page.album import Album as Album
from notchwork.report.page.album import drawn as drawn
from notchwork.report.page.page import GENERATOR as GENERATOR
from notchwork.report.page.page import page as page
