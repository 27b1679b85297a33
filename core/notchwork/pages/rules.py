"""What may be said of a pattern when it is laid out on paper."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

PAGE_COUNT = Rule(
    "pages/page-count",
    "Pages are counted",
    "Paper and tape are saved where pieces are turned and share pages.",
    "common practice, no source",
    Severity.INFO,
)
WIDER_THAN_PAPER = Rule(
    "pages/wider-than-paper",
    "A piece is larger than the paper",
    "A piece that is larger than the paper whichever way it is turned is printed on several sheets that are joined like tiles. "
    "Every line of joining costs work and may cost a fraction of a millimetre; a wider roll has none.",
    "common practice, no source",
    Severity.INFO,
)
SPLIT_SHEET = Rule(
    "pages/split-sheet",
    "It is longer than a page may be",
    "A page is at most 14,400 units of 1/72 in long and wide, which are 200 in or 5,080 mm; many programs show or print nothing of "
    "what lies beyond. A page may state a larger unit instead, which many viewers and printers do not know, and then print "
    "everything too small. So the pattern is printed on several sheets, its pieces whole where they can be.",
    "ISO 32000-1, annex C and 8.3.2.1, as told by vendors of PDF libraries",
    Severity.INFO,
)
MORE_SHEETS = Rule(
    "pages/more-sheets",
    "It takes more than one sheet",
    "A copy shop charges by the sheet; a roll has the length that is needed.",
    "common practice, no source",
    Severity.INFO,
)
ROLL_LENGTH = Rule(
    "pages/roll-length",
    "So much of a roll is printed",
    "A copy shop charges by the length, and a roll may end before the pattern does.",
    "common practice, no source",
    Severity.INFO,
)
RULES = (ROLL_LENGTH, PAGE_COUNT, WIDER_THAN_PAPER, SPLIT_SHEET, MORE_SHEETS)
