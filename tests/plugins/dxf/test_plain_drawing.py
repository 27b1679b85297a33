"""What a whole drawing tells: its size, its layers and looks, what is hidden and what is set aside."""

from __future__ import annotations

import time

import numpy as np
import pytest
from cad_files import as_bytes, beyond_info, drawing, new, read, strokes, told
from ezdxf.colors import DXF_DEFAULT_COLORS, int2rgb
from ezdxf.document import Drawing as Document
from ezdxf.lldxf import const

from notchwork.findings import NotchworkError, worded
from notchwork_plugins.dxf.attached import parts_of
from notchwork_plugins.dxf.plain.palette import colour_of


def line(units: int, version: str = "R2010") -> Document:
    document = new(version, units)
    document.modelspace().add_line((0, 0), (100, 0))
    return document


@pytest.mark.parametrize(("units", "mm"), [(1, 2540.0), (4, 100.0), (5, 1000.0), (6, 100000.0), (2, 30480.0)])
def test_units_of_the_header(units: int, mm: float) -> None:
    found = drawing(line(units))
    assert strokes(found)[0][0, 3] == pytest.approx(mm)
    assert found.scale == 1.0


@pytest.mark.parametrize(
    "data", [line(0), line(4, "R12"), line(11)], ids=["none", "R12 has no such variable", "of the sky"]
)
def test_units_that_nobody_says(data: Document) -> None:
    if data.dxfversion != "AC1009":
        data.header["$INSUNITS"] = 0 if data.header["$INSUNITS"] == 0 else 18
    data.header["$MEASUREMENT"] = 1
    found = read(data)
    assert found.drawing is not None
    assert found.drawing.scale is None
    assert strokes(found.drawing)[0][0, 3] == 100
    (finding,) = found.findings
    assert finding.rule.id == "dxf/scale-unclear"
    assert worded(finding.text, finding.values) == (
        "Nothing in the file says what one unit of the drawing is: it is 100 by 0 of them. It was taken as 1 mm."
    )


@pytest.mark.parametrize(
    ("said", "mm"),
    [
        ("in", 25.4),
        ("inches", 25.4),
        ("CM", 10),
        ("0.1mm", 0.1),
        ("metric", 1),
        ("english", 25.4),
        ("feet", 304.8),
    ],
)
def test_units_that_a_person_states_go_first(said: str, mm: float) -> None:
    found = read(line(4), units=said)
    assert found.drawing is not None
    assert strokes(found.drawing)[0][0, 3] == pytest.approx(100 * mm)
    assert found.drawing.scale == 1.0


@pytest.mark.parametrize("said", ["", "ell", "0mm", "1e9 m", "mm in"])
def test_units_that_are_none(said: str) -> None:
    with pytest.raises(NotchworkError, match="none that is known"):
        read(line(4), units=said)


def test_colours_are_those_of_ezdxf() -> None:
    """Within the rounding of one step. 7 changes over between screen and paper; of the darkest half-grey blues (last digit 7
    and 9 from 109 on) ezdxf's table strays from its own pattern."""
    for number in range(1, 256):
        theirs = int2rgb(DXF_DEFAULT_COLORS[number])
        mine = tuple(bytes.fromhex(colour_of(number)[1:]))
        strays = 109 <= number < 250 and number % 10 in (7, 9)
        if number != 7 and not strays:
            assert max(abs(a - b) for a, b in zip(mine, theirs, strict=True)) <= 1, number
    assert colour_of(7) == "#000000"
    assert len({colour_of(number) for number in range(10, 250)}) == 240


def test_looks_come_from_the_entity_or_its_layer() -> None:
    document = new(setup=True)
    document.layers.add("FOLD", color=3, linetype="DASHDOT")
    document.header["$LTSCALE"] = 2.0
    space = document.modelspace()
    space.add_line((0, 0), (1, 0), dxfattribs={"layer": "FOLD"})
    space.add_line((0, 0), (1, 0), dxfattribs={"layer": "FOLD", "color": 1, "linetype": "CONTINUOUS"})
    space.add_line(
        (0, 0),
        (1, 0),
        dxfattribs={"true_color": 0x123456, "lineweight": 50, "linetype": "DASHED", "ltscale": 3},
    )
    first, second, third = [s.look for g in drawing(document).groups for s in g.strokes]
    assert first is not None
    assert second is not None
    assert third is not None
    assert first.line == "#00ff00"
    # Drawn, left out, a dot, left out; ezdxf's own pattern of that name, times $LTSCALE.
    assert len(first.dashes) == 4
    assert first.dashes[0] > 2 * first.dashes[2]
    assert (second.line, second.dashes) == ("#ff0000", ())
    assert (third.line, third.width) == ("#123456", 0.5)
    assert len(third.dashes) == 2


def test_layers_are_groups() -> None:
    document = new()
    document.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "Front"})
    document.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "Back"})
    document.modelspace().add_text("Front", dxfattribs={"layer": "Front"})
    assert [(g.name, len(g.strokes), len(g.texts)) for g in drawing(document).groups] == [
        ("Front", 1, 1),
        ("Back", 1, 0),
    ]


def test_hidden_layers_and_parts_are_left_out_and_listed() -> None:
    document = new()
    document.layers.add("Old draft").off()
    document.layers.add("Photo").freeze()
    space = document.modelspace()
    space.add_line((0, 0), (1, 0), dxfattribs={"layer": "Old draft"})
    space.add_line((0, 0), (1, 0), dxfattribs={"layer": "PHOTO"})
    space.add_line((0, 0), (1, 0), dxfattribs={"invisible": 1})
    found = read(document)
    assert found.drawing is not None
    assert not strokes(found.drawing)
    assert [words for _, words in told(found)] == [
        "Left out, because their layers are off or frozen: Old draft (1) and Photo (1).",
        "Left out, because they are invisible: 1 parts.",
    ]


