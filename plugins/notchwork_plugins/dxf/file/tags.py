"""The tags of a file: pairs of lines, a group code and its value, all at once in arrays.

Values stay bytes until an entity is asked for, so that a million vertices cost arrays and not objects.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.dxf.file.codes import COMMENT, numeric
from notchwork_plugins.dxf.file.errors import Unreadable
from notchwork_plugins.dxf.file.lines import codes_of, numbers_of, said

MOST_TAGS = 8_000_000
MOST_ENTITIES = 500_000
"""Without vertices, which are cheap."""
_CHUNK = 1 << 14
"""As many tags are looked at at a time: few enough to stay near the processor."""
_VERTEX = int.from_bytes(b"VERTEX\n", "little")
_SEVEN = (1 << 56) - 1

Decoder = Callable[[bytes], str]


@dataclass(frozen=True, slots=True, eq=False)
class Tags:
    """All tags, n of them, without comments.

    ``codes`` (n,); ``numbers`` (n,) the values of codes that stand for numbers, NaN where there is none; ``starts`` (n + 1,)
    where each tag begins in ``data``; ``lines`` (n,) the line of each code, from 1; ``heads`` (m,) the tags with code 0;
    ``is_vertex`` (m,) which of them are vertices, and ``kinds`` what the others say, in capitals.
    """

    data: bytes
    codes: NDArray[np.int16]
    numbers: NDArray[np.float64]
    starts: NDArray[np.int32]
    lines: NDArray[np.int32]
    heads: NDArray[np.int64]
    is_vertex: NDArray[np.bool_]
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


@dataclass(frozen=True, slots=True)
class Cut:
    """Where the tags break off: the line, from 1, and why."""

    line: int
    why: str


def read_tags(data: bytes, decode: Decoder, name: str) -> tuple[Tags, tuple[str, ...], Cut | None]:
    """Tags and comments of a file whose lines end in a line feed, and where they break off, None if nowhere.

    Raises Unreadable for more of them than any pattern has.
    """
    count = data.count(b"\n")
    if count > 2 * MOST_TAGS or len(data) >= 1 << 31:
        raise _too_large(name, f"{MOST_TAGS:,} values")
    buffer = np.frombuffer(data, np.uint8)
    breaks = np.concatenate(([0], np.flatnonzero(buffer == 10) + 1)).astype(np.int32)
    cut = Cut(count, "its last line is a group code without a value") if count % 2 else None
    total = count // 2
    breaks = breaks[: 2 * total + 1]
    codes = np.empty(total, np.int16)
    numbers = np.full(total, np.nan)
    for first in range(0, total, _CHUNK):
        end = min(first + _CHUNK, total)
        lines = breaks[2 * first : 2 * end + 1]
        found = codes_of(buffer, lines)
        codes[first : first + len(found)] = found
        if len(found) < end - first:
            total = first + len(found)
            wrong = said(data[breaks[2 * total] : breaks[2 * total + 1]])
            cut = Cut(2 * total + 1, f"a group code, a whole number, should stand here, and {wrong}")
            lines = lines[: 2 * len(found) + 1]
        is_number = numeric(found)
        numbers[first : first + len(found)][is_number] = numbers_of(buffer, lines, is_number)
        if total < end:
            break
    codes = codes[:total]
    heads = np.flatnonzero(codes == 0)
    is_vertex, kinds = _kinds(data, breaks, heads, name)
    lines = 2 * np.arange(total, dtype=np.int32) + 1
    tags = Tags(
        data, codes, numbers[:total], breaks[: 2 * total + 1 : 2], lines, heads, is_vertex, kinds, decode
    )
    return (*_without_comments(tags), cut)


def _kinds(
    data: bytes, breaks: NDArray[np.int32], heads: NDArray[np.int64], name: str
) -> tuple[NDArray[np.bool_], list[bytes]]:
    """Which heads are vertices, and what the others say."""
    begins = breaks[2 * heads + 1]
    whole = np.ndarray(max(len(data) - 7, 0), "<u8", data, strides=(1,))
    is_vertex = np.zeros(len(heads), bool)
    inside = begins < len(whole)
    is_vertex[inside] = whole[begins[inside]] & _SEVEN == _VERTEX
    if np.count_nonzero(~is_vertex) > MOST_ENTITIES:
        raise _too_large(name, f"{MOST_ENTITIES:,} lines, texts and other parts")
    kinds = []
    for at in np.flatnonzero(~is_vertex).tolist():
        head = 2 * int(heads[at])
        kind = data[breaks[head + 1] : breaks[head + 2]].strip().upper()
        if kind == b"VERTEX":
            is_vertex[at] = True
        else:
            kinds.append(kind)
    return is_vertex, kinds


def _without_comments(tags: Tags) -> tuple[Tags, tuple[str, ...]]:
    is_comment = tags.codes == COMMENT
    if not is_comment.any():
        return tags, ()
    comments = tuple(tags.values(at, at + 1)[0].strip() for at in np.flatnonzero(is_comment).tolist())
    kept = ~is_comment
    # Runs between comments are joined anew, so that any stretch of tags is one slice again.
    runs = np.flatnonzero(np.diff(kept.astype(np.int8), prepend=0, append=0)).reshape(-1, 2)
    data = b"".join(tags.data[first:end] for first, end in tags.starts[runs].tolist())
    codes = tags.codes[kept]
    return Tags(
        data,
        codes,
        tags.numbers[kept],
        np.concatenate(([0], np.cumsum(np.diff(tags.starts)[kept]))).astype(np.int32),
        tags.lines[kept],
        np.flatnonzero(codes == 0),
        tags.is_vertex,
        tags.kinds,
        tags.decode,
    ), comments


def _too_large(name: str, more_than: str) -> Unreadable:
    return Unreadable(
        name,
        f"The drawing is larger than any pattern: more than {more_than}.",
        "Delete from it what does not belong to the pattern, and save it again.",
    )
