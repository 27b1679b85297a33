"""Darts: legs, leaning, mouths, points outside and darts across each other, at their limits and one step beyond."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import Document, loud, said


def bodice(**darts: Any) -> Document:
    """A bodice panel 300 wide and 400 high, its waist below at y = 0, with darts."""
    panel = {
        "allowance": 12,
        "outline": [
            {"at": [0, 0], "edge": "center"},
            {"at": [0, 400], "edge": "top"},
            {"at": [300, 400], "edge": "side"},
            {"at": [300, 0], "edge": "waist"},
        ],
        "darts": darts,
        "grainline": [[50, 50], [50, 300]],
    }
    return {"notchwork": "1.0", "pieces": {"back": panel}}


def dart(width: float = 20, depth: float = 100, aside: float = 0, **more: Any) -> dict[str, Any]:
    """A waist dart in the middle of the waist, its point so far to one side."""
    feet = [["center", 150 - width / 2], ["center", 150 + width / 2]]
    return {"edge": "waist", "feet": feet, "apex": [150 + aside, depth]} | more


@pytest.mark.parametrize("width", [8, 14.9, 20])
def test_nothing_is_said_of_a_plain_waist_dart(width: float) -> None:
    assert said(bodice(waist_dart=dart(width)), "darts") == []


@pytest.mark.parametrize(("aside", "speaks"), [(0, False), (7.5, False), (8.5, True)])
def test_legs_that_differ_by_more_than_a_sixteenth_of_an_inch(aside: float, speaks: bool) -> None:
    """Aside by a on a mouth of w and a depth of h, the legs differ by about a·w/h: 1.5 and 1.7 mm here."""
    found = loud(bodice(waist_dart=dart(aside=aside)), "darts/unequal-legs")
    assert found == ({"darts/unequal-legs": "warning"} if speaks else {})


def test_unequal_legs_are_told_with_both_measures() -> None:
    document = bodice(waist_dart=dart(aside=20))
    [(rule, _, words)] = said(document, "darts")
    assert rule == "darts/unequal-legs"
    one, other = math.hypot(30, 100), math.hypot(10, 100)
    assert f"{one:.1f} mm and {other:.1f} mm long, {one - other:.1f} mm apart" in words
    document["pieces"]["back"]["darts"]["waist_dart"]["eased"] = True
    assert said(document, "darts/unequal-legs") == []


@pytest.mark.parametrize(("aside", "speaks"), [(0, False), (2.5, False), (3, True), (-5, True)])
def test_a_dart_that_leans(aside: float, speaks: bool) -> None:
    """Base angles of the triangle foot, foot, apex that differ by more than 3 degrees; the lengths hardly show it."""
    found = loud(bodice(waist_dart=dart(aside=aside)), "darts")
    assert found == ({"darts/lopsided": "warning"} if speaks else {})


def test_a_leaning_dart_whose_longer_leg_is_eased_is_quiet() -> None:
    assert loud(bodice(waist_dart=dart(aside=5, eased=True)), "darts/lopsided") == {}


def curved(bulge: float) -> list[dict[str, Any]]:
    """The handles of two legs, the first bulging outwards."""
    return [{"out": [140 - bulge, 33], "in": [150 - bulge, 66]}, {}]


@pytest.mark.parametrize(("bulge", "speaks"), [(2, False), (40, True)])
def test_curved_legs_are_measured_along_their_curve(bulge: float, speaks: bool) -> None:
    found = loud(bodice(waist_dart=dart(legs=curved(bulge))), "darts/unequal-legs")
    assert found == ({"darts/unequal-legs": "warning"} if speaks else {})


@pytest.mark.parametrize(
    ("width", "depth", "allowance", "speaks"),
    [
        (20, 100, 12, False),
        (25.4, 88.9, 12, True),
        (20, 100, 5, True),
        (14.9, 30, 12, False),
        (20, 100, 0, False),
    ],
)
def test_a_straight_mouth_falls_short_when_it_is_folded(
    width: float, depth: float, allowance: float, speaks: bool
) -> None:
    """Short by a·sin θ (plane geometry): 1.98 mm at 20 x 100, 3.56 at 25.4 x 88.9; at most 3 mm or a third of the allowance."""
    document = bodice(waist_dart=dart(width, depth))
    document["pieces"]["back"]["allowance"] = allowance
    assert loud(document, "darts") == ({"darts/mouth-untrue": "warning"} if speaks else {})


def with_true_cap(document: Document, proud: float) -> Document:
    """Let the waist run out to a point below the dart, as it comes from folding it before it is cut."""
    outline = document["pieces"]["back"]["outline"]
    outline += [{"at": [165, 0], "name": "a"}, {"at": [150, -proud]}, {"at": [135, 0], "name": "b"}]
    return document


def test_a_true_mouth_is_quiet_and_is_what_the_message_asks_for() -> None:
    """30 x 90 mm: the true cap stands 5.143 mm proud (plane geometry)."""
    [(rule, _, words)] = said(bodice(waist_dart=dart(30, 90, press="center")), "darts")
    assert rule == "darts/mouth-untrue"
    assert (
        "pressed towards the center, the mouth of the dart “waist dart” falls 4.9 mm short of the waist"
        in words
    )
    document = with_true_cap(bodice(waist_dart=dart(30, 90) | {"feet": ["b", "a"]}), 5.143)
    assert said(document, "darts") == []


@pytest.mark.parametrize("more", [{"slashed": True}, {"open_from": 60}])
def test_slashed_darts_and_dart_tucks_may_have_any_mouth(more: dict[str, Any]) -> None:
    assert loud(bodice(waist_dart=dart(30, 90, **more)), "darts/mouth-untrue") == {}


@pytest.mark.parametrize(("height", "speaks"), [(390, False), (401, True)])
def test_a_point_outside_the_piece(height: float, speaks: bool) -> None:
    found = loud(bodice(waist_dart=dart(10, height)), "darts")
    assert found == ({"darts/apex-outside": "error"} if speaks else {})


def test_a_point_outside_is_told_with_its_distance() -> None:
    [(_, _, words)] = said(bodice(waist_dart=dart(10, 412)), "darts/apex-outside")
    assert "The point of the dart “waist dart” lies 12.0 mm outside the piece." in words


def side_dart(depth: float, height: float = 60) -> dict[str, Any]:
    return {
        "edge": "side",
        "feet": [["waist", height - 6], ["waist", height + 6]],
        "apex": [300 - depth, height],
    }


@pytest.mark.parametrize(("depth", "speaks"), [(100, False), (170, True)])
def test_darts_that_cross(depth: float, speaks: bool) -> None:
    found = loud(bodice(waist_dart=dart(14, 140), low_dart=side_dart(depth)), "darts")
    assert found == ({"darts/crossing": "error"} if speaks else {})


def test_darts_that_end_in_one_point_are_quiet() -> None:
    document = bodice(waist_dart=dart(14, 60), low_dart=side_dart(150))
    assert loud(document, "darts") == {}


def test_darts_one_in_the_mouth_of_the_other_cross() -> None:
    document = bodice(
        long=dart(40, 200, slashed=True), short=dart(8, 60) | {"feet": [["center", 146], ["center", 154]]}
    )
    [(rule, _, words)] = said(document, "darts/crossing")
    assert rule == "darts/crossing"
    assert "“long” and “short” lie across each other" in words


def test_double_pointed_darts() -> None:
    inside = {"apexes": [[150, 60], [150, 300]], "width": 24}
    assert said(bodice(fish=inside), "darts") == []
    outside = {"apexes": [[150, 60], [150, 420]], "width": 24}
    assert loud(bodice(fish=outside), "darts") == {"darts/apex-outside": "error"}
    assert loud(bodice(fish=inside, waist_dart=dart(10, 100)), "darts") == {"darts/crossing": "error"}


def test_darts_far_from_each_other_are_not_compared_and_those_across_each_other_are() -> None:
    """A fan of darts into one point, one dart beside it, and one across the first of the fan."""
    fan = {
        f"fan{k}": {
            "edge": "waist",
            "feet": [["center", 40 + 8 * k], ["center", 44 + 8 * k]],
            "apex": [80, 200],
            "eased": True,
        }
        for k in range(8)
    }
    beside = {"edge": "waist", "feet": [["center", 200], ["center", 210]], "apex": [205, 100]}
    across = {"edge": "waist", "feet": [["center", 20], ["center", 24]], "apex": [100, 60], "eased": True}
    assert not said(bodice(**fan, beside=beside), "darts/crossing")
    found = said(bodice(**fan, beside=beside, across=across), "darts/crossing")
    assert [text.partition(" lie ")[0] for _, _, text in found] == [
        f"Back: The darts “fan{k}” and “across”" for k in range(8)
    ]


@pytest.mark.parametrize(("depth", "speaks"), [(0, True), (0.9, True), (1.1, False)])
def test_a_dart_without_depth(depth: float, speaks: bool) -> None:
    told = loud(bodice(flat=dart(depth=depth)), "darts/flat")
    assert told == ({"darts/flat": "error"} if speaks else {})


@pytest.mark.parametrize(("depth", "speaks"), [(0.9, True), (1.1, False)])
def test_a_double_pointed_dart_without_length(depth: float, speaks: bool) -> None:
    told = loud(bodice(d={"apexes": [[150, 200], [150, 200 + depth]], "width": 20}), "darts")
    assert told == ({"darts/flat": "error"} if speaks else {})
