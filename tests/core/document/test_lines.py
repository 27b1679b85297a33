from __future__ import annotations

import json
from typing import Any

import pytest

from notchwork.document.lines import Lines
from notchwork.document.pointers import parts_of, pointer

TEXT = """{
  "a": 1,
  "b": [
    10,
    {"c~/d": "x",
     "e": [
       [], [true, null]
     ]}
  ],
  "f, [{": {},
  "g":
    -2.5
}"""


@pytest.mark.parametrize(
    ("at", "line"),
    [
        ("", 1),
        ("/a", 2),
        ("/b", 3),
        ("/b/0", 4),
        ("/b/1", 5),
        ("/b/1/c~0~1d", 5),
        ("/b/1/e", 6),
        ("/b/1/e/1", 7),
        ("/b/1/e/1/1", 7),
        ("/f, [{", 10),
        ("/g", 11),
    ],
)
def test_a_pointer_leads_to_its_line(at: str, line: int) -> None:
    assert Lines(TEXT).locate(at) == line


@pytest.mark.parametrize(("at", "line"), [("/b/7", 3), ("/b/1/no/more", 5), ("/a/x", 2), ("/nothing", 1)])
def test_what_is_not_there_leads_to_its_nearest_holder(at: str, line: int) -> None:
    assert Lines(TEXT).locate(at) == line


def test_what_is_no_pointer_has_no_line() -> None:
    assert Lines(TEXT).locate("front.side") is None


def test_every_value_of_a_document_is_found_where_it_stands(ferry_bytes: bytes) -> None:
    """Each value taken alone: the text from its offset on begins with it (or with its key)."""
    text = ferry_bytes.decode()
    lines = Lines(text)

    def visit(value: Any, at: str) -> None:
        start = text[lines.offset(at) :]
        if isinstance(value, (dict, list)):
            assert json.JSONDecoder().raw_decode(start)[0] == value
        entries = (
            value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        )
        for key, entry in entries:
            if isinstance(value, dict) and not isinstance(entry, (dict, list)):
                assert text[lines.offset(at + pointer(key)) :].startswith(json.dumps(key))
            visit(entry, at + pointer(key))

    visit(json.loads(text), "")


def test_pointers_come_apart_as_they_were_put_together() -> None:
    assert pointer("pieces", "a/b~c", 3) == "/pieces/a~1b~0c/3"
    assert parts_of("/pieces/a~1b~0c/3") == ["pieces", "a/b~c", "3"]
