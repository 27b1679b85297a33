"""Readers that know nothing of this program agree on what a written file draws: ezdxf's drawing add-on, GDAL, and LibreCAD.

Each is given the convention as valid Release 12. Boxes agree within the chord error. A chord that lies e beside an arc is shorter
than it by 8 e² / 3 c, and the arc turns by 8 e / c along it (c the chord; the first terms of both series): so lines are shorter
than their curves by the chord error times the turning in radians / 3 at most.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from patterns import CASES

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Drawing
from notchwork.geometry import bounds, lengths, tangents
from notchwork.sewing import Nest
from notchwork_plugins.dxf.write.convention import write_bare, write_valid

Complexes = NDArray[np.complex128]

CHORD = 0.05
"""mm: what the writer takes if nothing is said."""
DIGITS = 1e-4
"""mm that are written."""
NAMES = ("ferry_smock", "demo")


@dataclass(frozen=True)
class Curve:
    """What a closed line stands for: its box (left, low, right, high) and length in mm, and its turning in radians."""

    box: tuple[float, float, float, float]
    length: float
    turning: float


@cache
def drawing_of(name: str) -> Drawing:
    data = example("sound.pattern.json") if name == "demo" else (CASES / f"{name}.pattern.json").read_bytes()
    pattern = read_pattern(data, name).pattern
    assert pattern is not None
    return draw_pattern(Nest(pattern))


def curves(drawing: Drawing) -> list[Curve]:
    """The cut line and the stitch line of every piece in every size, as they are drawn; along folds the cut line closes straight."""
    found = []
    for group in drawing.groups:
        if "piece" not in group.facts:
            continue
        for size in drawing.sizes:
            here = [stroke for stroke in group.strokes if stroke.facts.get("size") == size]
            for meanings in (("cut",), ("stitch", "fold")):
                drawn = [
                    s.cubics
                    for s in here
                    if s.meaning in meanings
                    and "kind" not in s.facts
                    and ("edge" in s.facts) == (meanings != ("cut",))
                ]
                if drawn:
                    found.append(_curve(np.concatenate(drawn) + group.shift))
    return found


def _curve(cubics: Complexes) -> Curve:
    low, high = bounds(cubics)
    gap = abs(cubics[0, 0] - cubics[-1, 3])
    rows, t = np.repeat(np.arange(len(cubics)), 60), np.tile(np.linspace(0, 1, 60), len(cubics))
    ways = tangents(cubics, rows, t).reshape(-1, 60)
    turning = float(np.abs(np.angle(ways[:, 1:] * ways[:, :-1].conj())).sum())
    return Curve((low.real, low.imag, high.real, high.imag), float(lengths(cubics).sum()) + gap, turning)


def written(name: str, folder: Path, bare: bool = False) -> Path:
    suffix = ".bare.dxf" if bare else ".dxf"
    path = folder / f"{name}{suffix}"
    path.write_bytes((write_bare if bare else write_valid)(drawing_of(name), {}).files[suffix])
    return path


def box_of(line: Complexes) -> NDArray[np.float64]:
    return np.array([line.real.min(), line.imag.min(), line.real.max(), line.imag.max()])


def held(rings: Sequence[Complexes], wanted: Sequence[Curve], digits: float = DIGITS) -> None:
    """Every closed line that was read (its vertices in mm) is one of the curves, each of which is read once."""
    assert len(rings) == len(wanted)
    boxes = np.array([curve.box for curve in wanted])
    taken: set[int] = set()
    for ring in rings:
        off = np.abs(boxes - box_of(ring)).max(axis=1)
        near = [int(k) for k in np.flatnonzero(off <= CHORD + digits)]
        length = float(np.abs(np.diff(np.append(ring, ring[0]))).sum())
        fits = [
            k
            for k in near
            if -len(ring) * 2 * digits
            <= wanted[k].length - length
            <= CHORD * wanted[k].turning / 3 + len(ring) * 2 * digits
        ]
        assert near
        assert fits, [(wanted[k].length - length, CHORD * wanted[k].turning / 3) for k in near]
        taken |= set(fits)
    assert taken == set(range(len(wanted)))


@pytest.mark.parametrize("name", NAMES)
def test_the_drawing_add_on_of_ezdxf(name: str, tmp_path: Path) -> None:
    from ezdxf.addons.drawing import Frontend, RenderContext
    from ezdxf.addons.drawing.recorder import PathRecord, Recorder

    document = ezdxf.readfile(written(name, tmp_path))
    seen = Recorder()
    Frontend(RenderContext(document), seen).draw_layout(document.modelspace())
    rings = [
        np.array([complex(v.x, v.y) for v in record.path.vertices()])
        for record, look in seen.player().recordings()
        if isinstance(record, PathRecord) and look.layer in ("1", "14")
    ]
    held([ring[:-1] if ring[0] == ring[-1] else ring for ring in rings], curves(drawing_of(name)))


def gdal() -> Any:
    return pytest.importorskip("pyogrio", reason="pyogrio (PyPI), which brings GDAL, is not installed")


@pytest.mark.parametrize("name", NAMES)
def test_the_dxf_driver_of_gdal(name: str, tmp_path: Path) -> None:
    pyogrio = gdal()
    from pyogrio.raw import read

    # So that every line of a block keeps a layer of its own.
    pyogrio.set_gdal_config_options({"DXF_MERGE_BLOCK_GEOMETRIES": False})
    try:
        meta, _, geometries, columns = read(written(name, tmp_path))
    finally:
        pyogrio.set_gdal_config_options({"DXF_MERGE_BLOCK_GEOMETRIES": None})
    layers = columns[list(meta["fields"]).index("Layer")]
    rings = [
        shapely.get_coordinates(shape) @ [1, 1j]
        for shape, layer in zip(shapely.from_wkb(geometries), layers, strict=True)
        if layer in ("1", "14") and shape.geom_type in ("LineString", "Polygon")
    ]
    held([ring[:-1] for ring in rings], curves(drawing_of(name)))


def test_gdal_refuses_what_has_no_header_and_no_tables(tmp_path: Path) -> None:
    """So bare files are for programs of the trade alone, as the README says."""
    pyogrio = gdal()
    with pytest.raises(pyogrio.errors.DataSourceError):
        pyogrio.raw.read(written("ferry_smock", tmp_path, bare=True))


FINER = 10
"""LibreCAD prints whole 1/1200 in: so much larger, these are 0.002 mm."""


@pytest.mark.debian("librecad")
@pytest.mark.skipif(shutil.which("librecad") is None, reason="the Debian package librecad is not installed")
@pytest.mark.parametrize("name", NAMES)
def test_the_console_export_of_librecad(name: str, tmp_path: Path) -> None:
    path = written(name, tmp_path)
    # It scales to the page in whole mm, 0.02 % too small: how long 1000 mm come out is seen by a square beside the pieces.
    corners = [-3000, -3000 + 1000j, -2000 + 1000j, -2000, -3000]
    square = b"".join(_line(complex(a), complex(b)) for a, b in pairwise(corners))
    end = path.read_bytes().rindex(b"0\r\nENDSEC")
    path.write_bytes(path.read_bytes()[:end] + square + path.read_bytes()[end:])
    first, *others = sorted(_closed(_printed(path)), key=lambda ring: ring.real.min())
    per_mm = np.ptp(first.real) / 1000
    assert np.ptp(first.imag) / 1000 == pytest.approx(per_mm, abs=2e-3)
    assert per_mm == pytest.approx(FINER * 1200 / 25.4, rel=3e-4)
    moved = -3000 - complex(first.real.min(), first.imag.min()) / per_mm
    # Letters are closed lines too, and smaller.
    rings = [ring / per_mm + moved for ring in others if np.ptp(ring.real) > 20 * per_mm]
    held(rings, curves(drawing_of(name)), digits=2 / per_mm)


def _line(start: complex, end: complex) -> bytes:
    tags = (0, "LINE", 8, "1", 10, start.real, 20, start.imag, 11, end.real, 21, end.imag)
    return "".join(f"{tag}\r\n" for tag in tags).encode()


def _printed(path: Path) -> Complexes:
    subprocess.run(
        ["librecad", "dxf2pdf", "-s", str(FINER), str(path)],
        cwd=path.parent,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(path.parent)},
        capture_output=True,
        timeout=120,
        check=True,
    )
    return _segments(path.with_suffix(".pdf"))


def _segments(path: Path) -> Complexes:
    """The lines (n, 2) of a printed page, y upward, in the steps of the printer."""
    data = path.read_bytes()
    for found in re.finditer(rb"stream\r?\n", data):
        try:
            page = zlib.decompressobj().decompress(data[found.end() :])
        except zlib.error:
            continue
        lines = re.findall(rb"^(\S+) (\S+) m\n(\S+) (\S+) l\nS$", page, re.MULTILINE)
        if lines:
            numbers = np.array(lines, dtype=float).reshape(-1, 2, 2)
            return np.asarray(numbers[:, :, 0] - 1j * numbers[:, :, 1])
    raise AssertionError("nothing was printed")


def _closed(segments: Complexes) -> Iterator[Complexes]:
    """Lines that follow each other and come back to where they began, by their vertices."""
    ends = [*np.flatnonzero(segments[:-1, 1] != segments[1:, 0]) + 1, len(segments)]
    for first, last in pairwise([0, *ends]):
        if last - first > 2 and segments[first, 0] == segments[last - 1, 1]:
            yield segments[first:last, 0]
