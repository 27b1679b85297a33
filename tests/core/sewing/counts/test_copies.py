"""Copies that are cut: pairs, folds, other hands, plies, interfacing, pieces that serve for either hand."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, nest_of

from notchwork.sewing.counts.copies import Copies, copies_of

SLOPED = [[0, 0, "hem"], [300, 0, "side"], [250, 400, "top"], [0, 380, "center"]]
SQUARE = [[0, 0, "hem"], [300, 0, "side"], [300, 400, "top"], [0, 400, "center"]]


def cut(cut: list[dict[str, Any]], outline: list[list[Any]] = SLOPED, **piece: Any) -> Copies | None:
    document: Document = {
        "notchwork": "1.0",
        "materials": {
            "wool": {},
            "voile": {},
            "net": {"kind": "net"},
            "fusible": {"kind": "interfacing"},
        },
        "pieces": {
            "part": {
                "outline": [{"at": [x, y], "edge": edge} for x, y, edge in outline],
                "cut": cut,
                **piece,
            }
        },
    }
    nest = nest_of(document)
    return copies_of(nest, nest.pieces["part"])


@pytest.mark.parametrize(
    ("orders", "expected"),
    [
        ([{"material": "wool", "count": 2, "mirrored": True}], (1, 1, 0)),
        ([{"material": "wool", "count": 6, "mirrored": True}], (3, 3, 0)),
        ([{"material": "wool", "count": 2}], (2, 0, 0)),
        ([{"material": "wool", "count": 2, "hand": "mirrored"}], (0, 2, 0)),
        ([{"plies": ["wool", "voile"], "count": 2, "mirrored": True}], (1, 1, 0)),
        ([{"material": "wool", "count": 2}, {"material": "fusible", "count": 2}], (2, 0, 0)),
        (
            [{"material": "wool", "count": 1}, {"material": "voile", "count": 1, "hand": "mirrored"}],
            (1, 1, 0),
        ),
        ([{"material": "net", "count": 3}], (0, 0, 3)),
        ([{"plies": ["wool", "net"], "count": 1}], (1, 0, 0)),
    ],
)
def test_copies_by_hand(orders: list[dict[str, Any]], expected: tuple[int, int, int]) -> None:
    copies = cut(orders)
    assert copies is not None
    assert (copies.as_drawn[0], copies.mirrored[0], copies.either[0]) == expected


def test_a_fold_gives_one_of_each_hand_and_two_folds_two() -> None:
    once = cut([{"material": "wool"}], edges={"center": {"fold": True}})
    quarter = cut([{"material": "wool"}], SQUARE, edges={"center": {"fold": True}, "hem": {"fold": True}})
    assert once is not None
    assert quarter is not None
    assert (once.as_drawn[0], once.mirrored[0]) == (1, 1)
    assert (quarter.as_drawn[0], quarter.mirrored[0]) == (2, 2)


def test_a_piece_that_falls_on_itself_serves_for_either_hand() -> None:
    copies = cut([{"material": "wool", "count": 2}], SQUARE)
    assert copies is not None
    assert copies.either[0] == 2
    notched = cut(
        [{"material": "wool", "count": 2}], SQUARE, notches={"a": {"edge": "hem", "at": ["center", 40]}}
    )
    assert notched is not None
    assert notched.as_drawn[0] == 2


def test_interfacing_alone_and_no_cut_order_give_no_copies() -> None:
    assert cut([{"material": "fusible", "count": 2}]) is None
    assert cut([]) is None


def test_lacking_takes_from_those_that_serve_either_hand() -> None:
    copies = cut([{"material": "wool", "count": 1}, {"material": "net", "count": 1}])
    assert copies is not None
    one, two = copies.as_drawn, copies.as_drawn * 2
    assert copies.lacking(one, one)[0] == 0
    assert copies.lacking(two, one)[0] == 1


def by_tape(seams: dict[str, Any]) -> Document:
    """A sleeve known by the lengths of its edges, cut once."""
    edges = {name: {"length": 300} for name in ("front_seam", "back_seam", "cap")}
    return {
        "notchwork": "1.0",
        "materials": {"wool": {}},
        "pieces": {"sleeve": {"edges": edges, "cut": [{"material": "wool", "count": 1}]}},
        "seams": seams,
    }


def test_a_piece_measured_by_tape_counts_twice_unless_it_closes_by_itself() -> None:
    whole = nest_of(by_tape({}))
    closed = nest_of(by_tape({"seam": {"sides": [["sleeve.front_seam"], ["sleeve.back_seam"]]}}))
    for nest, either in ((whole, 2), (closed, 0)):
        copies = copies_of(nest, nest.pieces["sleeve"])
        assert copies is not None
        assert copies.either[0] == either
