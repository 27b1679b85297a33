"""From a file to a verdict: two pieces on the fold, a casing above, a hem below, one seam."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from notchwork import jobs
from notchwork.checks import Names, Verdict, hint, message
from notchwork.findings import Severity

Document = dict[str, Any]


@pytest.fixture
def skirt(cases: Path) -> Document:
    document: Document = json.loads((cases / "two_panel_skirt.pattern.json").read_bytes())
    return document


def verdict(document: Document) -> Verdict:
    return jobs.check(jobs.load(json.dumps(document).encode(), "skirt"))


def told(document: Document) -> list[tuple[str, Severity]]:
    return [(graded.rule.id, graded.severity) for graded in verdict(document).findings]


def test_it_sews_together(skirt: Document) -> None:
    assert told(skirt) == []
    assert verdict(skirt).sews_together


@pytest.mark.parametrize("side", [0, 1])
def test_a_side_stated_upside_down_runs_the_wrong_way(skirt: Document, side: int) -> None:
    """Nothing but the finishes tells it: both pieces lie on a fold, and the sides are equally long either way round."""
    skirt["seams"]["side"]["sides"][side] = [{"edge": f"{('front', 'back')[side]}.side", "from": "hem"}]
    of_seams = [(rule, severity) for rule, severity in told(skirt) if rule.startswith("seams/")]
    assert of_seams == [("seams/wrong-way", Severity.ERROR)]


@pytest.mark.parametrize(
    ("longer", "severity"), [(0.3, None), (0.6, Severity.INFO), (2, Severity.WARNING), (6, Severity.ERROR)]
)
def test_one_side_longer_is_told_by_as_much(
    skirt: Document, longer: float, severity: Severity | None
) -> None:
    outline = json.loads(json.dumps(skirt["pieces"]["front"]["outline"]))
    outline[3]["at"][1] -= longer
    skirt["pieces"]["back"]["outline"] = outline
    of_seams = [(rule, graded) for rule, graded in told(skirt) if rule == "seams/unequal-length"]
    assert of_seams == ([("seams/unequal-length", severity)] if severity else [])


def test_it_is_told_with_names_both_measures_the_difference_and_what_to_do(skirt: Document) -> None:
    outline = json.loads(json.dumps(skirt["pieces"]["front"]["outline"]))
    outline[3]["at"][1] -= 6
    skirt["pieces"]["back"]["outline"] = outline
    done = verdict(skirt)
    names = Names(done.pattern)
    [graded] = done.at_least(Severity.WARNING)
    said = message(graded, names)
    for part in ("Side seam", "Back is 6.0 mm longer than Front", "606.0 mm", "600.0 mm", "1.6 mm is fine"):
        assert part in said
    assert "Take 6.0 mm off Back" in hint(graded, names)
