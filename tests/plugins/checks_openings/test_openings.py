"""Openings, zips, casings and elastics: each check where it speaks and where it is quiet."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said

LAYERS, ZIP = "openings/layers-differ", "openings/zip-does-not-fit"
NARROW, NO_ROOM = "openings/casing-too-narrow", "openings/casing-allowance-too-small"
LONGER = "openings/elastic-longer-than-edge"


def words(document: Document, rule: str) -> list[str]:
    return [text for ident, _, text in said(document, rule)]


class TestLayersDiffer:
    @pytest.mark.parametrize(("short", "speaks"), [(2.9, False), (3.1, True)])
    def test_layers_caught_in_one_closure(self, short: float, speaks: bool) -> None:
        document = case("sound/lined_bodice")
        document["openings"]["zip"]["sections"][0][1]["to"] = ["waist", short]
        assert (LAYERS in loud(document, LAYERS)) == speaks

    def test_both_lengths_are_told(self) -> None:
        document = case("sound/lined_bodice")
        document["openings"]["zip"]["sections"][0][1]["to"] = ["waist", 14]
        [text] = words(document, LAYERS)
        assert "Back (center) is 14.0 mm longer (604.0 mm against 590.0 mm)" in text

    @pytest.mark.parametrize(("short", "speaks"), [(2.9, False), (3.1, True)])
    def test_unlike_lips(self, short: float, speaks: bool) -> None:
        document = case("sound/unlike_fronts")
        document["openings"]["front"]["lips"][1] = [
            {"edge": "right_front.center", "from": "hem", "to": ["neck", short]}
        ]
        assert (LAYERS in loud(document, LAYERS)) == speaks

    def test_a_gap_for_turning_closes_nothing(self) -> None:
        document = case("sound/waistcoat")
        document["openings"]["turning"]["lips"][1][0]["from"] = ["hem", 100]
        assert words(document, LAYERS) == []
        document["openings"]["turning"]["kind"] = "buttons"
        assert len(words(document, LAYERS)) == 1

    def test_a_layer_that_hangs_free_is_no_part_of_it(self) -> None:
        document = case("sound/lined_bodice")
        del document["openings"]["zip"]["sections"][0][1]
        assert words(document, LAYERS) == []


class TestZipDoesNotFit:
    """The opening is 604 and 200 long: 804."""

    @pytest.mark.parametrize(
        ("kind", "length", "speaks"),
        [
            ("invisible", 799.5, False),
            ("invisible", 798.5, True),
            ("invisible", 860, False),  # normal dressmaking 4: bought longer and cut
            ("dress", 900, False),
            (None, 900, False),
            ("separating", 808.5, False),
            ("separating", 809.5, True),
            ("separating", 798.5, True),
        ],
    )
    def test_shorter_or_a_separating_one_longer(self, kind: str | None, length: float, speaks: bool) -> None:
        document = case("sound/lined_bodice")
        zip_notion: dict[str, Any] = document["notions"]["zip"]
        zip_notion["length"] = length
        zip_notion.pop("type")
        if kind is not None:
            zip_notion["type"] = kind
        assert (ZIP in loud(document)) == speaks

    def test_an_invisible_zip_450_in_an_opening_of_395(self) -> None:
        document = case("sound/lined_bodice")
        document["openings"]["zip"]["sections"] = [
            [{"edge": "skirt_back.center", "from": "waist", "to": ["waist", 395]}]
        ]
        document["notions"]["zip"]["length"] = 450
        assert words(document, ZIP) == []
        document["notions"]["zip"]["type"] = "separating"
        [text] = words(document, ZIP)
        assert "450.0 mm long, 55.0 mm longer than its opening (395.0 mm)" in text
        assert "cannot be cut to length" in text

    def test_bought_without_a_stated_length(self) -> None:
        document = case("sound/lined_bodice")
        del document["notions"]["zip"]["length"]
        assert words(document, ZIP) == []

    def test_an_opening_with_lips(self) -> None:
        document = case("sound/cushion")
        assert words(document, ZIP) == []
        document["notions"]["zip"]["length"] = 290
        [text] = words(document, ZIP)
        assert "10.0 mm shorter than its opening (300.0 mm)" in text


class TestCasings:
    @pytest.mark.parametrize(
        ("kind", "width", "speaks"),
        [
            ("elastic", 13, False),
            ("elastic", 13.1, True),
            ("cord", 14, False),
            ("cord", 14.1, True),
            ("tape", 15, False),
        ],
    )
    def test_an_elastic_needs_two_millimetres_and_a_cord_one(
        self, kind: str, width: float, speaks: bool
    ) -> None:
        """The casing at the sleeve's hem is 15 deep."""
        document = case("ferry_smock")
        document["notions"]["sleeve_elastic"] |= {"kind": kind, "width": width}
        assert (NARROW in loud(document)) == speaks

    @pytest.mark.parametrize(
        ("inside", "width", "speaks"), [(9, 6, False), (7.9, 6, True), (5, 4, False), (4.9, 4, True)]
    )
    def test_a_line_inside_the_piece(self, inside: float, width: float, speaks: bool) -> None:
        """Normal dressmaking 11: casing 9 for elastic 6; up to 4 mm one millimetre will do."""
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["inner"] = {
            "channel": {"parallel_to": "hem", "distance": 60, "width": inside, "use": "casing"}
        }
        document["notions"]["sleeve_elastic"] |= {"in": "sleeve.channel", "width": width}
        assert (NARROW in loud(document)) == speaks

    def test_elastic_sewn_on_directly_has_no_casing(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["edges"]["hem"]["finish"] = {"kind": "hem", "depth": 5}
        assert loud(document, "openings") == {}

    @pytest.mark.parametrize(("allowance", "speaks"), [(21, False), (20.9, True)])
    def test_a_casing_that_is_turned_down_takes_its_allowance(self, allowance: float, speaks: bool) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["edges"]["hem"]["allowance"] = allowance
        assert (NO_ROOM in loud(document)) == speaks

    def test_it_is_told_what_the_allowance_is_needed_for(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["edges"]["hem"]["allowance"] = 20
        [text] = words(document, NO_ROOM)
        assert (
            "is turned down 15.0 mm, and 6.0 mm more are needed to turn the raw edge under: 21.0 mm" in text
        )

    def test_a_casing_of_its_own_strip_takes_none(self) -> None:
        document = case("ferry_smock")
        hem = document["pieces"]["sleeve"]["edges"]["hem"]
        hem["allowance"] = 10
        assert len(words(document, NO_ROOM)) == 1
        hem["finish"]["with"] = "neck_binding"
        assert words(document, NO_ROOM) == []


class TestElasticLongerThanEdge:
    @pytest.mark.parametrize(("length", "speaks"), [(300, False), (356.9, False), (358, True)])
    def test_on_a_sleeve(self, length: float, speaks: bool) -> None:
        """The hem is 356 in S, the smallest."""
        document = case("ferry_smock")
        document["notions"]["sleeve_elastic"]["length"] = length
        assert (LONGER in loud(document)) == speaks

    @pytest.mark.parametrize(("length", "speaks"), [(720, False), (881, False), (882, True)])
    def test_all_round_a_waist_of_two_legs(self, length: float, speaks: bool) -> None:
        document = case("sound/boxer_shorts")
        document["notions"]["elastic"]["length"] = length
        assert (LONGER in loud(document)) == speaks

    def test_bought_by_the_metre(self) -> None:
        document = case("ferry_smock")
        del document["notions"]["sleeve_elastic"]["length"]
        assert loud(document) == {}

    def test_gores_are_one_run_and_sleeves_alike_are_two(self) -> None:
        document = case("sound/gored_skirt")
        document["pieces"]["gore"]["edges"]["waist"] = {
            "allowance": 30,
            "finish": {"kind": "casing", "depth": 20},
        }
        del document["seams"]["waist"]
        document["notions"]["elastic"] = {"kind": "elastic", "width": 15, "length": 700, "in": "gore.waist"}
        assert words(document, LONGER) == []
        document["notions"]["elastic"]["count"] = 6
        [text] = words(document, LONGER)
        assert "580.0 mm longer than the edge it draws in (120.0 mm all round)" in text


class TestNotionForSomeSizes:
    def test_a_notion_may_be_used_in_some_sizes_only(self) -> None:
        document = case("ferry_smock")
        document["notions"]["sleeve_elastic"]["length"] = {"S": 240, "M": 250}
        assert loud(document) == {}

    def test_what_is_given_of_it_names_the_same_sizes(self) -> None:
        document = case("ferry_smock")
        document["notions"]["sleeve_elastic"] |= {"length": {"S": 240, "M": 250}, "width": {"S": 8, "L": 10}}
        assert set(loud(document)) == {"document/sizes-incomplete"}

    def test_in_its_sizes_it_is_checked(self) -> None:
        document = case("ferry_smock")
        document["notions"]["sleeve_elastic"]["length"] = {"S": 240, "M": 400}
        assert loud(document) == {"openings/elastic-longer-than-edge": "warning"}
