"""Accounts of edges: intervals, hands, layers, what lies over what, and readings of the hands."""

from __future__ import annotations

import numpy as np
from patterns import Document, case, nest_of

from notchwork.sewing.counts.accounts import Account


def account(document: Document, piece: str) -> Account:
    return nest_of(document).accounts[piece]


def counted(account: Account, edge: str, hand: bool | None) -> list[tuple[float, float, float]]:
    """Each interval of an edge: where it begins and ends, and how many copies are taken there, in the first size."""
    return [
        (round(float(i.low[0]), 1), round(float(i.high[0]), 1), float(i.times(hand)[0]))
        for i in account.intervals(edge)
    ]


def test_an_edge_is_cut_up_where_a_use_ends() -> None:
    lined = account(case("sound/lined_tote_bag"), "lining")
    assert counted(lined, "left", False) == [(0.0, 270.0, 1.0), (270.0, 420.0, 1.0)]
    kinds = [{taken.use.kind for taken, where in i.taken if where[0]} for i in lined.intervals("left")]
    assert kinds == [{"seam"}, {"opening"}]


def test_intervals_are_those_of_each_size() -> None:
    document = case("ferry_smock")
    document["seams"]["side"] = {
        "sides": [
            [{"edge": piece + ".side", "from": "armhole", "to": ["armhole", 100]}]
            for piece in ("front", "back")
        ]
    }
    taken, bare = account(document, "front").intervals("side")
    assert np.allclose(taken.high - taken.low, 100)
    assert np.allclose(bare.high - bare.low, [306, 300, 294])
    assert not bare.times().any()


def test_layers_and_times_are_counted() -> None:
    flounce = account(case("sound/net_skirt"), "flounce")
    assert counted(flounce, "top", None) == [(0.0, 1300.0, 6.0)]
    assert counted(flounce, "left", None) == [(0.0, 400.0, 6.0)]


def test_what_lies_over_an_earlier_seam_uses_nothing_up() -> None:
    front = account(case("sound/lined_bodice"), "front")
    [interval] = front.intervals("waist")
    assert interval.times(False)[0] == 2
    assert interval.times(False, resting=False)[0] == 1
    assert interval.using_up(False) == {"waist"}


def test_a_half_is_told_from_the_other() -> None:
    front = account(case("sound/dress_with_side_zip"), "front")
    by_hand = {
        hand: {
            taken.use.ident
            for i in front.intervals("side")
            for taken, _ in i.taken
            if taken.other_hand is hand
        }
        for hand in (False, True)
    }
    assert by_hand == {False: {"side_right"}, True: {"side_left_below", "zip"}}


def test_the_image_of_a_seam_falls_on_the_other_side_of_a_symmetrical_piece() -> None:
    """A yoke drawn whole and cut once: the shoulder that is stated is sewn on its mirror image too."""
    document: Document = {
        "notchwork": "1.0",
        "materials": {"wool": {}},
        "pieces": {
            "yoke": {
                "outline": [
                    {"at": [0, 0], "edge": "bottom"},
                    {"at": [400, 0], "edge": "right"},
                    {"at": [300, 120], "edge": "neck"},
                    {"at": [100, 120], "edge": "left"},
                ],
                "edges": {"neck": {"finish": {"kind": "bound"}}, "bottom": {"finish": {"kind": "hem"}}},
                "cut": [{"material": "wool"}],
            },
            "front": {
                "edges": {"shoulder": {"length": 156.2}},
                "cut": [{"material": "wool", "count": 2, "mirrored": True}],
            },
        },
        "seams": {"shoulder": {"sides": [["front.shoulder"], ["yoke.right"]]}},
    }
    yoke = account(document, "yoke")
    assert counted(yoke, "right", None) == [(0.0, 156.2, 1.0)]
    assert counted(yoke, "left", None) == [(0.0, 156.2, 1.0)]


def test_the_image_falls_only_where_an_edge_waits_for_it() -> None:
    """One cuff cannot be sewn to both sleeves, with its upper edge here and its lower edge there."""
    document = case("sound/hooded_sweatshirt")
    document["pieces"]["cuff"]["cut"][0]["count"] = 1
    cuff = account(document, "cuff")
    assert counted(cuff, "lower", None) == [(0.0, 230.0, 2.0)]
    assert counted(cuff, "upper", None) == [(0.0, 230.0, 0.0)]


def test_the_image_of_a_half_seam_falls_on_the_other_half_of_a_strip() -> None:
    document = case("sound/half_waistband")
    document["pieces"]["band"] = {
        "strip": {"width": 80, "length": 1000},
        "notches": {"middle": {"edge": "lower", "at": ["start", 500]}},
        "cut": [{"material": "main", "count": 1}],
    }
    document["seams"] = {
        "waist": {
            "sides": [
                [{"edge": "front.waist", "from": "center"}, {"edge": "back.waist", "from": "side"}],
                [{"edge": "band.lower", "from": "middle", "to": "end"}],
            ]
        }
    }
    assert counted(account(document, "band"), "lower", None) == [(0.0, 500.0, 1.0), (500.0, 1000.0, 1.0)]


def test_a_closed_edge_is_walked_past_its_first_node() -> None:
    disc = account(case("sound/round_cushion"), "disc")
    assert [times for _, _, times in counted(disc, "edge", None)] == [2.0, 2.0]
