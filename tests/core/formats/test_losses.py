from __future__ import annotations

from pathlib import Path

from notchwork import jobs
from notchwork.findings import worded
from notchwork.formats import EVERYTHING, Feature, Format, losses, uses
from notchwork.model import Pattern


def example(cases: Path) -> Pattern:
    return jobs.load(cases / "ferry_smock.pattern.json").sound()


def carrying(*features: Feature) -> Format:
    return Format("f", "A poor format", (".poor",), lambda start: False, carries=frozenset(features))


def test_what_the_example_uses_is_counted(cases: Path) -> None:
    used = uses(example(cases))
    assert used[Feature.SEAMS] == 4
    assert used[Feature.SIZES] == 3
    assert used[Feature.FOLDS] == 2
    assert used[Feature.NOTCHES] == 4
    assert used[Feature.CUT_ORDERS] == 4
    assert Feature.DARTS not in used


def test_a_format_that_carries_everything_loses_nothing(cases: Path) -> None:
    assert list(losses(example(cases), carrying(*EVERYTHING))) == []


def test_all_that_is_not_carried_is_told_in_one_list(cases: Path) -> None:
    pattern = example(cases)
    lost = {Feature.SEAMS, Feature.SIZES, Feature.NOTCHES, Feature.DARTS}
    [finding] = losses(pattern, carrying(*(EVERYTHING - lost)))
    assert worded(finding.text, finding.values) == (
        "Left out, because the format (f) cannot carry it: sizes (3), notches (4) and seams (4)."
    )


def test_an_empty_pattern_uses_nothing() -> None:
    assert uses(Pattern(version="1.0")) == {}
