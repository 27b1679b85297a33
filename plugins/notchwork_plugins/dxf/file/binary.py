"""A binary DXF file put into the lines of a text one, so that everything behind has one way to read.

Source: the DXF reference of Autodesk, "Binary DXF Files"; the codes of one byte are those of Release 12 and before.
"""

from __future__ import annotations

import struct

from notchwork_plugins.dxf.file.codes import CHUNKS, PACKED
from notchwork_plugins.dxf.file.errors import AGAIN, Unreadable
from notchwork_plugins.dxf.file.tags import MOST_TAGS

SENTINEL = b"AutoCAD Binary DXF\r\n\x1a\x00"
_UNPACK = {code: struct.Struct(packed) for code, packed in PACKED.items()}


def is_binary(data: bytes) -> bool:
    return data.startswith(SENTINEL)


def as_text(data: bytes, name: str) -> bytes:
    """The same tags as text. What breaks off in the middle of a tag ends with the tag before, which the reader of tags tells.

    Raises Unreadable for more tags than any pattern has.
    """
    at = len(SENTINEL)
    # The first tag is "0, SECTION", or a comment: its second byte is 0, or 3 of 999, where codes have two.
    wide = data[at : at + 2] in (b"\0\0", b"\xe7\x03")
    lines: list[bytes] = []
    add = lines.append
    size = len(data)
    try:
        while at < size and len(lines) <= 2 * MOST_TAGS:
            if wide:
                code, at = data[at] | data[at + 1] << 8, at + 2
            elif data[at] == 255:
                code, at = data[at + 1] | data[at + 2] << 8, at + 3
            else:
                code, at = data[at], at + 1
            if code >= 0x8000:
                code -= 0x10000
            packed = _UNPACK.get(code)
            if packed is not None:
                value = b"%r" % packed.unpack_from(data, at)
                at += packed.size
            elif code in CHUNKS:
                end = at + 1 + data[at]
                if end > size:
                    break
                value, at = data[at + 1 : end].hex().encode(), end
            else:
                end = data.index(0, at)
                value, at = data[at:end], end + 1
                if b"\n" in value or b"\r" in value:
                    value = value.replace(b"\r", b"^M").replace(b"\n", b"^J")
            add(b"%d" % code)
            add(value)
            if code == 0 and value == b"EOF":
                break
    except (IndexError, ValueError, struct.error):
        pass
    if not lines:
        raise Unreadable(name, "The file breaks off before it says anything.", AGAIN)
    lines.append(b"")
    return b"\n".join(lines)
