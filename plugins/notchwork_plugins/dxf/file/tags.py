"""The tags of a file: pairs of lines, a group code and its value, all at once in arrays.

Values stay bytes until an entity is asked for, so that a million vertices cost arrays and not objects.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import compress

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import safe
from notchwork_plugins.dxf.file.codes import COMMENT, LEAST, MOST, numeric
from notchwork_plugins.dxf.file.errors import DAMAGED, Unreadable

MOST_TAGS = 8_000_000
_CHUNK = 1 << 16
"""As many tags are split into lines at a time: few enough to stay near the processor."""
_CODE = re.compile(rb"[ \t\r]*+([+-]?\d{1,4})[ \t\r]*+")

Decoder = Callable[[bytes], str]


@dataclass(frozen=True, slots=True, eq=False)
class Tags:
    """All tags, n of them. ``codes`` (n,); ``numbers`` (n,) the values of codes that stand for numbers, NaN where there is none;
    ``starts`` (n + 1,) where each tag begins in ``data``; ``lines`` (n,) the line of each code, from 1; ``heads`` the tags with
    code 0, ``kinds`` what each of them says. Comments are taken out."""

    data: bytes
    codes: NDArray[np.int16]
    numbers: NDArray[np.float64]
    starts: NDArray[np.int64]
    lines: NDArray[np.int64]
    heads: NDArray[np.int64]
    kinds: list[bytes]
    decode: Decoder

    def values(self, first: int, end: int) -> list[str]:
        """The values of the tags from ``first`` up to ``end``."""
        if first >= end:
            return []
        return self.decode(self.data[self.starts[first] : self.starts[end] - 1]).split("\n")[1::2]

    def pairs(self, first: int, end: int) -> list[tuple[int, str]]:
        """The tags from ``first`` up to ``end``."""
        return list(zip(self.codes[first:end].tolist(), self.values(first, end), strict=True))


class _Codes(dict[bytes, int]):
    """Group codes by how they are written: each way of writing one is looked at once."""

    def __missing__(self, written: bytes) -> int:
        found = _CODE.fullmatch(written)
        if found is None or not LEAST <= (code := int(found[1])) <= MOST:
            raise ValueError
        self[written] = code
        return code


@dataclass(frozen=True, slots=True)
class Cut:
    """Where the tags break off: the line, from 1, and why."""

    line: int
    why: str


def read_tags(data: bytes, decode: Decoder, name: str) -> tuple[Tags, tuple[str, ...], Cut | None]:
    """Tags and comments of a file whose lines end in a line feed, and where they break off, None if nowhere.

    Raises Unreadable for more tags than any pattern has.
    """
    count = data.count(b"\n") + (0 if data.endswith(b"\n") or not data else 1)
    if count > 2 * MOST_TAGS:
        raise Unreadable(
            name,
            f"The drawing is larger than any pattern: more than {MOST_TAGS:,} values.",
            "Delete from it what does not belong to the pattern, and save it again.",
        )
    if not data.endswith(b"\n"):
        data += b"\n"
    ends = np.flatnonzero(np.frombuffer(data, np.uint8) == 10)
    starts = np.concatenate(([0], ends[1::2] + 1))
    total = len(starts) - 1
    cut = Cut(count, "its last line is a group code without a value") if count % 2 else None
    codes = np.empty(total, np.int16)
    numbers = np.full(total, np.nan)
    kinds: list[bytes] = []
    known = _Codes()
    for first in range(0, total, _CHUNK):
        end = min(first + _CHUNK, total)
        lines = data[starts[first] : starts[end] - 1].split(b"\n")
        try:
            codes[first:end] = np.fromiter(map(known.__getitem__, lines[::2]), np.int16, end - first)
        except ValueError:
            cut, end = _first_wrong(lines, known, first, codes)
            lines, total = lines[: 2 * (end - first)], end
        values = lines[1::2]
        is_number = numeric(codes[first:end])
        numbers[first:end][is_number] = _numbers(list(compress(values, is_number.tolist())))
        kinds += compress(values, (codes[first:end] == 0).tolist())
        if total == end:
            break
    tags = Tags(
        data,
        codes[:total],
        numbers[:total],
        starts[: total + 1],
        2 * np.arange(total) + 1,
        np.flatnonzero(codes[:total] == 0),
        [kind.strip().upper() for kind in kinds],
        decode,
    )
    return (*_without_comments(tags), cut)


def _first_wrong(lines: list[bytes], known: _Codes, first: int, codes: NDArray[np.int16]) -> tuple[Cut, int]:
    """Where among the lines of a chunk a code is none; the codes before it are filled in."""
    for at, written in enumerate(lines[::2]):
        try:
            codes[first + at] = known[written]
        except ValueError:
            break
    said = safe(written[:40].decode("ascii", "replace")).strip()
    there = f"there is “{said}”" if said else "the line is empty"
    return Cut(
        2 * (first + at) + 1, f"a group code, a whole number, should stand here, and {there}"
    ), first + at


def _numbers(values: list[bytes]) -> NDArray[np.float64]:
    """The values as numbers, NaN for what is none."""
    # float() reads 1_000 as a number, DXF does not.
    if b"_" not in b"".join(values):
        try:
            return np.fromiter(map(float, values), np.float64, len(values))
        except ValueError:
            pass
    return np.array([_number(value) for value in values])


def _number(value: bytes) -> float:
    try:
        return np.nan if b"_" in value else float(value)
    except ValueError:
        return np.nan


def _without_comments(tags: Tags) -> tuple[Tags, tuple[str, ...]]:
    is_comment = tags.codes == COMMENT
    if not is_comment.any():
        return tags, ()
    said = tuple(tags.values(at, at + 1)[0].strip() for at in np.flatnonzero(is_comment).tolist())
    edges = tags.starts.tolist()
    kept = ~is_comment
    # Runs between comments are joined anew, so that any stretch of tags is one slice again.
    breaks = np.flatnonzero(np.diff(kept.astype(np.int8), prepend=0, append=0)).reshape(-1, 2).tolist()
    data = b"".join(tags.data[edges[first] : edges[end]] for first, end in breaks)
    lengths = np.diff(tags.starts)[kept]
    codes = tags.codes[kept]
    return Tags(
        data,
        codes,
        tags.numbers[kept],
        np.concatenate(([0], np.cumsum(lengths))),
        tags.lines[kept],
        np.flatnonzero(codes == 0),
        tags.kinds,
        tags.decode,
    ), said


def broken_off(name: str, cut: Cut) -> Unreadable:
    """The error about tags that break off."""
    return Unreadable(name, f"The file is damaged: {cut.why}.", DAMAGED, cut.line)
