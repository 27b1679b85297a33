"""What may be said of a file of the convention, collected while it is read: each thing once, with its lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notchwork.findings import Count, Finding, Place, Rule, Severity, safe
from notchwork.findings.notes import Notes

FOLLOWED = "ASTM D6673-10 (withdrawn 2019) and ANSI/AAMA 292, from memory."
OWN = "The program's own; no outside source."


def _rule(name: str, title: str, rationale: str, source: str, grade: Severity = Severity.INFO) -> Rule:
    return Rule(f"dxf/{name}", title, rationale, source, grade)


UNITS = _rule(
    "units-not-said",
    "Nothing says whether the file counts in millimetres or inches",
    "The text UNITS alone says what a unit of the file is; DXF of this age has no other place for it. Taken for the other, every "
    "piece would be 25 times too large or too small, so nothing is guessed.",
    FOLLOWED,
    Severity.WARNING,
)
UNITS_DOUBTED = _rule(
    "units-doubted",
    "A piece is larger than pieces are in what the file says it counts in",
    "A program that has UNITS: ENGLISH in every file, and counts in millimetres, makes every piece 25 times too large. What the file "
    "says is believed, for there are tents and sails; but nothing that is worn is so long.",
    "Common practice, no source: a piece of clothing or bedding is less than five metres long.",
    Severity.WARNING,
)
SIZES_BY_NAME = _rule(
    "sizes-by-name",
    "Sizes were taken from the names of blocks",
    "A text SIZE says the size of a block. Where there is none, what follows the last hyphen of its name is taken for it, if it is the "
    "sample size in another block of that piece.",
    FOLLOWED,
)
NEARLY = _rule(
    "nearly-convention",
    "A file of the convention without boundaries is read as a plain drawing",
    "In the convention the outline of a piece is on layer 1 of its block. Without it, lines are looked at as in any drawing, and texts and "
    "layers are not taken at their word.",
    FOLLOWED,
    Severity.WARNING,
)
UNKNOWN = _rule(
    "unknown-part",
    "Something in the file has no meaning in the convention",
    "The convention gives every layer a number and a meaning. What lies elsewhere, or is of a kind that the convention does not "
    "use, is not read, because it might be anything; it may be a line that matters.",
    FOLLOWED,
    Severity.WARNING,
)
LEFT_OUT = _rule(
    "left-out",
    "Something known was left out",
    "Some layers and texts hold what a pattern has no use or no place for.",
    FOLLOWED,
)
SHIFTED = _rule(
    "insert-not-applied",
    "Where the file lays its pieces is layout only",
    "Coordinates in the blocks of this convention stand as they are. Files lay the blocks elsewhere all the same; to move the lines "
    "by that would move them twice, and scale nothing.",
    "Common practice, no source: seen in files.",
)
FITTED = _rule(
    "curves-fitted",
    "Curves were drawn through the points of the file",
    "The file has straight lines only. Between corners, smooth curves are laid through their ends; how far the furthest lies "
    "beside them is stated.",
    OWN,
)
DELTAS = _rule(
    "deltas",
    "How the numbers of the rule file were taken",
    "Rule files state shifts from the sample size, or from each size to the next. The convention as known here does not settle "
    "which. The option deltas does; else the numbers are looked at.",
    FOLLOWED,
)
DELTAS_UNCLEAR = _rule(
    "deltas-unclear",
    "Nothing tells how the numbers of the rule file are meant",
    "Steps that stay the same from size to size may be shifts from the sample size of a grade that stands still beyond its "
    "neighbours, or steps. Sizes further off than one differ by that.",
    FOLLOWED,
    Severity.WARNING,
)
NO_RULES = _rule(
    "rule-file-missing",
    "The rules that the file refers to are not there",
    "Points refer to grade rules by number; the rules stand in a file beside it. Without them only the sample size can be read.",
    FOLLOWED,
    Severity.WARNING,
)
FAULTY_RULES = _rule(
    "rule-file-fault",
    "The rule file has a fault",
    "A rule states one shift for each size, and none for the sample size. What does not is not used: a size graded by half of its "
    "rules would fit nobody.",
    FOLLOWED,
    Severity.ERROR,
)
OTHER_RULES = _rule(
    "rule-file-other",
    "The rule file does not seem to belong to the drawing",
    "The drawing names its rule table and its sample size, and so does the rule file. Where they disagree, the file beside the drawing "
    "may be that of another style, or shifts are counted from a size that is not drawn.",
    FOLLOWED,
    Severity.WARNING,
)
SEWN_OUTSIDE = _rule(
    "sew-line-outside",
    "A sew line lies outside its boundary",
    "What is sewn is inside what is cut. Where it is not, one of the two is drawn wrongly or on the layer of the other.",
    FOLLOWED,
    Severity.WARNING,
)
NO_SUCH_RULE = _rule(
    "rule-not-there",
    "A point refers to a rule that the table does not have",
    "The point is carried along by its neighbours, as if it had no rule.",
    FOLLOWED,
    Severity.WARNING,
)
DOCUMENT = _rule(
    "document-part-missing",
    "The document that went along is not whole",
    "The pattern's document travels in numbered parts. With one missing nothing in it can be trusted, so the drawing alone is read.",
    OWN,
    Severity.WARNING,
)
MIRROR = _rule(
    "mirror-line",
    "A mirror line is not on an edge",
    "Half a piece is drawn with its fold on the mirror line. Where no edge lies on it, nothing is mirrored.",
    FOLLOWED,
    Severity.WARNING,
)
SEVERAL = _rule(
    "several-boundaries",
    "A block has several boundaries",
    "The convention has one boundary for each piece. A closed line inside another is taken as cut out, one beside it as a piece of its "
    "own.",
    FOLLOWED,
)
OPEN = _rule(
    "boundary-open",
    "A boundary does not close",
    "A piece is what its boundary encloses. Where its ends lie apart, nothing says how it goes on between them.",
    FOLLOWED,
    Severity.ERROR,
)
NO_BOUNDARY = _rule(
    "block-without-boundary",
    "A block is no piece",
    "Every block of the convention is a piece, and every piece has a boundary on layer 1.",
    FOLLOWED,
    Severity.WARNING,
)
OFF = _rule(
    "notch-off",
    "A notch does not lie on its piece's outline",
    "A notch is a point of the boundary. One that lies further off is taken to the nearest place, or left out.",
    FOLLOWED,
    Severity.WARNING,
)
NOTCH_SHAPE = _rule(
    "notch-shape",
    "How a notch is cut is not kept",
    "A pattern says where a notch is and whether it is single, double or triple, but not whether it is cut as a V, a T or a slit.",
    OWN,
)
UNPLACED = _rule(
    "name-unplaced",
    "A text names something that is not there",
    "A text such as EDGE: side names the line that it stands on. Where there is no such line, it is kept as a note.",
    OWN,
)
REFERENCE = _rule(
    "reference-lines",
    "Lines for stripes and plaids are lines inside the piece",
    "A pattern has no use for the lines by which stripes and plaids are matched but to show them; they are kept as inner lines.",
    FOLLOWED,
)

RULES = (
    UNITS, UNITS_DOUBTED, SIZES_BY_NAME, NEARLY, UNKNOWN, LEFT_OUT, SHIFTED, FITTED, DELTAS, DELTAS_UNCLEAR, NO_RULES, FAULTY_RULES, OTHER_RULES, NO_SUCH_RULE,
    DOCUMENT, MIRROR, SEWN_OUTSIDE, SEVERAL, OPEN, NO_BOUNDARY, OFF, NOTCH_SHAPE, UNPLACED, REFERENCE,
)  # fmt: skip


class Told:
    """Collects what is to be said; what is alike is said once, with the lines on which it stands."""

    def __init__(self) -> None:
        self._notes = Notes()
        self._findings: list[Finding] = []
        self._fitted = 0
        self._off = 0.0

    def add(
        self, rule: Rule, text: str, hint: str = "", place: Place | None = None, **values: object
    ) -> None:
        """One thing, said by itself."""
        self._findings.append(Finding(rule, place or Place(), text, hint, values))

    def extend(self, findings: Iterable[Finding]) -> None:
        self._findings += findings

    def at_line(self, rule: Rule, text: str, line: int, hint: str = "", **values: object) -> None:
        """Something that may stand on several lines: ``{things}`` lists them."""
        self._notes.add(rule, text, hint, f"line {line}", values)

    def unknown(self, what: str, line: int) -> None:
        """Something of which the convention says nothing."""
        self.at_line(
            UNKNOWN,
            "Not read, because the convention gives it no meaning: {what} ({things}).",
            line,
            "Move it to the layer of its meaning, or read the file as a plain drawing (kind=plain).",
            what=safe(what),
        )

    def broken(self, what: str, why: str, line: int) -> None:
        """Something on a layer with a meaning that draws nothing."""
        text = "Not read, for {why}: {what} ({things})."
        self.at_line(UNKNOWN, text, line, "Draw it again.", what=safe(what), why=safe(why))

    def left_out(self, what: str, why: str, line: int) -> None:
        """Something known that is not read."""
        self.at_line(LEFT_OUT, "Left out: {what}: {why} ({things}).", line, what=what, why=why)

    def curves(self, count: int, off: float) -> None:
        """So many curves were fitted, and the worst lies so far (mm) beside its points."""
        self._fitted += count
        self._off = max(self._off, off)

    def findings(self) -> Iterator[Finding]:
        """All of it."""
        yield from self._findings
        yield from self._notes.findings()
        if self._fitted:
            yield Finding(
                FITTED,
                Place(),
                "Curves were laid through the points of the file ({count}); the furthest point lies {off} mm beside its curve.",
                values={"count": Count(self._fitted), "off": f"{self._off:.3f}"},
            )
