"""The run of edges through which one elastic goes."""

from __future__ import annotations

from math import isnan

import pytest
from patterns import Document, case, nest_of

from notchwork.sewing.counts.rounds import length_round


def round_of(document: Document, piece: str, line: str) -> float:
    return float(length_round(nest_of(document), piece, line)[0])


def test_half_a_waist_on_the_fold_runs_on_into_its_other_half_and_the_back() -> None:
    half = float(nest_of(case("two_panel_skirt")).line("front", "waist").length[0])
    assert round_of(case("two_panel_skirt"), "front", "waist") == pytest.approx(4 * half)


def test_a_sleeve_hem_is_a_run_of_its_own() -> None:
    assert round_of(case("ferry_smock"), "sleeve", "hem") == pytest.approx(356)


def test_both_legs_are_joined_at_the_rises() -> None:
    assert round_of(case("sound/boxer_shorts"), "leg", "waist") == pytest.approx(2 * 440)


def test_a_line_inside_an_edge_is_followed_through_the_pieces_that_have_one() -> None:
    document = case("two_panel_skirt")
    document["pieces"]["front"]["inner"] = {
        "channel": {"parallel_to": "waist", "distance": 60, "width": 20, "use": "casing"}
    }
    nest = nest_of(document)
    assert round_of(document, "back", "channel") == pytest.approx(
        4 * float(nest.line("front", "channel").length[0])
    )


def test_an_edge_without_a_casing_does_not_run_round_its_corners() -> None:
    document = case("two_panel_skirt")
    for edge in ("waist", "hem"):
        del document["pieces"]["front"]["edges"][edge]["finish"]
    half = float(nest_of(document).line("front", "waist").length[0])
    assert round_of(document, "front", "waist") == pytest.approx(4 * half)


def test_where_a_seam_beside_it_is_forgotten_or_turned_the_run_is_not_known() -> None:
    document = case("two_panel_skirt")
    side = document["seams"].pop("side")
    assert isnan(round_of(document, "front", "waist"))
    side["sides"][1] = [{"edge": "back.side", "from": "hem"}]
    side["sides"][0] = [{"edge": "front.side", "from": "waist"}]
    document["seams"]["side"] = side
    assert nest_of(document).wrong_way
    assert isnan(round_of(document, "front", "waist"))
