"""Files that are damaged, of another kind, or made to harm: a clear error with its line, and never a guess."""

from __future__ import annotations

import gzip
import struct
import time

import pytest
from dxf_files import EOF, block, dxf, line, polyline, section, source, text
from hypothesis import example, given, settings
from hypothesis import strategies as st

from notchwork_plugins.dxf.file import File, Unreadable, corners, opened, tags

SQUARE = [0j, 100 + 0j, 100 + 100j, 100j]
GOOD = dxf(
    (999, "a comment"),
    section("HEADER", (9, "$ACADVER"), (1, "AC1009")),
    section("TABLES", (0, "TABLE"), (2, "LAYER"), (0, "LAYER"), (2, "1"), (70, 0), (62, 7), (0, "ENDTAB")),
    section("BLOCKS", block("FRONT", polyline(SQUARE), text("Piece Name: Front"))),
    section("ENTITIES", [(0, "INSERT"), (2, "FRONT"), (10, 0), (20, 0)], polyline(SQUARE), line(0j, 5j)),
    EOF,
)


def refused(data: bytes) -> Unreadable:
    with pytest.raises(Unreadable) as error:
        opened(source(data))
    assert error.value.repair
    return error.value


def in_entities(*tags: object) -> bytes:
    return dxf(section("ENTITIES", *tags), EOF)  # type: ignore[arg-type]


def test_the_good_file_is_good() -> None:
    file = opened(source(GOOD))
    assert [entity.kind for entity in file.entities] == ["INSERT", "POLYLINE", "LINE"]
    assert [entity.kind for entity in file.blocks["FRONT"].entities] == ["POLYLINE", "TEXT"]
    assert file.findings == ()


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "empty"),
        (b" \r\n\n", "empty"),
        (b"\x00" * 50, "empty"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "no DXF"),
        (b"Dear customer,\nplease find the pattern attached.\n", "no DXF"),
        (b"1\nhello\n", "no DXF"),
        (b"0\nLINE\n8\n0\n", "no DXF"),
        (b"AC1015\x00\x00\x00", "DWG"),
        (b"%PDF-1.7\n", "PDF"),
        (b"PK\x03\x04\x14\x00", "packed"),
        (gzip.compress(GOOD), "packed"),
        (GOOD.decode().encode("utf-16"), "UTF-16"),
        (GOOD.decode().encode("utf-16-le"), "UTF-16"),
        (GOOD.decode().encode("utf-16-be"), "UTF-16"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no DXF"),
    ],
)
def test_what_is_no_dxf_is_said_to_be_none(data: bytes, why: str) -> None:
    assert why in refused(data).why


@pytest.mark.parametrize(
    ("value", "why"),
    [
        ("12,5", "decimals with a point"),
        ("NaN", "no number"),
        ("inf", "no number"),
        ("-Infinity", "no number"),
        ("1e308", "larger than anything"),
        ("-1e10", "larger than anything"),
        ("1e400", "no number"),
        ("1_000", "no number"),
        ("12.5mm", "no number"),
        ("−10", "no number"),
        ("١٢", "no number"),
        ("0x10", "no number"),
        ("", "the line is empty"),
    ],
)
def test_numbers_are_numbers(value: str, why: str) -> None:
    data = dxf(
        section("ENTITIES", [(0, "LINE"), (8, "0"), (10, value), (20, 0), (11, 1), (21, 1)]),
        EOF,
        encoding="utf-8",
    )
    error = refused(data)
    assert why in error.why
    assert error.line == 10


def test_usual_ways_of_writing_numbers_are_read() -> None:
    file = opened(
        source(in_entities([(0, "LINE"), (10, " 1.5E+1 "), (20, "-.5"), (11, "+3."), (21, "00007")]))
    )
    assert file.entities[0].point() == 15 - 0.5j
    assert file.entities[0].point(11) == 3 + 7j


def test_numbers_that_are_not_read_disturb_nobody() -> None:
    data = dxf(
        section("HEADER", (9, "$EXTMIN"), (10, 1e20), (20, 1e20)),
        section("CLASSES", (0, "CLASS"), (90, "many")),
        section("ENTITIES", [*line(0j, 1j), (1001, "SOMEBODY"), (1040, "1e300"), (1070, "no number")]),
        section("OBJECTS", (0, "THING"), (40, "nothing")),
        section("THUMBNAILIMAGE", (90, "?")),
        section("ACDSDATA", (70, "?")),
        EOF,
    )
    assert len(opened(source(data)).entities) == 1


