"""Notches that differ or cross, ease between no stations, seams that run the wrong way, joints that nothing joins."""

from __future__ import annotations

from patterns import case, loud, said


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
    assert loud(document, "seams") == {"seams/joint-not-joined": "warning"}


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
