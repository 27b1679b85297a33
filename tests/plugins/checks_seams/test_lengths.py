"""Lengths, stations, ease and fullness: each check on a good and a bad seam, at its steps, and in its words."""

from __future__ import annotations

import re
from typing import Any

import pytest
from patterns import Document, case, loud, said


def side_longer_by(amount: float) -> Document:
    document = case("ferry_smock")
    document["pieces"]["back"]["outline"][5]["at"] = [250, -amount]
    return document


@pytest.mark.parametrize(
    ("amount", "severity"),
    [(0.4, None), (0.6, "info"), (1.5, "info"), (1.7, "warning"), (3.1, "warning"), (3.3, "error")],
)
def test_unequal_length_speaks_at_its_steps(amount: float, severity: str | None) -> None:
    """1/16 in and 1/8 in: Threads 200, Dec 2018/Jan 2019; 0.5 mm: common practice, no source."""
    speaking = {rule: how for rule, how, _ in said(side_longer_by(amount), "seams/unequal-length")}
    assert speaking.get("seams/unequal-length") == severity


def test_unequal_length_says_both_measures_the_difference_and_what_to_do() -> None:
    [(_, _, words)] = said(side_longer_by(4.5), "seams/unequal-length")
    assert words.startswith(
        "Side seam, size M: Back is 4.5 mm longer than Front (404.5 mm against 400.0 mm; up to 1.6 mm"
    )
    assert "Take 4.5 mm off Back, or add it to Front." in words


def test_a_fault_in_one_size_points_at_the_grading() -> None:
    document = case("ferry_smock")
    document["grade_rules"]["stray"] = {"S": [-12, 0], "L": [12, -4.5]}
    document["pieces"]["back"]["outline"][5]["grade"] = "stray"
    [(_, _, words)] = said(document, "seams/unequal-length")
    assert words.startswith("Side seam, size L: Back is 4.5 mm longer")
    assert "In S and M it sews." in words
    assert "Back leaves its own grade steps" in words


def test_the_interval_that_is_off_is_named() -> None:
    document = side_longer_by(4.5)
    for piece in ("front", "back"):
        document["pieces"][piece]["notches"]["waist"] = {"edge": "side", "at": ["armhole", 200]}
    [(_, _, words)] = said(document, "seams")
    assert (
        "Back is 4.5 mm longer than Front (404.5 mm against 400.0 mm; up to 1.6 mm is fine), all of it from the waist notch"
        in words
    )
    assert "to the hem; elsewhere on the seam both agree." in words
    assert "Take 4.5 mm off Back between the waist notch and the hem" in words


def test_several_intervals_that_are_off_are_told_one_by_one() -> None:
    document: Document = {
        "notchwork": "1.0",
        "pieces": {
            "front": {"outline": box(300, 100), "notches": notches(100, 200)},
            "back": {"outline": box(312, 100), "notches": notches(106, 206)},
        },
        "seams": {"top": {"sides": [["front.top"], ["back.top"]]}},
    }
    [(_, _, words)] = said(document, "seams/unequal-length")
    assert "Back is 12.0 mm longer than Front" in words
    assert (
        ": 6.0 mm from the right edge to the one notch and 6.0 mm from the two notch to the left edge; elsewhere"
        in words
    )


def notches(one: float, two: float) -> dict[str, Any]:
    return {
        "one": {"edge": "top", "at": ["right", one], "kind": "single"},
        "two": {"edge": "top", "at": ["right", two], "kind": "double"},
    }


def test_tape_measured_lengths_have_wider_steps() -> None:
    def document(length: float) -> Document:
        edges: dict[str, Any] = {"side": {"length": 400}, "hem": {"length": 250}}
        other: dict[str, Any] = {"side": {"length": length}, "hem": {"length": 250}}
        return {
            "notchwork": "1.0",
            "pieces": {"front": {"edges": edges}, "back": {"edges": other}},
            "seams": {"side": {"sides": [["front.side"], ["back.side"]]}},
        }

    assert "seams/unequal-length" not in loud(document(404), "seams")
    assert loud(document(406), "seams/unequal-length") == {"seams/unequal-length": "warning"}
    assert loud(document(409), "seams/unequal-length") == {"seams/unequal-length": "error"}


