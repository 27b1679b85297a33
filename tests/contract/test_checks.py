"""What every check promises, whoever wrote it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.checks import Check
from notchwork.findings import Rule, Severity, Tolerance
from notchwork.host import registry
from notchwork_schemas import schema_text

TESTS = Path(__file__).parents[1]
PLUGIN_TESTS = TESTS / "plugins"
SOUND = [TESTS / "cases" / f"{name}.pattern.json" for name in ("ferry_smock", "two_panel_skirt")]
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


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_nothing_above_info_is_said_of_a_sound_pattern(path: Path) -> None:
    verdict = jobs.check(jobs.load(path))
    assert [(graded.rule.id, graded.finding.place) for graded in verdict.at_least(Severity.WARNING)] == []
    assert verdict.sews_together


@pytest.mark.parametrize("check", CHECKS, ids=named)
def test_a_check_is_tested_where_it_speaks_and_where_it_is_quiet(check: Check) -> None:
    """By its id, in the tests of its family."""
    tests = PLUGIN_TESTS / f"checks_{check.rule.family}"
    assert any(f'"{check.id}"' in path.read_text(encoding="utf-8") for path in tests.glob("test_*.py"))


def test_every_check_that_the_formats_examples_name_is_there() -> None:
    """Whoever copies an example of a tolerance or an acceptance gets one that works."""

    def named(example: object) -> Iterator[str]:
        if isinstance(example, str):
            yield from re.findall(rf"\b(?:{'|'.join(families)})/[a-z0-9-]+", example)
        elif isinstance(example, list | dict):
            for entry in [*example, *(example.values() if isinstance(example, dict) else ())]:
                yield from named(entry)

    families = {rule.id.partition("/")[0] for rule in RULES} | {"corners"}
    found = set(named(json.loads(schema_text("pattern-1"))))
    assert found
    assert found <= {rule.id for rule in RULES}
