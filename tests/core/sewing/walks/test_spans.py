"""Spans: parts of edges, closed edges either way, several walks of one edge, and both halves of a fold."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import nest_of

from notchwork.sewing import Nest

K = 4 / 3 * (math.sqrt(2) - 1)
R = 100.0


def circle() -> list[dict[str, Any]]:
    """A circle of radius 100 mm as four cubics, drawn counter-clockwise from its rightmost point, one edge."""
    at = [(R, 0), (0, R), (-R, 0), (0, -R)]
    nodes = []
    for k, (x, y) in enumerate(at):
        tangent = (-y * K, x * K)
        node: dict[str, Any] = {
            "at": [x, y],
            "in": [x - tangent[0], y - tangent[1]],
            "out": [x + tangent[0], y + tangent[1]],
            "name": ("east", "north", "west", "south")[k],
        }
        nodes.append(node)
    nodes[0]["edge"] = "rim"
    return nodes


def ring(span: dict[str, Any], **more: Any) -> Nest:
    return nest_of(
        {
            "notchwork": "1.0",
            "pieces": {
                "base": {
                    "outline": circle(),
                    "notches": {"mark": {"edge": "rim", "at": "north"}, **more.get("notches", {})},
                },
                "wall": {
                    "strip": {"width": 80, "length": 628.4},
                    "notches": {"quarter": {"edge": "lower", "at": ["start", more.get("quarter", 157.1)]}},
                },
            },
            "seams": {
                "rim": {"closed": True, "sides": [[span], ["wall.lower"]]},
                "wall": {"sides": [[{"edge": "wall.start", "from": "lower"}], ["wall.end"]]},
            },
        }
    )


def test_a_closed_edge_is_walked_all_round_either_way() -> None:
    """A circle as four cubics is 0.027 % short of none of its parts; its length is within 0.03 % of 2 pi r."""
    for way in ("forward", "back"):
        walk = ring({"edge": "base.rim", "from": "east", "way": way}).walks["rim"]
        assert walk.sides[0].length[0] == pytest.approx(2 * math.pi * R, rel=3e-4)


@pytest.mark.parametrize(
    ("start", "way", "at"), [("east", "forward", 0.25), ("east", "back", 0.75), ("south", "forward", 0.5)]
)
def test_marks_on_a_closed_edge_count_from_where_the_walk_starts(start: str, way: str, at: float) -> None:
    walk = ring({"edge": "base.rim", "from": start, "way": way}).walks["rim"]
    [mark] = walk.sides[0].notches
    assert mark.at[0] / walk.sides[0].length[0] == pytest.approx(at, abs=1e-6)


def test_a_part_of_a_closed_edge() -> None:
    nest = nest_of(
        {
            "notchwork": "1.0",
            "pieces": {"base": {"outline": circle()}, "wall": {"strip": {"width": 80, "length": 471.3}}},
            "seams": {
                "rim": {
                    "sides": [
                        [{"edge": "base.rim", "from": "west", "to": "north", "way": "forward"}],
                        ["wall.lower"],
                    ]
                }
            },
        }
    )
    assert nest.walks["rim"].sides[0].length[0] == pytest.approx(1.5 * math.pi * R, rel=3e-4)


def test_gores_are_walked_several_times_and_pass_their_marks_each_time() -> None:
    gore = {
        "outline": [
            {"at": [0, 0], "edge": "hem"},
            {"at": [200, 0], "edge": "right"},
            {"at": [150, 400], "edge": "waist"},
            {"at": [50, 400], "edge": "left"},
        ],
        "notches": {"middle": {"edge": "waist", "at": ["right", 50]}},
    }
    nest = nest_of(
        {
            "notchwork": "1.0",
            "pieces": {"gore": gore, "band": {"strip": {"width": 30, "length": 600}}},
            "seams": {
                "gores": {"sides": [[{"edge": "gore.right", "from": "waist"}], ["gore.left"]], "times": 6},
                "waist": {
                    "closed": True,
                    "half": "none",
                    "sides": [[{"edge": "gore.waist", "from": "left", "times": 6}], ["band.lower"]],
                },
            },
        }
    )
    side = nest.walks["waist"].sides[0]
    assert side.length[0] == pytest.approx(600)
    assert [mark.at[0] for mark in side.notches] == pytest.approx([50, 150, 250, 350, 450, 550])
    assert [mark.kind for mark in side.marks].count("joint") == 5


def test_a_span_from_inside_an_edge_runs_to_where_it_says() -> None:
    document = {
        "notchwork": "1.0",
        "pieces": {
            "back": {
                "outline": [
                    {"at": [0, 0], "edge": "center"},
                    {"at": [0, 600], "edge": "neck"},
                    {"at": [200, 600], "edge": "side"},
                    {"at": [200, 0], "edge": "hem"},
                ],
                "notches": {"zip_end": {"edge": "center", "at": ["neck", 250], "use": "place"}},
            }
        },
        "seams": {
            "center_back": {
                "sides": [
                    [{"edge": "back.center", "from": "zip_end", "to": "hem"}],
                    [{"edge": "back.center", "from": "zip_end", "to": "hem", "mirrored": True}],
                ]
            }
        },
    }
    nest = nest_of(document)
    walk = nest.walks["center_back"]
    assert walk.sides[0].length[0] == pytest.approx(350)
    assert not walk.sides[0].stretches[0].forward
    assert nest.wrong_way == {}


def test_a_mirrored_side_that_is_not_said_to_be_mirrored_runs_the_wrong_way() -> None:
    """An edge sewn to itself on one copy would have the cloth of both on one side."""
    document: dict[str, Any] = {
        "notchwork": "1.0",
        "materials": {"cotton": {}},
        "pieces": {
            "back": {
                "outline": [
                    {"at": [0, 0], "edge": "center"},
                    {"at": [0, 600], "edge": "neck"},
                    {"at": [200, 560], "edge": "side"},
                    {"at": [220, 0], "edge": "hem"},
                ],
                "cut": [{"material": "cotton", "count": 2, "mirrored": True}],
            }
        },
        "seams": {"center_back": {"sides": [["back.center"], [{"edge": "back.center"}]]}},
    }
    assert set(nest_of(document).wrong_way) == {"center_back"}
    document["seams"]["center_back"]["sides"][1] = [{"edge": "back.center", "mirrored": True}]
    assert nest_of(document).wrong_way == {}