def test_a_tolerance_of_the_seam_or_the_pattern_takes_the_place_of_the_default() -> None:
    document = side_longer_by(4.5)
    document["seams"]["side"]["tolerance"] = 6
    assert loud(document, "seams/unequal-length") == {}
    document = side_longer_by(4.5)
    document["tolerances"] = {"seams/unequal-length": [1, 5, 9]}
    assert loud(document, "seams/unequal-length") == {}
    document["seams"]["side"]["tolerances"] = {"seams/unequal-length": [1, 2, 3]}
    assert loud(document, "seams/unequal-length") == {"seams/unequal-length": "error"}


def test_inches_are_told_in_sixteenths() -> None:
    document: Document = {
        "notchwork": "1.0",
        "unit": "in",
        "pieces": {
            "front": {"outline": box(10, 16)},
            "back": {"outline": box(10, 16.125)},
        },
        "seams": {"side": {"sides": [["front.right"], ["back.right"]]}},
    }
    [(_, _, words)] = said(document, "seams/unequal-length")
    assert "Back is 1/8 in longer than Front (16 1/8 in against 16 in; up to 1/16 in is fine)" in words


def box(width: float, height: float) -> list[dict[str, Any]]:
    return [
        {"at": [0, 0], "edge": "bottom"},
        {"at": [width, 0], "edge": "right"},
        {"at": [width, height], "edge": "top"},
        {"at": [0, height], "edge": "left"},
    ]


def test_a_slipped_notch_is_told_as_one() -> None:
    document = case("ferry_smock")
    document["pieces"]["back"]["notches"]["pitch"]["at"] = ["side", 84]
    assert loud(document, "seams", "sleeves") == {"seams/stations-do-not-meet": "error"}


def test_a_notch_that_only_marks_a_place_is_no_station() -> None:
    document = case("ferry_smock")
    document["pieces"]["back"]["notches"]["vent"] = {"edge": "side", "at": ["hem", 80], "use": "place"}
    document["pieces"]["front"]["notches"]["vent"] = {"edge": "side", "at": ["hem", 120]}
    assert loud(document, "seams") == {}


def gathered(length: float, join: dict[str, Any]) -> Document:
    return {
        "notchwork": "1.0",
        "pieces": {"band": {"outline": box(300, 40)}, "frill": {"outline": box(length, 90)}},
        "seams": {
            "frill": {
                "sides": [["band.bottom"], {"spans": [{"edge": "frill.top", "from": "left"}], "join": join}]
            }
        },
    }


@pytest.mark.parametrize(
    ("length", "severity"),
    [
        (720, None),
        (840, None),
        (870, None),
        (900, "info"),
        (940, "warning"),
        (1020, "error"),
        (670, "info"),
        (600, "warning"),
    ],
)
def test_fullness_speaks_at_5_10_and_20_percent(length: float, severity: str | None) -> None:
    """Common practice, no source. Wanted: 2.4 to 2.8 times 300 mm, so 720 to 840 mm."""
    document = gathered(length, {"kind": "gathered", "ratio": [2.4, 2.8]})
    speaking = {rule: how for rule, how, _ in said(document, "seams/fullness-not-as-stated")}
    assert speaking.get("seams/fullness-not-as-stated") == severity


def test_fullness_words() -> None:
    [(_, _, words)] = said(
        gathered(600, {"kind": "gathered", "ratio": [2.4, 2.8]}), "seams/fullness-not-as-stated"
    )
    assert "Frill is 2.00 times as long as Band (600.0 mm on 300.0 mm); 2.40 to 2.80 times is wanted" in words
    assert "so there is" in words
    assert "too little to gather" in words
    assert "Make Frill 720.0 mm to 840.0 mm long" in words


