"""What every check promises, whoever wrote it."""

from __future__ import annotations

from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.checks import Check
from notchwork.findings import Rule, Severity, Tolerance
from notchwork.host import registry

CASES = Path(__file__).parents[1] / "cases"
CHECKS = registry().checks
RULES = tuple(registry().rules.values())


def named(thing: Check | Rule) -> str:
    return thing.id


@pytest.mark.parametrize("rule", RULES, ids=named)
def test_a_rule_has_a_title_a_reason_and_a_source(rule: Rule) -> None:
    assert rule.title
    assert not rule.title.endswith(".")
    assert len(rule.rationale) > 40
    assert rule.rationale.endswith((".", ")"))
    assert len(rule.source) > 5


@pytest.mark.parametrize("rule", [rule for rule in RULES if isinstance(rule.grade, Tolerance)], ids=named)
def test_the_steps_of_a_tolerance_rise(rule: Rule) -> None:
    for tolerance in (rule.grade, rule.tape):
        if isinstance(tolerance, Tolerance):
            steps = [
                step for step in (tolerance.info, tolerance.warning, tolerance.error) if step is not None
            ]
            assert steps
            assert steps == sorted(steps)


def test_no_plugin_of_the_program_is_broken() -> None:
    assert registry().findings == ()


def of_case(check: Check, kind: str) -> list[Path]:
    return sorted((CASES / check.id).glob(f"{kind}*.json"))


@pytest.mark.parametrize("check", [check for check in CHECKS if (CASES / check.id).is_dir()], ids=named)
def test_a_check_speaks_of_its_bad_cases_and_is_quiet_on_its_good_ones(check: Check) -> None:
    assert of_case(check, "good")
    assert of_case(check, "bad")
    for path in of_case(check, "good"):
        verdict = jobs.check(jobs.load(path), [check.id])
        assert verdict.checked is not None, path
        assert verdict.at_least(Severity.WARNING) == (), path
    for path in of_case(check, "bad"):
        verdict = jobs.check(jobs.load(path), [check.id])
        assert verdict.checked is not None, path
        assert {graded.rule.id for graded in verdict.at_least(Severity.INFO)} == {check.id}, path
