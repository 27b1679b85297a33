"""When one copy of a piece serves for either hand."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import nest_of

from notchwork.sewing.pieces.symmetry import falls_on_itself


def square(**more: Any) -> bool:
    """Whether a square of 100 mm falls on itself, cut with what is stated besides."""
    corners = {"lower": [0, 0], "right": [100, 0], "upper": [100, 100], "left": [0, 100]}
    piece = {"outline": [{"at": at, "edge": edge} for edge, at in corners.items()], **more}
    nest = nest_of({"notchwork": "1.0", "pieces": {"square": piece}})
    return falls_on_itself(nest, nest.pieces["square"])


LEFT_NOTCH = {"on_left": {"edge": "left", "at": ["upper", 30]}}


@pytest.mark.parametrize(
    "more",
    [
        {},
        {"grainline": [[50, 20], [50, 80]]},
        {"grainline": [[20, 20], [80, 80]]},
        {"grainline": [[20, 20], [90, 50]], "grain": "any"},
        {"edges": {"lower": {"allowance": 30}}, "grainline": [[50, 20], [50, 80]]},
        {"notches": LEFT_NOTCH | {"on_right": {"edge": "right", "at": ["upper", 30]}}},
    ],
)
def test_serves_for_either_hand(more: dict[str, Any]) -> None:
    assert square(**more)


@pytest.mark.parametrize(
    "more",
    [
        pytest.param({"grainline": [[20, 20], [90, 50]]}, id="thread"),
        pytest.param({"notches": LEFT_NOTCH}, id="notch"),
        pytest.param(
            {
                "edges": {"left": {"allowance": 18}},
                "notches": {"n": {"edge": "lower", "at": ["right", "50%"]}},
            },
            id="allowance",
        ),
    ],
)
def test_each_hand_must_be_cut(more: dict[str, Any]) -> None:
    assert not square(**more)


def test_pieces_like_each_other_share_what_they_do_not_state_themselves() -> None:
    corners = {"lower": [0, 0], "right": [100, 0], "upper": [100, 100], "left": [0, 100]}
    pieces: dict[str, Any] = {
        "square": {
            "outline": [{"at": at, "edge": edge} for edge, at in corners.items()],
            "grainline": [[50, 20], [50, 80]],
        },
        "same": {"like": "square", "name": "Same", "marks": {"m": {"at": [5, 5]}}},
        "notched": {"like": "square", "notches": LEFT_NOTCH},
        "wide": {"like": "square", "edges": {"left": {"allowance": 18}}},
        "leaning": {"like": "square", "grainline": [[20, 20], [90, 50]]},
        "free": {"like": "leaning", "grain": "any"},
    }
    nest = nest_of({"notchwork": "1.0", "pieces": pieces})
    assert nest.mirror_images["same"] is nest.mirror_images["square"]
    assert {ident: len(images) for ident, images in nest.mirror_images.items()} == {
        "square": 2,
        "same": 2,
        "notched": 0,
        "wide": 1,
        "leaning": 0,
        "free": 4,
    }
