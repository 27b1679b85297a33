"""How a format is declared and picked, and what a conversion leaves out."""

from notchwork.formats.features import DRAWN as DRAWN
from notchwork.formats.features import EVERYTHING as EVERYTHING
from notchwork.formats.features import Feature as Feature
from notchwork.formats.features import uses as uses
from notchwork.formats.format import Format as Format
from notchwork.formats.format import Option as Option
from notchwork.formats.format import Read as Read
from notchwork.formats.format import Written as Written
from notchwork.formats.guarded import UNSOUND as UNSOUND
from notchwork.formats.guarded import BrokenFormat as BrokenFormat
from notchwork.formats.guarded import read_by as read_by
from notchwork.formats.losses import ATTACHED as ATTACHED
from notchwork.formats.losses import NO_SHAPE as NO_SHAPE
from notchwork.formats.losses import NOT_CARRIED as NOT_CARRIED
from notchwork.formats.losses import losses as losses
from notchwork.formats.pick import UnknownFormat as UnknownFormat
from notchwork.formats.pick import for_reading as for_reading
from notchwork.formats.pick import for_writing as for_writing
from notchwork.formats.pick import suffix_of as suffix_of
from notchwork.formats.source import Source as Source
from notchwork.formats.writing import NothingToDraw as NothingToDraw
from notchwork.formats.writing import goes_along as goes_along
from notchwork.formats.writing import written as written

RULES = (NOT_CARRIED, ATTACHED, NO_SHAPE, UNSOUND)
"""What this room itself may tell."""
