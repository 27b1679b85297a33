"""A file as one writer in the open makes them: comment first, no header, GBK, notes among the outlines, blocks laid elsewhere."""

from __future__ import annotations

import pytest
from dxf_convention import Pattern, arc, line, point, points, polyline, seen, text, told

from notchwork.formats import Read
from notchwork.sewing import Nest

SLEEVE = [0j, 400 + 0j, 400 + 200j, *arc(200 + 200j, 200.0, 0.0, 180.0, 60)[1:-1], 200j]
CLOCKWISE = [z + 3000 - 500j for z in reversed(SLEEVE)]
TURNS = [z + 3000 - 500j for z in (0j, 400 + 0j, 400 + 200j, 200j)]


def dialect() -> Pattern:
    outline = [*CLOCKWISE[:5], CLOCKWISE[4], *CLOCKWISE[5:]]
    body = (
        polyline(1, outline)
        + points(2, TURNS)
        + points(3, CLOCKWISE[1:-3])
        + point(4, CLOCKWISE[30])
        + line(7, 3200 - 480j, 3200 - 320j)
        + "".join(text(f"# {k}", 2, z) for k, z in enumerate(TURNS, 1))
        + text("袖口拉开0.8", 1, 3150 - 400j, 8.0)
        + text("Piece Name: 袖子")
        + text("Size: M")
        + text("Annotation: ")
        + text("Quantity: 2")
        + text("Category: 面料")
    )
    style = (
        "Style Name: 短袖", "Creation Date: ", "Author: example", "Sample Size: M", "Grading Rule Table: 短袖", "Units: METRIC",
    )  # fmt: skip
    return Pattern({"袖子-M": body}, style=style, laid={"袖子-M": 3000 - 500j}, comments=("ANSI/AAMA",))


def read(**options: str) -> Read:
    return dialect().read("gbk", **options)


def test_it_becomes_a_piece_with_everything_that_it_says() -> None:
    done = read()
    pattern = seen(done).pattern
    assert pattern.title == "短袖"
    assert pattern.sizes is not None
    assert pattern.sizes.names == ("M",)
    (piece,) = pattern.pieces.values()
    assert piece.name == "袖子"
    assert piece.outline_is == "cut_line"
    assert set((piece.note or "").split("\n")) == {"袖口拉开0.8", "Category: 面料"}
    assert [(cut.count, cut.mirrored) for cut in piece.cut or ()] == [(2, True)]
    assert list(piece.notches) == ["notch_1"]
    assert piece.grainline is not None


def test_its_edges_are_between_its_turn_points_and_as_long_as_drawn() -> None:
    nest = Nest(seen(read()).pattern)
    (piece,) = nest.pieces.values()
    assert sorted(line.length[0] for line in piece.lines.values()) == pytest.approx(
        [200.0, 200.0, 400.0, 628.3185], abs=0.01
    )
    # Its coordinates are those of the block, which the INSERT would move a second time.
    low = min(float(nest.cubics_of(edge, 0).real.min()) for edge in piece.lines.values())
    assert low == pytest.approx(3000.0)
    assert piece.sense == -1


def test_what_is_left_out_is_said_and_nothing_else() -> None:
    assert told(read()) == {
        "dxf/encoding", "dxf/insert-not-applied", "dxf/rule-file-missing", "dxf/left-out", "dxf/curves-fitted",
    }  # fmt: skip


def test_the_encoding_may_be_stated() -> None:
    garbled = dialect().read("gbk")
    assert garbled.drawing is not None
    assert garbled.drawing.title == "短袖"
