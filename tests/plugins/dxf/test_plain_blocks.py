"""Blocks placed by INSERT against ezdxf's own explosion; what would never end is refused."""

from __future__ import annotations

import math
import time
from typing import Any

import numpy as np
import pytest
from cad_files import (
    FACING_AWAY,
    LEVEL,
    beyond_info,
    dots,
    drawing,
    flat_entities,
    new,
    read,
    seen_from_above,
    strokes,
    told,
)
from ezdxf.math import Vec3
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.findings import NotchworkError

numbers = st.floats(-50, 50).map(lambda x: round(x, 3))
scales = st.sampled_from([1.0, -1.0, 2.0, 0.5, -3.0])
inserts = st.fixed_dictionaries(
    {
        "at": st.tuples(numbers, numbers),
        "rotation": st.floats(-360, 360).map(lambda x: round(x, 2)),
        "xscale": scales,
        "yscale": scales,
        "extrusion": st.sampled_from([LEVEL, FACING_AWAY]),
        "rows": st.integers(1, 3),
        "columns": st.integers(1, 2),
    }
)


def add(layout: Any, name: str, said: dict[str, Any]) -> None:
    attributes = {
        "xscale": said["xscale"],
        "yscale": said["yscale"],
        "rotation": said["rotation"],
        "extrusion": said["extrusion"],
        "row_count": said["rows"],
        "column_count": said["columns"],
        "row_spacing": 7.0,
        "column_spacing": -11.0,
    }
    layout.add_blockref(name, said["at"], dxfattribs=attributes)


@settings(max_examples=30, deadline=None)
@given(st.lists(inserts, min_size=1, max_size=3), st.tuples(numbers, numbers))
def test_nested_blocks_lie_where_ezdxf_puts_them(
    chain: list[dict[str, Any]], base: tuple[float, float]
) -> None:
    """By ezdxf's matrices: scaled unequally, mirrored, turned, block within block, each with a base point, and the outermost
    in rows and columns. (ezdxf's explosion keeps only what a single INSERT can express, so it is held against below.)"""
    document = new()
    document.blocks.new("LEVEL0", base_point=base).add_lwpolyline([(0, 0), (10, 3), (5, 8)])
    placed = []
    for number, said in enumerate(chain, start=1):
        last = number == len(chain)
        layout = document.modelspace() if last else document.blocks.new(f"LEVEL{number}", base_point=base)
        add(layout, f"LEVEL{number - 1}", said if last else {**said, "rows": 1, "columns": 1})
        placed.append(list(layout)[-1])
    theirs = []
    for outermost in placed[-1].multi_insert() if placed[-1].mcount > 1 else placed[-1:]:
        points = [Vec3(0, 0), Vec3(10, 3), Vec3(5, 8)]
        for insert in (*placed[:-1], outermost):
            points = list(insert.matrix44().transform_vertices(points))
        theirs.append(seen_from_above(points))
    mine = [np.append(run[:, 0], run[-1, 3]) for run in strokes(drawing(document))]
    assert len(mine) == len(theirs)
    for one in mine:
        assert min(np.abs(one - other).max() for other in theirs) < 1e-6


@settings(max_examples=15, deadline=None)
@given(st.lists(inserts, min_size=1, max_size=3))
def test_blocks_scaled_alike_lie_where_ezdxf_explodes_them(chain: list[dict[str, Any]]) -> None:
    document = new()
    inner = document.blocks.new("LEVEL0", base_point=(3, 4))
    inner.add_line((0, 0), (10, 3))
    inner.add_arc((5, 5), 4, 10, 70)
    for number, said in enumerate(chain, start=1):
        last = number == len(chain)
        layout = document.modelspace() if last else document.blocks.new(f"LEVEL{number}")
        rows = {} if last else {"rows": 1, "columns": 1}
        add(layout, f"LEVEL{number - 1}", {**said, "yscale": said["xscale"], **rows})
    theirs = []
    for entity in flat_entities(document.modelspace()):
        ends = (
            (entity.dxf.start, entity.dxf.end)
            if entity.dxftype() == "LINE"
            else (entity.start_point, entity.end_point)
        )
        theirs.append(seen_from_above(ends))
    mine = [np.array([run[0, 0], run[-1, 3]]) for run in strokes(drawing(document))]
    assert len(mine) == len(theirs)
    for one in mine:
        assert min(np.abs(one - way).max() for other in theirs for way in (other, other[::-1])) < 1e-6


def test_a_circle_that_is_stretched_unequally_is_an_ellipse() -> None:
    document = new()
    document.blocks.new("RING").add_circle((0, 0), 10)
    document.modelspace().add_blockref("RING", (100, 0), dxfattribs={"xscale": 3, "yscale": 1})
    (mine,) = strokes(drawing(document))
    assert mine.real.max() == pytest.approx(130, abs=1e-9)
    t = (mine[:, 0] - 100).real / 30 + 1j * mine[:, 0].imag / 10
    np.testing.assert_allclose(np.abs(t), 1.0, atol=1e-9)


