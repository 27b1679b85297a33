"""What is unlike the others in comparisons two by two."""

from __future__ import annotations

from notchwork.checks import by_the_odd_one


def gathered(*pairs: str) -> list[list[str]]:
    return list(by_the_odd_one(pairs, lambda pair: pair[0], lambda pair: pair[::-1]))


def test_the_one_in_most_pairs_is_the_odd_one_and_stands_in_front() -> None:
    assert gathered("ab", "ac", "da") == [["ab", "ac", "ad"]]


def test_what_it_does_not_explain_is_left_for_others() -> None:
    assert gathered("ab", "ac", "de", "fd") == [["ab", "ac"], ["de", "df"]]


def test_a_single_pair_keeps_its_order_and_none_gives_none() -> None:
    assert gathered("ba") == [["ba"]]
    assert gathered() == []
