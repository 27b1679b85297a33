"""Bytes to a file."""

from __future__ import annotations

from notchwork.findings import Finding, Place
from notchwork.formats import Source
from notchwork_plugins.dxf.file.binary import as_text, is_binary
from notchwork_plugins.dxf.file.damage import Damage
from notchwork_plugins.dxf.file.encoding import encoding_of, version_of
from notchwork_plugins.dxf.file.entity import File
from notchwork_plugins.dxf.file.errors import AGAIN, Unreadable
from notchwork_plugins.dxf.file.escapes import widened
from notchwork_plugins.dxf.file.marks import marks_of, sections_of
from notchwork_plugins.dxf.file.structure import Structure
from notchwork_plugins.dxf.file.tags import Decoder, Tags, read_tags
from notchwork_plugins.dxf.rules import AFTER_END

_BLANK = b" \t\r\n\x00\x1a"
"""What may stand behind the end: old systems fill up with these."""
_OTHERS = (
    (b"AC10", "This is a DWG file.", "Save it as DXF."),
    (b"%PDF", "This is a PDF, no DXF file.", AGAIN),
    (b"PK\x03\x04", "This file is packed (zip).", "Unpack it first."),
    (b"\x1f\x8b", "This file is packed (gzip).", "Unpack it first."),
    (b"AutoCAD DXB", "This is a DXB file.", "Save it as DXF."),
)


def opened(source: Source, encoding: str | None = None, damaged: bool = False) -> File:
    """The file that a source holds.

    ``encoding`` is in which its text is written, None for working it out. ``damaged``: what is whole of a damaged file is read
    and what is lost told in its findings; else damage is refused. Raises Unreadable and UnknownName.
    """
    try:
        return _opened(source, encoding, damaged)
    except Unreadable as error:
        if error.line is None or not is_binary(source.data):
            raise
        where = f"(In a binary file: at its value {(error.line + 1) // 2}.)"
        raise Unreadable(error.what, f"{error.why} {where}", error.repair) from error


def _opened(source: Source, encoding: str | None, damaged: bool) -> File:
    name = source.name
    data, rest = _lines(source.data, name)
    found = encoding_of(data, name, encoding)
    tags, comments, cut = read_tags(data, _decoder(data, found.name), name)
    if not tags.kinds or tags.codes[0] != 0 or tags.kinds[0] not in (b"SECTION", b"EOF"):
        raise _no_dxf(name, tags)
    damage = Damage(name, damaged)
    marks = marks_of(tags)
    sections, end = sections_of(marks, cut, damage)
    structure = Structure(marks, damage, broken=end is None)
    structure.read(sections)
    if end is not None and end + 1 < len(marks.kinds):
        rest = f"from line {marks.line(end + 1)} on"
    findings = [*found.findings, *damage.notes.findings()]
    if rest:
        text = "Something stands after the end of the file (EOF), {where}: it was not read."
        findings.append(
            Finding(
                AFTER_END,
                Place(),
                text,
                "If part of the drawing is missing, export it again.",
                {"where": rest},
            )
        )
    return File(
        version_of(data),
        structure.header,
        structure.layers,
        structure.blocks,
        tuple(structure.entities),
        tuple(structure.objects),
        comments,
        found.name,
        structure.line_types,
        tuple(findings),
    )


def _lines(data: bytes, name: str) -> tuple[bytes, str]:
    """The file as lines that all end in a line feed, up to its EOF, and where something stands behind that."""
    if not data.strip(_BLANK):
        raise Unreadable(name, "The file is empty.", AGAIN)
    if is_binary(data):
        return as_text(data, name), ""
    for start, why, repair in _OTHERS:
        if data.startswith(start):
            raise Unreadable(name, why, repair)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\0" in data[:4]:
        raise Unreadable(
            name, "The file is written in UTF-16, which DXF does not allow.", "Save it as UTF-8 or ASCII."
        )
    data = data.removeprefix(b"\xef\xbb\xbf")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n")
        if b"\n" not in data:
            data = data.replace(b"\r", b"\n")
    last = _last_line(data)
    if last is None:
        return data.rstrip(_BLANK) + b"\n", ""
    end = data.find(b"\n", last)
    behind = data[end:].lstrip(_BLANK) if end >= 0 else b""
    line = data.count(b"\n", 0, len(data) - len(behind)) + 1
    return data[:last] + b"EOF\n", f"from line {line} on" if behind else ""


def _last_line(data: bytes) -> int | None:
    """Where the last line begins that says EOF with the group code 0 before it."""
    at = len(data)
    while (at := data.rfind(b"\nEOF", 0, at)) >= 0:
        code = data.rfind(b"\n", 0, at) + 1
        end = data.find(b"\n", at + 1)
        said = data[at : end if end >= 0 else len(data)]
        if said.strip(_BLANK) == b"EOF" and data[code:at].strip() == b"0":
            return at + 1
    return None


def _decoder(data: bytes, encoding: str) -> Decoder:
    if b"\\U+" in data or b"\\M+" in data:
        return lambda part: widened(part.decode(encoding))
    return lambda part: part.decode(encoding)


def _no_dxf(name: str, tags: Tags) -> Unreadable:
    """The error about a file of another kind."""
    if not len(tags.codes):
        why = "This is no DXF file: its first line is not a group code, which is a whole number."
    else:
        why = "This is no DXF file: it does not begin with a section."
    return Unreadable(name, why, AGAIN, 1)
