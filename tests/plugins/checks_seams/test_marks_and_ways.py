"""Notches that differ or cross, ease between no stations, seams that run the wrong way, joints that nothing joins."""

from __future__ import annotations

import pytest
from patterns import Document, case, loud, said


def test_the_smock_is_sound() -> None:
    assert said(case("ferry_smock"), "seams", "sleeves") == []


def test_notches_of_unlike_kinds() -> None:
    document = case("ferry_smock")
    del document["pieces"]["sleeve"]["notches"]["back_pitch"]["kind"]
    assert loud(document, "seams", "sleeves") == {"seams/notches-differ": "warning"}
    [(_, _, words)] = said(document, "seams")
    assert "Sleeve has 2 single notches (front pitch and back pitch)" in words


def test_a_side_without_any_notch_is_no_fault() -> None:
    document = case("ferry_smock")
    document["pieces"]["front"]["notches"]["hip"] = {"edge": "side", "at": ["hem", 150]}
    assert loud(document, "seams") == {}


def test_a_notch_on_a_fold_is_one_notch() -> None:
    """Walked over the fold, a centre notch is passed twice."""
    document = {
        "notchwork": "1.0",
        "materials": {"cotton": {}},
        "pieces": {
            "front": {
                "outline": [
                    {"at": [0, 0], "edge": "center"},
                    {"at": [0, 300], "edge": "waist"},
                    {"at": [200, 300], "edge": "side"},
                    {"at": [200, 0], "edge": "hem"},
                ],
                "edges": {"center": {"fold": True}},
                "notches": {"middle": {"edge": "waist", "at": "center"}},
                "cut": [{"material": "cotton"}],
            },
            "band": {
                "strip": {"width": 40, "length": 400},
                "notches": {"middle": {"edge": "lower", "at": ["start", 200]}},
                "cut": [{"material": "cotton"}],
            },
        },
        "seams": {
            "waist": {
                "half": "none",
                "sides": [
                    [
                        {"edge": "front.waist", "from": "side"},
                        {"edge": "front.waist", "from": "center", "mirrored": True},
                    ],
                    ["band.lower"],
                ],
            }
        },
    }
    assert loud(document, "seams/notches-differ", "seams/stations-do-not-meet") == {}
    document["pieces"]["band"]["notches"]["middle"]["at"] = ["start", 190]  # type: ignore[index]
    assert loud(document, "seams") == {"seams/stations-do-not-meet": "error"}


def test_stations_in_crossed_order() -> None:
    document = case("ferry_smock")
    document["seams"]["armhole"]["sides"][1]["spans"] = [{"edge": "sleeve.cap", "from": "back_seam"}]
    assert loud(document, "seams", "sleeves") == {"seams/stations-cross": "error"}


def test_ease_between_places_that_meet_nothing() -> None:
    document = case("ferry_smock")
    document["pieces"]["front"]["notches"] = {}
    document["pieces"]["back"]["notches"] = {}
    assert "seams/between-is-no-station" in loud(document, "seams")


def test_a_side_stated_upside_down() -> None:
    document = case("ferry_smock")
    document["seams"]["side"]["sides"][1] = [{"edge": "back.side", "from": "hem"}]
    [(rule, how, words)] = said(document, "seams", "sleeves")
    assert (rule, how) == ("seams/wrong-way", "error")
    assert "Front and Back run in opposite directions: the armhole would meet the hem" in words


def test_a_joint_that_nothing_joins() -> None:
    document = case("ferry_smock")
    del document["seams"]["shoulder"]
    document["seams"]["armhole"]["meet"] = []
    assert loud(document) == {
        "cutting/edge-unaccounted": "warning"
    }  # the seam that would join it was forgotten
    for piece in ("front", "back"):
        document["pieces"][piece]["edges"]["shoulder"] = {"finish": {"kind": "bound"}}
    assert loud(document) == {"seams/joint-not-joined": "warning"}


def test_a_meeting_that_stands_in_several_places_lists_them() -> None:
    document = case("ferry_smock")
    document["seams"]["neckline"] = {
        "half": "none",
        "sides": [
            [
                {"edge": "front.neck", "from": "shoulder"},
                {"edge": "front.neck", "from": "center", "mirrored": True},
            ],
            ["neck_binding.lower"],
        ],
        "meet": [["shoulder", None]],
    }
    [words] = [words for rule, _, words in said(document, "seams") if rule == "seams/meeting-is-ambiguous"]
    assert "“shoulder#1” or “shoulder#2”" in words


