from __future__ import annotations

from pathlib import Path

from notchwork import jobs
from notchwork.draw import Options
from notchwork.findings import worded
from notchwork.formats import DRAWN, EVERYTHING, Feature, Format, losses, uses
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


def test_a_title_is_in_every_drawing_and_credits_are_in_none(cases: Path) -> None:
    pattern = Pattern(version="1.0", title="Smock", author="A maker")
    assert uses(pattern) == {Feature.TITLE: 1, Feature.CREDITS: 1}
    assert Feature.TITLE in DRAWN
    assert Feature.CREDITS not in DRAWN
    for name in ("smock.svg", "smock.dxf", "smock.bare.dxf", "smock.cad.dxf"):
        drawn = jobs.convert_loaded(
            jobs.load(cases / "ferry_smock.pattern.json"), name, drawing=Options(document=False)
        )
        [data] = drawn.files.values()
        again = jobs.load(data, name).pattern
        assert again is not None
        assert again.title == "Ferry smock"
