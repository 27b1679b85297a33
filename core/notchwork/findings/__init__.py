"""What can be said of a pattern: rules, places, measures and findings; data and wording only."""

from notchwork.findings.errors import NotchworkError as NotchworkError
from notchwork.findings.errors import UnknownName as UnknownName
from notchwork.findings.finding import Finding as Finding
from notchwork.findings.finding import Row as Row
from notchwork.findings.measure import Angle as Angle
from notchwork.findings.measure import Count as Count
from notchwork.findings.measure import Length as Length
from notchwork.findings.measure import Measure as Measure
from notchwork.findings.measure import Percent as Percent
from notchwork.findings.measure import Ratio as Ratio
from notchwork.findings.measure import measure_of as measure_of
from notchwork.findings.notes import Notes as Notes
from notchwork.findings.place import Place as Place
from notchwork.findings.rule import ROUNDING as ROUNDING
from notchwork.findings.rule import MeasureUnit as MeasureUnit
from notchwork.findings.rule import Rule as Rule
from notchwork.findings.rule import Severity as Severity
from notchwork.findings.rule import Tolerance as Tolerance
from notchwork.findings.safe import safe as safe
from notchwork.findings.wording import PersonUnit as PersonUnit
from notchwork.findings.wording import Phrase as Phrase
from notchwork.findings.wording import listed as listed
from notchwork.findings.wording import plain_name as plain_name
from notchwork.findings.wording import rounded as rounded
from notchwork.findings.wording import worded as worded
