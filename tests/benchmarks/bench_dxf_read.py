"""Opening a large DXF file, and reading it as a drawing, against ezdxf.readfile on the same file in one run; the same for a nest
by the convention, whose polylines become smooth curves again: size by size in blocks, and by rules, where nothing tells nodes.

Run by itself: ``python -m pytest tests/benchmarks/bench_dxf_read.py -s``.
"""

from __future__ import annotations

import gc
import io
import random
import time
from collections.abc import Callable
from pathlib import Path

import ezdxf
import numpy as np
import pytest

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.formats import Source
from notchwork.sewing import Nest
from notchwork_plugins.dxf.file import corners, opened
from notchwork_plugins.dxf.plugin import DXF
from notchwork_plugins.dxf.write.convention import write_valid

MOST_OPENED = 0.6
MOST_DRAWN = 1.7
MOST_SMOOTHED = {"blocks": 1.2, "rules": 1.7}
"""of the time of ezdxf.readfile."""
LONG = 3.0
"""seconds for a million vertices."""


def document(version: str, pieces: int) -> bytes:
    """Pieces as general CAD programs write them: outlines with bulges, lines, arcs, circles and texts, in blocks and loose."""
    chance = random.Random(7)
    drawing = ezdxf.new(version)
    space = drawing.modelspace()
    for k in range(pieces):
        place = drawing.blocks.new(f"PIECE{k}") if k % 2 else space
        at = complex(k % 40 * 700, k // 40 * 900)
        for _ in range(6):
            a, b = ((at.real + chance.uniform(0, 600), at.imag + chance.uniform(0, 800)) for _ in range(2))
            place.add_line(a, b, {"layer": "8"})
            place.add_arc(a, chance.uniform(1, 80), 0, 90)
            place.add_circle(b, 3)
        rows = [(at.real + chance.uniform(0, 600), at.imag + chance.uniform(0, 800), 0.1) for _ in range(60)]
        if version == "R12":
            place.add_polyline2d(rows, format="xyb", close=True)
        else:
            place.add_lwpolyline(rows, format="xyb", close=True)
        place.add_text(f"Piece {k}", height=10).set_placement((at.real, at.imag))
        if k % 2:
            space.add_blockref(f"PIECE{k}", (0, 0))
    stream = io.StringIO()
    drawing.write(stream)
    return drawing.encode(stream.getvalue())


def best(work: Callable[[], object], times: int) -> float:
    taken = []
    for _ in range(times):
        gc.collect()
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_a_large_drawing(version: str, tmp_path: Path) -> None:
    data = document(version, 500)
    path = tmp_path / "large.dxf"
    path.write_bytes(data)
    source = Source("large.dxf", data)
    assert DXF.read is not None
    read = DXF.read
    theirs = best(lambda: ezdxf.readfile(path), 3)
    open_time = best(lambda: opened(source), 3)
    drawn = best(lambda: read(source, {}), 3)
    print(
        f"\n{version}, {len(data) / 1e6:.1f} MB: ezdxf {theirs:.2f} s, opened {open_time / theirs:.2f}, drawing {drawn / theirs:.2f}"
    )
    assert open_time <= MOST_OPENED * theirs
    assert drawn <= MOST_DRAWN * theirs


@pytest.mark.parametrize("nest", MOST_SMOOTHED)
def test_a_nest_by_the_convention(nest: str, tmp_path: Path) -> None:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    files = write_valid(draw_pattern(Nest(pattern)), {"nest": nest}).files
    path = tmp_path / "nest.dxf"
    path.write_bytes(files[".dxf"])

    def beside(suffix: str) -> Source | None:
        return Source("nest.rul", files[suffix]) if suffix in files else None

    source = Source("nest.dxf", files[".dxf"], beside)
    assert DXF.read is not None
    read = DXF.read
    theirs = best(lambda: ezdxf.readfile(path), 5)
    drawn = best(lambda: read(source, {}), 5)
    print(f"\nnest by {nest}: ezdxf {theirs:.2f} s, drawing {drawn / theirs:.2f}")
    assert drawn <= MOST_SMOOTHED[nest] * theirs


@pytest.mark.parametrize("kind", ["POLYLINE", "LWPOLYLINE"])
def test_a_million_vertices(kind: str) -> None:
    count = 1_000_000
    if kind == "POLYLINE":
        vertices = b"".join(
            b"0\nVERTEX\n8\n1\n10\n%.4f\n20\n%.4f\n30\n0.0\n" % (k / 128, -k / 128) for k in range(count)
        )
        inside = b"0\nPOLYLINE\n8\n1\n66\n1\n" + vertices + b"0\nSEQEND\n"
    else:
        vertices = b"".join(b"10\n%.4f\n20\n%.4f\n" % (k / 128, -k / 128) for k in range(count))
        inside = b"0\nLWPOLYLINE\n8\n1\n90\n1000000\n" + vertices
    data = b"0\nSECTION\n2\nENTITIES\n" + inside + b"0\nENDSEC\n0\nEOF\n"
    points = np.empty(0)

    def work() -> None:
        nonlocal points
        points = corners(opened(Source("long.dxf", data)).entities[0])[0]

    taken = best(work, 1)
    print(f"\n{kind}, {len(data) / 1e6:.0f} MB: {taken:.2f} s")
    assert len(points) == count
    assert taken <= LONG


def test_linear_growth() -> None:
    small, large = document("R2010", 200), document("R2010", 800)
    a = best(lambda: opened(Source("a", small)), 3)
    b = best(lambda: opened(Source("b", large)), 3)
    print(f"\n200 pieces {a:.3f} s, 800 pieces {b:.3f} s: {b / a:.1f} times for 4 times as much")
    assert b <= 4 * 1.5 * a
