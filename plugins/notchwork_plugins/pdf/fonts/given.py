"""A font that a person gives for letters that ours lack."""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTLibError

from notchwork.findings import NotchworkError
from notchwork_plugins.pdf.fonts.face import Face

MOST_BYTES = 64_000_000
"""The largest fonts of all scripts of the world have some 20 MB."""
_STARTS = (b"\x00\x01\x00\x00", b"true", b"OTTO")
_NO_EMBEDDING = 0x0002
"""OS/2 fsType, bit 1: restricted licence embedding. Source: ISO/IEC 14496-22 (OpenType), OS/2."""


def given(path: str) -> Face:
    """The font of a file. Raises NotchworkError for what cannot be read, is no font, or may not be embedded."""
    called = f"Font {path}"
    try:
        with Path(path).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise NotchworkError(called, "It could not be read.", "Check the name and the folder.") from error
    if len(data) > MOST_BYTES or not data.startswith(_STARTS):
        raise NotchworkError(called, "This is no font that can be put into a PDF.", "Give a TTF or OTF file.")
    face = Face("F2", data)
    try:
        # Everything that is asked of it later, asked once while it can still be refused.
        face.glyph(next(iter(face.letters)))
        face.used.clear()
        restricted = "OS/2" in face.font and face.font["OS/2"].fsType & 0x000F == _NO_EMBEDDING
    except (TTLibError, KeyError, StopIteration, AttributeError, AssertionError, ValueError) as error:
        raise NotchworkError(
            called, "This font is damaged, or has no letters.", "Give another TTF or OTF file."
        ) from error
    if restricted:
        raise NotchworkError(
            called,
            "Its maker does not allow it to be put into documents.",
            "Give a font under a free licence.",
        )
    return face
