"""Pieces on a fold drawn whole: mirror images on the other side of the fold, said to be images."""

from __future__ import annotations

import numpy as np
import pytest
from patterns import case, nest_of

from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Group, Stroke
from notchwork.geometry import nearest
from notchwork.sewing import Nest
from notchwork.sewing.shapes.unfold import unfolded


@pytest.fixture(scope="module")
def nest() -> Nest:
    return nest_of(case("ferry_smock"))


@pytest.fixture(scope="module")
def front(nest: Nest) -> Group:
    drawing = draw_pattern(nest, Options(unfolded=True, pieces=("front",)))
    return next(group for group in drawing.groups if group.name == "front")


def images(group: Group, meaning: str) -> list[Stroke]:
    return [s for s in group.strokes if s.meaning == meaning and "copy" in s.facts]


def test_the_stitch_line_is_that_of_the_opened_piece(nest: Nest, front: Group) -> None:
    for size, name in enumerate(nest.sizes):
        drawn = [s.cubics for s in front.strokes if s.meaning == "stitch" and s.facts["size"] == name]
        opened = unfolded(nest, nest.pieces["front"], size).outline()
        assert len(drawn) == 10
        assert nearest(opened, np.concatenate(drawn)[:, 0]).distance.max() < 1e-9
        assert nearest(np.concatenate(drawn), opened[:, 0]).distance.max() < 1e-9


def test_notches_and_cut_line_are_mirrored_and_the_grain_is_not(front: Group) -> None:
    assert len(images(front, "notch")) == 3
    assert all(s.cubics.real.max() < 0 for s in images(front, "notch"))
    assert len(images(front, "cut")) == 3
    assert images(front, "grain") == []


def test_no_line_says_place_on_fold(front: Group) -> None:
    assert "fold" not in {s.meaning for s in front.strokes}
    assert "opened" in {s.meaning for s in front.strokes}
    said = [t.words for t in front.texts]
    assert "place on fold" not in said
    assert "1 × Washed linen" in said


def test_a_piece_without_a_fold_is_drawn_as_ever(nest: Nest) -> None:
    one, other = (
        next(g for g in draw_pattern(nest, options).groups if g.name == "sleeve")
        for options in (Options(unfolded=True), Options())
    )
    assert len(one.strokes) == len(other.strokes)


def test_without_allowances_no_cut_line_is_drawn_but_the_widths_are_said(nest: Nest) -> None:
    drawing = draw_pattern(nest, Options(allowances=False))
    front = next(g for g in drawing.groups if g.name == "front")
    assert "cut" not in {s.meaning for s in front.strokes}
    widths = {s.facts["edge"]: s.facts["width"] for s in front.strokes if s.meaning == "stitch"}
    assert (widths["hem"], widths["neck"], widths["side"]) == (30, 0, 12)
