"""The document that travels along in a plain drawing.

The root dictionary (the first DICTIONARY of the OBJECTS section) has an entry ``NOTCHWORK`` with the handle of an XRECORD.
Its strings (code 1) are those of ``dxf.attached``, one part after the other: "document 1/1", then base64 of the packed
document, at most 248 letters a string. An XRECORD has no limit of its own, so that one part would do; readers take any number.
Where there is no such entry, the document may stand in comments.
"""

from __future__ import annotations

from collections.abc import Iterator

from notchwork_plugins.dxf.attached import APPLICATION, MissingPart, document_of, in_comments, in_parts
from notchwork_plugins.dxf.file import File

__all__ = ["MissingPart", "attached"]


def attached(file: File) -> bytes | None:
    """The document as it was written, None where there is none. Raises MissingPart where it is damaged."""
    handle = next((handle for handle in _entries(file)), None)
    if handle is None:
        return document_of(in_comments(file.comments)[0])
    for entity in file.objects:
        if entity.kind == "XRECORD" and entity.text(5).strip().upper() == handle:
            return document_of(in_parts(entity.texts(1)))
    raise MissingPart("what its entry in the drawing refers to is not there")


def _entries(file: File) -> Iterator[str]:
    """The handle of our entry in a dictionary: pairs of a name (3) and a handle (350 or 360)."""
    for entity in file.objects:
        if entity.kind != "DICTIONARY":
            continue
        name = ""
        for code, value in zip(entity.codes, entity.values, strict=True):
            if code == 3:
                name = value.strip().upper()
            elif code in (350, 360) and name == APPLICATION:
                yield value.strip().upper()