def test_a_single_ratio_means_ten_percent_either_way() -> None:
    assert loud(gathered(650, {"kind": "gathered", "ratio": 2}), "seams/fullness-not-as-stated") == {}
    assert loud(gathered(780, {"kind": "gathered", "ratio": 2}), "seams/fullness-not-as-stated") != {}


def test_fullness_that_is_not_stated_is_one_info() -> None:
    document = gathered(650, {"kind": "gathered"})
    assert [(rule, how) for rule, how, _ in said(document, "seams/fullness-not-stated")] == [
        ("seams/fullness-not-stated", "info")
    ]
    assert loud(document, "seams/fullness-not-as-stated", "seams/unequal-length") == {}


def test_ease_outside_its_range() -> None:
    def document(length: float) -> Document:
        return {
            "notchwork": "1.0",
            "pieces": {"front": {"outline": box(100, 90)}, "back": {"outline": box(length, 90)}},
            "seams": {
                "shoulder": {
                    "sides": [
                        ["front.top"],
                        {"spans": ["back.top"], "join": {"kind": "eased", "amount": [5, 8]}},
                    ]
                }
            },
        }

    assert loud(document(106), "seams/ease-not-as-stated") == {}
    assert loud(document(110), "seams/ease-not-as-stated") == {"seams/ease-not-as-stated": "warning"}
    [(_, how, words)] = said(document(100), "seams/ease-not-as-stated")
    assert how == "error"
    assert "5.0 mm to 8.0 mm is wanted, so 5.0 mm is missing" in words


def test_a_stretched_side_is_shorter() -> None:
    document = gathered(240, {"kind": "stretched", "ratio": [0.78, 0.82]})
    assert loud(document, "seams/fullness-not-as-stated") == {}
    document = gathered(210, {"kind": "stretched", "ratio": [0.78, 0.82]})
    [(_, how, words)] = said(document, "seams/fullness-not-as-stated")
    assert how == "warning"
    assert "too tight" in words


def test_what_is_over_at_an_edge_levelled_after_hanging_is_a_remark() -> None:
    document = side_longer_by(8.8)
    document["pieces"]["back"]["edges"]["hem"]["trim_when"] = "hung"
    [(rule, how, words)] = said(document, "seams/left-to-level", "seams/unequal-length")
    assert (rule, how) == ("seams/left-to-level", "info")
    assert (
        "Back is 8.8 mm longer than Front at an edge that is levelled after hanging; up to 15.0 mm is fine"
        in words
    )
    document = side_longer_by(16)
    document["pieces"]["back"]["edges"]["hem"]["trim_when"] = "hung"
    assert loud(document, "seams") == {"seams/unequal-length": "error"}


def test_what_will_be_levelled_is_in_neither_of_the_lengths_that_are_told() -> None:
    told = [words for _, _, words in said(case("every_key"), "seams/unequal-length") if "levelled" in words]
    assert told
    for words in told:
        figures = re.search(r"is ([\d.]+) cm longer than \w+ \(([\d.]+) cm against ([\d.]+) cm", words)
        assert figures is not None
        by, more, less = map(float, figures.groups())
        assert by == pytest.approx(more - less, abs=0.011)
        assert "without 0.27 cm that is levelled after hanging" in words


def test_an_interval_without_length_on_one_side_still_names_both() -> None:
    """The notch stands at the very corner of one piece, 6 mm along on the other."""
    document: Document = {
        "notchwork": "1.0",
        "pieces": {
            "front": {"outline": box(300, 100), "notches": {"n": {"edge": "top", "at": ["right", 0.6]}}},
            "back": {"outline": box(300, 100), "notches": {"n": {"edge": "top", "at": ["right", 6.6]}}},
        },
        "seams": {"top": {"sides": [["front.top"], ["back.top"]]}},
    }
    [(rule, _, words)] = said(document, "seams")
    assert rule == "seams/stations-do-not-meet"
    assert "Back is 6.0 mm longer than Front" in words or "Front is 6.0 mm longer than Back" in words