@pytest.mark.parametrize("code", ["", "ten", "1O", "10.0", "99999", "0x5", "1 0", "10 x", "--1", "١"])
def test_a_group_code_that_is_none_is_told_with_its_line(code: str) -> None:
    data = GOOD.decode().replace("\n10\n", f"\n{code}\n", 1).encode()
    error = refused(data)
    assert error.line == GOOD.decode().split("\n").index("10") + 1
    assert "group code" in error.why


@pytest.mark.parametrize("code", ["  0", "000", "\t0", "0 ", "     0", "+0"])
def test_blanks_around_group_codes_are_usual(code: str) -> None:
    assert len(opened(source(GOOD.replace(b"\n0\n", f"\n{code}\n".encode()))).entities) == 3


def test_a_line_too_many_or_too_few_is_met() -> None:
    lines = GOOD.split(b"\n")[:-1]
    for at in range(len(lines)):
        for damaged in (lines[:at] + lines[at + 1 :], [*lines[:at], b"0.5", *lines[at:]]):
            if at + 1 == len(lines) and damaged[-1] == b"EOF":
                continue
            refused(b"\n".join(damaged) + b"\n")


UNBALANCED = {
    "no ENDSEC before the next section": (
        dxf([(0, "SECTION"), (2, "BLOCKS")], section("ENTITIES", line(0j, 1j)), EOF), "ENDSEC", 5
    ),
    "no ENDSEC before EOF": (dxf([(0, "SECTION"), (2, "ENTITIES"), *line(0j, 1j)], EOF), "ENDSEC", 17),
    "an ENDSEC too many": (dxf(section("ENTITIES", line(0j, 1j)), (0, "ENDSEC"), EOF), "never began", 19),
    "an entity outside": (dxf(section("BLOCKS"), line(0j, 1j), EOF), "outside every section", 7),
    "no ENDBLK before the next block": (
        dxf(section("BLOCKS", block("A", line(0j, 1j))[:-1], block("B")), EOF), "“A”", 29
    ),
    "no ENDBLK at all": (dxf(section("BLOCKS", block("A", line(0j, 1j))[:-1]), EOF), "ENDBLK", 29),
    "an entity outside every block": (dxf(section("BLOCKS", line(0j, 1j)), EOF), "outside every block", 5),
    "no SEQEND before a line": (in_entities(polyline(SQUARE)[:-2], line(0j, 1j)), "SEQEND", 45),
    "no SEQEND before ENDSEC": (in_entities(polyline(SQUARE)[:-2]), "SEQEND", 45),
    "no SEQEND after attributes": (
        in_entities([(0, "INSERT"), (2, "A"), (66, 1), (0, "ATTRIB"), (1, "x")], line(0j, 1j)), "SEQEND", 15
    ),
    "a vertex of its own": (in_entities(line(0j, 1j), [(0, "VERTEX"), (10, 1), (20, 1)]), "no polyline", 17),
}  # fmt: skip


@pytest.mark.parametrize("case", UNBALANCED)
def test_what_begins_must_end(case: str) -> None:
    data, why, at = UNBALANCED[case]
    error = refused(data)
    assert why in error.why
    assert error.line == at
    borne = opened(source(data), damaged=True)
    assert len(borne.findings) == 1
    assert borne.findings[0].values["line"] == str(at)


def whole(file: File) -> list[tuple[str, list[int], list[str], list[complex]]]:
    every = [*(entity for block in file.blocks.values() for entity in block.entities), *file.entities]
    return [
        (entity.kind, list(entity.codes), list(entity.values), [part.point() for part in entity.parts])
        for entity in every
    ]


def test_a_file_cut_off_after_any_tag_is_refused_or_told() -> None:
    lines = GOOD.split(b"\n")[:-1]
    full = whole(opened(source(GOOD)))
    for end in range(2, len(lines) - 1, 2):
        cut = b"\n".join(lines[:end]) + b"\n"
        error = refused(cut)
        if error.line is not None and "no DXF" not in error.why:
            assert error.line >= end - 1
            file = opened(source(cut), damaged=True)
            assert file.findings
            # What is given is whole, and none of it comes in another place.
            assert all(entity in full for entity in whole(file))


