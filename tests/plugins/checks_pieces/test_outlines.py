"""Outlines: crossing, tiny edges, repeated nodes, and things off their edge."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, said


def square(**piece: Any) -> Document:
    """A pattern of one square, 100 by 100."""
    outline = [
        {"at": [0, 0], "edge": "left"},
        {"at": [0, 100], "edge": "top"},
        {"at": [100, 100], "edge": "right"},
        {"at": [100, 0], "edge": "bottom"},
    ]
    known = {"outline": outline, "grainline": [[50, 20], [50, 80]]}
    return {"notchwork": "1.0", "pieces": {"patch": known | piece}}


def test_nothing_is_said_of_a_square() -> None:
    assert said(square(), "pieces") == []


def test_an_outline_that_crosses_itself_names_the_edges() -> None:
    document = square()
    outline = document["pieces"]["patch"]["outline"]
    outline[2]["at"], outline[3]["at"] = [100, 0], [100, 100]
    [(rule, severity, words)] = said(document, "pieces/outline-crosses-itself")
    assert (rule, severity) == ("pieces/outline-crosses-itself", "error")
    assert "Its top crosses its bottom." in words


def test_an_edge_with_a_loop_crosses_itself() -> None:
    document = square()
    document["pieces"]["patch"]["outline"][1]["out"] = [300, 300]
    document["pieces"]["patch"]["outline"][2]["in"] = [-200, 300]
    [(_, _, words)] = said(document, "pieces/outline-crosses-itself")
    assert "Its top crosses itself." in words


def test_two_pieces_that_are_drawn_over_each_other_do_not_cross() -> None:
    document = case("ferry_smock")
    assert said(document, "pieces/outline-crosses-itself") == []


@pytest.mark.parametrize(("length", "speaks"), [(0.9, True), (1.1, False)])
def test_a_tiny_edge(length: float, speaks: bool) -> None:
    document = square()
    document["pieces"]["patch"]["outline"].insert(2, {"at": [100, 100 + length], "edge": "stray"})
    assert loud(document, "pieces") == ({"pieces/edge-tiny": "warning"} if speaks else {})


def test_a_tiny_edge_is_told_with_its_length() -> None:
    document = square()
    document["pieces"]["patch"]["outline"].insert(2, {"at": [100, 100.4], "edge": "stray"})
    [(_, _, words)] = said(document, "pieces/edge-tiny")
    assert "Its stray is only 0.4 mm long" in words


def test_a_node_that_is_repeated_is_a_remark() -> None:
    document = square()
    document["pieces"]["patch"]["outline"].insert(2, {"at": [60, 100]})
    assert said(document, "pieces") == []
    document["pieces"]["patch"]["outline"].insert(2, {"at": [60, 100]})
    [(rule, severity, words)] = said(document, "pieces")
    assert (rule, severity) == ("pieces/node-repeated", "info")
    assert "A node on its top is drawn twice" in words


@pytest.mark.parametrize(("at", "speaks"), [(100.0, False), (100.4, False), (100.6, True), (-0.6, True)])
def test_a_notch_beyond_the_end_of_its_edge(at: float, speaks: bool) -> None:
    document = square(notches={"middle": {"edge": "top", "at": ["left", at]}})
    assert loud(document, "pieces") == ({"pieces/off-its-edge": "error"} if speaks else {})


def test_a_notch_off_its_edge_in_one_size_says_so() -> None:
    document = case("ferry_smock")
    document["pieces"]["front"]["notches"]["low"] = {"edge": "side", "at": ["armhole", 396], "use": "place"}
    [(_, severity, words)] = said(document, "pieces")
    assert severity == "error"
    assert words.startswith(
        "Front, size L: The notch “low” lies 2.0 mm beyond the end of its side (396.0 mm along"
    )
    assert "In S and M it is right." in words


def test_a_seam_that_starts_beyond_its_edge_is_told_once() -> None:
    document = case("ferry_smock")
    document["seams"]["side"]["sides"][0] = [{"edge": "front.side", "from": ["armhole", 500], "to": "hem"}]
    found = [words for rule, _, words in said(document) if rule == "pieces/off-its-edge"]
    assert len(found) == 1
    assert "Side seam" in found[0]


@pytest.mark.parametrize(
    ("at", "speaks"), [([50, 50], False), ([-10, 50], False), ([-13, 50], True), ([150, 150], True)]
)
def test_a_mark_may_stand_in_the_allowance(at: list[float], speaks: bool) -> None:
    document = square(allowance=12, marks={"drill": {"at": at}})
    assert loud(document, "pieces") == ({"pieces/off-its-edge": "error"} if speaks else {})


def test_a_mark_may_stand_in_the_other_half_of_a_folded_piece() -> None:
    document = square(edges={"left": {"fold": True}}, marks={"button": {"at": [-40, 50]}})
    assert loud(document, "pieces") == {}


@pytest.mark.parametrize(("width", "speaks"), [(0.8, True), (1.2, False)])
def test_an_outline_that_encloses_nothing(width: float, speaks: bool) -> None:
    outline = [
        {"at": [0, 0], "edge": "left"},
        {"at": [0, 100], "edge": "top"},
        {"at": [width, 100], "edge": "right"},
        {"at": [width, 0], "edge": "bottom"},
    ]
    told = loud(square(outline=outline), "pieces/encloses-nothing")
    assert told == ({"pieces/encloses-nothing": "error"} if speaks else {})


def test_an_outline_on_one_spot_or_line_is_told_once() -> None:
    for corners in (
        [[5, 5]] * 4,
        [[0, 0], [0, 50], [0, 100], [0, 70]],
        [[0, 0], [0, 5e-324], [5e-324, 0], [0, 0]],
    ):
        outline = [{"at": at, "edge": edge} for at, edge in zip(corners, "abcd", strict=True)]
        assert loud(square(outline=outline), "pieces") == {"pieces/encloses-nothing": "error"}


def test_an_outline_graded_flat_is_told_in_that_size() -> None:
    document = square()
    document |= {"sizes": {"names": ["S", "M"], "base": "M"}, "grade_rules": {"flat": {"S": [-100, 0]}}}
    for node in document["pieces"]["patch"]["outline"][2:]:
        node["grade"] = "flat"
    [(rule, _, words)] = [told for told in said(document, "pieces") if told[1] == "error"]
    assert rule == "pieces/encloses-nothing"
    assert words.startswith(
        "Patch, size S: Its outline encloses hardly any cloth: on the average it is 0 mm wide."
    )


def inner(**line: Any) -> Document:
    return square(allowance=10, inner={"line": line})


@pytest.mark.parametrize(
    ("line", "speaks"),
    [
        ({"line": [{"at": [10, 50]}, {"at": [90, 50]}]}, False),
        ({"line": [{"at": [-9, -9]}, {"at": [109, -9]}]}, False),  # in the allowance
        ({"line": [{"at": [-11, -11]}, {"at": [111, -11]}]}, True),
        ({"line": [{"at": [60, 50]}, {"at": [150, 50]}]}, False),  # more than half of it is on the piece
        ({"line": [{"at": [90, 50]}, {"at": [150, 50]}]}, True),
        ({"parallel_to": "bottom", "distance": 95}, False),
        ({"parallel_to": "bottom", "distance": 111}, True),
    ],
)
def test_an_inner_line_outside_its_piece(line: dict[str, Any], speaks: bool) -> None:
    assert loud(inner(**line), "pieces") == ({"pieces/line-outside": "error"} if speaks else {})


def test_a_line_too_far_from_its_edge_is_told_with_the_distance() -> None:
    [(_, _, words)] = said(inner(parallel_to="bottom", distance=300), "pieces")
    assert "Its inner line “line”, 300.0 mm inside the bottom, lies outside the piece" in words


def test_lines_on_the_other_half_of_a_folded_piece_lie_on_it() -> None:
    document = inner(line=[{"at": [-80, 50]}, {"at": [-20, 50]}])
    document["pieces"]["patch"]["edges"] = {"left": {"fold": True}}
    assert loud(document, "pieces") == {}


def test_a_cut_out_outside_its_piece_and_one_without_length() -> None:
    ring = [{"at": [5, 5]}, {"at": [8, 5]}, {"at": [5, 8]}]
    far = [{"at": [node["at"][0] + 300, 5 * k]} for k, node in enumerate(ring)]
    assert loud(square(cutouts={"hole": {"line": ring}}), "pieces") == {}
    assert loud(square(cutouts={"hole": {"line": far}}), "pieces") == {"pieces/line-outside": "error"}
    [(rule, severity, words)] = said(square(cutouts={"hole": {"line": [ring[0]] * 3}}), "pieces")
    assert (rule, severity) == ("pieces/edge-tiny", "warning")
    assert "Its cut-out “hole” is only 0 mm long." in words


@pytest.mark.parametrize(
    ("at", "words"),
    [
        (["right", -50], "lies 50.0 mm off its bottom, before its corner with the right."),
        (["left", -50], "lies 50.0 mm off its bottom, before its corner with the left."),
        (["mid", -80], "lies 30.0 mm off its bottom, before its corner with the right."),
        (["mid", 80], "lies 30.0 mm beyond the end of its bottom"),
        (["left", 130], "lies 30.0 mm beyond the end of its bottom"),
    ],
)
def test_a_place_off_its_edge_is_told_with_the_end_that_it_lies_beyond(at: list[Any], words: str) -> None:
    notches = {"n": {"edge": "bottom", "at": at}, "mid": {"edge": "bottom", "at": ["right", 50]}}
    [(rule, _, said_of)] = said(square(notches=notches), "pieces")
    assert rule == "pieces/off-its-edge"
    assert f"The notch “n” {words}" in said_of
