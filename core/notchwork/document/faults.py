"""What a person may be told of how a document is written: the rules, and how a finding of one is made."""

from __future__ import annotations

from notchwork.document.spoken import spoken
from notchwork.findings import Finding, Place, Rule, Severity

_SOURCE = "The open format 1.0 as its schema describes it."


def _rule(
    flaw: str, title: str, rationale: str, severity: Severity = Severity.ERROR, source: str = _SOURCE
) -> Rule:
    return Rule(f"document/{flaw}", title, rationale, source, severity)


UNKNOWN_KEY = _rule(
    "unknown-key",
    "A key that the format does not have",
    "A misspelt key would otherwise be passed over in silence, and its allowance or notch would be missing from the "
    "pattern. Keys of your own begin with x- and are kept as they are.",
)
MISSING_KEY = _rule(
    "missing-key",
    "A key that is needed is missing",
    "Without it nobody can know what was meant: a notch needs its edge, a node its place.",
)
WRONG_TYPE = _rule(
    "wrong-type",
    "A value of the wrong kind",
    "A length is a number without its unit, a name is text in quotes, a list stands in [ ].",
)
OUT_OF_RANGE = _rule(
    "out-of-range",
    "A value outside what is possible",
    "A number or a count of entries that no pattern can have is a slip of the pen, such as a minus sign before an "
    "allowance or a point with three coordinates.",
)
UNKNOWN_WORD = _rule(
    "unknown-word",
    "A word that the format does not have here",
    "Some keys take one of a few words, so that every reader understands them alike.",
)
BAD_NAME = _rule(
    "bad-name",
    "A name that cannot be referred to",
    "Dots part a piece from its edge in every reference, # counts places of one name and x- marks keys of your own, so a "
    "name has none of them.",
)
CONTRADICTION = _rule(
    "contradiction",
    "Two things are said that exclude each other",
    "If both were kept, one of them would have to be passed over in silence.",
)
BROKEN_REFERENCE = _rule(
    "broken-reference",
    "A reference to something that does not exist",
    "A seam that names an edge which is not there cannot be sewn; mostly a name was changed in one place only.",
)
AMBIGUOUS = _rule(
    "ambiguous-place",
    "A name that may mean several places",
    "Guessing which end or which copy is meant would walk the seam from the wrong place.",
)
NAME_TWICE = _rule(
    "name-twice",
    "One name for two things of a piece",
    "Edges, named nodes, notches, darts, inner lines and cut-outs of a piece share their names, because a place on an edge "
    "may be called by any of them.",
)
CIRCLE = _rule(
    "circle",
    "Things that refer to each other in a circle",
    "A piece that is like another which is like the first has nothing to take over.",
)
SIZES_INCOMPLETE = _rule(
    "sizes-incomplete",
    "A value is not given for every size",
    "What is given by size names every size, and a grade rule every size but the base; a size left out would be cut to a "
    "guess.",
)
OUTLINES_UNLIKE = _rule(
    "outlines-unlike",
    "The outlines of two sizes do not have the same edges in the same order",
    "Seams, notches and finishes are stated once by edge, so each size needs the same edges.",
)
NO_SHAPE = _rule(
    "no-shape",
    "A piece or edge without shape or length",
    "A piece has an outline, outlines by size, a strip, or edges with lengths measured by tape; without any of them nothing "
    "can be said of it.",
)
BADLY_STATED = _rule(
    "badly-stated",
    "Something is stated in a way that has no meaning",
    "Side 1 is the finished length and has no join; a row of meeting places has one entry for each side; nothing can be "
    "taken away from a piece that is like none.",
)
NEWER_VERSION = _rule(
    "newer-version",
    "The document is written in a newer version of the format",
    "Keys that this program does not know are kept as they are, but nothing is computed from them.",
    Severity.INFO,
)
KEPT_KEY = _rule(
    "key-of-a-newer-version",
    "A key that a newer version of the format has",
    "It is kept as it is; nothing is computed from it here.",
    Severity.INFO,
)
UNKNOWN_LICENCE = _rule(
    "unknown-licence",
    "A licence that is not known by this name",
    "Others can only rely on a licence whose name they can look up.",
    Severity.INFO,
    "SPDX License List (from memory of its identifiers for works that are not software, and the commonest others).",
)
MORE_FAULTS = _rule(
    "more-faults",
    "There are more faults than are listed",
    "Many faults mostly have one cause; mend the first ones and look again.",
    Severity.INFO,
)

RULES = (
    UNKNOWN_KEY,
    MISSING_KEY,
    WRONG_TYPE,
    OUT_OF_RANGE,
    UNKNOWN_WORD,
    BAD_NAME,
    CONTRADICTION,
    BROKEN_REFERENCE,
    AMBIGUOUS,
    NAME_TWICE,
    CIRCLE,
    SIZES_INCOMPLETE,
    OUTLINES_UNLIKE,
    NO_SHAPE,
    BADLY_STATED,
    NEWER_VERSION,
    KEPT_KEY,
    UNKNOWN_LICENCE,
    MORE_FAULTS,
)
"""Every rule of this room, in the order in which they are explained."""


def fault(
    rule: Rule, at: str, text: str, hint: str = "", said_of: str | None = None, **values: object
) -> Finding:
    """A finding at a JSON pointer. Text and hint are templates over ``values``.

    Where it is, in words, is put before the text: the place ``at``, or another that is ``said_of``.
    """
    where = spoken(at if said_of is None else said_of)
    return Finding(
        rule,
        Place(pointer=at),
        f"{{where}}: {text}" if where else text[:1].upper() + text[1:],
        hint,
        {"where": where, **values} if where else values,
    )
