from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from notchwork.checks import Checked, Verdict, judged
from notchwork.document.faults import MORE_FAULTS
from notchwork.findings import Count, Finding, Place, Row, Rule, Severity, Tolerance
from notchwork.model import Pattern
from notchwork.report import Paper, check_text, verdict_sentence
from notchwork.report.paper import figures

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


@pytest.mark.parametrize("width", [40, 50, 60, 100])
def test_no_line_is_wider_than_the_paper(verdict: Verdict, width: int) -> None:
    lines = check_text("sample.json", verdict, line, Paper(width), verbose=True).splitlines()
    assert max(len(text) for text in lines) <= width


def test_a_narrow_terminal_shows_as_much(verdict: Verdict) -> None:
    wide, narrow = (
        check_text("sample.json", verdict, line, Paper(width), verbose=True) for width in (100, 40)
    )
    assert narrow.split() == wide.split()


def test_figures_that_find_no_room_in_columns_are_lines_of_words() -> None:
    sizes = [["size", "measured", "off by (mm)"], ["S, M, L", "12.0", "3.0"]]
    assert figures(sizes, Paper(40), 4) == [
        "    size     measured  off by (mm)",
        "    S, M, L      12.0          3.0",
    ]
    assert figures(sizes, Paper(30), 4) == ["    size S, M, L, measured", "    12.0, off by (mm) 3.0"]
    assert figures([], Paper(30)) == []


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
    more = judged([Finding(MORE_FAULTS, Place(), "There are more.")], verdict.pattern)
    many = replace(unread, findings=(*unread.findings, *more))
    assert verdict_sentence(many) == "Could not be checked: more than 1 error in how the pattern is written."
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


FULLNESS = Rule("seams/fullness", "t", "r", "s", Tolerance(5, 10, 20, "percent"), measured_in="ratio")


def told(pattern: Pattern, rule: Rule, *rows: Row) -> list[str]:
    finding = Finding(rule, Place(seam="side"), "It is {n}.", values={"n": Count(3)}, rows=rows)
    graded = judged([finding], pattern)
    return check_text("a", Verdict(pattern, tuple(graded)), line, Paper()).splitlines()[3:-2]


def test_what_is_true_of_every_size_is_not_said_of_one(verdict: Verdict) -> None:
    unequal = Rule("seams/unequal", "t", "r", "s", Tolerance(0.5, 1.6, 3.2))

    def head(*offs: float) -> str:
        rows = (Row(size, off, 100 + off, 100) for size, off in zip("SML", offs, strict=True))
        return told(verdict.pattern, unequal, *rows)[0].partition("  error    ")[2]

    assert head(8, 8, 8) == "Every size: It is 3."
    assert head(8, 9, 8) == "Every size, worst in M: It is 3."
    assert head(8, 9, 0) == "Size M: It is 3. In L it sews."
    assert head(8, 8.004, 8) == "Every size, here M: It is 3."


def test_sizes_that_look_the_same_are_one_row(verdict: Verdict) -> None:
    rows = [Row("S", 30, 2.604, 2.0), Row("M", 30.04, 2.601, 2.0), Row("L", 45, 2.9, 2.0)]
    assert told(verdict.pattern, FULLNESS, *rows)[1:4] == [
        "           size  measured  against  off by (%)",
        "           S, M      2.60     2.00        30.0",
        "           L         2.90     2.00        45.0",
    ]


def test_sizes_without_figures_are_all_named(verdict: Verdict) -> None:
    crossing = Rule("darts/crossing", "t", "r", "s", Severity.ERROR)
    rows = [Row("S", values={"n": Count(1)}), Row("L", values={"n": Count(2)})]
    [said] = [text for text in told(verdict.pattern, crossing, *rows) if "error" in text]
    assert said == "  error    Size S: It is 1. Also in L."


def test_where_nothing_is_named_before_the_further_places_are_what_it_concerns(verdict: Verdict) -> None:
    rule = Rule("cutting/no-cut-order", "t", "r", "s", Severity.WARNING)
    finding = Finding(
        rule, Place(), "Nothing says it of any piece.", also=(Place(piece="front"), Place(piece="back"))
    )
    text = check_text("a", Verdict(verdict.pattern, tuple(judged([finding], verdict.pattern))), line, Paper())
    assert "Nothing says it of any piece. This concerns Front and Back" in text
