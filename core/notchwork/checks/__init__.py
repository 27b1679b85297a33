"""How a check is declared, selected, run and graded; no check of its own."""

from notchwork.checks.check import Check as Check
from notchwork.checks.check import Needs as Needs
from notchwork.checks.check import check as check
from notchwork.checks.grade import Graded as Graded
from notchwork.checks.grade import GradedRow as GradedRow
from notchwork.checks.judge import group_of as group_of
from notchwork.checks.judge import judged as judged
from notchwork.checks.judge import sorted_for_reading as sorted_for_reading
from notchwork.checks.merge import alike as alike
from notchwork.checks.message import also_at as also_at
from notchwork.checks.message import also_in as also_in
from notchwork.checks.message import head as head
from notchwork.checks.message import hint as hint
from notchwork.checks.message import in_size as in_size
from notchwork.checks.message import in_sizes as in_sizes
from notchwork.checks.message import message as message
from notchwork.checks.message import right_in as right_in
from notchwork.checks.message import sentence as sentence
from notchwork.checks.names import Names as Names
from notchwork.checks.odd import by_the_odd_one as by_the_odd_one
from notchwork.checks.run import CRASHED as CRASHED
from notchwork.checks.run import run as run
from notchwork.checks.select import selected as selected
from notchwork.checks.statements import NO_MATCH as NO_MATCH
from notchwork.checks.statements import NO_STEPS as NO_STEPS
from notchwork.checks.verdict import Checked as Checked
from notchwork.checks.verdict import NotRun as NotRun
from notchwork.checks.verdict import Verdict as Verdict

RULES = (CRASHED, NO_MATCH, NO_STEPS)
"""What this room itself may tell."""
