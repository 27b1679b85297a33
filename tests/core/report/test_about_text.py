from __future__ import annotations

import re

import pytest
from storm_petrel import FAULTS, sound, verdict, with_fault

from notchwork import jobs
from notchwork.findings import Rule, Severity, Tolerance, UnknownName
from notchwork.formats import Format, Read
from notchwork.report import Paper, format_text, formats_text, rule_text, rules_text
from notchwork.report.about_text import accepted_on

CHECKS = {check.id for check in jobs.checks()}


def told(grade: Tolerance | Severity, tape: Tolerance | None = None) -> str:
    return rule_text(Rule("a/b", "Title", "Reason.", "Book, page 3.", grade, tape), True, Paper())


def test_steps_are_told_in_words_and_as_a_pattern_states_them() -> None:
    text = told(Tolerance(0.5, 1.6, 3.2), Tolerance(3, 5, 8))
    assert "as info beyond 0.5 mm, as a warning beyond 1.6 mm, as an\nerror beyond 3.2 mm" in text
    assert "with a tape: as info beyond 3.0 mm" in text
    assert '"tolerances": {"a/b": [0.5, 1.6, 3.2]}' in text
    assert "Source: Book, page 3." in text


def test_a_step_that_is_left_out_is_never_reached_when_it_is_stated_again() -> None:
    for grade in (
        Tolerance(None, 5, None, "deg"),
        Tolerance(2, None, None),
        Tolerance(None, None, 0.5),
        Tolerance(2, 5),
    ):
        numbers = re.search(r"\[(.*)\]}", told(grade))
        assert numbers is not None
        stated = Tolerance(*(float(step) for step in numbers[1].split(",")), unit=grade.unit)
        for off in (0.1, 0.6, 1, 2.5, 4, 6, 500):
            assert stated.grade(off) is grade.grade(off)


def test_a_step_of_nothing_is_always_told() -> None:
    text = told(Tolerance(None, 0.0, None))
    assert "It is always told as a warning." in text
    assert "beyond 0" not in text


@pytest.mark.parametrize(
    ("ident", "on", "where"),
    [
        ("seams/x", '"seam": "…", ', "on one\nseam"),
        ("cutting/edge-sewn-twice", '"seam": "…", ', "on one\nseam"),
        ("pieces/x", '"piece": "…", ', "in the pattern:"),
        ("openings/layers-differ", "", "in the pattern:"),
    ],
)
def test_it_is_had_otherwise_where_its_findings_are(ident: str, on: str, where: str) -> None:
    text = rule_text(Rule(ident, "Title", "Reason.", "Book.", Tolerance(1, 2, 3)), True, Paper())
    assert f'"accepted": [{{"check": "{ident}", {on}"reason": "…"}}]' in text
    assert where in text
    assert ("on one" in text) is ("seam" in on)


@pytest.mark.parametrize("name", FAULTS)
def test_what_explain_says_of_accepting_accepts(name: str) -> None:
    """Every fault of the demo's table is accepted by naming what ``explain`` says, and only that."""
    document = sound()
    with_fault(document, name)
    for graded in verdict(document).findings:
        kind = accepted_on(graded.rule)
        if kind is not None and graded.rule.id in CHECKS:
            named = {getattr(place, kind) for place in graded.places} | (
                set(graded.finding.pieces) if kind == "piece" else set()
            )
            assert named - {None}, graded.rule.id


def test_a_fixed_severity_has_no_steps_to_state() -> None:
    assert "It is always told as an error." in told(Severity.ERROR)
    assert "tolerances" not in told(Severity.ERROR)


def test_a_format_that_draws_can_be_written() -> None:
    formats = [
        Format("a", "A", (".a",), lambda start: False, read=lambda s, o: Read(None)),
        Format("b", "B", (".b",), lambda start: False, write_drawing=lambda d, o: {}),
    ]
    assert [line.split()[2] for line in formats_text(formats, Paper()).splitlines()[1:]] == [
        "read",
        "written",
    ]


@pytest.mark.parametrize("width", [40, 60, 100])
def test_a_family_is_listed_within_the_width(width: int) -> None:
    text = rules_text(jobs.family("seams"), Paper(width))
    assert all(len(line) <= width for line in text.splitlines())
    assert all(rule.id in text for rule in jobs.family("seams"))


@pytest.mark.parametrize("width", [40, 80, 100])
def test_formats_are_told_within_the_width(width: int) -> None:
    lines = formats_text(jobs.formats(), Paper(width)).splitlines()
    assert max(map(len, lines)) <= width
    assert all(any(known.name in line for line in lines) for known in jobs.formats())


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize("name", [known.name for known in jobs.formats()])
def test_a_formats_options_are_told_with_their_defaults_within_the_width(name: str, width: int) -> None:
    known = jobs.format_named(name)
    text = format_text(known, Paper(width))
    assert max(map(len, text.splitlines())) <= width
    assert all(option.name in text for option in known.options)
    assert ("no options" in text) is (not known.options)
    assert jobs.format_named(known.suffixes[0]) is known


def test_a_format_that_is_not_there_is_told_with_those_that_are() -> None:
    with pytest.raises(UnknownName, match="Did you mean dxf_bare"):
        jobs.format_named("dxf_bar")
