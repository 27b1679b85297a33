"""A seam that sews an opening shut, and all that only looks like one."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said
from storm_petrel import sound

SHUT = "openings/sewn-shut"


def words(document: Document) -> list[str]:
    return [text for _, _, text in said(document, SHUT)]


def seam(one: list[Any], other: list[Any], **stated: Any) -> dict[str, Any]:
    return {"sides": [one, other], **stated}


def image(*spans: dict[str, Any]) -> list[dict[str, Any]]:
    return [{**span, "mirrored": True} for span in spans]


class TestItSpeaks:
    def test_a_center_back_sewn_up_to_the_waist_past_its_zip(self) -> None:
        document = case("sound/lined_bodice")
        for side in document["seams"]["skirt_back"]["sides"]:
            side[0]["from"] = "waist"
        [text] = words(document)
        assert text.startswith(
            "Skirt back seam: It joins both copies of Skirt back (center) over 200.0 mm of the zip opening"
        )
        assert "Let the seam stop where the opening begins." in text
        assert loud(document)[SHUT] == "warning"

    @pytest.mark.parametrize(("past", "speaks"), [(4.9, False), (5.1, True)])
    def test_a_few_stitches_past_the_end_are_none(self, past: float, speaks: bool) -> None:
        document = case("sound/lined_bodice")
        for side in document["seams"]["skirt_back"]["sides"]:
            side[0]["from"] = ["waist", 200 - past]
        assert (SHUT in loud(document, SHUT)) == speaks

    def test_a_side_seam_stated_for_both_halves_of_a_dress_with_a_zip_in_one(self) -> None:
        document = case("sound/dress_with_side_zip")
        del document["seams"]["side_left_below"], document["seams"]["side_right"]["half"]
        [text] = words(document)
        assert "Front (side) and Back (side)" in text
        assert "or say in which half it is sewn so (“half”)." in text

    def test_a_side_seam_of_the_same_half_that_begins_at_the_armhole(self) -> None:
        document = case("sound/dress_with_side_zip")
        for side in document["seams"]["side_left_below"]["sides"]:
            side[0]["from"] = "armhole"
        [text] = words(document)
        assert "“half”" not in text

    def test_two_unlike_lips(self) -> None:
        document = case("sound/cushion")
        for side in document["seams"]["back_left"]["sides"]:
            side[0]["to"] = "zip_b"
        [text] = words(document)
        assert "Upper back (bottom) and Lower back (top)" in text

    def test_gores_that_are_all_sewn_to_each_other(self) -> None:
        document = case("sound/gored_skirt")
        document["seams"]["gore"]["times"] = 6
        del document["seams"]["below_zip"]
        [text] = words(document)
        assert "Gore" in text

    def test_a_skirt_in_one_piece_sewn_round_to_its_other_end(self) -> None:
        corners = [("hem", [0, 0]), ("end", [900, 0]), ("waist", [900, 600]), ("start", [0, 600])]
        zipped = {"edge": "skirt.end", "from": "waist", "to": ["waist", 180]}
        document: Document = {
            "notchwork": "1.0",
            "materials": {"main": {}},
            "pieces": {
                "skirt": {
                    "outline": [{"at": at, "edge": edge} for edge, at in corners],
                    "cut": [{"material": "main", "count": 1}],
                }
            },
            "seams": {"back": seam([{"edge": "skirt.end", "from": "waist"}], ["skirt.start"])},
            "openings": {"zip": {"kind": "zip", "sections": [[zipped]]}},
        }
        [text] = words(document)
        assert "Skirt (end) and Skirt (start) over 180.0 mm" in text
        document["seams"]["back"] = seam(
            [{"edge": "skirt.end", "from": ["waist", 180], "to": "hem"}],
            [{"edge": "skirt.start", "from": ["waist", 180], "to": "hem"}],
        )
        assert words(document) == []

    def test_a_gap_for_turning(self) -> None:
        document = case("sound/lined_tote_bag")
        for side in document["seams"]["lining_side_left"]["sides"]:
            side[0]["from"] = "bottom"
        [text] = words(document)
        assert "both copies of Lining (left)" in text
        assert "say so in the gap's “closed_by”" in text

    def test_a_gap_in_an_outline_of_one_edge(self) -> None:
        document = case("sound/round_cushion")
        whole = {"edge": "disc.edge", "from": "start", "way": "forward"}
        document["seams"]["around"] = seam([whole], image(whole), closed=True)
        assert len(words(document)) == 1


class TestItIsQuiet:
    def test_the_demo(self) -> None:
        assert words(sound()) == []

    @pytest.mark.parametrize("how", ["closed_by", "open_until"])
    def test_a_gap_says_which_seam_closes_it(self, how: str) -> None:
        document = case("sound/lined_tote_bag")
        for side in document["seams"]["lining_side_left"]["sides"]:
            side[0]["from"] = "bottom"
        document["openings"]["turning"][how] = "lining_side_left"
        assert words(document) == []

    def test_an_opening_is_basted_shut_while_the_zip_is_sewn_in(self) -> None:
        document = case("sound/lined_bodice")
        spans = {"edge": "skirt_back.center", "from": "waist", "to": "zip_end"}
        document["seams"]["shut"] = seam([spans], image(spans), construction="basted")
        assert words(document) == []
        del document["seams"]["shut"]["construction"]
        assert len(words(document)) == 1

    @pytest.mark.parametrize("drawn_anew", [False, True])
    def test_a_lining_sewn_along_the_zips_tape(self, drawn_anew: bool) -> None:
        document = case("sound/lined_bodice")
        if drawn_anew:
            document["pieces"]["lining_back"] = {
                **document["pieces"]["back"],
                "cut": document["pieces"]["lining_back"]["cut"],
            }
        document["seams"]["tape"] = seam(
            [{"edge": "back.center", "from": "neck"}], [{"edge": "lining_back.center", "from": "neck"}]
        )
        assert words(document) == []

    def test_a_facing_sewn_along_a_side_zip(self) -> None:
        document = case("sound/dress_with_side_zip")
        document["pieces"]["shield"] = {
            "outline": [
                {"at": [0, 0], "edge": "inner"},
                {"at": [0, 300], "edge": "top"},
                {"at": [40, 300], "edge": "outer"},
                {"at": [40, 0], "edge": "lower"},
            ],
            "cut": [{"material": "main", "count": 1}],
        }
        zipped = document["openings"]["zip"]["sections"][0][1]
        document["openings"]["zip"]["sections"][0].append("shield.inner")
        document["seams"]["shield"] = seam([zipped], [{"edge": "shield.inner", "from": "top"}], half="left")
        assert words(document) == []

    def test_a_binding_along_a_buttoned_front(self) -> None:
        document = case("sound/shirt")
        document["pieces"]["binding"] = {
            "strip": {"width": 30, "length": 900},
            "cut": [{"material": "main", "count": 2}],
        }
        document["seams"]["bound"] = seam(["front.center"], ["binding.lower"], construction="bound")
        assert words(document) == []

    @pytest.mark.parametrize(("count", "mirrored"), [(2, True), (2, False), (4, True)])
    def test_a_stand_drawn_whole_and_lined_with_its_own_image(self, count: int, mirrored: bool) -> None:
        """Its ends lie in the opening too."""
        document = case("sound/shirt")
        document["pieces"]["stand"] = {
            "outline": [
                {"at": [0, 0], "edge": "lower"},
                {"at": [420, 0], "edge": "right"},
                {"at": [420, 30 if not mirrored else 32], "edge": "upper"},
                {"at": [0, 30], "edge": "left"},
            ],
            "cut": [{"material": "main", "count": count, "mirrored": mirrored}],
        }
        document["openings"]["front"]["sections"].insert(0, [{"edge": "stand.left", "from": "upper"}])
        round_it = [{"edge": f"stand.{edge}"} for edge in ("right", "upper", "left")]
        document["seams"] = {
            "stand": seam(round_it, image(*round_it)),
            "side": document["seams"]["side"],
            "shoulder": document["seams"]["shoulder"],
        }
        assert words(document) == []

    def test_a_waistcoat_lined_with_its_own_pieces(self) -> None:
        document = case("sound/waistcoat")
        document["pieces"]["front"]["cut"] = [{"material": "main", "count": 4, "mirrored": True}]
        document["openings"]["front"] = {"kind": "buttons", "sections": [["front.center"]]}
        span = {"edge": "front.center"}
        document["seams"] = {"edge": seam([span], image(span), times=2)}
        assert words(document) == []

    @pytest.mark.parametrize("in_two", [False, True])
    def test_a_band_folded_lengthwise_whose_end_is_faced_with_itself(self, in_two: bool) -> None:
        document = case("sound/half_waistband")
        corners = [("lower", [0, 0]), ("end", [300, 0]), ("fold", [300, 30]), ("center", [0, 30])]
        if in_two:
            corners[2:] = [("inner", [300, 30]), ("other_lower", [300, 60]), ("center", [0, 60])]
        document["pieces"]["band"] = {
            "outline": [{"at": at, "edge": edge} for edge, at in corners],
            "edges": {} if in_two else {"fold": {"fold": True}},
            "cut": [
                {"material": "main", "count": 2, "mirrored": True}
                if in_two
                else {"material": "main", "count": 1}
            ],
        }
        document["openings"]["zip"]["sections"].insert(0, [{"edge": "band.end"}])
        end = {"edge": "band.end"}
        document["seams"] = {
            "center_back": document["seams"]["center_back"],
            "end": seam([end], [{"edge": "band.inner"}] if in_two else image(end)),
        }
        assert words(document) == []

    def test_one_gore_of_six_left_open(self) -> None:
        assert words(case("sound/gored_skirt")) == []
