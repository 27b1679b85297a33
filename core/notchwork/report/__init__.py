"""One file for each rendering: what is known becomes text for a terminal, or JSON by the report schema."""

from notchwork.report.about_text import checks_text as checks_text
from notchwork.report.about_text import format_text as format_text
from notchwork.report.about_text import formats_text as formats_text
from notchwork.report.about_text import rule_text as rule_text
from notchwork.report.about_text import rules_text as rules_text
from notchwork.report.as_json import check_report as check_report
from notchwork.report.as_json import describe_report as describe_report
from notchwork.report.as_json import error_report as error_report
from notchwork.report.as_json import printed as printed
from notchwork.report.as_json import walk_report as walk_report
from notchwork.report.check_text import check_text as check_text
from notchwork.report.check_text import faults_text as faults_text
from notchwork.report.describe_text import describe_text as describe_text
from notchwork.report.outcome import Outcome as Outcome
from notchwork.report.paper import Paper as Paper
from notchwork.report.verdict_text import verdict_sentence as verdict_sentence
from notchwork.report.walk_text import walk_text as walk_text
