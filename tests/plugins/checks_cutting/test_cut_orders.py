"""Cut orders, cloth and strips: each check where it speaks and where it is quiet."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said

NO_ORDER, ODD = "cutting/no-cut-order", "cutting/odd-mirrored-count"
BOTH, IN_VAIN = "cutting/mirrored-and-folded", "cutting/mirrored-in-vain"
WIDER, SHORT = "cutting/wider-than-material", "cutting/strip-too-short"


def words(document: Document, rule: str) -> list[str]:
    return [text for ident, _, text in said(document, rule)]


class TestNoCutOrder:
    def test_each_piece_without_one_is_named(self) -> None:
        document = case("ferry_smock")
        del document["pieces"]["back"]["cut"]
        document["pieces"]["sleeve"]["cut"] = []
        assert [text.partition(":")[0] for text in words(document, NO_ORDER)] == ["Back", "Sleeve"]

    def test_a_pattern_without_any_is_one_finding(self) -> None:
        document = case("ferry_smock")
        for piece in document["pieces"].values():
            del piece["cut"]
        [text] = words(document, NO_ORDER)
        assert text.startswith("Nothing says of any piece how often to cut it")
        assert "Front, Back, Sleeve and Neck binding" in text

    @pytest.mark.parametrize("use", ["template", "guide"])
    def test_templates_and_guides_are_not_cut(self, use: str) -> None:
        document = case("ferry_smock")
        document["pieces"]["pocket_guide"] = {"strip": {"width": 40, "length": 100}, "use": use}
        assert words(document, NO_ORDER) == []
        del document["pieces"]["pocket_guide"]["use"]
        assert len(words(document, NO_ORDER)) == 1

    def test_a_piece_takes_over_the_order_of_what_it_is_like(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["lining_front"] = {"like": "front"}
        assert words(document, NO_ORDER) == []


class TestOddMirroredCount:
    @pytest.mark.parametrize(("count", "speaks"), [(2, False), (3, True), (6, False)])
    def test_pairs_are_even(self, count: int, speaks: bool) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["cut"][0]["count"] = count
        assert loud(document) == ({ODD: "error"} if speaks else {})

    def test_only_the_size_that_is_odd_is_named(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["cut"][0]["count"] = {"S": 2, "M": 2, "L": 3}
        [text] = words(document, ODD)
        assert text.startswith("Sleeve, size L: It is to be cut 3 times in pairs")
        assert "say 4 for 2 pairs" in text

    def test_alike_any_number_will_do(self) -> None:
        document = case("sound/gored_skirt")
        document["pieces"]["gore"]["cut"][0]["count"] = 7
        assert words(document, ODD) == []


class TestMirroredAndFolded:
    def test_a_fold_and_mirrored_contradict_each_other(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["back"]["cut"] = [{"material": "linen", "count": 2, "mirrored": True}]
        assert loud(document) == {BOTH: "warning"}
        assert "It lies on a fold (its center)" in words(document, BOTH)[0]

    def test_a_symmetrical_piece_without_a_fold_is_only_told_on_request(self) -> None:
        document = case("sound/raglan_tee")
        assert loud(document) == {}
        assert [severity for _, severity, _ in said(document, IN_VAIN)] == ["info"]
        document["pieces"]["sleeve"]["notches"] = {
            "front": {"edge": "front_raglan", "at": ["front_seam", 80], "use": None}
        }
        del document["pieces"]["sleeve"]["notches"]["front"]["use"]
        assert words(document, IN_VAIN) == []


class TestWiderThanMaterial:
    @pytest.mark.parametrize(("width", "speaks"), [(548, False), (547, True)])
    def test_opened_out_with_its_allowances(self, width: float, speaks: bool) -> None:
        """Front in L: twice 262 and two allowances of 12."""
        document = case("ferry_smock")
        document["materials"]["linen"]["width"] = width
        assert (WIDER in loud(document)) == speaks

    def test_both_measures_are_told(self) -> None:
        document = case("ferry_smock")
        document["materials"]["linen"]["width"] = 500
        text = words(document, WIDER)[0]
        assert text.startswith(
            "Front, size L: With its allowances it is 548.0 mm wide across the grain, "
            "but Washed linen is only 500.0 mm wide."
        )

    def test_an_unknown_width_is_let_pass(self) -> None:
        document = case("ferry_smock")
        del document["materials"]["linen"]["width"]
        assert words(document, WIDER) == []

    def test_what_may_be_turned_is_turned(self) -> None:
        document = case("sound/net_skirt")
        document["materials"]["net"]["width"] = 425
        assert words(document, WIDER) == []  # 400 high with 10 above and nothing at the raw hem
        document["materials"]["net"]["width"] = 405
        assert len(words(document, WIDER)) == 1

    def test_a_strip_across_the_cloth_may_lie_along_it(self) -> None:
        document = case("ferry_smock")
        document["materials"]["linen"]["width"] = 600
        document["pieces"]["neck_binding"]["strip"]["length"] = 900
        assert words(document, WIDER) == []


class TestStripTooShort:
    NECK = 2 * (122.4173 + 84.6949)

    @pytest.mark.parametrize(
        ("strip", "piece", "needed"),
        [
            ({}, {}, NECK + 12),
            ({}, {"allowance": 10}, NECK + 20),
            ({"joins": 25}, {}, NECK + 12 + 25),
        ],
    )
    def test_its_edges_its_allowances_and_its_joins(
        self, strip: dict[str, Any], piece: dict[str, Any], needed: float
    ) -> None:
        document = case("ferry_smock")
        binding = document["pieces"]["neck_binding"]
        binding |= piece
        binding["strip"] |= strip
        for length, speaks in ((needed - 0.4, False), (needed - 0.6, True)):
            binding["strip"]["length"] = length
            assert (SHORT in loud(document)) == speaks

    def test_both_measures_are_told(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["neck_binding"]["strip"]["length"] = 400
        [text] = words(document, SHORT)
        assert "It is 400.0 mm long, but Front (neck) and Back (neck) and its ends need 426.2 mm." in text

    def test_a_lining_caught_in_the_same_binding_is_no_second_neck(self) -> None:
        document = case("ferry_smock")
        for piece in ("front", "back"):
            document["pieces"][f"lining_{piece}"] = {"like": piece}
        document["seams"]["lining_shoulder"] = {
            "sides": [["lining_front.shoulder"], ["lining_back.shoulder"]]
        }
        assert words(document, SHORT) == []
        document["pieces"]["neck_binding"]["strip"]["length"] = 420
        assert len(words(document, SHORT)) == 1

    def test_an_overlay_that_is_basted_on_is_bound_with_its_base(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["overlay"] = {"like": "front"}
        document["seams"] |= {
            f"overlay_{edge}": {"construction": "basted", "sides": [[f"front.{edge}"], [f"overlay.{edge}"]]}
            for edge in ("shoulder", "side", "neck")
        }
        assert words(document, SHORT) == []
        document["pieces"]["neck_binding"]["strip"]["length"] = 420
        assert len(words(document, SHORT)) == 1

    def test_two_armholes_share_two_strips(self) -> None:
        document = case("sound/dress_with_side_zip")
        assert words(document, SHORT) == []
        document["pieces"]["armhole_binding"]["cut"][0]["count"] = 1
        assert len(words(document, SHORT)) == 1

    def test_two_cloths_bound_together_take_one_binding(self) -> None:
        document = case("sound/bib")
        document["pieces"]["binding"]["strip"]["length"] = 2 * (200 + 240) + 12
        assert words(document, SHORT) == []
        document["pieces"]["binding"]["strip"]["length"] -= 1
        assert len(words(document, SHORT)) == 1

    def test_where_a_seam_sews_the_strip_on_the_seam_decides(self) -> None:
        document = case("sound/raglan_tee")
        for piece in ("front", "back", "sleeve"):
            document["pieces"][piece]["edges"]["neck"] = {"finish": {"kind": "bound", "with": "neckband"}}
        assert words(document, SHORT) == []
        del document["seams"]["neck"]
        assert len(words(document, SHORT)) == 1
