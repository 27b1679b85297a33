"""Edges that nothing takes or that are taken twice, and copies: each check where it speaks and where it is quiet."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said

UNACCOUNTED, TWICE = "cutting/edge-unaccounted", "cutting/edge-sewn-twice"
LACKING, MISSING = "cutting/copies-do-not-suffice", "cutting/seam-missing-on-some-copies"


def words(document: Document, rule: str) -> list[str]:
    return [text for ident, _, text in said(document, "cutting") if ident == rule]


def of_cutting(document: Document) -> dict[str, str]:
    return loud(document, "cutting")


def over_an_armhole(**seam: Any) -> Document:
    """The smock with a lining along the armhole that is already sewn."""
    document = case("ferry_smock")
    document["materials"]["lining"] = {}
    for piece in ("front", "back"):
        document["pieces"][f"lining_{piece}"] = {
            "like": piece,
            "cut": [{"material": "lining", "count": 1}],
        }
    for name in ("shoulder", "side"):
        document["seams"][f"lining_{name}"] = {"sides": [[f"lining_front.{name}"], [f"lining_back.{name}"]]}
    ring = document["seams"]["armhole"]["sides"][0]
    document["seams"]["lining_armhole"] = {
        "closed": True,
        "sides": [ring, [{**span, "edge": "lining_" + span["edge"]} for span in ring]],
        **seam,
    }
    return document


class TestEdgeUnaccounted:
    RULE = "cutting/edge-unaccounted"

    @pytest.mark.parametrize(
        "finish", ["hem", "bound", "faced", "casing", "overcast", "rolled", "raw", "caught"]
    )
    def test_any_finish_accounts_for_an_edge(self, finish: str) -> None:
        document = case("ferry_smock")
        document["pieces"]["front"]["edges"]["hem"] = {"finish": {"kind": finish}}
        assert UNACCOUNTED not in of_cutting(document)

    def test_an_edge_without_any_is_told_with_its_length_in_every_size(self) -> None:
        document = case("ferry_smock")
        del document["pieces"]["front"]["edges"]["hem"]["finish"]
        [text] = words(document, UNACCOUNTED)
        assert text.startswith("Front, size L: No seam, opening, fold or finish takes its hem (262.0 mm).")
        assert "S (238.0 mm)" in text

    @pytest.mark.parametrize(("short", "speaks"), [(0.9, False), (1.1, True)])
    def test_a_part_counts_from_a_millimetre(self, short: float, speaks: bool) -> None:
        document = case("ferry_smock")
        document["seams"]["side"]["sides"] = [
            [{"edge": f"{piece}.side", "from": "armhole", "to": ["hem", short]}]
            for piece in ("front", "back")
        ]
        assert (UNACCOUNTED in of_cutting(document)) == speaks

    def test_a_part_is_told_by_the_places_between_which_it_lies(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["front"]["notches"]["vent"] = {"edge": "side", "at": ["hem", 150]}
        document["seams"]["side"]["sides"] = [
            [{"edge": "front.side", "from": "armhole", "to": "vent"}],
            [{"edge": "back.side", "from": "armhole", "to": ["hem", 150]}],
        ]
        [text] = words(document, UNACCOUNTED)
        assert (
            "No seam joins its side from the vent to the hem and Back (side) from 256.0 mm past the" in text
        )

    def test_one_half_may_be_left_over(self) -> None:
        document = case("sound/dress_with_side_zip")
        del document["seams"]["side_left_below"]
        [text] = words(document, UNACCOUNTED)
        assert "No seam joins its side from the zip end to the hem and Back (side) from the zip end" in text
        assert "150.0 mm each. In the other half they are joined." in text

    @pytest.mark.parametrize(
        "exempt", [{"use": "template"}, {"cut": [{"material": "fusible", "count": 1}]}, {"strip": True}]
    )
    def test_templates_interfacing_and_strips_are_exempt(self, exempt: dict[str, Any]) -> None:
        document = case("ferry_smock")
        document["materials"]["fusible"] = {"kind": "interfacing"}
        extra: dict[str, Any] = {"like": "front", **exempt}
        if "strip" in exempt:
            extra = {"strip": {"width": 30, "length": 300}, "cut": [{"material": "linen", "count": 1}]}
        document["pieces"]["extra"] = extra
        assert of_cutting(document) == {}
        document["pieces"]["extra"] = {"like": "front"}
        assert of_cutting(document) == {UNACCOUNTED: "warning"}

    def test_a_piece_that_nothing_sews_is_one_finding(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["pocket"] = {"like": "sleeve"}
        [text] = words(document, UNACCOUNTED)
        assert "takes any of its edges (front seam, cap and back seam)" in text

    def test_the_mouth_of_a_dart_between_two_spans_is_sewn_by_the_dart(self) -> None:
        document = case("ferry_smock")
        for piece in ("front", "back"):
            document["pieces"][piece]["darts"] = {
                "bust": {"edge": "side", "feet": [["armhole", 60], ["armhole", 80]], "apex": [180, 330]}
            }
            document["pieces"][piece]["notches"] |= {
                "above": {"edge": "side", "at": ["armhole", 60], "use": "place"},
                "below": {"edge": "side", "at": ["armhole", 80], "use": "place"},
            }
        document["seams"]["side"]["sides"] = [
            [
                {"edge": f"{piece}.side", "from": "armhole", "to": "above"},
                {"edge": f"{piece}.side", "from": "below", "to": "hem"},
            ]
            for piece in ("front", "back")
        ]
        assert UNACCOUNTED not in of_cutting(document)

    def test_without_any_seam_nothing_is_said_of_edges(self) -> None:
        document = case("ferry_smock")
        document["seams"] = {}
        assert words(document, UNACCOUNTED) == []


class TestEdgeSewnTwice:
    RULE = "cutting/edge-sewn-twice"

    def test_a_seam_stated_twice_is_one_finding_with_both_edges(self) -> None:
        document = case("ferry_smock")
        document["seams"]["again"] = document["seams"]["side"]
        [text] = words(document, TWICE)
        assert "Side seam and Again seam take the same 400.0 mm of Front (side) and Back (side)" in text
        assert "there it is sewn twice, but there is only one copy" in text

    def test_a_lining_sewn_over_the_armhole_is_not(self) -> None:
        """Normal dressmaking 1; its twin does not say over what it is sewn."""
        assert of_cutting(over_an_armhole(over="armhole")) == {}
        assert of_cutting(over_an_armhole()) == {TWICE: "error"}

    @pytest.mark.parametrize(("construction", "speaks"), [("basted", False), ("applied", True)])
    def test_basted_layers_use_nothing_up(self, construction: str, speaks: bool) -> None:
        assert (TWICE in of_cutting(over_an_armhole(construction=construction))) == speaks

    @pytest.mark.parametrize(("start", "speaks"), [(200, False), (199.2, False), (197, True)])
    def test_disjoint_intervals_are_not(self, start: float, speaks: bool) -> None:
        document = case("ferry_smock")
        for name, ends in (("side", ("armhole", ["armhole", 200])), ("below", (["armhole", start], "hem"))):
            document["seams"][name] = {
                "sides": [
                    [{"edge": f"{piece}.side", "from": ends[0], "to": ends[1]}] for piece in ("front", "back")
                ]
            }
        assert (TWICE in of_cutting(document)) == speaks

    def test_seams_of_different_halves_are_not(self) -> None:
        document = case("ferry_smock")
        document["seams"]["side"]["half"] = "left"
        document["seams"]["side_right"] = {**document["seams"]["side"], "half": "right"}
        assert of_cutting(document) == {}
        document["seams"]["side_right"]["half"] = "left"
        assert TWICE in of_cutting(document)

    def test_more_copies_allow_more_seams(self) -> None:
        document = case("sound/shirt")
        assert of_cutting(document) == {}
        for seam in ("collar_edge", "under_collar_to_stand"):
            del document["seams"][seam]
        document["seams"]["again"] = document["seams"]["collar_to_stand"]
        assert TWICE not in of_cutting(document)
        document["pieces"]["collar"]["cut"][0]["count"] = 1
        assert TWICE in of_cutting(document)

    def test_an_end_that_is_caught_in_a_seam_is_not(self) -> None:
        document = case("ferry_smock")
        document["seams"]["again"] = {
            "sides": [["front.shoulder"], ["back.shoulder"]],
        }
        for piece in ("front", "back"):
            document["pieces"][piece]["edges"]["shoulder"] = {"finish": {"kind": "caught"}}
        assert TWICE not in of_cutting(document)


class TestCopiesDoNotSuffice:
    RULE = "cutting/copies-do-not-suffice"

    @pytest.mark.parametrize(
        ("order", "speaks"),
        [
            ({"count": 2, "mirrored": True}, False),
            ({"count": 4, "mirrored": True}, False),  # spare copies are fine
            ({"count": 1}, True),
            ({"count": 2}, True),  # alike: both left sleeves
            ({"count": 0, "mirrored": True}, True),
        ],
    )
    def test_a_sleeve_is_needed_in_both_hands(self, order: dict[str, Any], speaks: bool) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["cut"] = [{"material": "linen", **order}]
        assert loud(document) == ({LACKING: "error"} if speaks else {})

    def test_the_message_counts_both_and_says_what_to_do(self) -> None:
        document = case("ferry_smock")
        document["pieces"]["sleeve"]["cut"] = [{"material": "linen", "count": 1}]
        [text] = words(document, LACKING)
        assert "2 copies of it are sewn at the cap (Armhole seam), but only 1 copy is cut." in text
        assert "Cut 2 copies, half of them mirrored" in text

    @pytest.mark.parametrize("kind", ["cloth", "net"])
    def test_on_a_fold_copies_are_counted_as_they_are_cut(self, kind: str) -> None:
        document = case("sound/shirt")
        document["materials"]["main"]["kind"] = kind
        document["pieces"]["collar"]["cut"][0]["count"] = 1
        [text] = words(document, LACKING)
        assert (
            "2 copies of it are sewn at the upper edge (Collar edge seam), but only 1 copy is cut. Cut 2 copies."
            in text
        )

    def test_both_copies_of_one_hand_are_blamed_on_the_cut_order_not_on_the_seam(self) -> None:
        document = case("ferry_smock")
        del document["pieces"]["sleeve"]["cut"][0]["mirrored"]
        [(rule, _, text)] = said(document)
        assert rule == LACKING
        assert "Its seams need it in both hands, but it is cut in one hand only (2 copies)." in text

    def test_the_one_copy_that_is_needed_may_be_of_the_other_hand(self) -> None:
        document = case("sound/unlike_fronts")
        del document["pieces"]["left_front"]["cut"][0]["hand"]
        rules = {rule for rule, _, _ in said(document)}
        assert rules == {LACKING}
        assert "its mirror image" in words(document, LACKING)[0]

    @pytest.mark.parametrize(("kind", "speaks"), [("net", False), ("cloth", True)])
    def test_cloth_without_a_right_side_serves_for_either_hand(self, kind: str, speaks: bool) -> None:
        document = case("ferry_smock")
        document["materials"]["sheer"] = {"kind": kind}
        document["pieces"]["sleeve"]["cut"] = [{"material": "sheer", "count": 2}]
        assert (LACKING in of_cutting(document)) == speaks

    def test_plies_basted_together_count_as_one(self) -> None:
        document = case("ferry_smock")
        document["materials"]["voile"] = {}
        document["pieces"]["sleeve"]["cut"] = [{"plies": ["linen", "voile"], "count": 2, "mirrored": True}]
        assert of_cutting(document) == {}
        del document["pieces"]["sleeve"]["cut"][0]["mirrored"]
        assert LACKING in of_cutting(document)

    @pytest.mark.parametrize(("layers", "speaks"), [(3, False), (4, True)])
    def test_layers_need_a_copy_each(self, layers: int, speaks: bool) -> None:
        """Normal dressmaking 14: gathered 2.6 times, three layers deep."""
        document = case("sound/net_skirt")
        document["seams"]["gather"]["sides"][1]["layers"] = layers
        assert (LACKING in of_cutting(document)) == speaks

    def test_a_stated_half_needs_one(self) -> None:
        document = case("sound/dress_with_side_zip")
        document["pieces"]["pocket"]["cut"][0]["count"] = 1
        document["seams"]["pocket"]["half"] = "left"
        assert of_cutting(document) == {}
        del document["seams"]["pocket"]["half"]
        assert of_cutting(document) == {LACKING: "error"}


class TestSeamMissingOnSomeCopies:
    RULE = "cutting/seam-missing-on-some-copies"

    @pytest.mark.parametrize(("times", "speaks"), [(5, False), (4, True)])
    def test_a_gore_beside_a_zip_is_taken_by_the_zip(self, times: int, speaks: bool) -> None:
        document = case("sound/gored_skirt")
        document["seams"]["gore"]["times"] = times
        assert (MISSING in of_cutting(document)) == speaks

    def test_both_counts_are_told(self) -> None:
        document = case("sound/gored_skirt")
        document["seams"]["gore"]["times"] = 4
        [text] = words(document, MISSING)
        assert "Its waist is sewn 6 times, its left only 5 times." in text

    @pytest.mark.parametrize(("count", "speaks"), [(3, True), (2, False)])
    def test_two_copies_of_one_hand_are_let_pass(self, count: int, speaks: bool) -> None:
        document = case("sound/dress_with_side_zip")
        document["pieces"]["pocket"]["cut"][0]["count"] = count
        document["pieces"]["pocket"]["edges"] = {}
        document["seams"]["flap"] = {"sides": [["pocket.top"], ["pocket.top"]], "half": "none"}
        document["seams"]["pocket"]["half"] = "none"
        assert (MISSING in of_cutting(document)) == speaks
