from __future__ import annotations

import time
import tracemalloc

import pytest

from notchwork.document import UnreadableDocument, check_size, read_pattern
from notchwork.document.parse import MOST_LEVELS, parsed


@pytest.mark.parametrize(
    ("data", "why", "line", "column"),
    [
        (b"", "empty", None, None),
        (b" \n ", "empty", None, None),
        (b"<svg/>", "not JSON", 1, 1),
        (b'{"a": 1,\n "a": 2}', 'key "a" stands twice', 2, 2),
        (b'{"b": {"a": 1, "c": {}, "a": 2}}', 'key "a" stands twice', 1, 25),
        (b'{"a": ":", "\\u0061": 2}', "stands twice", 1, 12),
        (b'{"a":\n  NaN}', "NaN is no number", 2, 3),
        (b'{"a": [1, -Infinity]}', "-Infinity is no number", 1, 11),
        (b'{"a": 1e400}', "too large", 1, 7),
        (b'{"a": -1E+999}', "too large", 1, 7),
        (b'{"a": "1e400", "b": 1' + b"0" * 30 + b"}", "too many digits", 1, 21),
        (b'{"a": ' + b"9" * 5000 + b"}", "too many digits", 1, 7),
        (b'{"a": "\\ud800"}', "half of a character", 1, 7),
        (b'{"\\udc00\\ud800": 1}', "half of a character", 1, 2),
        (b'{"a": 1,}', "key is missing", 1, 9),
        (b'{"a": [1,]}', "value is missing", 1, 10),
        (b'{"a" 1}', "colon is missing", 1, 6),
        (b'{"a": [1, 2}', "comma is missing", 1, 12),
        (b'{"a": [1, 2', "ends in the middle", 1, 12),
        (b'{"a": "b', "no end", 1, 7),
        (b'{"a": 1 // mine\n}', "no comments", 1, 9),
        (b'{"a": "x\ny"}', "line break or tab", 1, 9),
        (b'{"a": 1} {"b": 2}', "after the end", 1, 10),
        (b'{"a": "\xe4"}', "not stored as UTF-8", 1, 8),
        ('{"a": 1}'.encode("utf-16"), "UTF-16", 1, 1),
        ('{"a": 1}'.encode("utf-16-be"), "UTF-16", 1, 1),
        ('{"a": 1}'.encode("utf-16-le"), "UTF-16", 1, 1),
        ('{"a": 1}'.encode("utf-32"), "UTF-32", 1, 1),
        (b"\0\0\xfe\xff" + '{"a": 1}'.encode("utf-32-be"), "UTF-32", 1, 1),
        ('{"a": 1}'.encode("utf-32-le"), "UTF-32", 1, 1),
        (bytes(range(256)) * 9, "holds no text", None, None),
        (b"PK\x03\x04\x14\0\x08\xff\xfe", "holds no text", None, None),
        (b"[" * 100_000, f"more than {MOST_LEVELS} deep", None, None),
        (b"[" * 100_000 + b"]" * 100_000, f"more than {MOST_LEVELS} deep", None, None),
        (b'{"a":' * 100_000 + b"1" + b"}" * 100_000, f"more than {MOST_LEVELS} deep", None, None),
        (b"[1]", "no object", None, None),
        (b'{"type": "x"}', "no pattern", None, None),
        (b'{"notchwork": "2.0", "pieces": {}}', "version 2.0", None, None),
        (b'{"notchwork": "0.9", "pieces": {}}', "version 0.9", None, None),
    ],
)
def test_what_cannot_be_read_is_told_with_place_and_repair(
    data: bytes, why: str, line: int | None, column: int | None
) -> None:
    before = time.perf_counter()
    with pytest.raises(UnreadableDocument) as caught:
        read_pattern(data, "mine.json")
    assert time.perf_counter() - before < 2
    error = caught.value
    assert why in error.why
    assert (error.line, error.column) == (line, column)
    assert error.what == "mine.json"
    assert error.repair
    assert str(error).startswith("mine.json: ")


@pytest.mark.parametrize("levels", [MOST_LEVELS - 2, MOST_LEVELS - 1])
def test_levels_up_to_the_limit_are_read(levels: int) -> None:
    document, _ = parsed(b'{"x-deep": ' + b"[" * levels + b"]" * levels + b"}", "x")
    assert document["x-deep"] is not None


def test_one_level_more_is_refused() -> None:
    with pytest.raises(UnreadableDocument, match="deep"):
        parsed(b'{"x-deep": ' + b"[" * MOST_LEVELS + b"]" * MOST_LEVELS + b"}", "x")


@pytest.mark.parametrize(
    "text", [r'"[[[["', r'"\""', r'"\\"', r'"a\\\"[{"', '""', '"}]"', r'"]\\", "["', r'"\u005b"']
)
def test_brackets_in_text_are_no_levels(text: str) -> None:
    sixty = f'{{"x-a": [{", ".join([text] * 100)}], "x-b": {"[" * 60}{text}{"]" * 60}}}'.encode()
    assert parsed(sixty, "x")[0]["x-a"]


def test_whole_characters_and_large_numbers_pass() -> None:
    document, _ = parsed(
        b'{"a": "\\ud83d\\ude00", "b": 12345678901234567890, "c": "1e999", "d": 1e-200}', "x"
    )
    assert document == {"a": "😀", "b": 12345678901234567890, "c": "1e999", "d": 1e-200}


def test_a_byte_order_mark_is_passed_over() -> None:
    assert parsed(b'\xef\xbb\xbf{"a": 1}', "x")[0] == {"a": 1}


def test_a_large_file_is_refused_by_its_size_alone() -> None:
    with pytest.raises(UnreadableDocument, match="200 MB; at most 64 MB"):
        check_size(200 * 2**20, "x")
    with pytest.raises(UnreadableDocument, match="at most 0 MB"):
        read_pattern(b"{}" + b" " * 100, "x", most=100)
    check_size(64 * 2**20, "x")


def test_thousands_of_faults_use_bounded_memory() -> None:
    node = '{"at": "x", "edge": "a", "ot": 1}'
    pieces = ", ".join(f'"p{k}": {{"outline": [{", ".join([node] * 4000)}]}}' for k in range(3))
    data = f'{{"notchwork": "1.0", "pieces": {{{pieces}}}}}'.encode()
    tracemalloc.start()
    result = read_pattern(data, "x")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(result.faults) == 101
    assert result.faults[-1].rule.id == "document/more-faults"
    assert result.pattern is None
    assert peak < 60 * len(data)