def collar(turned: bool) -> Document:
    """A collar on the fold against a neck on the fold; its free ends carry nothing in common."""

    def piece(edge: str) -> Document:
        return {
            "outline": [
                {"at": [0, 0], "edge": "center"},
                {"at": [0, 80], "edge": "top"},
                {"at": [200, 80], "edge": "free"},
                {"at": [200, 0], "edge": edge},
            ],
            "edges": {"center": {"fold": True}},
            "cut": [{"material": "cotton"}],
        }

    collar_span = {"edge": "collar.lower", "from": "free" if turned else "center"}
    return {
        "notchwork": "1.0",
        "materials": {"cotton": {}},
        "pieces": {"back": piece("neck"), "collar": piece("lower")},
        "seams": {"neck": {"sides": [[{"edge": "back.neck", "from": "center"}], [collar_span]]}},
    }


def test_folds_at_opposite_ends_are_exchanged_ends() -> None:
    assert loud(collar(turned=False), "seams/wrong-way") == {}
    assert loud(collar(turned=True), "seams/wrong-way") == {"seams/wrong-way": "error"}


def test_the_lips_of_an_opening_tell_the_ends_of_the_seam_below_it() -> None:
    document = case("ferry_smock")
    for piece in ("front", "back"):
        document["pieces"][piece]["notches"]["zip_end"] = {
            "edge": "side",
            "at": ["armhole", 150],
            "use": "place",
        }
        del document["pieces"][piece]["edges"]["hem"]["finish"]

    def below(piece: str, turned: bool) -> list[Document]:
        ends = ("hem", "zip_end") if turned else ("zip_end", "hem")
        return [{"edge": f"{piece}.side", "from": ends[0], "to": ends[1]}]

    lips = [[{"edge": f"{piece}.side", "from": "armhole", "to": "zip_end"} for piece in ("front", "back")]]
    document["openings"] = {"zip": {"kind": "zip", "half": "left", "sections": lips}}
    document["seams"]["side_below"] = {"half": "left", "sides": [below("front", False), below("back", False)]}
    assert "seams/wrong-way" not in loud(document, "seams/wrong-way")
    document["seams"]["side_below"]["sides"][1] = below("back", True)
    assert loud(document, "seams/wrong-way") == {"seams/wrong-way": "error"}


def test_a_band_and_its_inner_seam_are_one_finding() -> None:
    document = two_layers_of_band(408)
    [(_, _, words)] = said(document, "seams/unequal-length")
    assert "Waist seam: Band is 8.0 mm longer than Skirt" in words
    assert "The same holds for Waist inside seam." in words


def two_layers_of_band(length: float) -> Document:
    return {
        "notchwork": "1.0",
        "pieces": {
            "skirt": {
                "outline": [
                    {"at": [0, 0], "edge": "hem"},
                    {"at": [400, 0], "edge": "right"},
                    {"at": [400, 500], "edge": "waist"},
                    {"at": [0, 500], "edge": "left"},
                ]
            },
            "band": {"strip": {"width": 40, "length": length}},
        },
        "seams": {
            "waist": {"sides": [[{"edge": "skirt.waist", "from": "left"}], ["band.lower"]]},
            "waist_inside": {
                "construction": "applied",
                "over": "waist",
                "sides": [
                    [{"edge": "skirt.waist", "from": "left"}],
                    [{"edge": "band.upper", "from": "start"}],
                ],
            },
        },
    }


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ("one.low", None),
        ("one.low#1", None),
        ("one.low#2", "“one.low#2” stands nowhere on side 1: “one.low” stands there once."),
        ("one.high", "“one.high” stands nowhere on side 1. Name a mark"),
    ],
)
def test_a_meeting_place_that_stands_nowhere_on_the_part_that_is_sewn(entry: str, words: str | None) -> None:
    piece = {
        "outline": [
            {"at": [0, 0], "edge": "left"},
            {"at": [0, 300], "edge": "top"},
            {"at": [100, 300], "edge": "right"},
            {"at": [100, 0], "edge": "bottom"},
        ],
        "notches": {
            "low": {"edge": "right", "at": ["bottom", 60]},
            "high": {"edge": "right", "at": ["top", 10]},
        },
    }
    part = [{"edge": f"{ident}.right", "from": ["bottom", 20], "to": ["top", 20]} for ident in ("one", "two")]
    document = {
        "notchwork": "1.0",
        "pieces": {"one": piece, "two": {"like": "one"}},
        "seams": {"side": {"sides": [[span] for span in part], "meet": [[entry, "two.low"]]}},
    }
    told = [text for rule, _, text in said(document, "seams") if rule == "seams/meeting-is-ambiguous"]
    assert len(told) == (words is not None)
    assert words is None or words in told[0]
