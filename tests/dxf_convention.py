"""Files of the sewn-products convention, written tag by tag for tests; all of them are made up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.formats import Read, Source
from notchwork.recognise import Options, Recognised, recognise
from notchwork_plugins.dxf.convention.read import read
from notchwork_plugins.dxf.file.reading import opened

Points = Iterable[complex]
OURS = "Follows ANSI/AAMA 292 and ASTM D6673 (withdrawn 2019)."


def tag(code: int, value: object) -> str:
    return f"{code}\n{value}\n"


def place(z: complex, first: int = 10) -> str:
    return tag(first, f"{z.real:.6f}") + tag(first + 10, f"{z.imag:.6f}")


def polyline(layer: int | str, points: Points, closed: bool = True) -> str:
    head = tag(0, "POLYLINE") + tag(8, layer) + tag(66, 1) + tag(70, int(closed))
    body = "".join(tag(0, "VERTEX") + tag(8, layer) + place(complex(z)) for z in points)
    return head + body + tag(0, "SEQEND")


def line(layer: int | str, a: complex, b: complex) -> str:
    return tag(0, "LINE") + tag(8, layer) + place(a) + place(b, 11)


def point(
    layer: int | str,
    z: complex,
    depth: float | None = None,
    width: float | None = None,
    angle: float | None = None,
) -> str:
    more = ((30, depth), (39, width), (50, angle))
    return tag(0, "POINT") + tag(8, layer) + place(z) + "".join(tag(c, v) for c, v in more if v is not None)


def points(layer: int | str, every: Points) -> str:
    return "".join(point(layer, complex(z)) for z in every)


def text(words: str, layer: int | str = 1, at: complex = 0j, height: float = 0.0, more: str = "") -> str:
    return tag(0, "TEXT") + tag(8, layer) + place(at) + tag(40, height) + tag(1, words) + more


def extended(*strings: str, application: str = "NOTCHWORK") -> str:
    return tag(1001, application) + "".join(tag(1000, string) for string in strings)


@dataclass
class Pattern:
    """A file: blocks by name, style texts, and where each block is laid."""

    blocks: dict[str, str] = field(default_factory=dict)
    style: tuple[str, ...] = ("STYLE NAME: Kittiwake", "SAMPLE SIZE: 12", "UNITS: METRIC")
    laid: Mapping[str, complex] = field(default_factory=dict)
    comments: tuple[str, ...] = (OURS,)
    loose: str = ""

    def text(self) -> str:
        comments = "".join(tag(999, comment) for comment in self.comments)
        blocks = "".join(
            tag(0, "BLOCK") + tag(8, 1) + tag(2, name) + tag(70, 0) + place(0j) + body + tag(0, "ENDBLK")
            for name, body in self.blocks.items()
        )
        inserts = "".join(
            tag(0, "INSERT") + tag(8, 1) + tag(2, name) + place(self.laid.get(name, 0j))
            for name in self.blocks
        )
        return (
            comments
            + (tag(0, "SECTION") + tag(2, "BLOCKS") + blocks + tag(0, "ENDSEC"))
            + (tag(0, "SECTION") + tag(2, "ENTITIES") + inserts)
            + "".join(text(words) for words in self.style)
            + self.loose
            + (tag(0, "ENDSEC") + tag(0, "EOF"))
        )

    def read(self, encoding: str = "ascii", table: str | None = None, **options: str) -> Read:
        source = Source("kittiwake.dxf", self.text().encode(encoding), beside(table))
        return read(opened(source), source, options)


def beside(rules: str | None):  # type: ignore[no-untyped-def]
    def of(suffix: str) -> Source | None:
        return Source("kittiwake.rul", rules.encode()) if rules is not None and suffix == ".rul" else None

    return of


def seen(done: Read, options: Options | None = None) -> Recognised:
    assert done.drawing is not None
    return recognise(done.drawing, options)


def told(done: Read) -> set[str]:
    return {finding.rule.id for finding in done.findings}


def rectangle(low: complex, high: complex) -> list[complex]:
    """Counter-clockwise from the lower left."""
    return [low, complex(high.real, low.imag), high, complex(low.real, high.imag)]


def arc(middle: complex, radius: float, start: float, stop: float, count: int) -> list[complex]:
    """Points on a circle, angles in degrees, both ends among them."""
    turns = np.radians(np.linspace(start, stop, count))
    return [complex(z) for z in middle + radius * np.exp(1j * turns)]


def rule_file(
    rules: Mapping[int, Sequence[tuple[float, float]]],
    sizes: Sequence[str] = ("8", "10", "12", "14", "16"),
    sample: str = "12",
    units: str = "METRIC",
) -> str:
    """The grammar of facts A19."""
    heads = [
        "AUTHOR: example", "CREATION DATE: 15-01-2025", "CREATION TIME: 10:30", f"UNITS: {units}", "GRADE RULE TABLE: MISSES",
        f"NUMBER OF SIZES: {len(sizes)}", f"SIZE LIST: {' '.join(sizes)}", f"SAMPLE SIZE: {sample}",
    ]  # fmt: skip
    lines = list(heads)
    for number, pairs in rules.items():
        lines += [f"RULE: DELTA {number}", "  ".join(f"{x}, {y}" for x, y in pairs)]
    return "\n".join([*lines, "END", ""])
