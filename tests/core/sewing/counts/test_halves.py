"""How often a seam is sewn, and in which halves: own mirror images, rings, strips, halves that are stated outright."""

from __future__ import annotations

import pytest
from patterns import Document, case, nest_of

from notchwork.sewing.counts.halves import Sewn


def sewn(document: Document, seam: str) -> Sewn:
    return nest_of(document).sewn[seam]


def times(document: Document, seam: str) -> int:
    how = sewn(document, seam)
    return len(how.passes) * how.times


@pytest.mark.parametrize(
    ("name", "seam", "expected"),
    [
        ("ferry_smock", "side", 2),
        ("ferry_smock", "armhole", 2),
        ("sound/trousers", "back_rise", 1),  # its own mirror image, sides exchanged
        ("sound/trousers", "waist", 1),  # read the other way round, against a band cut in one hand
        ("sound/trousers", "facing", 1),  # states a half
        ("sound/trousers", "in", 2),
        ("sound/net_skirt", "gather", 1),  # a ring, from another start
        ("sound/gored_skirt", "gore", 5),  # cut in one hand only
        ("sound/tote_bag", "side", 2),
        ("sound/apron", "pocket", 1),  # over the fold, a pocket that is symmetrical
        ("sound/half_waistband", "waist", 2),  # stated for a half, on a band on the fold
    ],
)
def test_a_seam_is_sewn_once_as_its_own_mirror_image_and_else_once_in_each_half(
    name: str, seam: str, expected: int
) -> None:
    assert times(case(name), seam) == expected


def test_a_stated_half_goes_before_everything() -> None:
    document = case("sound/trousers")
    document["seams"]["back_rise"]["half"] = "none"
    document["seams"]["in"]["half"] = "left"
    assert sewn(document, "back_rise").halves == ("none",)
    assert [p.half for p in sewn(document, "in").passes] == ["left"]


def test_times_multiplies_what_the_halves_give() -> None:
    document = case("ferry_smock")
    document["seams"]["side"]["times"] = 3
    assert times(document, "side") == 6


def test_a_ring_is_its_own_mirror_image_from_any_start() -> None:
    document = case("sound/net_skirt")
    spans = document["seams"]["gather"]["sides"][0]
    for turn in range(4):
        document["seams"]["gather"]["sides"][0] = spans[turn:] + spans[:turn]
        assert times(document, "gather") == 1


def test_a_side_that_takes_both_halves_is_sewn_once_however_it_is_walked() -> None:
    document = case("sound/net_skirt")
    document["seams"]["gather"]["closed"] = False
    assert times(document, "gather") == 1
    del document["seams"]["gather"]["sides"][0][1]
    assert times(document, "gather") == 2


def test_two_seams_that_take_each_others_mirror_image_state_the_halves_outright() -> None:
    document = case("sound/unlike_fronts")
    assert sewn(document, "side_left").halves == ("none",)
    assert sewn(document, "side_right").halves == ("none",)
    del document["seams"]["side_left"]
    assert sewn(document, "side_right").halves == ("right", "left")


def test_a_pocket_in_a_side_seam_does_not_state_halves_outright() -> None:
    """Its two layers are mirrored copies of each other; front and back are not."""
    pair = {"cut": [{"material": "wool", "count": 2, "mirrored": True}]}
    document: Document = {
        "notchwork": "1.0",
        "materials": {"wool": {}},
        "pieces": {
            "front": {"edges": {"side": {"length": 150}}, **pair},
            "back": {"edges": {"side": {"length": 150}}, **pair},
            "bag": {"edges": {"mouth": {"length": 150}, "outer": {"length": 400}}, **pair},
        },
        "seams": {
            "front": {"sides": [["front.side"], ["bag.mouth"]]},
            "back": {"sides": [["back.side"], [{"edge": "bag.mouth", "mirrored": True}]]},
            "bag": {"sides": [["bag.outer"], [{"edge": "bag.outer", "mirrored": True}]]},
        },
    }
    assert [times(document, seam) for seam in document["seams"]] == [2, 2, 1]
