"""Header, layers, blocks, entities and their tags, wherever they stand and whatever is left out."""

from __future__ import annotations

import numpy as np
import pytest
from dxf_files import EOF, Tag, block, dxf, line, polyline, section, source, text
from hypothesis import given
from hypothesis import strategies as st

from notchwork_plugins.dxf.file import Entity, File, corners, opened, unit_of


def read(*tags: Tag | list[Tag]) -> File:
    return opened(source(dxf(*tags, EOF)))


def entities(*tags: Tag | list[Tag]) -> tuple[Entity, ...]:
    return read(section("ENTITIES", *tags)).entities


def test_a_file_with_entities_alone() -> None:
    file = read(section("ENTITIES", line(1 + 2j, 3 + 4j, layer="hem")))
    assert (file.version, file.header, file.layers, file.blocks) == (None, {}, {}, {})
    (only,) = file.entities
    assert (only.kind, only.layer, only.line) == ("LINE", "hem", 5)
    assert (only.point(), only.point(11)) == (1 + 2j, 3 + 4j)
    assert only.codes == [8, 10, 20, 11, 21]
    assert only.number(40, 7.5) == 7.5
    assert only.flag(70, 3) == 3
    assert only.text(6, "BYLAYER") == "BYLAYER"
    assert only.texts(8) == ["hem"]
    assert only.numbers(11) == [3.0]


def test_a_file_without_any_section_is_empty() -> None:
    assert read().entities == ()


def test_the_header() -> None:
    variables = [
        (9, "$ACADVER"),
        (1, "AC1015"),
        (9, "$INSUNITS"),
        (70, "     4"),
        (9, "$EXTMIN"),
        (10, 1.5),
        (20, 2),
        (9, "$EMPTY"),
    ]
    file = read(section("HEADER", *variables))
    assert file.version == "AC1015"
    assert file.header["$EXTMIN"] == ((10, "1.5"), (20, "2"))
    assert file.header["$INSUNITS"] == ((70, "4"),)
    assert file.header["$EMPTY"] == ()


# Source of the numbers: the DXF reference of Autodesk, $INSUNITS; of the inch and foot: the international yard of 1959.
@pytest.mark.parametrize(("number", "mm"), [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0), (9, 0.0254), (10, 914.4), (14, 100.0)])  # fmt: skip
def test_units(number: int, mm: float) -> None:
    unit = unit_of(read(section("HEADER", (9, "$INSUNITS"), (70, number))))
    assert unit is not None
    assert unit.mm == mm


def test_units_that_are_not_known() -> None:
    for header in (
        [],
        [(9, "$INSUNITS"), (70, 0)],
        [(9, "$MEASUREMENT"), (70, 1)],
        [(9, "$INSUNITS"), (70, 18)],
        [(9, "$INSUNITS")],
    ):
        assert unit_of(read(section("HEADER", *header))) is None


def test_tables() -> None:
    file = read(
        section(
            "TABLES",
            [(0, "TABLE"), (2, "LTYPE"), (70, 1), (0, "LTYPE"), (2, "Dashed"), (73, 2), (49, 12.5), (49, -6), (0, "ENDTAB")],
            [(0, "TABLE"), (2, "LAYER"), (0, "LAYER"), (2, "Hem"), (70, 0), (62, 3), (6, "Dashed")],
            [(0, "LAYER"), (2, "off"), (70, 0), (62, -5), (0, "LAYER"), (2, "FROZEN"), (70, 65), (62, 1), (0, "ENDTAB")],
        )
    )  # fmt: skip
    assert file.line_types == {"DASHED": (12.5, -6.0)}
    assert [layer.name for layer in file.layers.values()] == ["Hem", "off", "FROZEN"]
    assert [layer.shown for layer in file.layers.values()] == [True, False, False]
    assert (file.layers["HEM"].colour, file.layers["HEM"].line_type, file.layers["OFF"].colour) == (
        3,
        "Dashed",
        5,
    )


def test_blocks_are_known_by_their_names_in_capitals() -> None:
    tags = [(0, "BLOCK"), (2, "Front-S"), (10, 3), (20, 4), *line(0j, 1j), (0, "ENDBLK"), (8, "0")]
    found = read(section("BLOCKS", tags, block("back", text("Back")))).blocks
    assert list(found) == ["FRONT-S", "BACK"]
    assert (found["FRONT-S"].name, found["FRONT-S"].base, found["FRONT-S"].line) == ("Front-S", 3 + 4j, 5)
    assert [entity.kind for entity in found["FRONT-S"].entities] == ["LINE"]


def test_blocks_of_one_name_are_both_kept_and_told() -> None:
    file = read(
        section("BLOCKS", block("Front", text("a")), block("FRONT", text("b")), block("front", text("c")))
    )
    assert [inside.text(1) for found in file.blocks.values() for inside in found.entities] == ["a", "b", "c"]
    assert file.blocks["FRONT"].entities[0].text(1) == "a"
    assert [finding.rule.id for finding in file.findings] == ["dxf/repeated-block"] * 2
    assert file.findings[0].values["first"] == "5"


def test_blocks_without_names_are_kept() -> None:
    nameless = [(0, "BLOCK"), (8, "0"), (10, 0), (20, 0), *text("x"), (0, "ENDBLK")]
    file = read(section("BLOCKS", nameless, nameless))
    assert [found.name for found in file.blocks.values()] == ["", ""]
    assert file.findings == ()


