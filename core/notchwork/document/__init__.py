"""Open JSON <-> model: reading with all faults at once, writing the same bytes every time."""

from notchwork.document.codec import as_stated as as_stated
from notchwork.document.errors import UnreadableDocument as UnreadableDocument
from notchwork.document.errors import UnwritablePattern as UnwritablePattern
from notchwork.document.faults import MORE_FAULTS as MORE_FAULTS
from notchwork.document.faults import RULES as RULES
from notchwork.document.parse import MOST_BYTES as MOST_BYTES
from notchwork.document.parse import check_size as check_size
from notchwork.document.read import ReadResult as ReadResult
from notchwork.document.read import read_pattern as read_pattern
from notchwork.document.where import Where as Where
from notchwork.document.where import pointer_for as pointer_for
from notchwork.document.write import write_pattern as write_pattern
