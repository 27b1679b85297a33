"""What the trade computes: nests, walks, joints, and everything that follows from a pattern."""

from notchwork.sewing.fit import Misfit as Misfit
from notchwork.sewing.fit import misfit as misfit
from notchwork.sewing.joins import Wanted as Wanted
from notchwork.sewing.joins import fine_on as fine_on
from notchwork.sewing.lines import Intake as Intake
from notchwork.sewing.lines import Line as Line
from notchwork.sewing.marks import MarkOnSide as MarkOnSide
from notchwork.sewing.marks import SideWalk as SideWalk
from notchwork.sewing.nest import Nest as Nest
from notchwork.sewing.pieces import GradedPiece as GradedPiece
from notchwork.sewing.places import Misplaced as Misplaced
from notchwork.sewing.places import NoSuchPlace as NoSuchPlace
from notchwork.sewing.spans import Spot as Spot
from notchwork.sewing.spans import Stretch as Stretch
from notchwork.sewing.stations import Pairing as Pairing
from notchwork.sewing.stations import Station as Station
from notchwork.sewing.walk import Comparison as Comparison
from notchwork.sewing.walk import Interval as Interval
from notchwork.sewing.walk import Walk as Walk
