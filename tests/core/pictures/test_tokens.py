"""Ids become single words, and different ones stay different."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from notchwork.pictures.tokens import edge_token, token

names = st.text(st.characters(blacklist_characters=".#", blacklist_categories=["Cs", "Cc"]), min_size=1)


@given(names, names)
def test_different_names_are_different_words_of_plain_signs(one: str, other: str) -> None:
    assert re.fullmatch(r"[A-Za-z0-9_.-]+", token(one))
    assert (token(one) == token(other)) == (one == other)


def test_plain_names_stay_as_they_are() -> None:
    assert token("side_front") == "side_front"
    assert edge_token("side_front", "waist") == "side_front:waist"


def test_a_very_long_name_is_a_short_word_and_still_its_own() -> None:
    one, other = "a" * 10_000, "a" * 10_001
    assert len(token(one)) < 100
    assert token(one) != token(other)
    assert len(token("é" * 10_000)) < 100
