"""Gathers: how full a side is against what its maker states."""

from __future__ import annotations

import pytest
from external.drafting import Command, Document, pattern, seam


def frill(finished: float, flat: float, **join: object) -> Document:
    """A straight frill in inches, gathered on to a band."""
    pieces = {
        "band": {"strip": {"width": 2, "length": finished}},
        "frill": {"strip": {"width": 6, "length": flat}},
    }
    return pattern(
        pieces, "in", seams={"frill": seam(["band.lower"], ["frill.lower"], kind="gathered", **join)}
    )


@pytest.mark.parametrize(("flat", "ratio"), [(15.0, 1.5), (20.0, 2.0), (30.0, 3.0)])
def test_the_gauge_of_ten_inches(check: Command, flat: float, ratio: float) -> None:
    """A gathering gauge shows 10 in drawn up from 15, 20 and 30 in: 1.5, 2 and 3 times (Instructables, Ruffle Gauge)."""
    assert check(frill(10, flat, ratio=[ratio, ratio])).findings("seams") == []
    (found,) = check(frill(10, flat, ratio=[1, 1])).findings("seams/fullness-not-as-stated")
    assert found["sizes"][0]["measured"] == pytest.approx(ratio)
    assert found["unit"] == "percent"


def test_a_frill_for_fifteen_inches_at_two_and_a_half(check: Command) -> None:
    """Stitch Coach, 2017: 15 in at 2.5 needs 37 1/2 in; 2 in more are slack, which is worth an info at most."""
    assert check(frill(15, 37.5, ratio=[2.5, 2.5])).findings("seams") == []
    slack = check(frill(15, 37.5 + 2, ratio=[2.5, 2.5])).findings("seams")
    assert [f["severity"] for f in slack] == ["info"]
    assert check(frill(15, 37.5 + 2, ratio=2.5)).findings("seams") == []


@pytest.mark.parametrize(("percent", "times", "flat"), [(50, 1.5, 18.0), (100, 2.0, 24.0), (150, 2.5, 30.0)])
def test_fullness_as_the_stage_states_it(check: Command, percent: int, times: float, flat: float) -> None:
    """Stage drapery (a glossary, th4.ilovetranslation.com): 50, 100 and 150 % fullness on 12 in are 18, 24 and 30 in, that is
    1.5, 2 and 2.5 times."""
    assert check(frill(12, flat, percent=[percent, percent])).findings("seams") == []
    assert check(frill(12, flat, ratio=[times, times])).findings("seams") == []
    inch_short = check(frill(12, flat - 1, percent=[percent, percent])).findings("seams")
    assert [(f["severity"], f["sizes"][0]["off"]) for f in inch_short] == [("error", pytest.approx(-25.4))]
