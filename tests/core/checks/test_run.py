from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from notchwork.checks import Check, Names, Verdict, check, hint, message, run, selected
from notchwork.findings import Finding, Length, Place, Row, Rule, Severity, Tolerance, UnknownName
from notchwork.model import Acceptance, Pattern, Seam, Sizes, Span
from notchwork.model import Side as ModelSide

UNEQUAL = Rule(
    "seams/unequal-length",
    "Sides of unequal length",
    "Both sides must be of one length.",
    "common practice, no source",
    Tolerance(0.5, 1.6, 3.2),
    tape=Tolerance(3, 5, 8),
    seam_tolerance=True,
)
WRONG_WAY = Rule("seams/wrong-way", "Runs the wrong way", "r", "common practice, no source", Severity.ERROR)

TEXT = "{longer} is {off} longer than {shorter} ({a:bare} against {b:bare}; up to {fine:bare} is fine)."


class Nest:
    """Only what the frame itself reads of a nest."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.walks = dict.fromkeys(pattern.seams)


def unequal(seam: str, offs: dict[str | None, float], tape: bool = False) -> Finding:
    rows = tuple(
        Row(size, off, 400 + off, 400, {"a": Length(400 + off), "b": Length(400)})
        for size, off in offs.items()
    )
    names = {"longer": "Back", "shorter": "Front"}
    return Finding(
        UNEQUAL, Place(seam=seam), TEXT, "Take {off} off {longer}.", names, rows, ("front", "back"), tape=tape
    )


def giving(rule: Rule, *findings: Finding) -> Check:
    @check(rule)
    def found(nest: object) -> Iterator[Finding]:
        yield from findings

    return found


def verdict(pattern: Pattern, *checks: Check) -> Verdict:
    return run(Nest(pattern), checks)  # type: ignore[arg-type]


def words(pattern: Pattern, *findings: Finding) -> list[str]:
    return [message(g, Names(pattern)) for g in verdict(pattern, giving(UNEQUAL, *findings)).findings]


def test_one_fault_is_one_finding_worded_for_its_worst_size(pattern: Pattern) -> None:
    [said] = words(pattern, unequal("side", {"S": 0.2, "M": 0.0, "L": 4.5}))
    assert said == (
        "Side seam, size L: Back is 4.5 mm longer than Front (404.5 against 400.0; up to 1.6 is fine). "
        "In S and M it sews. M is the size it is drafted in, so look at the grading first."
    )


def test_the_other_wrong_sizes_are_said_and_those_only_a_little_off_count_as_right(pattern: Pattern) -> None:
    [said] = words(pattern, unequal("side", {"S": 2.0, "M": 0.6, "L": 4.5}))
    assert said.endswith(
        "Also in S (2.0 mm). In M it sews. M is the size it is drafted in, so look at the grading first."
    )


def test_all_sizes_wrong_says_nothing_of_the_grading(pattern: Pattern) -> None:
    [said] = words(pattern, unequal("side", {"S": 4.5, "M": 4.5, "L": 4.5}))
    assert said == (
        "Side seam, every size: Back is 4.5 mm longer than Front (404.5 against 400.0; up to 1.6 is fine)."
    )


def test_sizes_that_are_off_by_as_much_from_other_lengths_are_said_together(pattern: Pattern) -> None:
    rows = tuple(
        Row(size, 4.5, base + 4.5, base, {"a": Length(base + 4.5), "b": Length(base)})
        for size, base in (("S", 390), ("M", 400), ("L", 410))
    )
    [said] = words(pattern, replace(unequal("side", {}), rows=rows))
    assert said.startswith("Side seam, size M: Back is 4.5 mm longer than Front (404.5 against 400.0")
    assert said.endswith("Also in S and L, by as much.")


def test_a_difference_the_other_way_round_is_said_to_be_so(pattern: Pattern) -> None:
    [said] = words(pattern, unequal("side", {"S": -2.0, "M": 0.0, "L": 4.5}))
    assert "Also in S (2.0 mm, the other way round)." in said


def test_one_size_is_not_spoken_of(pattern: Pattern) -> None:
    one_size = replace(pattern, sizes=None)
    assert words(one_size, unequal("side", {None: 2.0})) == [
        "Side seam: Back is 2.0 mm longer than Front (402.0 against 400.0; up to 1.6 is fine)."
    ]


def test_a_fault_within_every_step_is_no_finding(pattern: Pattern) -> None:
    assert verdict(pattern, giving(UNEQUAL, unequal("side", {"M": 0.5}))).findings == ()


def test_a_size_the_piece_is_absent_in_is_neither_right_nor_wrong(pattern: Pattern) -> None:
    [graded] = verdict(pattern, giving(UNEQUAL, unequal("side", {"S": float("nan"), "M": 2.0}))).findings
    assert [row.row.size for row in graded.rows] == ["M"]
    assert graded.right == ()


@pytest.mark.parametrize(
    ("change", "severity"),
    [
        (lambda p: p, Severity.WARNING),
        (lambda p: replace(p, tolerances={"seams/unequal-length": (0.1, 0.2, 0.3)}), Severity.ERROR),
        (lambda p: with_seam(p, tolerance=3.0), Severity.INFO),
        (lambda p: with_seam(p, tolerances={"seams/unequal-length": (4.0, 5.0, 6.0)}), None),
        (
            lambda p: with_seam(
                replace(p, tolerances={"seams/unequal-length": (0.1, 0.2, 0.3)}), tolerance=3.0
            ),
            Severity.INFO,
        ),
    ],
)
def test_the_nearest_stated_tolerance_holds(
    pattern: Pattern, change: Callable[[Pattern], Pattern], severity: Severity | None
) -> None:
    found = verdict(change(pattern), giving(UNEQUAL, unequal("side", {"M": 2.0}))).findings
    assert [graded.severity for graded in found] == ([severity] if severity else [])


def with_seam(pattern: Pattern, **changes: object) -> Pattern:
    return replace(pattern, seams={**pattern.seams, "side": replace(pattern.seams["side"], **changes)})  # type: ignore[arg-type]


def test_a_measure_taken_by_tape_is_graded_by_the_tapes_steps(pattern: Pattern) -> None:
    [graded] = verdict(pattern, giving(UNEQUAL, unequal("side", {"M": 4.0}, tape=True))).findings
    assert graded.severity is Severity.INFO


def test_the_same_fault_in_the_lining_is_one_finding_with_two_places(pattern: Pattern) -> None:
    found = (
        unequal("side", {"L": 4.5}),
        replace(unequal("lining_side", {"L": 4.5}), pieces=("lining_front", "lining_back")),
    )
    [graded] = verdict(pattern, giving(UNEQUAL, *found)).findings
    assert [place.seam for place in graded.places] == ["side", "lining_side"]
    assert graded.finding.pieces == ("front", "back", "lining_front", "lining_back")
    assert message(graded, Names(pattern)).endswith("The same holds for Lining side seam.")


def test_different_figures_in_the_lining_are_a_finding_of_their_own(pattern: Pattern) -> None:
    found = unequal("side", {"L": 4.5}), unequal("lining_side", {"L": 4.6})
    assert len(verdict(pattern, giving(UNEQUAL, *found)).findings) == 2


def test_like_pieces_but_another_edge_are_not_the_same_fault(pattern: Pattern) -> None:
    other = Seam((ModelSide((Span("front.hem"),)), ModelSide((Span("back.hem"),))))
    other_edge = replace(pattern, seams={**pattern.seams, "hem": other})
    found = unequal("side", {"L": 4.5}), unequal("hem", {"L": 4.5})
    assert len(verdict(other_edge, giving(UNEQUAL, *found)).findings) == 2


def test_what_is_accepted_is_kept_and_not_counted(pattern: Pattern) -> None:
    accepted = replace(
        pattern, accepted=(Acceptance("seams/unequal-length", "It is stretched by hand.", seam="side"),)
    )
    result = verdict(accepted, giving(UNEQUAL, unequal("side", {"L": 4.5})))
    assert [graded.accepted for graded in result.findings] == ["It is stretched by hand."]
    assert result.sews_together
    assert result.at_least(Severity.INFO) == ()


def test_accepting_one_size_leaves_the_others(pattern: Pattern) -> None:
    accepted = replace(
        pattern, accepted=(Acceptance("seams/unequal-length", "Known.", seam="side", size="L"),)
    )
    result = verdict(accepted, giving(UNEQUAL, unequal("side", {"S": 2.0, "L": 4.5})))
    [left] = result.at_least(Severity.INFO)
    assert [row.row.size for row in left.rows] == ["S"]
    assert left.severity is Severity.WARNING


def test_what_was_left_out_is_known_by_families_and_checks(pattern: Pattern) -> None:
    every = [giving(rule) for rule in (UNEQUAL, WRONG_WAY, replace(UNEQUAL, id="hems/unlike"))]

    def only(*ran: int) -> tuple[str, ...]:
        result = run(Nest(pattern), [every[k] for k in ran], (), every)  # type: ignore[arg-type]
        assert result.checked is not None
        assert result.sews_together is (len(ran) == 3)
        return result.checked.only

    assert only(0, 1, 2) == ()
    assert only(0, 1) == ("seams",)
    assert only(1, 2) == ("seams/wrong-way", "hems")


def test_an_acceptance_that_matches_nothing_is_told_as_info(pattern: Pattern) -> None:
    accepted = replace(pattern, accepted=(Acceptance("seams/unequal-lenght", "Known."),))
    [graded] = verdict(accepted, giving(UNEQUAL)).findings
    assert graded.rule.id == "accepted/matches-nothing"
    assert graded.severity is Severity.INFO
    assert "There is no check seams/unequal-lenght." in message(graded, Names(accepted))
    assert hint(graded, Names(accepted)) == "Did you mean seams/unequal-length?"


def test_a_tolerance_of_no_check_is_told(pattern: Pattern) -> None:
    steps = (1.0, 2.0, 3.0)
    stated = with_seam(
        replace(pattern, tolerances={"seams/wrong-way": steps}),
        tolerances={"seams/unequal": steps, "seams/unequal-length": steps},
    )
    found = verdict(stated, giving(UNEQUAL), giving(WRONG_WAY)).findings
    assert [(graded.rule.id, graded.severity, graded.finding.place.pointer) for graded in found] == [
        ("tolerances/of-no-check", Severity.WARNING, "/tolerances/seams~1wrong-way"),
        ("tolerances/of-no-check", Severity.WARNING, "/seams/side/tolerances/seams~1unequal"),
    ]


def test_an_acceptance_of_a_check_that_was_left_out_is_not_judged(pattern: Pattern) -> None:
    accepted = replace(pattern, accepted=(Acceptance("seams/wrong-way", "Known."),))
    result = run(Nest(accepted), [giving(UNEQUAL)], every=[giving(UNEQUAL), giving(WRONG_WAY)])  # type: ignore[arg-type]
    assert result.findings == ()


def test_a_check_that_crashes_costs_one_finding_and_not_the_run(pattern: Pattern) -> None:
    @check(WRONG_WAY)
    def breaks(nest: object) -> Iterator[Finding]:
        yield Finding(WRONG_WAY, Place(seam="side"), "Turn it round.")
        raise ZeroDivisionError("nothing to divide")

    found = verdict(pattern, breaks, giving(UNEQUAL, unequal("side", {"L": 2.0}))).findings
    assert [graded.rule.id for graded in found] == [
        "seams/wrong-way",
        "seams/unequal-length",
        "internal/check-crashed",
    ]


def test_a_template_without_its_value_is_charged_to_its_check(pattern: Pattern) -> None:
    broken = Finding(WRONG_WAY, Place(), "{nobody} knows.")
    [graded] = verdict(pattern, giving(WRONG_WAY, broken)).findings
    assert graded.rule.id == "internal/check-crashed"


def test_a_finding_of_another_rule_is_charged_to_its_check(pattern: Pattern) -> None:
    [graded] = verdict(pattern, giving(WRONG_WAY, unequal("side", {"L": 9}))).findings
    assert graded.rule.id == "internal/check-crashed"


def test_worst_first_and_all_of_one_seam_together(pattern: Pattern) -> None:
    wrong = giving(WRONG_WAY, Finding(WRONG_WAY, Place(seam="lining_side"), "Turn it round."))
    lengths = giving(UNEQUAL, unequal("side", {"L": 2.0}), unequal("lining_side", {"L": 1.0}))
    found = verdict(pattern, lengths, wrong).findings
    assert [(graded.finding.place.seam, graded.severity.word) for graded in found] == [
        ("lining_side", "error"),
        ("lining_side", "info"),
        ("side", "warning"),
    ]


def test_what_was_not_run_is_said_once_for_each_piece(pattern: Pattern) -> None:
    @check(WRONG_WAY, needs="shapes")
    def shapes(nest: object) -> Iterator[Finding]:
        yield from ()

    checked = verdict(pattern, shapes, giving(UNEQUAL)).checked
    assert checked is not None
    assert [(skipped.piece, skipped.checks) for skipped in checked.not_run] == [
        (piece, ("seams/wrong-way",)) for piece in ("front", "back", "lining_front", "lining_back")
    ]
    assert checked.seams == 2
    assert checked.sizes == ("S", "M", "L")


def test_checks_are_selected_by_id_or_family() -> None:
    hems = giving(Rule("hems/unlike", "t", "r", "s", Severity.WARNING))
    every = [giving(UNEQUAL), giving(WRONG_WAY), hems]
    assert [c.id for c in selected(every, ["seams"])] == ["seams/unequal-length", "seams/wrong-way"]
    assert [c.id for c in selected(every, ["hems/", "seams/wrong-way"])] == ["seams/wrong-way", "hems/unlike"]
    assert selected(every) == tuple(every)
    with pytest.raises(UnknownName, match="Did you mean seams/wrong-way"):
        selected(every, ["seams/wrongway"])


def test_sizes_keep_the_order_of_the_pattern(pattern: Pattern) -> None:
    reordered = replace(pattern, sizes=Sizes(("L", "M", "S"), "L"))
    [said] = words(reordered, unequal("side", {"L": 4.5, "M": 0, "S": 0}))
    assert "In M and S it sews." in said