@given(st.integers(1, len(GOOD) - 5))
def test_a_file_cut_off_anywhere_is_refused(end: int) -> None:
    refused(GOOD[:end])


def test_only_the_last_line_end_may_be_missing() -> None:
    assert len(opened(source(GOOD[:-1])).entities) == 3
    assert len(opened(source(GOOD + b"\n \n\x1a\x00")).entities) == 3


@settings(max_examples=300)
@given(st.binary(max_size=400), st.booleans())
@example(b"0\nSECTION\n", True)
@example(b"0\nEOF", True)
@example(b"0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n", True)
@example(b"AutoCAD Binary DXF\r\n\x1a\x00", True)
@example(b"AutoCAD Binary DXF\r\n\x1a\x00\x00\x00SECTION\x00", True)
def test_any_bytes_give_a_file_or_an_error(data: bytes, damaged: bool) -> None:
    read_all(data, damaged)


@settings(max_examples=400)
@given(st.data(), st.booleans())
def test_a_file_with_changed_bytes_gives_a_file_or_an_error(data: st.DataObject, damaged: bool) -> None:
    mutated = bytearray(GOOD)
    for at in data.draw(st.lists(st.integers(0, len(GOOD) - 1), min_size=1, max_size=4)):
        mutated[at : at + data.draw(st.integers(0, 9))] = data.draw(
            st.binary(max_size=9)
            | st.sampled_from([b"\n", b"\r", b"-1", b"VERTEX\n", b"0\nSEQEND\n", b"\\U+D83D"])
        )
    read_all(bytes(mutated), damaged)


def read_all(data: bytes, damaged: bool) -> None:
    """Everything of a file is asked for once."""
    try:
        file = opened(source(data), damaged=damaged)
    except Unreadable:
        return
    blocks = (inside for each in file.blocks.values() for inside in each.entities)
    for entity in (*file.entities, *blocks):
        for each in (entity, *entity.parts):
            assert len(each.codes) == len(each.values)
            each.texts(1)
            for code in each.codes:
                if 10 <= code < 60:
                    assert abs(each.number(code)) <= 1e9
                elif 60 <= code < 80:
                    each.flag(code)
        if entity.kind in ("POLYLINE", "LWPOLYLINE"):
            points, bulges = corners(entity)
            assert len(points) == len(bulges)


def test_what_stands_behind_the_end_is_told() -> None:
    once, after = opened(source(GOOD)), GOOD.count(b"\n") + 1
    for behind in (b"hello\n", b"0\nSECTION\n2\nENTITIES\n", GOOD.split(b"\n", 2)[2]):
        file = opened(source(GOOD + behind))
        assert [finding.rule.id for finding in file.findings] == ["dxf/after-end"]
        assert file.findings[0].values["where"] == f"from line {after} on"
        assert whole(file) == whole(once)


def test_a_damaged_number_loses_one_entity_and_says_which() -> None:
    data = in_entities(line(0j, 1j), [(0, "CIRCLE"), (8, "0"), (10, "1,5"), (20, 0), (40, 3)], line(0j, 2j))
    file = opened(source(data), damaged=True)
    assert [entity.kind for entity in file.entities] == ["LINE", "LINE"]
    assert [finding.rule.id for finding in file.findings] == ["dxf/damaged"]
    assert file.findings[0].values["line"] == "22"
    assert "CIRCLE" in str(file.findings[0].values["lost"])


def test_a_polyline_with_a_damaged_vertex_is_left_out_whole() -> None:
    data = GOOD.replace(b"\n100.0\n", b"\n1OO\n", 1)
    file = opened(source(data), damaged=True)
    assert [entity.kind for entity in file.blocks["FRONT"].entities] == ["TEXT"]
    assert "POLYLINE" in str(file.findings[0].values["lost"])


def test_many_losses_are_counted() -> None:
    data = in_entities(*[[(0, "POINT"), (10, "x"), (20, 0)] for _ in range(500)])
    findings = opened(source(data), damaged=True).findings
    assert len(findings) == 21
    assert findings[-1].values["count"] == "480"


def test_too_many_values_are_refused_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tags, "MOST_TAGS", 10)
    assert "larger than any pattern" in refused(GOOD).why


