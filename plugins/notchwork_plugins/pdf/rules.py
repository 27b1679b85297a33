"""What may be said of a PDF."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

MISSING_LETTERS = Rule(
    id="pdf/missing-letters",
    title="Letters that the font does not have",
    rationale="A font draws the scripts it was made for. A letter that it lacks is printed as a sign with a question mark in it, so "
    "that nobody takes the rest for the whole word. Another font can be given for such letters.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

UNSHAPED = Rule(
    id="pdf/unshaped",
    title="Words in a script that is not written letter by letter from the left",
    rationale="Letters of some scripts join, change places or are read from the right. Here every letter is printed by itself, from "
    "left to right, so that such words are hard to read or wrong on paper.",
    source="The Unicode Standard, chapters 9 and 12 to 16, and Unicode Standard Annex 9.",
    grade=Severity.WARNING,
)

LONG_PAGE = Rule(
    id="pdf/long-page",
    title="A page longer than many programs print rightly",
    rationale="A page of a PDF is at most 14,400 units long, which is 200 in or 5080 mm. A longer one says that its units are larger; "
    "programs that do not know of that print it too small.",
    source="ISO 32000-1:2008, annex C.2, and UserUnit in 7.7.3.3.",
    grade=Severity.WARNING,
)

READ_ATTACHED = Rule(
    id="pdf/read-attached",
    title="The pattern was read from the document inside the PDF",
    rationale="A PDF has lines on pages and no pattern; ours carry the pattern's document along, and that is what is read. What "
    "somebody else has drawn into the pages since is not looked at.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

RULES = (MISSING_LETTERS, UNSHAPED, LONG_PAGE, READ_ATTACHED)
