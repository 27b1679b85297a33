"""Hands where a seam joins several layers, or takes other copies of one piece: what is sound however it is written."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, nest_of


def wrong_way(document: Document) -> set[str]:
    return set(nest_of(document).wrong_way)


@pytest.mark.parametrize("turns", range(3))
def test_a_lining_lies_in_its_shell_whichever_layer_is_stated_first(turns: int) -> None:
    document = case("sound/lined_bodice")
    waist: list[Any] = document["seams"]["waist"]["sides"]
    document["seams"]["waist"]["sides"] = waist[turns:] + waist[:turns]
    assert wrong_way(document) == set()


@pytest.mark.parametrize(
    ("name", "seams"),
    [
        ("sound/shirt", ["collar_edge"]),
        ("sound/shirt", ["stand_front"]),
        ("sound/shirt", ["cuff_edge"]),
        ("sound/zipped_pouch", ["side", "lining_side", "lining_other_side"]),
        ("sound/round_cushion", ["around"]),
    ],
)
def test_two_copies_may_be_written_word_for_word_alike(name: str, seams: list[str]) -> None:
    document = case(name)
    for seam in seams:
        sides = document["seams"][seam]["sides"]
        sides[1] = sides[0]
    nest = nest_of(document)
    assert not nest.wrong_way
    assert all(nest.sewn[seam].own_mirror for seam in seams)


def test_an_inner_collar_stand_is_another_copy_whether_or_not_it_is_said_to_be_mirrored() -> None:
    document = case("sound/shirt")
    document["seams"]["stand_inside"]["sides"][1] = document["seams"]["neck"]["sides"][1]
    assert wrong_way(document) == set()


def test_with_a_single_copy_of_a_hand_the_mirrored_one_must_be_named() -> None:
    document = case("sound/lined_tote_bag")
    sides = document["seams"]["side_left"]["sides"]
    sides[1] = sides[0]
    assert wrong_way(document) == {"side_left"}


def test_an_edge_on_another_copy_of_one_hand_lies_the_other_way_round() -> None:
    """Two bag bodies alike: the left end of the one bottom meets the right end of the other."""
    document = case("sound/tote_bag")
    assert wrong_way(document) == set()
    document["seams"]["side"]["sides"][1][0]["from"] = "top"
    assert wrong_way(document) == {"side"}


def cuffs(cut: list[dict[str, Any]]) -> Document:
    """A band sewn to a sleeve's hem by its lower edge, and inside over that seam by its upper one."""
    outlines = {
        "sleeve": [(-120, 0, "hem"), (120, 0, "back_seam"), (150, 300, "cap"), (-140, 300, "front_seam")],
        "cuff": [(0, 0, "lower"), (240, 0, "end"), (240, 60, "upper"), (0, 60, "start")],
    }
    pieces: dict[str, Any] = {
        ident: {"outline": [{"at": [x, y], "edge": edge} for x, y, edge in nodes]}
        for ident, nodes in outlines.items()
    }
    pieces["sleeve"]["cut"] = [{"material": "cloth", "count": 2, "mirrored": True}]
    pieces["cuff"]["cut"] = cut
    hem = {"edge": "sleeve.hem", "from": "front_seam"}
    return {
        "notchwork": "1.0",
        "materials": {"cloth": {}, "fusible": {"kind": "interfacing"}},
        "pieces": pieces,
        "seams": {
            "cuff": {"sides": [[hem], [{"edge": "cuff.lower", "from": "start"}]]},
            "inside": {
                "construction": "applied",
                "over": "cuff",
                "sides": [[hem], [{"edge": "cuff.upper", "from": "start"}]],
            },
        },
    }


@pytest.mark.parametrize(
    ("cut", "turned_is_told"),
    [
        ([{"material": "cloth", "count": 2}], True),
        ([{"material": "cloth", "count": 2}, {"material": "fusible", "count": 4}], True),
        ([{"material": "cloth", "count": 4}], False),
    ],
    ids=["one for each sleeve", "interfacing is no other copy", "two for each sleeve"],
)
def test_copies_that_all_are_sewn_alike_are_no_spare_ones(
    cut: list[dict[str, Any]], turned_is_told: bool
) -> None:
    document = cuffs(cut)
    assert wrong_way(document) == set()
    document["seams"]["inside"]["sides"][1][0]["from"] = "end"
    assert bool(wrong_way(document)) == turned_is_told


def test_the_inside_of_a_cuff_that_is_not_sewn_is_left_over() -> None:
    """A cuff falls on itself, but with a copy for each sleeve no seam's image is needed on its other edge."""
    document = cuffs([{"material": "cloth", "count": 2}])
    del document["seams"]["inside"]
    gaps = [gap.line.key for seam in nest_of(document).forgotten for gap in seam.gaps]
    assert ("cuff", "upper") in gaps
    assert ("cuff", "lower") not in gaps


def test_godets_that_one_seam_takes_as_often_as_they_are_cut_are_no_spare_ones() -> None:
    document = case("sound/godet_skirt")
    assert not nest_of(document).spare
    assert wrong_way(document) == set()
    document["pieces"]["godet"]["cut"][0]["count"] *= 2
    assert nest_of(document).spare == {"godet"}
