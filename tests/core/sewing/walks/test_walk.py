"""Walks of the ferry smock, and of what is done to it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from notchwork.sewing import Nest, misfit
from notchwork.sewing.names import station_name

Damage = Callable[[Callable[[dict[str, Any]], None]], Nest]


def test_lengths_in_every_size(smock_nest: Nest) -> None:
    side = smock_nest.walks["side"]
    assert side.sides[0].length == pytest.approx([406, 400, 394], abs=1e-6)
    assert side.others[0].difference == pytest.approx([0, 0, 0], abs=1e-9)
    shoulder = smock_nest.walks["shoulder"]
    assert shoulder.sides[0].length == pytest.approx([119.57, 123.69, 127.82], abs=0.005)


def test_the_cap_carries_its_ease_between_the_pitches(smock_nest: Nest) -> None:
    cap = smock_nest.walks["armhole"].others[0]
    assert cap.difference == pytest.approx([14.99, 14.79, 14.11], abs=0.006)
    in_m = [float(interval.difference[1]) for interval in cap.intervals]
    assert in_m == pytest.approx([0, 5.43, 9.36, 0], abs=0.006)
    assert [interval.full for interval in cap.intervals] == [False, True, True, False]


def test_a_seam_that_fits_is_off_by_nothing(smock_nest: Nest) -> None:
    for walk in smock_nest.walks.values():
        for comparison in walk.others:
            off = misfit(smock_nest, walk, comparison)
            assert abs(off.length).max() < 1e-6
            assert abs(off.slipped).max() == 0
            assert abs(off.fullness).max() == 0


def test_a_dart_is_no_part_of_the_sewn_length(damaged: Damage) -> None:
    """A waist drawn 206.5 and sewn 190.5 with a 16 mm dart."""

    def change(document: dict[str, Any]) -> None:
        piece = document["pieces"]["front"]
        piece["darts"] = {
            "waist": {"edge": "hem", "feet": [["side", 100], ["side", 116]], "apex": [142, 120]}
        }

    nest = damaged(change)
    hem = nest.line("front", "hem")
    assert hem.length == pytest.approx([238, 250, 262])
    assert hem.sewn_length == pytest.approx([222, 234, 246])


def test_a_slipped_notch_leaves_the_total_right(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        document["pieces"]["back"]["notches"]["pitch"]["at"] = ["side", 84]

    nest = damaged(change)
    walk = nest.walks["armhole"]
    off = misfit(nest, walk, walk.others[0])
    assert off.slipped == pytest.approx([6, 6, 6])
    assert abs(off.length).max() == 0


def test_an_offset_beyond_its_edge_is_told(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        document["pieces"]["back"]["notches"]["pitch"]["at"] = ["side", 900]

    nest = damaged(change)
    assert nest.notches["back", "pitch"] == pytest.approx([0, 0, 0])
    assert [place.place.name for place in nest.misplaced] == ["side"]


def test_marks_pair_by_kind_in_walking_order(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        for piece in ("front", "back"):
            document["pieces"][piece]["notches"]["upper"] = {"edge": "side", "at": ["armhole", 100]}
            document["pieces"][piece]["notches"]["lower"] = {"edge": "side", "at": ["hem", 120]}

    comparison = damaged(change).walks["side"].others[0]
    assert [(s.name, s.other_name) for s in comparison.pairing.stations[1:-1]] == [
        ("upper", "upper"),
        ("lower", "lower"),
    ]
    assert [float(i.one[1]) for i in comparison.intervals] == pytest.approx([100, 180, 120])


def test_unequal_counts_of_a_kind_pair_none_of_that_kind(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        document["pieces"]["front"]["notches"]["upper"] = {"edge": "side", "at": ["armhole", 100]}
        document["pieces"]["front"]["notches"]["lower"] = {"edge": "side", "at": ["hem", 120]}
        document["pieces"]["back"]["notches"]["upper"] = {"edge": "side", "at": ["armhole", 100]}

    pairing = damaged(change).walks["side"].others[0].pairing
    assert len(pairing.stations) == 2
    assert [(kind, len(a), len(b)) for kind, a, b in pairing.unequal] == [("single", 2, 1)]


def test_what_hanging_will_level_is_no_fault(damaged: Damage) -> None:
    def change(excess: float) -> Callable[[dict[str, Any]], None]:
        def do(document: dict[str, Any]) -> None:
            back = document["pieces"]["back"]
            back["outline"][5]["at"] = [250, -excess]
            back["edges"]["hem"]["trim_when"] = "hung"

        return do

    for excess, levelled, length in ((14.0, 14.0, 0.0), (16.0, 0.0, 16.0)):
        nest = damaged(change(excess))
        walk = nest.walks["side"]
        off = misfit(nest, walk, walk.others[0])
        assert abs(off.levelled).max() == pytest.approx(levelled)
        assert abs(off.length).max() == pytest.approx(length)


def test_ease_may_lie_between_places_told_by_their_number(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        document["seams"]["armhole"]["sides"][1]["join"]["between"] = ["sleeve.front_pitch#1", "back_pitch"]

    cap = damaged(change).walks["armhole"].others[0]
    assert cap.lost == ()
    assert [interval.full for interval in cap.intervals] == [False, True, True, False]


def test_corners_that_meet_are_called_by_their_edges(damaged: Damage) -> None:
    """Both are called by the edge beside them, and lie in the opposite order."""

    def change(document: dict[str, Any]) -> None:
        document["seams"]["side"]["meet"] = [["front.armhole", "back.hem"]]

    nest = damaged(change)
    for station in nest.walks["side"].others[0].pairing.stations:
        assert station_name(nest, "side", station)
