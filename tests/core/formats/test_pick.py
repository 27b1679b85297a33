from __future__ import annotations

import pytest

from notchwork.findings import UnknownName
from notchwork.formats import Format, Read, Source, UnknownFormat, for_reading, for_writing, suffix_of

PLAIN = Format(
    "plain", "Plain", (".json",), lambda start: start.startswith(b"{"), read=lambda s, o: Read(None)
)
LONG = Format(
    "long",
    "Long",
    (".pattern.json",),
    lambda start: False,
    read=lambda s, o: Read(None),
    write=lambda p, o: {},
)
WRITE_ONLY = Format("paper", "Paper", (".paper",), lambda start: True, write=lambda p, o: {})
ALL = (PLAIN, LONG, WRITE_ONLY)


def test_the_longest_suffix_wins() -> None:
    assert for_reading(Source("a.pattern.json", b""), ALL) is LONG
    assert for_reading(Source("a.JSON", b""), ALL) is PLAIN
    assert suffix_of("A.Pattern.Json", LONG) == ".pattern.json"


def test_content_tells_where_the_suffix_does_not() -> None:
    assert for_reading(Source("standard input", b"{}"), ALL) is PLAIN


def test_a_named_format_is_taken_whatever_the_suffix() -> None:
    assert for_reading(Source("a.json", b"{}"), ALL, "long") is LONG
    with pytest.raises(UnknownName, match="Did you mean plain"):
        for_reading(Source("a.json", b"{}"), ALL, "plian")


def test_no_format_that_cannot_read_is_asked_to() -> None:
    with pytest.raises(UnknownFormat, match="no format that can be read"):
        for_reading(Source("a.paper", b"x"), ALL)
    with pytest.raises(UnknownFormat, match="no format that can be written"):
        for_writing("a.json", ALL)
    assert for_writing("a.paper", ALL) is WRITE_ONLY