def test_comments_stand_anywhere_and_move_no_line() -> None:
    tags = [
        *section("BLOCKS", block("A", line(0j, 1j))),
        *section("ENTITIES", polyline([0j, 1 + 2j, 3j]), text("x")),
        EOF,
    ]
    plain = opened(source(dxf(tags)))
    for at in range(len(tags)):
        noted = [*tags[:at], (999, "one"), (999, " two "), *tags[at:]]
        file = opened(source(dxf((999, "first"), noted)))
        assert file.comments == ("first", "one", "two")
        assert len(file.entities) == len(plain.entities) == 2
        for entity, same in zip(file.entities, plain.entities, strict=True):
            assert (entity.codes, entity.values) == (same.codes, same.values)
            assert entity.line - same.line in (2, 6)
        assert corners(file.entities[0])[0].tolist() == [0j, 1 + 2j, 3j]


def test_vertices_are_the_parts_of_their_polyline() -> None:
    tags = polyline([0j, 5 + 1j, 2 + 8j])
    tags[tags.index((10, 5.0)) : 0] = []
    polygon, after = entities(tags, line(0j, 1j))
    assert [part.kind for part in polygon.parts] == ["VERTEX"] * 3
    assert [part.point() for part in polygon.parts] == [0j, 5 + 1j, 2 + 8j]
    assert [part.line for part in polygon.parts] == [13, 21, 29]
    assert polygon.parts[-1].point() == 2 + 8j
    assert [part.point() for part in polygon.parts[1:]] == [5 + 1j, 2 + 8j]
    with pytest.raises(IndexError):
        polygon.parts[3]
    assert after.kind == "LINE"


def test_corners_of_both_kinds_of_polylines_with_bulges() -> None:
    points, bulges = [1 + 2j, -3.5 + 4j, 0j], [0.0, 1.0, -0.25]
    old: list[Tag] = [(0, "POLYLINE"), (8, "1"), (10, 99), (20, 99), (42, 7)]
    new: list[Tag] = [(0, "LWPOLYLINE"), (8, "1"), (90, 3), (43, 0)]
    for point, bulge in zip(points, bulges, strict=True):
        old += [(0, "VERTEX"), (10, point.real), (20, point.imag), (42, bulge)]
        new += [(10, point.real), (20, point.imag), (40, 0.5), (42, bulge)]
    for entity in entities([*old, (0, "SEQEND")], new):
        assert corners(entity)[0].tolist() == points
        assert corners(entity)[1].tolist() == bulges


def test_the_frame_of_a_fitted_polyline_is_no_corner() -> None:
    tags: list[Tag] = [(0, "POLYLINE"), (70, 4)]
    for flag, x in ((16, 1), (8, 2), (24, 3), (8, 4), (0, 5)):
        tags += [(0, "VERTEX"), (10, x), (20, 0), (70, flag)]
    (fitted,) = entities(tags, (0, "SEQEND"))
    assert corners(fitted)[0].real.tolist() == [2, 4, 5]
    made = Entity(fitted.kind, fitted.codes, fitted.values, fitted.line, tuple(fitted.parts))
    assert np.array_equal(corners(made)[0], corners(fitted)[0])


@given(st.lists(st.tuples(*[st.floats(-1e6, 1e6)] * 3), min_size=1, max_size=300))
def test_any_corners_come_back(rows: list[tuple[float, float, float]]) -> None:
    tags: list[Tag] = [(0, "LWPOLYLINE")]
    for x, y, bulge in rows:
        tags += [(10, repr(x)), (20, repr(y)), (42, repr(bulge))]
    (entity,) = entities(tags)
    points, bulges = corners(entity)
    assert list(zip(points.real, points.imag, bulges, strict=True)) == rows
    assert entity.numbers(42) == [row[2] for row in rows]
    made = Entity(entity.kind, entity.codes, list(entity.values), entity.line)
    assert np.array_equal(corners(made)[0], points)


def test_attributes_are_the_parts_of_their_insert() -> None:
    insert: list[Tag] = [(0, "INSERT"), (2, "A"), (66, 1), (0, "ATTRIB"), (1, "S"), (2, "SIZE"), (0, "ATTRIB"), (1, "2"), (2, "QTY"), (0, "SEQEND")]  # fmt: skip
    first, second = entities(insert, [(0, "INSERT"), (2, "B"), (66, 1), (0, "SEQEND"), (8, "0")])
    assert [(part.kind, part.text(2), part.text(1)) for part in first.parts] == [
        ("ATTRIB", "SIZE", "S"),
        ("ATTRIB", "QTY", "2"),
    ]
    assert len(second.parts) == 0


def test_extended_data_belong_to_their_application() -> None:
    data = [
        (1001, "NOTCHWORK"),
        (1000, "one"),
        (1070, 5),
        (1001, "OTHER"),
        (1000, "two"),
        (1001, "NOTCHWORK"),
        (1000, "three^J"),
    ]
    (found,) = entities([*text("x"), *data])
    assert found.extended("NOTCHWORK") == [(1000, "one"), (1070, "5"), (1000, "three^J")]
    assert found.extended("OTHER") == [(1000, "two")]
    assert found.extended("NOBODY") == []


def test_sections_that_are_not_read_are_passed_over() -> None:
    file = read(
        section("CLASSES", (0, "CLASS"), (1, "X")),
        section("OBJECTS", (0, "DICTIONARY"), (3, "A"), (0, "XRECORD"), (1, "text")),
        section("ENTITIES", text("a")),
        section("THUMBNAILIMAGE", (90, 1), (310, "00FF")),
        section("ACDSDATA", (0, "ACDSSCHEMA")),
        section("ENTITIES", text("b")),
    )
    assert [entity.text(1) for entity in file.entities] == ["a", "b"]
    assert [entity.kind for entity in file.objects] == ["DICTIONARY", "XRECORD"]
    assert file.findings == ()
