from __future__ import annotations

import re

from notchwork.findings import Rule, Severity, Tolerance
from notchwork.report import Paper, rule_text


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


def test_a_fixed_severity_has_no_steps_to_state() -> None:
    assert "It is always told as an error." in told(Severity.ERROR)
    assert "tolerances" not in told(Severity.ERROR)
