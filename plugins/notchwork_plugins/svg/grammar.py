"""SVG's grammar of path data: how far a text follows it, and the commands and numbers in it.

Source: SVG 2, 9.3.9. One expression without backtracking is the guard; what comes after it may then be quick.
"""

from __future__ import annotations

import re
from array import array

from notchwork_plugins.svg.numbers import GAP, NUMBER, SPACE, Malformed

LETTERS = "MmZzLlHhVvCcSsQqTtAa"
ARITY = {
    letter: n
    for letters, n in (("MmLlTt", 2), ("Zz", 0), ("HhVv", 1), ("Cc", 6), ("SsQq", 4), ("Aa", 7))
    for letter in letters
}
_SHOWN = 20


def _sets(one: str) -> str:
    """One or more sets of arguments."""
    return rf"{SPACE}{one}(?:{GAP}{one})*+"


def _numbers(count: int) -> str:
    return GAP.join([NUMBER] * count)


_ARC = GAP.join([NUMBER, NUMBER, NUMBER, "[01]", "[01]", NUMBER, NUMBER])
_PATH = re.compile(
    rf"{SPACE}(?:[Mm]{_sets(_numbers(2))}(?:{SPACE}(?:[Zz]|[LlMmTt]{_sets(_numbers(2))}|[Cc]{_sets(_numbers(6))}"
    rf"|[HhVv]{_sets(NUMBER)}|[SsQq]{_sets(_numbers(4))}|[Aa]{_sets(_ARC)}))*+{SPACE})?+"
)
_NUMBER = re.compile(NUMBER)
_COMMAND = re.compile(f"[{LETTERS}]")
_FLAGS = re.compile(
    rf"({NUMBER}{GAP}{NUMBER}{GAP}{NUMBER}){GAP}([01]){GAP}([01]){GAP}({NUMBER}{GAP}{NUMBER})"
)
_ARCS = re.compile(f"[Aa][^{LETTERS}]++")
_ONLY_NUMBERS = str.maketrans(dict.fromkeys(LETTERS + ",", " "))
_NO_COMMAS = str.maketrans(",", " ")


def sound_part(data: str) -> tuple[str, Malformed | None]:
    """As much of a path's data as follows the grammar, in whole segments, and what is wrong behind it."""
    match = _PATH.match(data)
    end = match.end() if match else 0
    if end == len(data):
        return data, None
    end += len(data[end:]) - len(data[end:].lstrip(" \t\r\n\f"))
    return data[:end], Malformed(f"“{data[end : end + _SHOWN]}” is not what may stand there", end)


def commands(data: str) -> tuple[list[str], list[int], array[float]]:
    """The commands of data that follows the grammar, how many numbers each has, and all the numbers."""
    if "A" in data or "a" in data:
        # The flags of an arc may stick to each other and to what follows; to anyone else they would be one number.
        data = _ARCS.sub(lambda arcs: _FLAGS.sub(r"\1 \2 \3 \4 ", arcs[0]), data)
    letters = _COMMAND.findall(data)
    try:
        numbers = array("d", map(float, data.translate(_ONLY_NUMBERS).split()))
    except ValueError:
        data = _NUMBER.sub(r" \g<0>", data)
        numbers = array("d", map(float, data.translate(_ONLY_NUMBERS).split()))
    counts = [ARITY[letter] for letter in letters]
    if sum(counts) != len(numbers):
        counts = [len(text.split()) for text in _COMMAND.split(data.translate(_NO_COMMAS))[1:]]
    return letters, counts, numbers
