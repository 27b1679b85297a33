"""Seams that are forgotten: what belongs to each other is one, whatever tells it: joints, ends, lengths."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud, nest_of, said

Sides = list[list[tuple[str, str]]]


def forgotten(document: Document) -> list[Sides]:
    """The edges of every forgotten seam, side by side."""
    return [[[gap.line.key for gap in side] for side in seam.sides] for seam in nest_of(document).forgotten]


def without(name: str, seam: str) -> Document:
    document = case(name)
    del document["seams"][seam]
    for other in document["seams"].values():
        other.pop("meet", None)
    return document


@pytest.mark.parametrize(
    ("name", "seam", "sides"),
    [
        ("ferry_smock", "side", [[("front", "side")], [("back", "side")]]),
        ("ferry_smock", "shoulder", [[("front", "shoulder")], [("back", "shoulder")]]),
        ("ferry_smock", "sleeve_seam", [[("sleeve", "front_seam")], [("sleeve", "back_seam")]]),
        (
            "ferry_smock",
            "armhole",
            [[("front", "armhole"), ("back", "armhole")], [("sleeve", "cap")]],
        ),
        ("sound/godet_skirt", "panel", [[("panel", "right")], [("panel", "left")]]),
    ],
)
def test_a_seam_that_is_left_out_is_one_finding_with_both_its_sides(
    name: str, seam: str, sides: Sides
) -> None:
    document = without(name, seam)
    [found] = forgotten(document)
    assert sorted(map(sorted, found)) == sorted(map(sorted, sides))
    assert loud(document) == {"cutting/edge-unaccounted": "warning"}


@pytest.mark.parametrize(("pieces", "told"), [(66, 22), (67, 201)])
def test_beyond_two_hundred_open_edges_each_is_told_alone(pieces: int, told: int) -> None:
    """Of each piece three edges are open, round its corners; three such pieces are taken for the layers of one seam."""
    corners: list[tuple[str, list[float]]] = [
        ("center", [0, 0]),
        ("waist", [0, 600]),
        ("side", [300, 600]),
        ("hem", [300, 0]),
    ]
    drawn = {
        "outline": [{"at": at, "edge": edge} for edge, at in corners],
        "cut": [{"material": "main", "count": 2, "mirrored": True}],
    }
    document: Document = {
        "notchwork": "1.0",
        "materials": {"main": {}},
        "pieces": {f"p{k}": drawn for k in range(pieces)},
        "seams": {
            f"s{k}": {"sides": [[f"p{k}.center"], [{"edge": f"p{k}.center", "mirrored": True}]]}
            for k in range(pieces)
        },
    }
    found = forgotten(document)
    assert len({edge for seam in found for side in seam for edge in side}) == 3 * pieces
    assert len(found) == told


def test_the_seams_that_wait_for_it_are_named() -> None:
    [(_, _, words)] = [told for told in said(without("ferry_smock", "side")) if told[1] != "info"]
    assert (
        "No seam joins its side and Back (side), 406.0 mm each. Armhole seam cannot be sewn without it."
        in words
    )


def test_gaps_that_go_on_into_each_other_are_one() -> None:
    document = case("ferry_smock")
    for piece in ("front", "back"):
        del document["pieces"][piece]["edges"]["hem"]["finish"]
    assert forgotten(document) == [[[("front", "hem"), ("back", "hem")]]]


def test_two_forgotten_seams_are_two() -> None:
    document = without("ferry_smock", "side")
    del document["seams"]["shoulder"]
    assert len(forgotten(document)) == 2


def by_tape(**lengths: float) -> Document:
    """Pieces of one edge each, known by its length."""
    pieces: dict[str, Any] = {
        name: {"edges": {"edge": {"length": length}}} for name, length in lengths.items()
    }
    pieces["one"] = pieces["other"] = {"edges": {"side": {"length": 100}}}
    return {
        "notchwork": "1.0",
        "pieces": pieces,
        "seams": {"side": {"sides": [["one.side"], ["other.side"]]}},
    }


@pytest.mark.parametrize(
    ("lengths", "seams"),
    [
        ({"front": 400, "back": 402}, [2]),
        ({"front": 400, "back": 440}, [1, 1]),
        ({"front": 235, "back": 255, "cap": 513}, [2]),
        ({"front": 235, "back": 255, "cap": 613}, [1, 1, 1]),
    ],
)
def test_by_tape_lengths_alone_tell(lengths: dict[str, float], seams: list[int]) -> None:
    assert [len(sides) for sides in forgotten(by_tape(**lengths))] == seams


def test_cloth_between_two_darts_is_not_taken_by_a_dart() -> None:
    document = case("ferry_smock")
    document["pieces"]["front"]["darts"] = {
        "waist": {"edge": "hem", "feet": [["side", 120], ["side", 130]], "apex": [125, 100]}
    }
    del document["pieces"]["front"]["edges"]["hem"]["finish"]
    assert forgotten(document) == [[[("front", "hem")]]]


def test_no_more_than_three_layers_are_taken_for_one_seam() -> None:
    """Many edges of one length: nothing tells which belong to which."""
    sides = [len(found) for found in forgotten(by_tape(**{f"piece{k}": 300 for k in range(8)}))]
    assert sum(sides) == 8
    assert max(sides) <= 3