def test_too_many_entities_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("notchwork_plugins.dxf.file.tags.MOST_ENTITIES", 5)
    assert "larger than any pattern" in refused(GOOD).why


def test_a_binary_file_cut_off_anywhere_is_refused() -> None:
    def packed(code: int, value: object) -> bytes:
        tail = struct.pack("<d", value) if isinstance(value, float) else str(value).encode() + b"\0"
        return struct.pack("<H", code) + tail

    start = b"AutoCAD Binary DXF\r\n\x1a\x00"
    parts = [
        (0, "SECTION"),
        (2, "ENTITIES"),
        (0, "LINE"),
        (8, "A"),
        (10, 1.0),
        (20, 2.0),
        (11, 3.0),
        (21, 4.0),
    ]
    data = start + b"".join(packed(code, value) for code, value in [*parts, (0, "ENDSEC"), (0, "EOF")])
    assert opened(source(data)).entities[0].point(11) == 3 + 4j
    for end in range(len(data)):
        refused(data[:end])


def test_a_binary_file_with_no_number_in_it_is_refused() -> None:
    start = b"AutoCAD Binary DXF\r\n\x1a\x00"
    data = start + b"\0\0SECTION\0\2\0ENTITIES\0\0\0POINT\0\x0a\0" + struct.pack("<d", float("nan"))
    error = refused(data + b"\x14\0" + struct.pack("<d", 1.0) + b"\0\0ENDSEC\0\0\0EOF\0")
    assert error.line is None
    assert "its value 4" in error.why


@pytest.mark.parametrize("kind", ["POLYLINE", "LWPOLYLINE"])
def test_a_hundred_thousand_vertices_take_no_time(kind: str) -> None:
    count = 100_000
    if kind == "POLYLINE":
        data = in_entities(polyline(complex(k, -k) / 128 for k in range(count)))
    else:
        inside = [(code, sign * k / 128) for k in range(count) for code, sign in ((10, 1), (20, -1))]
        data = in_entities([(0, kind), (8, "1"), (90, count), *inside])
    began = time.process_time()
    points, bulges = corners(opened(source(data)).entities[0])
    assert time.process_time() - began < 2.0  # 0.3 s where nothing else runs; ezdxf takes several
    assert len(points) == count
    assert points[-1] == complex(count - 1, 1 - count) / 128
    assert not bulges.any()


HARMFUL = {
    "a line that never ends": b"0\nSECTION\n2\nENTITIES\n0\nTEXT\n1\n" + b"A" * 4_000_000,
    "the end a million times": b"EOF" * 1_000_000,
    "the end on every line": b"5\nEOF\n" * 300_000,
    "nothing but beginnings": b"0\n\n" * 1_000_000,
    "nothing but sections": b"0\nSECTION\n" * 30_000,
    "comments between all": b"999\nx\n0\nSECTION\n2\nENTITIES\n" + b"0\nPOINT\n999\nx\n" * 50_000 + b"0\nENDSEC\n0\nEOF\n",
    "one block again and again": b"0\nSECTION\n2\nBLOCKS\n" + b"0\nBLOCK\n2\nA\n0\nENDBLK\n" * 30_000 + b"0\nENDSEC\n0\nEOF\n",
    "no number anywhere": b"0\nSECTION\n2\nENTITIES\n" + b"0\nPOINT\n10\nx\n20\ny\n" * 100_000 + b"0\nENDSEC\n0\nEOF\n",
    "wide group codes": b"0\nSECTION\n2\nENTITIES\n" + b"         8\nx\n" * 300_000 + b"0\nENDSEC\n0\nEOF\n",
    "one line in no encoding": b"0\nSECTION\n1\n" + b"\x81\xff" * 1_000_000 + b"\n0\nEOF\n",
    "many lines of unknown text": b"0\nSECTION\n2\nENTITIES\n" + b"1\n\xc7\xb0\n" * 300_000 + b"0\nENDSEC\n0\nEOF\n",
}  # fmt: skip


@pytest.mark.parametrize("case", HARMFUL)
def test_nothing_takes_long(case: str) -> None:
    """As much of each as shows a cost that grows faster than the file."""
    began = time.process_time()
    for damaged in (False, True):
        try:
            opened(source(HARMFUL[case]), damaged=damaged)
        except Unreadable:
            continue
    assert time.process_time() - began < 6.0
