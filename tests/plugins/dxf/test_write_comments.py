"""The document in comments of a file of blocks and entities: read again, compared with what is drawn, and missed where it is damaged.

Group 999 is a comment, which readers skip (DXF reference of Autodesk, group codes in numerical order); ezdxf is the reader that must.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from dxf_files import EOF, dxf, line, section
from dxf_written import as_read
from patterns import CASES, Document, case, nest_of

from notchwork import jobs
from notchwork.document import write_pattern
from notchwork.draw import Options
from notchwork.findings import NotchworkError
from notchwork_plugins.dxf.attached import comments_of, document_of, in_comments

COMMENTS = {"document": "comments"}


def written(folder: Path, document: Document | None = None, drawing: Options | None = None) -> Path:
    pattern = nest_of(document or case("ferry_smock")).pattern
    (folder / "smock.pattern.json").write_bytes(write_pattern(pattern))
    path = folder / "smock.bare.dxf"
    jobs.convert(folder / "smock.pattern.json", path, options=COMMENTS, drawing=drawing)
    return path


def told(path: Path, rule: str) -> list[str | None]:
    return [found.place.piece for found in jobs.load(path).findings if found.rule.id == rule]


def test_lines_of_comments_are_plain_short_and_behind_the_sections(tmp_path: Path) -> None:
    lines = written(tmp_path).read_bytes().decode("ascii").split("\r\n")
    values = [
        value
        for code, value in zip(lines[::2], lines[1::2], strict=False)
        if code == "999" and value.startswith("NOTCHWORK ")
    ]
    assert values[0] == "NOTCHWORK piece FRONT-S=front"
    assert any(value.startswith("NOTCHWORK document 1/") for value in values)
    # DXF reference: a string has 255 letters at most.
    assert all(len(value) <= 255 and value.isprintable() for value in values)
    assert lines.index("ENTITIES") < lines.index(values[0])


def test_without_the_option_nothing_is_added_and_with_it_ezdxf_reads_the_same(tmp_path: Path) -> None:
    path = written(tmp_path)
    with_document = path.read_bytes()
    jobs.convert(tmp_path / "smock.pattern.json", path)
    without = path.read_bytes()
    assert b"NOTCHWORK" not in without
    assert re.sub(rb"999\r\nNOTCHWORK [^\r]*\r\n", b"", with_document) == without
    one, other = as_read(with_document), as_read(without)
    assert [block.name for block in one.blocks] == [block.name for block in other.blocks]
    assert len(one.entitydb) == len(other.entitydb)


def test_what_goes_along_is_no_loss(tmp_path: Path) -> None:
    source = tmp_path / "smock.pattern.json"
    source.write_bytes(write_pattern(nest_of(case("ferry_smock")).pattern))
    for options, rule in (({}, "losses/not-carried"), (COMMENTS, "losses/only-attached")):
        done = jobs.convert(source, tmp_path / "smock.bare.dxf", options=options)
        assert [f.rule.id for f in done.findings if f.rule.family == "losses"] == [rule]


def test_blocks_are_known_by_comments_where_their_names_do_not_tell(tmp_path: Path) -> None:
    document = case("ferry_smock")
    long = "a_front_whose_id_is_far_longer_than_a_block_name"
    text = re.sub(r'"front(?=["./])', f'"{long}', write_pattern(nest_of(document).pattern).decode())
    (tmp_path / "long.pattern.json").write_text(text)
    before = jobs.load(tmp_path / "long.pattern.json").sound()
    jobs.convert(tmp_path / "long.pattern.json", tmp_path / "long.bare.dxf", options=COMMENTS)
    after = jobs.load(tmp_path / "long.bare.dxf")
    assert write_pattern(after.sound()) == write_pattern(before)
    assert not told(tmp_path / "long.bare.dxf", "recognised/drawn-anew")


def test_an_edited_piece_is_noticed(tmp_path: Path) -> None:
    """The drill hole or notch of one block is moved by 3 mm."""
    path = written(tmp_path)
    assert told(path, "recognised/drawn-anew") == []
    data = path.read_bytes()
    start = data.index(b"FRONT-M")
    notch = re.compile(rb"POINT\r\n8\r\n4\r\n10\r\n([^\r]+)\r\n20\r\n([^\r]+)\r\n").search(data, start)
    assert notch is not None
    moved = b"%.4f" % (float(notch[2]) + 3.0)
    path.write_bytes(data[: notch.start(2)] + moved + data[notch.end(2) :])
    assert set(told(path, "recognised/drawn-anew")) == {"front"}


def test_a_comment_that_is_missing_is_told_and_the_drawing_read(tmp_path: Path) -> None:
    path = written(tmp_path)
    kept, dropped = path.read_bytes().rsplit(b"999\r\nNOTCHWORK ", 1)
    path.write_bytes(kept + b"0\r\nEOF\r\n")
    loaded = jobs.load(path)
    assert "dxf/document-part-missing" in {found.rule.id for found in loaded.findings}
    assert dropped
    assert set(loaded.sound().pieces) == set(nest_of(case("ferry_smock")).pattern.pieces)


def test_a_plain_drawing_may_carry_it_too() -> None:
    document = write_pattern(nest_of(case("ferry_smock")).pattern)
    comments = [[(999, comment)] for comment in comments_of(document, {})]
    side = line(0j, 100 + 0j)
    data = dxf(*comments[:2], section("ENTITIES", side), *comments[2:], EOF)
    loaded = jobs.load(data, "lines.dxf")
    assert loaded.pattern is not None
    assert loaded.pattern.title == "Ferry smock"


def test_strange_comments_are_none_of_ours() -> None:
    parts, blocks = in_comments(
        ["NOTCHWORKS", "a NOTCHWORK piece A=b", "NOTCHWORK piece A=b=c", "NOTCHWORK x"]
    )
    assert blocks == {"A": "b=c"}
    assert document_of(parts) is None


def test_another_word_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.pattern.json").write_bytes((CASES / "ferry_smock.pattern.json").read_bytes())
    with pytest.raises(NotchworkError, match="Choose none or comments"):
        jobs.convert(tmp_path / "a.pattern.json", tmp_path / "a.bare.dxf", options={"document": "yes"})
    with pytest.raises(NotchworkError, match="document"):
        jobs.convert(tmp_path / "a.pattern.json", tmp_path / "a.dxf", options=COMMENTS)
