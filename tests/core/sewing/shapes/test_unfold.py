"""Pieces opened along one fold, along two, and folds that do not open out flat."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import Document, nest_of

from notchwork.geometry import area
from notchwork.sewing import Nest
from notchwork.sewing.shapes.unfold import unfolded


def piece(folds: tuple[str, ...], **corners: Any) -> Nest:
    outline = [{"edge": edge} | (at if isinstance(at, dict) else {"at": at}) for edge, at in corners.items()]
    shape = {"outline": outline, "edges": {fold: {"fold": True} for fold in folds}}
    document: Document = {"notchwork": "1.0", "pieces": {"cloth": shape}}
    return nest_of(document)


def test_a_piece_without_a_fold_is_as_it_is_drawn(smock_nest: Nest) -> None:
    whole = unfolded(smock_nest, smock_nest.pieces["sleeve"], 1)
    assert whole.copies == 1
    assert [image.edge for image in whole.rings[0]] == ["front_seam", "cap", "back_seam", "hem"]


def test_half_a_piece_is_mirrored_and_walked_on_round(smock_nest: Nest) -> None:
    front = smock_nest.pieces["front"]
    for size in range(3):
        whole = unfolded(smock_nest, front, size)
        assert whole.copies == 2
        assert [(i.edge, i.copy) for i in whole.rings[0]] == [
            *[(edge, 0) for edge in ("neck", "shoulder", "armhole", "side", "hem")],
            *[(edge, 1) for edge in ("hem", "side", "armhole", "shoulder", "neck")],
        ]
        assert area(whole.outline()) == pytest.approx(2 * area(smock_nest.outline("front", size)))
        assert whole.area == pytest.approx(abs(area(whole.outline())))


def test_a_square_in_quarters() -> None:
    nest = piece(("left", "lower"), left=[0, 100], lower=[0, 0], right=[100, 0], upper=[100, 100])
    whole = unfolded(nest, nest.pieces["cloth"], 0)
    assert whole.copies == 4
    assert len(whole.rings) == 1
    assert abs(area(whole.outline())) == pytest.approx(200 * 200)


def test_a_full_circle_in_quarters_has_a_hole() -> None:
    """Area of a ring (closed form): π (R² - r²)."""
    r, big = 100.0, 500.0
    long = 4 / 3 * math.tan(math.pi / 8)
    nest = piece(
        ("lower", "left"),
        lower={"at": [r, 0], "in": [r, r * long]},
        hem={"at": [big, 0], "out": [big, big * long]},
        left={"at": [0, big], "in": [big * long, big]},
        waist={"at": [0, r], "out": [r * long, r]},
    )
    whole = unfolded(nest, nest.pieces["cloth"], 0)
    assert whole.copies == 4
    assert sorted(len(ring) for ring in whole.rings) == [4, 4]
    outer, hole = (area(whole.outline(k)) for k in range(2))
    assert outer * hole < 0
    assert whole.area == pytest.approx(abs(outer + hole))
    assert whole.area == pytest.approx(math.pi * (big**2 - r**2), rel=1e-3)


def test_two_parallel_folds_are_a_tube_and_open_along_the_first() -> None:
    nest = piece(("left", "right"), left=[0, 0], upper=[0, 100], right=[50, 100], lower=[50, 0])
    whole = unfolded(nest, nest.pieces["cloth"], 0)
    assert whole.copies == 2
    assert [image.edge for image in whole.rings[0]].count("right") == 2
    assert abs(area(whole.outline())) == pytest.approx(100 * 100)
