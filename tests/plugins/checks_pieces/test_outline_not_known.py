"""Pieces whose one outline may be the cut line: nothing measured on them is judged."""

from __future__ import annotations

import copy
from typing import Any

from patterns import case, nest_of

from notchwork.checks import run
from notchwork.findings import Severity
from notchwork.host import registry


def _verdict(document: dict[str, Any]) -> Any:
    return run(nest_of(document), registry().checks)


def _doubtful() -> dict[str, Any]:
    document = copy.deepcopy(case("ferry_smock"))
    document["pieces"]["front"]["outline"][4]["at"] = [250, 380]
    return document


def test_a_seam_of_such_a_piece_is_not_judged_and_this_is_said_once() -> None:
    faulty = _doubtful()
    assert any(g.finding.place.seam == "side" for g in _verdict(faulty).at_least(Severity.WARNING))
    faulty["pieces"]["front"]["outline_is"] = "unknown"
    verdict = _verdict(faulty)
    assert [g.rule.id for g in verdict.at_least(Severity.WARNING)] == ["pieces/outline-not-known"]
    assert not verdict.sews_together


def test_what_could_not_be_judged_is_listed_with_the_reason() -> None:
    document = case("ferry_smock")
    document["pieces"]["front"]["outline_is"] = "cut_line"
    (left_out,) = [entry for entry in _verdict(document).checked.not_run if entry.piece == "front"]
    assert "cut line" in left_out.why
    assert "seams/unequal-length" in left_out.checks
    assert "cutting/no-cut-order" not in left_out.checks


def test_seams_of_other_pieces_and_what_is_not_measured_stand() -> None:
    document = copy.deepcopy(case("ferry_smock"))
    document["pieces"]["back"]["outline_is"] = "unknown"
    document["pieces"]["sleeve"]["outline"][0]["at"] = [-184, -20]
    del document["pieces"]["back"]["grainline"]
    ids = {g.rule.id for g in _verdict(document).at_least(Severity.WARNING)}
    assert "pieces/no-grain" in ids
    assert "seams/unequal-length" in ids


def test_a_guide_is_not_sewn_and_raises_nothing() -> None:
    document = copy.deepcopy(case("ferry_smock"))
    document["pieces"]["guide"] = {
        "use": "guide",
        "outline_is": "unknown",
        "outline": [{"at": [0, 0], "edge": "a"}, {"at": [50, 0], "edge": "b"}, {"at": [0, 50], "edge": "c"}],
    }
    assert _verdict(document).at_least(Severity.WARNING) == ()
