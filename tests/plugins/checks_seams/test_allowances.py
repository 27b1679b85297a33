"""Allowances of a seam, and patterns without seams: each check where it speaks and where it is quiet."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said

DIFFER, NARROW, NONE = "seams/allowances-differ", "seams/allowance-too-narrow", "seams/none-stated"


def sides(front: dict[str, Any], back: dict[str, Any], **seam: Any) -> Document:
    document = case("ferry_smock")
    document["pieces"]["front"]["edges"]["side"] = front
    document["pieces"]["back"]["edges"]["side"] = back
    document["seams"]["side"] |= seam
    return document


class TestAllowancesDiffer:
    @pytest.mark.parametrize(("allowance", "speaks"), [(12, False), (13, False), (13.1, True), (10.9, True)])
    def test_by_more_than_a_millimetre(self, allowance: float, speaks: bool) -> None:
        assert loud(sides({"allowance": allowance}, {})) == ({DIFFER: "warning"} if speaks else {})

    def test_both_are_told(self) -> None:
        [(_, _, text)] = said(sides({"allowance": 20}, {}))
        assert text.startswith(
            "Side seam, every size: The allowance is 20.0 mm on Front (side) but 12.0 mm on Back (side)."
        )

    def test_trimmed_after_fitting_it_is_compared_as_trimmed(self) -> None:
        """Normal dressmaking 3: 30 trimmed to 12 after fitting, against 12; its twin is trimmed to 14."""
        trimmed = {"allowance": 30, "trim_to": 12, "trim_when": "fitting"}
        assert loud(sides(trimmed, {})) == {}
        assert loud(sides(trimmed | {"trim_to": 14}, {})) == {DIFFER: "warning"}

    @pytest.mark.parametrize("construction", ["felled", "lapped", "bound", "applied"])
    def test_constructions_whose_allowances_are_unlike_by_nature(self, construction: str) -> None:
        assert DIFFER not in loud(sides({"allowance": 20}, {}, construction=construction))

    @pytest.mark.parametrize("construction", ["plain", "french", "bagged"])
    def test_other_constructions_are_compared(self, construction: str) -> None:
        assert DIFFER in loud(sides({"allowance": 20}, {}, construction=construction))

    @pytest.mark.parametrize(("kind", "speaks"), [("bound", False), ("faced", False), ("overcast", True)])
    def test_bound_and_faced_edges_have_their_own(self, kind: str, speaks: bool) -> None:
        document = sides({"allowance": 0, "finish": {"kind": kind}}, {})
        assert (DIFFER in loud(document)) == speaks

    def test_a_strip_has_its_own(self) -> None:
        document = case("sound/raglan_tee")
        document["pieces"]["neckband"]["allowance"] = 4
        assert loud(document) == {}

    def test_the_edges_under_a_zip_have_their_own(self) -> None:
        document = case("sound/dress_with_side_zip")
        document["pieces"]["front"]["edges"]["side"] = {"allowance": 20}
        assert loud(document) == {}
        document["openings"]["zip"]["kind"] = "buttons"
        del document["notions"]["zip"]
        assert loud(document) == {DIFFER: "warning"}

    def test_a_centre_back_sewn_to_its_own_mirror(self) -> None:
        """Normal dressmaking 10: allowance 18 there and 12 elsewhere."""
        document = case("sound/trousers")
        document["pieces"]["back"]["edges"]["crotch"] = {"allowance": 18}
        assert loud(document) == {}
        document["pieces"]["back"]["edges"] |= {"crotch": {}, "in": {"allowance": 18}}
        assert loud(document) == {DIFFER: "warning"}

    def test_only_the_piece_that_lies_there_is_compared(self) -> None:
        """On an armhole the front's allowance meets the sleeve's along the front alone."""
        document = case("ferry_smock")
        document["pieces"]["back"]["edges"]["armhole"] = {"allowance": 9}
        [(_, _, text)] = said(document)
        assert "9.0 mm on Back (armhole) but 12.0 mm on Sleeve (cap)" in text

    def test_a_piece_that_states_none_is_told_once(self) -> None:
        document = case("ferry_smock")
        del document["pieces"]["front"]["allowance"]
        del document["pieces"]["front"]["edges"]["hem"]["allowance"]
        del document["pieces"]["front"]["edges"]["neck"]["allowance"]
        [(rule, _, text)] = [told for told in said(document) if told[1] != "info"]
        assert rule == DIFFER
        assert (
            "Front, every size: It states no allowance, but Back (shoulder) has 12.0 mm where they are"
            in text
        )

    def test_nothing_is_said_where_no_piece_states_any(self) -> None:
        document = case("ferry_smock")
        for piece in document["pieces"].values():
            piece.pop("allowance", None)
            for edge in piece.get("edges", {}).values():
                edge.pop("allowance", None)
        assert DIFFER not in loud(document)

    def test_a_piece_that_is_unlike_all_it_is_sewn_to_is_told_once(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["front"]["allowance"] = 15
        [(_, _, text)] = [told for told in said(document) if told[1] != "info"]
        assert "The allowance is 15.0 mm on Front (shoulder) but 12.0 mm on Back (shoulder)" in text
        assert "The same holds for Side seam and Armhole seam. Look at Front first" in text

    def test_an_edge_that_is_unlike_several_is_told_once(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["edges"]["cap"] = {"allowance": 15}
        [(_, _, text)] = [told for told in said(document) if told[1] != "info"]
        assert "15.0 mm on Sleeve (cap) but 12.0 mm on Front (armhole) and Back (armhole)" in text

    def test_two_unlike_edges_are_two(self) -> None:
        document = sides({"allowance": 15}, {})
        document["pieces"]["back"]["edges"]["shoulder"] = {"allowance": 9}
        assert len([told for told in said(document) if told[1] != "info"]) == 2

    def test_the_step_can_be_changed(self) -> None:
        document = sides({"allowance": 15}, {})
        document["seams"]["side"]["tolerances"] = {DIFFER: [1, 4, 8]}
        assert loud(document) == {}


class TestAllowanceTooNarrow:
    @pytest.mark.parametrize(
        ("construction", "allowance", "speaks"),
        [
            ("french", 12, False),  # normal dressmaking 7
            ("french", 9, False),
            ("french", 8.9, True),
            ("bound", 8, False),
            ("bound", 7.9, True),
            ("felled", 12, False),
            ("felled", 11.9, True),
            ("plain", 4, False),
            (None, 4, False),
        ],
    )
    def test_by_construction(self, construction: str | None, allowance: float, speaks: bool) -> None:
        stated = {"construction": construction} if construction is not None else {}
        document = sides({"allowance": allowance}, {"allowance": allowance}, **stated)
        assert loud(document) == ({NARROW: "warning"} if speaks else {})

    def test_a_felled_seam_needs_room_on_one_side_only(self) -> None:
        assert loud(sides({"allowance": 6}, {"allowance": 13}, construction="felled")) == {}

    def test_an_edge_that_a_strip_encloses_needs_none(self) -> None:
        document = case("sound/raglan_tee")
        document["seams"]["neck"]["construction"] = "bound"
        for piece in ("front", "back", "sleeve"):
            document["pieces"][piece]["edges"]["neck"] = {"allowance": 0}
        assert loud(document) == {}

    def test_both_measures_are_told(self) -> None:
        [(_, _, text)] = said(sides({"allowance": 8}, {"allowance": 8}, construction="french"))
        assert "A French seam needs an allowance of 9.0 mm, but Front (side) has 8.0 mm." in text


class TestNoneStated:
    def test_one_warning_and_nothing_about_edges(self) -> None:
        document = case("ferry_smock")
        document["seams"] = {}
        assert loud(document) == {NONE: "warning"}
        [text] = [text for rule, _, text in said(document) if rule == NONE]
        assert "front.shoulder could be the first" in text

    def test_a_scarf_that_is_hemmed_all_round_has_none_to_state(self) -> None:
        edges = {edge: {"finish": {"kind": "hem", "depth": 6}} for edge in ("bottom", "right", "top", "left")}
        document = case("sound/cushion")
        document["pieces"] = {"scarf": document["pieces"]["front"] | {"edges": edges}}
        for key in ("seams", "openings", "notions"):
            document[key] = {}
        assert loud(document) == {}
        del edges["left"]
        assert loud(document) == {"cutting/edge-unaccounted": "warning"}
        del edges["top"], edges["right"]
        assert loud(document) == {NONE: "warning"}
