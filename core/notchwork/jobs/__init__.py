"""Every command without its terminal: the public Python interface. Nothing here prints or exits."""

from notchwork.jobs.about import Explained as Explained
from notchwork.jobs.about import checks as checks
from notchwork.jobs.about import explain as explain
from notchwork.jobs.about import family as family
from notchwork.jobs.about import format_named as format_named
from notchwork.jobs.about import formats as formats
from notchwork.jobs.about import schema as schema
from notchwork.jobs.about import schemas as schemas
from notchwork.jobs.check import check as check
from notchwork.jobs.check import faults as faults
from notchwork.jobs.convert import Converted as Converted
from notchwork.jobs.convert import convert as convert
from notchwork.jobs.convert import convert_loaded as convert_loaded
from notchwork.jobs.files import write_together as write_together
from notchwork.jobs.load import FaultyDocument as FaultyDocument
from notchwork.jobs.load import Loaded as Loaded
from notchwork.jobs.load import load as load
from notchwork.jobs.measure import describe as describe
from notchwork.jobs.measure import walk as walk
from notchwork.jobs.report import Report as Report
from notchwork.jobs.report import is_report as is_report
from notchwork.jobs.report import picture_files as picture_files
from notchwork.jobs.report import report as report
from notchwork.jobs.report import write_report as write_report