def test_what_draws_no_piece_is_set_aside_and_listed() -> None:
    document = new(setup=True)
    space = document.modelspace()
    space.add_linear_dim(base=(0, 10), p1=(0, 0), p2=(50, 0)).render()
    space.add_linear_dim(base=(0, 20), p1=(0, 0), p2=(50, 0)).render()
    space.add_hatch().paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
    space.add_leader([(0, 0), (5, 5)])
    space.add_xline((0, 0), (1, 0))
    space.add_line((0, 0), (5, 5), dxfattribs={"layer": "Defpoints"})
    document.blocks.new("Spare pocket").add_line((0, 0), (1, 0))
    document.paperspace().add_line((0, 0), (9, 9))
    found = read(document)
    assert found.drawing is not None
    assert not strokes(found.drawing)
    assert beyond_info(found) == []
    words = [words for rule, words in told(found) if rule == "dxf/set-aside"]
    starts = [
        "dimensions, 2 (lines",
        "hatches, 1 (line",
        "leaders, 1 (line",
        "lines without end, 1 (line",
        "parts on the layer Defpoints, 1 (line",
    ]
    for start in starts:
        assert any(text.startswith(f"Set aside: {start} ") for text in words), start
    assert any("paper space), 1" in text for text in words)
    assert "Set aside, because they are placed nowhere: the blocks Spare pocket." in words


def test_what_cannot_be_read_is_a_warning_with_its_kind_and_line() -> None:
    document = new()
    space = document.modelspace()
    space.add_3dface([(0, 0), (1, 0), (1, 1)])
    space.add_3dface([(0, 0), (1, 0), (1, 1)])
    space.add_polymesh((3, 3))
    space.add_mline([(0, 0), (10, 0)])
    found = read(document)
    assert beyond_info(found) == ["dxf/not-read"] * 3
    words = [words for _, words in told(found)]
    assert words[0].startswith("Not read: surfaces in space (3DFACE), 2 (lines ")
    assert words[1].startswith("Not read: surfaces in space, 1 (line ")
    assert words[2].startswith("Not read: lines of several strokes (MLINE), 1 (line ")


def test_a_part_beyond_all_bounds() -> None:
    document = new()
    document.modelspace().add_line((0, 0), (1e9, 0))
    document.modelspace().add_line((0, 0), (1, 0))
    found = read(document)
    assert found.drawing is not None
    assert len(strokes(found.drawing)) == 1
    assert beyond_info(found) == ["dxf/out-of-bounds"]


def attach(document: Document, strings: list[str]) -> None:
    record = document.rootdict.add_xrecord("NOTCHWORK")
    record.reset([(1, string) for string in strings])


def test_the_document_that_travels_along() -> None:
    """In an XRECORD of the root dictionary, as ezdxf writes it."""
    carried = '{"title": "Ärmel ^J %%d \\\\U+0041"}'.encode() * 3000
    document = line(4)
    attach(document, [string for part in parts_of(carried) for string in part])
    assert document.audit().errors == []
    assert drawing(document).attached == carried
    assert drawing(line(4)).attached is None


def test_a_damaged_document_is_told_and_the_drawing_read() -> None:
    document = line(4)
    strings = [string for part in parts_of(bytes(range(256)) * 40) for string in part]
    attach(document, strings[:-1])
    found = read(document)
    assert found.drawing is not None
    assert found.drawing.attached is None
    assert beyond_info(found) == ["dxf/document-damaged"]
    assert len(strokes(found.drawing)) == 1


def test_nine_thousand_entities_are_read_in_a_moment() -> None:
    """Against building them, which any library does one by one: no quadratic step hides anywhere."""
    document = new()
    space = document.modelspace()
    rng = np.random.default_rng(1)
    for x, y, r, a in rng.uniform(1, 300, (3000, 4)).tolist():
        space.add_line((x, y), (r, a))
        space.add_arc((x, y), r, a, a + r)
        space.add_lwpolyline([(x, y, 0.3), (r, a, 0), (a, x, -1)], format="xyb")
    data = as_bytes(document)
    begin = time.perf_counter()
    found = drawing(data)
    assert len(strokes(found)) == 9000
    assert time.perf_counter() - begin < 8.0


def test_every_version_is_read_alike() -> None:
    for version in ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"):
        document = new(version)
        document.modelspace().add_circle((0, 0), 10)
        assert document.dxfversion == const.acad_release_to_dxf_version[version]
        (run,) = strokes(drawing(document))
        assert run[0, 0] == pytest.approx(10)


def test_more_vertices_than_any_pattern_has_are_refused_with_how_many(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    document = new()
    block = document.blocks.new("LEAF")
    block.add_lwpolyline([(k, k % 3) for k in range(6)], close=True)
    for k in range(3):
        document.modelspace().add_blockref("LEAF", (10 * k, 0))
    monkeypatch.setattr("notchwork_plugins.dxf.plain.ink.MOST_CURVES", 18)
    assert sum(len(cubics) for cubics in strokes(drawing(document))) == 18
    document.modelspace().add_line((0, 0), (100, 0))
    with pytest.raises(NotchworkError, match=r"drawing\.dxf: .* 19 stretches .* 200,000 are read\. Delete"):
        read(document)
