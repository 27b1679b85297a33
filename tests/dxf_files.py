"""DXF files in the making: tags to bytes."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.formats import Source

Tag = tuple[int, object]


def dxf(*tags: Tag | Iterable[Tag], encoding: str = "ascii", end: str = "\n") -> bytes:
    """Tags, and lists of tags, as they stand in a file."""
    written: list[str] = []
    for tag in tags:
        pairs = [tag] if isinstance(tag, tuple) else list(tag)
        written += [f"{code}{end}{value}{end}" for code, value in pairs]
    return "".join(written).encode(encoding)


def section(name: str, *tags: Tag | Iterable[Tag]) -> list[Tag]:
    inside: list[Tag] = []
    for tag in tags:
        inside += [tag] if isinstance(tag, tuple) else list(tag)
    return [(0, "SECTION"), (2, name), *inside, (0, "ENDSEC")]


EOF: Tag = (0, "EOF")


def line(a: complex, b: complex, layer: str = "0") -> list[Tag]:
    return [(0, "LINE"), (8, layer), (10, a.real), (20, a.imag), (11, b.real), (21, b.imag)]


def text(said: str, at: complex = 0j, layer: str = "1") -> list[Tag]:
    return [(0, "TEXT"), (8, layer), (10, at.real), (20, at.imag), (40, 5), (1, said)]


def polyline(points: Iterable[complex], layer: str = "1", closed: bool = True) -> list[Tag]:
    """A polyline of Release 12."""
    tags: list[Tag] = [(0, "POLYLINE"), (8, layer), (66, 1), (70, int(closed))]
    for point in points:
        tags += [(0, "VERTEX"), (8, layer), (10, point.real), (20, point.imag)]
    return [*tags, (0, "SEQEND"), (8, layer)]


def block(name: str, *tags: Tag | Iterable[Tag]) -> list[Tag]:
    inside: list[Tag] = []
    for tag in tags:
        inside += [tag] if isinstance(tag, tuple) else list(tag)
    return [(0, "BLOCK"), (8, "0"), (2, name), (70, 0), (10, 0), (20, 0), *inside, (0, "ENDBLK")]


def source(data: bytes) -> Source:
    return Source("drawing.dxf", data)
