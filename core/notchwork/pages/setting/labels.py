"""What pages are called."""

from __future__ import annotations

import re
from collections.abc import Sequence

from notchwork.drawing import Group

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which are taken for figures."""


_SPLIT = re.compile(r"([A-Z]+)(\d*)")


def column_name(k: int) -> str:
    """The k-th column, from 0: A … Z, AA, AB …"""
    name = ""
    k += 1
    while k:
        k, letter = divmod(k - 1, len(LETTERS))
        name = LETTERS[letter] + name
    return name


def column_number(name: str) -> int:
    """The number of a column, from 0, by its name."""
    number = 0
    for letter in name:
        number = number * len(LETTERS) + LETTERS.index(letter) + 1
    return number - 1


def name_of(group: Group) -> str:
    """What a piece is called."""
    return str(group.facts.get("name", group.name))


def listed_pages(labels: Sequence[str]) -> str:
    """Labels of pages in order as few words: "A1–C1, A2–C2, F"; only pages side by side that follow each other are taken together."""
    runs: list[list[str]] = []
    for label in labels:
        if runs and _follows(runs[-1][-1], label):
            runs[-1].append(label)
        else:
            runs.append([label])
    return ", ".join(
        run[0] if len(run) == 1 else f"{run[0]}–{run[-1]}" if len(run) > 2 else f"{run[0]}, {run[1]}"
        for run in runs
    )


def _follows(one: str, other: str) -> bool:
    a, b = _SPLIT.fullmatch(one), _SPLIT.fullmatch(other)
    return (
        a is not None
        and b is not None
        and a[2] == b[2]
        and bool(a[2])
        and column_number(b[1]) == column_number(a[1]) + 1
    )
