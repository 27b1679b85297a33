"""Seams that run the wrong way, and joints that nothing joins: every span of the smock turned round, one at a time."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest
from patterns import nest_of

from notchwork.sewing import Nest
from notchwork.sewing.ways.joints import loose_joints

Damage = Callable[[Callable[[dict[str, Any]], None]], Nest]

TURNS = {
    ("shoulder", 0, 0): {"edge": "front.shoulder", "from": "armhole"},
    ("shoulder", 1, 0): {"edge": "back.shoulder", "from": "armhole"},
    ("side", 0, 0): {"edge": "front.side", "from": "hem"},
    ("side", 1, 0): {"edge": "back.side", "from": "hem"},
    ("sleeve_seam", 0, 0): "sleeve.front_seam",
    ("sleeve_seam", 1, 0): {"edge": "sleeve.back_seam", "from": "hem"},
    ("armhole", 0, 0): "front.armhole",
    ("armhole", 0, 1): {"edge": "back.armhole", "from": "side"},
    ("armhole", 1, 0): {"edge": "sleeve.cap", "from": "back_seam"},
}


def spans(side: Any) -> list[Any]:
    return side["spans"] if isinstance(side, dict) else side


def named(nest: Nest) -> set[str]:
    """The seams that direction, joints or crossing stations speak of."""
    crossed = {
        ident
        for ident, walk in nest.walks.items()
        if any(comparison.pairing.crossed for comparison in walk.others)
    }
    loose = {joint.seam for joint in loose_joints(nest, nest.wrong_way) if joint.seam}
    return set(nest.wrong_way) | crossed | loose


def test_the_smock_as_stated_runs_the_right_way(smock_nest: Nest) -> None:
    assert named(smock_nest) == set()


@pytest.mark.parametrize(("seam", "side", "span"), TURNS, ids=lambda value: str(value))
def test_a_turned_span_is_named_and_no_other_seam(damaged: Damage, seam: str, side: int, span: int) -> None:
    def change(document: dict[str, Any]) -> None:
        spans(document["seams"][seam]["sides"][side])[span] = TURNS[seam, side, span]

    assert named(damaged(change)) == {seam}


def test_a_side_of_several_spans_turned_as_a_whole_is_named(damaged: Damage) -> None:
    def change(document: dict[str, Any]) -> None:
        document["seams"]["armhole"]["sides"][0] = [
            "back.armhole",
            {"edge": "front.armhole", "from": "shoulder"},
        ]

    assert named(damaged(change)) == {"armhole"}


def two_layers() -> dict[str, Any]:
    """Two pieces on the fold, a casing above and a hem below, one seam."""
    outline = [
        {"at": [0, 0], "edge": "center"},
        {"at": [0, 300], "edge": "top"},
        {"at": [200, 300], "edge": "side"},
        {"at": [240, 0], "edge": "bottom"},
    ]
    piece = {
        "outline": outline,
        "edges": {
            "center": {"fold": True},
            "top": {"finish": {"kind": "casing", "turns": 2, "depth": 20}},
            "bottom": {"finish": {"kind": "hem", "turns": 2, "depth": 20}},
        },
        "cut": [{"material": "cotton", "count": 1}],
    }
    return {
        "notchwork": "1.0",
        "materials": {"cotton": {}},
        "pieces": {"front": piece, "back": copy.deepcopy(piece)},
        "seams": {"side": {"sides": [["front.side"], ["back.side"]]}},
    }


CASES = (
    (["back.side"], False),
    ([{"edge": "back.side", "from": "bottom"}], True),
)


@pytest.mark.parametrize(("side", "wrong"), CASES)
def test_exchanged_ends_speak_where_hands_cannot(side: Any, wrong: bool) -> None:
    """Both pieces are cut on the fold and so in both hands: only casing above and hem below tell the ends apart."""
    document = two_layers()
    document["seams"]["side"]["sides"][1] = side
    assert set(nest_of(document).wrong_way) == ({"side"} if wrong else set())
