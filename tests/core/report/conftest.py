"""One set of findings for all renderings: every kind of finding that a rendering must be able to show."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from notchwork.checks import Checked, NotRun, Verdict, judged, sorted_for_reading
from notchwork.findings import (
    Angle,
    Count,
    Finding,
    Length,
    NotchworkError,
    Place,
    Row,
    Rule,
    Severity,
    Tolerance,
)
from notchwork.model import Acceptance, Edge, Node, Pattern, Piece, Seam, Side, Sizes, Span, Unit
from notchwork.report import Outcome

UNEQUAL = Rule(
    "seams/unequal-length", "Sides of unequal length", "r", "s", Tolerance(0.5, 1.6, 3.2), seam_tolerance=True
)
WRONG_WAY = Rule("seams/wrong-way", "Runs the wrong way", "r", "s", Severity.ERROR)
RUN_ON = Rule(
    "seams/does-not-run-on", "A corner that does not run on", "r", "s", Tolerance(2, 5, None, "deg")
)
NO_GRAIN = Rule("pieces/no-grain", "No grainline", "r", "s", Severity.WARNING)
NOTCHES = Rule("seams/notches-differ", "Notches differ", "r", "s", Severity.WARNING)
DOCUMENT = Rule("document/unknown-key", "Unknown key", "r", "s", Severity.ERROR)


def sample_pattern(unit: Unit = "mm") -> Pattern:
    edges = {"side": Edge(length=400.0), "top": Edge(length=200.0)}
    outline = tuple(
        Node(at=at, edge=edge)
        for edge, at in {"side": 0j, "top": 400j, "fold": 200 + 400j, "hem": 200 + 0j}.items()
    )

    def seam(*targets: str) -> Seam:
        return Seam(tuple(Side((Span(target),)) for target in targets))

    return Pattern(
        version="1.0",
        title="Sample",
        unit=unit,
        sizes=Sizes(("S", "M", "L"), "M"),
        pieces={
            "front": Piece(name="Front", outline=outline),
            "back": Piece(name="Back {\x1b[31mred", edges=edges),
            "lining_front": Piece(name="Lining front", like="front"),
        },
        seams={"side": seam("front.side", "back.side"), "shoulder": seam("front.top", "back.top")},
        accepted=(Acceptance("pieces/no-grain", "Cut from felt.", piece="back"),),
    )


def sample_findings() -> list[Finding]:
    def row(size: str, off: float) -> Row:
        return Row(size, off, 400 + off, 400, {"more": Length(400 + off), "less": Length(400)})

    return [
        Finding(
            UNEQUAL,
            Place(seam="side", piece="back", point=10 + 200.5j),
            "{longer} is {off} longer than {shorter} ({more} against {less}; up to {fine} is fine).",
            "Take {off} off {longer}, or add it to {shorter}.",
            {"longer": "Back", "shorter": "Front"},
            (row("S", 2.0), row("M", 0.04), row("L", 4.5)),
            ("front", "back"),
        ),
        Finding(
            RUN_ON,
            Place(seam="side"),
            "Where it ends the hem bends by {off}.",
            "Let the two edges leave the seam at angles that sum to {straight}.",
            {"straight": Angle(180)},
            (Row("M", 3.0), Row("L", float("nan"))),
        ),
        Finding(
            UNEQUAL,
            Place(seam="shoulder"),
            "{longer} is {off} longer.",
            "",
            {"longer": "Front"},
            tuple(Row(size, 2.5, 102.5, 100) for size in "SML"),
        ),
        Finding(
            WRONG_WAY,
            Place(seam="shoulder"),
            "Its sides are walked from opposite ends.",
            "Turn {side} round.",
            {"side": "Back"},
        ),
        Finding(
            NOTCHES,
            Place(seam="shoulder"),
            "{one} has {n} notches, {other} has {m}.",
            "",
            {"one": "Front", "n": Count(2), "other": "Back", "m": Count(1)},
        ),
        Finding(NO_GRAIN, Place(piece="front", line="top"), "It has no grainline.", "Draw one."),
        Finding(NO_GRAIN, Place(piece="lining_front", line="top"), "It has no grainline.", "Draw one."),
        Finding(NO_GRAIN, Place(piece="back"), "It has no grainline.", "Draw one."),
        Finding(
            DOCUMENT,
            Place(pointer="/pieces/front/allowence"),
            "There is no key {key}.",
            "Did you mean allowance?",
            {"key": "allowence"},
        ),
    ]


def sample_verdict(unit: Unit = "mm") -> Verdict:
    pattern = sample_pattern(unit)
    findings = sorted_for_reading(judged(sample_findings(), pattern), pattern)
    checked = Checked(
        ("S", "M", "L"),
        2,
        ("pieces/no-grain", "seams/unequal-length"),
        (NotRun("back", "there is no drawn outline", ("pieces/no-grain",)),),
    )
    return Verdict(pattern, tuple(findings), None, checked)


@pytest.fixture
def verdict() -> Verdict:
    return sample_verdict()


@pytest.fixture(params=["cm", "in"])
def other_unit(request: pytest.FixtureRequest) -> Verdict:
    return sample_verdict(request.param)


def line_of(pointer: str) -> int | None:
    """A stand-in for a document: deeper places stand further down."""
    return 10 * pointer.count("/") + len(pointer)


HOSTILE = "a\"b'<c>\n::error::d%0A,e]]>&\x1b[31m\x00\u202ef\ud800\ufffe{g}"
"""What a name from a file may hold: quotes, tags, line breaks, commands and escapes, signs that steer or that XML forbids."""

READ_AS = Rule("reading/read-as", "Something was inferred", "r", "s", Severity.INFO)


def hostile_verdict(name: str = HOSTILE) -> Verdict:
    """A pattern in which everything is called so, with an error, an accepted error, and a remark that names no place."""
    seam = Seam((Side((Span("a/b:c%.side"),)), Side((Span("a/b:c%.side"),))))
    pattern = Pattern(
        version="1.0",
        title=name,
        pieces={"a/b:c%": Piece(name=name, edges={"side": Edge(length=400.0)}), name: Piece()},
        seams={name: seam},
        accepted=(Acceptance("pieces/no-grain", name, piece="a/b:c%"),),
    )
    findings = [
        Finding(WRONG_WAY, Place(seam=name, piece="a/b:c%"), "At {n}.", "Turn {n}.", {"n": name}),
        Finding(NO_GRAIN, Place(piece="a/b:c%"), "It has no grainline.", "Draw one."),
        Finding(READ_AS, Place(), "Read as {n}.", "", {"n": name}),
    ]
    graded = sorted_for_reading(judged(findings, pattern), pattern)
    return Verdict(pattern, tuple(graded), None, Checked((), 1, ("pieces/no-grain", "seams/wrong-way")))


def sample_outcomes() -> list[Outcome]:
    """Files of every kind: sound, at fault in every way, hostile, faulty as a document, not readable at all."""
    faults = tuple(judged([sample_findings()[-1]], Pattern()))
    checks = ("pieces/no-grain", "seams/unequal-length")
    sound = Verdict(Pattern(version="1.0", title="Sound"), (), None, Checked((), 1, checks))
    return [
        Outcome("sound.json", sound, line=line_of),
        Outcome("folder/sample file.json", sample_verdict(), line=line_of),
        Outcome(f"{HOSTILE[:-1]}.json".replace("\ud800", "é"), hostile_verdict()),
        Outcome("faulty.json", Verdict(Pattern(), faults), line=line_of),
        Outcome("no.json", error=NotchworkError("no.json", "There is no such file.", "Check the name.")),
        Outcome("cut.json", error=NotchworkError("cut.json", "A value is missing.", line=3, column=7)),
    ]


@pytest.fixture
def outcomes() -> list[Outcome]:
    return sample_outcomes()


@pytest.fixture(scope="session")
def hostile() -> Callable[[str], Outcome]:
    """A pattern in which everything is called as is said."""
    return lambda name: Outcome("a.json", hostile_verdict(name))
