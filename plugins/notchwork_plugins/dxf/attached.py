"""The document that travels inside a DXF file: cut into short strings of plain letters, numbered, and put together again.

General CAD programs keep the extended data of an application they do not know, but they may rewrite its strings: letters
beyond ASCII become escapes, a caret a control character, blanks at either end are trimmed. So the document is packed (zlib, RFC
1950, whose checksum tells whether anything is missing) and written in base64 (RFC 4648), which has none of these signs.

One part is what one entity carries: the string "document 2/3", then its strings in order. Limits are those of extended data in the
DXF reference of Autodesk, group codes 1000 to 1071: 255 bytes a string, 16 KB an entity; both are kept with room to spare.

A file without extended data can carry the same strings in comments (group code 999), each behind NOTCHWORK. There the blocks of
pieces are named too: "NOTCHWORK piece FRONT-M=front" says which piece a block is. Readers skip comments; programs that save a file
anew drop them.
"""

from __future__ import annotations

import binascii
import re
import zlib
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator, Mapping, Sequence

APPLICATION = "NOTCHWORK"
"""The name under which extended data and dictionary entries of ours stand."""
MOST_STRING = 248
"""Letters in one string."""
MOST_PART = 15_000
"""Bytes of extended data on one entity, by the longest way of counting: each string with its group code and line ends."""
MOST_COMMENT = 240
"""Letters in one string of a comment, which has the name before them."""
OVERHEAD = 10
MOST_DOCUMENT = 8_000_000
"""Bytes of an unpacked document; the largest patterns have some hundred thousand."""
MOST_SWELLING, ANY_SWELLING = 100, 1_000_000
"""How many times longer a document is than what it was packed into, where it has more bytes than the second; patterns come to
three to six times."""

_HEAD = re.compile(r"document (\d{1,6})/(\d{1,6})")
_PIECE = re.compile(r"piece ([^=]{1,255})=(.+)")


class MissingPart(ValueError):
    """The parts of a document are not all there, or not as they were written; the message says which is missing."""


def parts_of(document: bytes, most: int = MOST_STRING) -> list[list[str]]:
    """The strings of each part, of at most so many letters, with what it is in front; the same document gives the same strings."""
    letters = b64encode(zlib.compress(document, 9)).decode("ascii")
    strings = [letters[k : k + most] for k in range(0, len(letters), most)]
    each = MOST_PART // (most + OVERHEAD) - 1
    found = [strings[k : k + each] for k in range(0, len(strings), each)]
    return [[f"document {k}/{len(found)}", *part] for k, part in enumerate(found, start=1)]


def document_of(carried: Iterable[Sequence[str]]) -> bytes | None:
    """The document that entities carry, each by its strings in order; None where none carries any of it.

    The entities may come in any order and more than once. Raises MissingPart where a part is missing or was altered.
    """
    found: dict[int, str] = {}
    count = 0
    for strings in carried:
        head = _HEAD.fullmatch(strings[0].strip()) if strings else None
        if head is not None:
            count = max(count, int(head[2]))
            found.setdefault(int(head[1]), "".join(strings[1:]))
    if not found:
        return None
    missing = next((k for k in range(1, count + 1) if k not in found), None)
    if missing is not None:
        raise MissingPart(f"part {missing} of {count} is missing")
    try:
        packed = b64decode("".join(found[k] for k in range(1, count + 1)), validate=True)
        unpacking = zlib.decompressobj()
        most = min(MOST_DOCUMENT, max(ANY_SWELLING, MOST_SWELLING * len(packed)))
        document = unpacking.decompress(packed, most)
    except (binascii.Error, zlib.error, ValueError) as error:
        raise MissingPart("its letters were altered, or some are missing") from error
    if unpacking.unconsumed_tail:
        raise MissingPart("it swells to more than any pattern has")
    if not unpacking.eof:
        raise MissingPart("its end is missing")
    return document


def in_parts(strings: Iterable[str]) -> Iterator[list[str]]:
    """Strings that follow each other, from one part's head to the next."""
    part: list[str] = []
    for string in strings:
        if _HEAD.fullmatch(string.strip()) and part:
            yield part
            part = []
        part.append(string)
    if part:
        yield part


def comments_of(document: bytes | None, blocks: Mapping[str, str]) -> list[str]:
    """The comments that carry a document, and which piece (by id) each block is."""
    strings = [f"piece {block}={ident}" for block, ident in blocks.items()]
    if document is not None:
        strings += [string for part in parts_of(document, MOST_COMMENT) for string in part]
    return [f"{APPLICATION} {string}" for string in strings]


def in_comments(comments: Iterable[str]) -> tuple[list[list[str]], dict[str, str]]:
    """The parts of a document that comments carry, and the pieces (by id) that blocks are, by their names in capitals."""
    strings: list[str] = []
    blocks: dict[str, str] = {}
    for comment in comments:
        name, _, said = comment.strip().partition(" ")
        if name != APPLICATION:
            continue
        piece = _PIECE.fullmatch(said)
        if piece is None:
            strings.append(said)
        else:
            blocks.setdefault(piece[1].upper(), piece[2])
    return list(in_parts(strings)), blocks
