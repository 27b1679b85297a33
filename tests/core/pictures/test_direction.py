"""Names that are written from right to left stay by themselves: what stands beside them keeps its place."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.pictures import ink
from notchwork.pictures.lettering import isolated


@pytest.mark.parametrize(
    ("said", "parted"),
    [
        ("Make כתף 10 432.9 mm", "Make ⟨כתף⟩ 10 432.9 mm"),
        ("Front is longer", "Front is longer"),
        ("قميص مع is 4.5 mm longer", "⟨قميص مع⟩ is 4.5 mm longer"),
        ("(כתף).", "(⟨כתף⟩)."),
        ("“בד-כתף”: 3", "“⟨בד-כתף⟩”: 3"),
        ("כתף2 and שרוול3", "⟨כתף2⟩ and ⟨שרוול3⟩"),
        ("", ""),
    ],
)
def test_each_name_is_set_apart(said: str, parted: str) -> None:
    assert isolated(said).replace("\u2068", "⟨").replace("\u2069", "⟩") == parted


@given(st.text())
def test_nothing_is_lost_and_what_is_opened_is_closed(said: str) -> None:
    plain = said.replace("\u2068", "").replace("\u2069", "")
    found = isolated(plain)
    assert found.replace("\u2068", "").replace("\u2069", "") == plain
    depth = 0
    for sign in found:
        depth += {"\u2068": 1, "\u2069": -1}.get(sign, 0)
        assert depth in (0, 1)
    assert depth == 0


def test_words_on_pictures_are_set_apart() -> None:
    assert "\u2068כתף\u2069 4.5" in ink.text(0, 0, "כתף 4.5")
    assert "\u2068כתף\u2069 4.5" in ink.group([], "כתף 4.5")


@pytest.mark.parametrize("said", ["a" * 50_000 + " כתף", "כ " * 25_000, "כ-" * 25_000, "1" * 50_000 + "כ"])
def test_long_names_take_no_longer_than_they_are_long(said: str) -> None:
    start = time.perf_counter()
    isolated(said)
    assert time.perf_counter() - start < 1.0
