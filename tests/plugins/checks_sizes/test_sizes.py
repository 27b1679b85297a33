"""Edges that grow and then shrink: where it speaks and where it is quiet."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, loud, said

TURNS = "sizes/grows-then-shrinks"


def hem(lengths: list[float], ordered: bool = True) -> Document:
    names = [f"size {k}" for k in range(len(lengths))]
    edges: dict[str, Any] = {
        "hem": {"length": dict(zip(names, lengths, strict=True))},
        "side": {"length": 400},
    }
    return {
        "notchwork": "1.0",
        "sizes": {"names": names, "base": names[0], "ordered": ordered},
        "pieces": {"front": {"name": "Front", "edges": edges}},
    }


@pytest.mark.parametrize(
    ("lengths", "speaks"),
    [
        ([200, 206, 212], False),
        ([212, 206, 200], False),
        ([200, 200, 200], False),
        ([200, 206, 206], False),
        ([200, 206, 204.5], False),
        ([200, 206, 204.3], True),
        ([200, 198, 206], True),
        ([200, 198.5, 206], False),
        ([200, 201, 202, 200.5, 206, 212], False),
        ([200, 203, 206, 205, 204, 212], True),
        ([200, 206], False),
    ],
)
def test_one_ordered_run_turns_back_by_more_than_a_sixteenth_of_an_inch(
    lengths: list[float], speaks: bool
) -> None:
    assert (TURNS in loud(hem(lengths), TURNS)) == speaks


def test_sizes_that_are_not_one_run_may_do_as_they_like() -> None:
    assert loud(hem([200, 206, 200], ordered=False), TURNS) == {}


def test_the_turn_is_told_with_its_three_lengths() -> None:
    [(_, _, text)] = said(hem([200, 206, 203]), TURNS)
    assert (
        "Its hem grows from size 0 to size 1 (200.0 mm to 206.0 mm), "
        "but shrinks from size 1 to size 2 (206.0 mm to 203.0 mm)." in text
    )
    assert "Look at the grade rules at both ends of its hem in size 1." in text


def test_two_edges_of_a_piece_that_turn_back_are_one_finding() -> None:
    document = hem([200, 206, 203])
    document["pieces"]["front"]["edges"]["top"] = document["pieces"]["front"]["edges"]["hem"]
    assert len(said(document, TURNS)) == 1


def test_a_constant_edge_beside_a_growing_one_is_sound() -> None:
    """Normal dressmaking 12: a side seam equal in all sizes while others grow."""
    assert loud(hem([200, 206, 212]), TURNS) == {}
