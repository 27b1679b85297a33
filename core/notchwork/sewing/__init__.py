"""What the trade computes: nests, walks, joints, and everything that follows from a pattern."""

from notchwork.sewing.nest import Nest as Nest
from notchwork.sewing.pieces.graded import GradedPiece as GradedPiece
from notchwork.sewing.pieces.lines import Intake as Intake
from notchwork.sewing.pieces.lines import Line as Line
from notchwork.sewing.pieces.places import Misplaced as Misplaced
from notchwork.sewing.pieces.places import NoSuchPlace as NoSuchPlace
from notchwork.sewing.walks.fit import Misfit as Misfit
from notchwork.sewing.walks.fit import misfit as misfit
from notchwork.sewing.walks.joins import Wanted as Wanted
from notchwork.sewing.walks.joins import fine_on as fine_on
from notchwork.sewing.walks.marks import MarkOnSide as MarkOnSide
from notchwork.sewing.walks.marks import SideWalk as SideWalk
from notchwork.sewing.walks.spans import Spot as Spot
from notchwork.sewing.walks.spans import Stretch as Stretch
from notchwork.sewing.walks.stations import Pairing as Pairing
from notchwork.sewing.walks.stations import Station as Station
from notchwork.sewing.walks.walk import Comparison as Comparison
from notchwork.sewing.walks.walk import Interval as Interval
from notchwork.sewing.walks.walk import Walk as Walk
