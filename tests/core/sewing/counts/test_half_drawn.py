"""Pieces that seem to be drawn by half: what follows from a fold that is not stated is one finding."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from patterns import CASES, Document, case, loud, nest_of, said

ONE = {"cutting/copies-do-not-suffice": "error"}


def folds() -> Iterator[Any]:
    """Every fold of the shipped cases that is the only one of a piece that seams take."""
    for name in (
        "ferry_smock",
        *(f"sound/{path.name.split('.')[0]}" for path in sorted((CASES / "sound").iterdir())),
    ):
        document = case(name)
        for piece, stated in document["pieces"].items():
            edges = [edge for edge, of in stated.get("edges", {}).items() if of.get("fold")]
            if len(edges) == 1 and f"{piece}." in str(document["seams"]):
                yield pytest.param(name, piece, edges[0], id=f"{name}-{piece}")


def without_fold(name: str, piece: str, edge: str) -> Document:
    document = case(name)
    del document["pieces"][piece]["edges"][edge]["fold"]
    return document


@pytest.mark.parametrize(("name", "piece", "edge"), list(folds()))
def test_a_fold_that_is_not_stated_is_one_finding(name: str, piece: str, edge: str) -> None:
    document = without_fold(name, piece, edge)
    nest = nest_of(document)
    if nest.taken_whole() is nest:  # a piece that nothing needs whole lacks the seam of that edge
        assert loud(document) == {"cutting/edge-unaccounted": "warning"}
    else:
        assert nest.taken_whole().half_drawn[piece] == edge
        assert loud(document) == ONE


def test_it_is_told_in_words() -> None:
    document = without_fold("ferry_smock", "back", "center")
    [words] = [words for _, severity, words in said(document) if severity != "info"]
    assert words.startswith("Back: Half of it seems to be drawn: its seams need both halves")
    assert "Say “fold” for its center" in words


def test_an_edge_that_is_finished_or_not_straight_is_no_forgotten_fold() -> None:
    document = without_fold("ferry_smock", "back", "center")
    document["pieces"]["back"]["edges"]["center"] = {"finish": {"kind": "faced"}}
    assert not nest_of(document).taken_whole().half_drawn
    document = without_fold("ferry_smock", "back", "center")
    document["pieces"]["back"]["outline"][0]["out"] = [10, 200]
    assert not nest_of(document).taken_whole().half_drawn


def test_an_overlay_that_is_like_it_is_drawn_by_half_too() -> None:
    document = without_fold("ferry_smock", "front", "center")
    document["pieces"]["overlay"] = {"like": "front"}
    for edge in ("shoulder", "side", "neck", "armhole"):
        document["seams"][f"overlay_{edge}"] = {
            "construction": "basted",
            "sides": [[f"front.{edge}"], [f"overlay.{edge}"]],
        }
    assert set(nest_of(document).taken_whole().half_drawn) == {"front", "overlay"}
    [words] = [words for _, severity, words in said(document) if severity != "info"]
    assert "The same holds for Overlay." in words


def test_every_sound_case_is_taken_as_it_is() -> None:
    nest = nest_of(case("ferry_smock"))
    assert nest.taken_whole() is nest
