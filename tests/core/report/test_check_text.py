from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from notchwork.checks import Checked, Verdict
from notchwork.model import Pattern
from notchwork.report import Paper, check_text, verdict_sentence

Golden = Callable[[str, str], None]


def line(pointer: str) -> int | None:
    return 10 * pointer.count("/") + len(pointer)


def test_every_kind_of_finding(verdict: Verdict, golden: Golden) -> None:
    golden("report/check.txt", check_text("sample.json", verdict, line, Paper()))


def test_with_small_remarks_and_accepted_findings(verdict: Verdict, golden: Golden) -> None:
    golden("report/check_verbose.txt", check_text("sample.json", verdict, line, Paper(), verbose=True))


def test_in_other_units(other_unit: Verdict, golden: Golden) -> None:
    text = check_text("sample.json", other_unit, line, Paper())
    golden(f"report/check_{other_unit.pattern.unit}.txt", text)


@pytest.mark.parametrize("width", [50, 60, 100])
def test_no_line_is_wider_than_the_paper(verdict: Verdict, width: int) -> None:
    lines = check_text("sample.json", verdict, line, Paper(width), verbose=True).splitlines()
    assert max(len(text) for text in lines) <= width


def test_names_from_a_file_cannot_steer_the_terminal(verdict: Verdict) -> None:
    text = check_text("sa\x1b[2Jmple\u202e.json", verdict, line, Paper(), verbose=True)
    assert "\x1b" not in text
    assert "\u202e" not in text
    assert "Back {" in text


def test_colours_only_add_what_a_terminal_hides(verdict: Verdict) -> None:
    import re

    coloured = check_text("sample.json", verdict, line, Paper(colour=True))
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == check_text("sample.json", verdict, line, Paper())


def test_the_verdict_in_a_sentence(verdict: Verdict) -> None:
    assert verdict_sentence(verdict) == (
        "Does not sew together: 3 errors and 3 warnings; 2 seams walked in S, M and L, 2 with findings."
    )
    sound = Verdict(Pattern(version="1.0"), (), None, Checked((), 1, ()))
    assert verdict_sentence(sound) == "Sews together: 1 seam walked; nothing to mend."
    unread = Verdict(Pattern(version="1.0"), verdict.findings[:1], None, None)
    assert verdict_sentence(unread) == "Could not be checked: 1 error in how the pattern is written."
    warned = tuple(g for g in verdict.findings if g.finding.place.piece == "front")[:1]
    unsewn = Verdict(Pattern(version="1.0"), warned, None, Checked((), 0, ()))
    assert verdict_sentence(unsewn) == "Look again before cutting: 1 warning; no seam is stated."
    accepted = replace(sound, findings=tuple(g for g in verdict.findings if g.accepted is not None))
    assert verdict_sentence(accepted) == "Sews together: 1 seam walked; 1 finding accepted on purpose."
    accepted = replace(accepted, checked=Checked(("S",), 0, ()))
    assert verdict_sentence(accepted) == (
        "Nothing to sew together: no seam is stated; 1 finding accepted on purpose."
    )


def test_nothing_is_said_of_the_whole_where_checks_were_left_out(verdict: Verdict) -> None:
    sound = Verdict(Pattern(version="1.0"), (), None, Checked((), 1, (), (), ("darts/crossing",)))
    assert not sound.sews_together
    assert verdict_sentence(sound) == "Only darts/crossing was looked at: nothing found there."
    assert verdict.checked is not None
    several = replace(verdict, checked=replace(verdict.checked, only=("seams", "pieces/no-grain")))
    assert verdict_sentence(several) == (
        "Only seams and pieces/no-grain were looked at: 3 errors and 3 warnings."
    )