def test_layer_0_of_a_block_takes_the_colour_and_the_visibility_of_where_it_is_placed() -> None:
    document = new()
    document.layers.add("FRONT", color=1)
    document.layers.add("HIDDEN").off()
    block = document.blocks.new("PIECE")
    block.add_line((0, 0), (10, 0))
    block.add_line((0, 0), (0, 10), dxfattribs={"color": 0})
    block.add_line((0, 0), (9, 9), dxfattribs={"layer": "HIDDEN"})
    document.modelspace().add_blockref("PIECE", (0, 0), dxfattribs={"layer": "FRONT", "color": 5})
    document.modelspace().add_blockref("PIECE", (0, 0), dxfattribs={"layer": "HIDDEN"})
    found = read(document)
    assert found.drawing is not None
    looks = [stroke.look.line for group in found.drawing.groups for stroke in group.strokes if stroke.look]
    assert looks == ["#ff0000", "#0000ff"]
    assert ("dxf/hidden", "Left out, because their layers are off or frozen: HIDDEN (2).") in told(found)


def test_copies_of_a_block_are_told_apart() -> None:
    document = new()
    document.blocks.new("Pocket").add_lwpolyline([(0, 0), (9, 0), (9, 9)], close=True)
    for x in (0, 20, 40):
        document.modelspace().add_blockref("Pocket", (x, 0))
    assert [group.within for group in drawing(document).groups] == [("Pocket",), ("Pocket 2",), ("Pocket 3",)]


def test_blocks_that_would_never_end() -> None:
    """What holds them is placed all the same; the two are not."""
    document = new()
    one, other = document.blocks.new("ONE"), document.blocks.new("OTHER")
    one.add_line((0, 0), (1, 0))
    one.add_blockref("OTHER", (0, 0))
    other.add_blockref("ONE", (0, 0))
    outer = document.blocks.new("OUTER")
    outer.add_line((0, 0), (2, 0))
    outer.add_blockref("ONE", (0, 0))
    document.modelspace().add_blockref("OUTER", (0, 0))
    found = read(document)
    assert found.drawing is not None
    assert len(strokes(found.drawing)) == 1
    assert beyond_info(found) == ["dxf/block-not-placed"]
    ((_, words),) = told(found)
    assert "without end: ONE (line " in words


def test_an_array_in_a_block_that_is_placed_mirrored() -> None:
    document = new()
    document.blocks.new("DOT").add_point((0, 0))
    rows = {"row_count": 3, "column_count": 1, "row_spacing": 10, "column_spacing": 0}
    document.blocks.new("ROW").add_blockref("DOT", (1, 2), dxfattribs=rows)
    document.modelspace().add_blockref("ROW", (100, 0), dxfattribs={"yscale": -1})
    assert dots(drawing(document)) == [101 - 2j, 101 - 12j, 101 - 22j]


def test_blocks_too_deep_and_blocks_that_are_missing() -> None:
    document = new()
    document.blocks.new("B0").add_line((0, 0), (1, 0))
    for k in range(1, 20):
        document.blocks.new(f"B{k}").add_blockref(f"B{k - 1}", (0, 0))
    document.modelspace().add_blockref("B19", (0, 0))
    document.modelspace().add_blockref("B15", (0, 0))
    document.modelspace().add_blockref("NOWHERE", (0, 0))
    found = read(document)
    assert found.drawing is not None
    assert len(strokes(found.drawing)) == 1
    words = [words for _, words in told(found)]
    assert any("too many blocks lie in each other: B3 (line " in text for text in words)
    assert any("not in the file: NOWHERE (line " in text for text in words)


@pytest.mark.parametrize("kind", ["array", "doubling"])
def test_a_few_bytes_that_ask_for_any_amount(kind: str) -> None:
    document = new()
    document.blocks.new("B0").add_line((0, 0), (1, 0))
    if kind == "array":
        many = {"row_count": 30000, "column_count": 30000, "row_spacing": 1, "column_spacing": 1}
        document.modelspace().add_blockref("B0", (0, 0), dxfattribs=many)
    else:
        for k in range(1, 15):
            block = document.blocks.new(f"B{k}")
            for _ in range(10):
                block.add_blockref(f"B{k - 1}", (0, 0))
        document.modelspace().add_blockref("B14", (0, 0))
    begin = time.perf_counter()
    with pytest.raises(NotchworkError, match="too many parts"):
        read(document)
    assert time.perf_counter() - begin < 20


def test_blocks_that_all_hold_each_other_are_refused_at_once() -> None:
    document = new()
    names = [f"C{k}" for k in range(12)]
    for name in names:
        block = document.blocks.new(name)
        for other in names:
            block.add_blockref(other, (0, 0))
    document.modelspace().add_blockref("C0", (0, 0))
    found = read(document)
    assert beyond_info(found) == ["dxf/block-not-placed"]


def test_rows_and_columns_turn_with_the_block() -> None:
    document = new()
    document.blocks.new("B").add_line((0, 0), (1, 0))
    many = {"row_count": 2, "column_count": 3, "row_spacing": 10, "column_spacing": 5, "rotation": 90}
    document.modelspace().add_blockref("B", (100, 0), dxfattribs=many)
    starts = {complex(np.round(run[0, 0], 9)) for run in strokes(drawing(document))}
    turn = complex(math.cos(math.pi / 2), math.sin(math.pi / 2))
    expected = {complex(np.round(100 + turn * complex(5 * c, 10 * r), 9)) for r in range(2) for c in range(3)}
    assert starts == expected
