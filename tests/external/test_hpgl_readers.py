"""Plots read by programs that know HP-GL and nothing of this one: hp2xx of Debian, and ezdxf's reader of HP-GL/2.

hp2xx is asked for true size (-t), else it fits the plot into 200 mm; it begins a new file at PG and passes over FR. ezdxf wants
ESC%0B before the plot and lays sheets on one another, so it is given them one by one. Neither clamps numbers; that no number
is too large is scanned for in the plots themselves. What should be drawn is computed from the open document: outlines by
svgpathtools from the nodes as they stand there, cut lines from the drawing, compared by shapely.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
import svgpathtools
from ezdxf.addons.hpgl2.api import MergeControl, record_plotter_output
from ezdxf.addons.hpgl2.backend import Backend
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from notchwork import jobs
from notchwork.demo import example
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Group, Stroke
from notchwork.geometry import flatten, lines
from notchwork.pages import Paper, papers
from notchwork.sewing import Nest
from notchwork_plugins.hpgl.write import write_pages

Complexes = NDArray[np.complex128]
Lines = list[Complexes]
Page = list[tuple[int, Complexes]]
"""Lines with their pens."""
Reader = Callable[[str, Path], list[Page]]

WITHIN = 0.05
"""mm"""
LIMIT = 32_767
"""HP PCL 5 Technical Reference Manual, part II, p. 17-11."""
DEMO: dict[str, Any] = json.loads(example("sound.pattern.json"))
SIZES = DEMO["sizes"]["names"]
STEPS = np.linspace(0.0, 1.0, 1001)
ETX = "\x03"

needs_hp2xx = pytest.mark.skipif(
    shutil.which("hp2xx") is None, reason="the Debian package hp2xx is not installed"
)

PROFILE = """
title = "pen of a test"
source = "made up; numbers as documented"
language = "HP-GL/2"
along = "roll"
across = 904
advance = "PG"
[pens]
cut = 1
draw = 2
"""


def by_hp2xx(text: str, folder: Path) -> list[Page]:
    """The lines (mm) on every page, moved so that all of the page begins at 0."""
    source, target = folder / "plot.hpgl", folder / "read.hpgl"
    for old in folder.glob("read*.hpgl"):
        old.unlink()
    source.write_text(text, encoding="ascii")
    subprocess.run(
        ["hp2xx", "-q", "-t", "-m", "hpgl", "-f", str(target), str(source)],
        check=True,
        capture_output=True,
        timeout=60,
    )
    found = sorted(folder.glob("read*.hpgl"), key=lambda path: int(path.stem[5:] or 0))
    return [_simple(path.read_text(encoding="ascii")) for path in found]


def _simple(text: str) -> Page:
    """What hp2xx makes of a plot: SP, PU and PD with one absolute place each, in plotter units."""
    found: Page = []
    pen = 0
    line: list[complex] = []
    for name, number in [*re.findall(r"(SP|PU|PD|PA)([-\d.,]*);", text), ("SP", "0")]:
        if name in ("SP", "PU"):
            if len(line) > 1:
                found.append((pen, np.array(line)))
            line = []
        if name == "SP":
            pen = int(number)
        elif number:
            line.append(complex(*map(float, number.split(","))) * 0.025)
    return found


class Listener(Backend):
    """What ezdxf would draw, by pen."""

    def __init__(self) -> None:
        self.lines: Page = []

    def draw_polyline(self, properties: Any, points: Iterable[Any]) -> None:
        self.lines.append((properties.pen_index, np.array([complex(p.x, p.y) for p in points]) * 0.025))

    def draw_paths(self, properties: Any, paths: Any, filled: bool) -> None:
        raise AssertionError("nothing is filled")


def by_ezdxf(text: str, folder: Path) -> list[Page]:
    """The lines (mm), sheet by sheet."""
    head, _, rest = text.partition("\n")
    pages = [page for page in re.split(r"PU;(?:PG|FR);\n|PG;\n", rest) if page.strip()]
    found = []
    for page in pages:
        listener = Listener()
        record_plotter_output(f"\x1b%0B{head}{page}".encode("ascii"), MergeControl.NONE).replay(listener)
        found.append(listener.lines)
    return found


READERS = pytest.mark.parametrize(
    "reader", [pytest.param(by_hp2xx, marks=[pytest.mark.debian("hp2xx"), needs_hp2xx]), by_ezdxf]
)


def cuts(pages: Iterable[Page]) -> Lines:
    """What pen 1 draws: outlines and notches. Names, seams, legend and test square are the other pen's."""
    return [line for page in pages for pen, line in page if pen == 1]


def plot(
    tmp_path: Path, options: Options, profile: str = PROFILE, paper: Paper | None = None, **more: str
) -> list[str]:
    """The demo plotted, each file's text."""
    device = tmp_path / "test.toml"
    device.write_text(profile, encoding="utf-8")
    done = jobs.convert_loaded(
        jobs.load(example("sound.pattern.json")),
        tmp_path / "demo.hpgl",
        drawing=options,
        paper=paper or Paper(turn="drawn"),
        options={"device": str(device), **more},
    )
    return [data.decode("ascii") for data in done.files.values()]


def net(some: Sequence[Complexes]) -> shapely.MultiLineString:
    return shapely.MultiLineString([np.column_stack([z.real, z.imag]) for z in some])


def at_zero(some: Sequence[Complexes]) -> Lines:
    z = np.concatenate(some)
    return [line - complex(z.real.min(), z.imag.min()) for line in some]


def sampled(stroke: Stroke) -> Complexes:
    """A stroke by svgpathtools, every cubic in so many steps that the chords play no part."""
    curves = [svgpathtools.CubicBezier(*cubic.tolist()) for cubic in stroke.cubics]
    return np.concatenate([curve.point(STEPS) for curve in curves])


def cut_of(piece: str, size: str) -> Lines:
    drawing = draw_pattern(
        Nest(jobs.load(example("sound.pattern.json")).sound()), Options(pieces=(piece,), sizes=(size,))
    )
    (group,) = (group for group in drawing.groups if group.name == piece)
    # x runs along the paper, so that what is upright lies on its right side.
    return [-1j * sampled(stroke) for stroke in group.strokes if stroke.meaning in ("cut", "notch")]


def stated(piece: str) -> shapely.LineString:
    """The outline of a piece in the drafted size, as its nodes stand in the document (mm)."""
    nodes = DEMO["pieces"][piece]["outline"]
    points: list[complex] = []
    for a, b in zip(nodes, nodes[1:] + nodes[:1], strict=True):
        at, end = complex(*a["at"]), complex(*b["at"])
        curve = svgpathtools.CubicBezier(
            at, complex(*a.get("out", a["at"])), complex(*b.get("in", b["at"])), end
        )
        points += curve.point(STEPS[:-1]).tolist()
    z = -1j * np.array([*points, points[0]])
    return shapely.LineString(np.column_stack([z.real, z.imag]))


@READERS
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("piece", [name for name, piece in DEMO["pieces"].items() if "flounce" not in name])
def test_cut_lines_and_notches_come_back_in_every_size(
    reader: Reader, size: str, piece: str, tmp_path: Path
) -> None:
    (text,) = plot(tmp_path, Options(pieces=(piece,), sizes=(size,)))
    drawn = cuts(reader(text, tmp_path))
    assert shapely.hausdorff_distance(net(at_zero(drawn)), net(at_zero(cut_of(piece, size)))) < WITHIN


@READERS
@pytest.mark.parametrize(
    "piece", [name for name, piece in DEMO["pieces"].items() if "outline" in piece and "like" not in piece]
)
def test_stitch_lines_are_the_outlines_of_the_document(reader: Reader, piece: str, tmp_path: Path) -> None:
    """Drawn as a cut of no allowance by a knife, without any part of the program between the document's nodes and this test."""
    knife = PROFILE.replace('"PG"', '"PG"\nknife = true')
    (text,) = plot(
        tmp_path,
        Options(pieces=(piece,), sizes=(DEMO["sizes"]["base"],), allowances=False),
        knife,
        Paper(turn="quarter"),
    )
    drawn = cuts(reader(text, tmp_path))
    outline = [
        line for line in drawn if len(line) > 2 or abs(line[1] - line[0]) > 10
    ]  # notches are short and straight
    meant = net(at_zero([_points(stated(piece))]))
    best = min(
        shapely.hausdorff_distance(net(at_zero([way * z for z in outline])), meant)
        for way in (1, -1, 1j, -1j)
    )
    assert best < WITHIN


def _points(line: shapely.LineString) -> Complexes:
    xy = shapely.get_coordinates(line)
    z: Complexes = xy[:, 0] + 1j * xy[:, 1]
    return z


@READERS
@given(long=st.floats(840, 1630), bulge=st.floats(-120, 300))
@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_plot_of_up_to_1_6_m_is_scaled_and_true(
    reader: Reader, long: float, bulge: float, tmp_path: Path
) -> None:
    """IP and SC double what ±32,767 units reach: 819.175 mm become 1,638.35. One curved side, so that corners lie anywhere."""
    corners = np.array([0, 300, 300 + 1j * long, 1j * long])
    sides = lines(corners, closed=True)
    sides[1, 1:3] += bulge
    drawing = Drawing((Group("gore", (Stroke(sides, "cut", True),), facts={"piece": "gore"}),))
    device = tmp_path / "test.toml"
    device.write_text(PROFILE, encoding="utf-8")
    written = write_pages(drawing, Paper(turn="drawn"), {"device": str(device)})
    text = written.files[".hpgl"].decode("ascii")
    assert "IP0,0,16000,16000;SC0,8000,0,8000;" in text
    assert "PS" not in text
    # What is plotted begins at 0: the chords' lowest corner, up to 0.01 mm inside the curve's.
    chords = -1j * flatten(sides, 0.01).points
    meant = [-1j * sampled(drawing.groups[0].strokes[0]) - complex(chords.real.min(), chords.imag.min())]
    drawn = cuts(reader(text, tmp_path))
    assert min(float(z.real.min()) for z in drawn) == min(float(z.imag.min()) for z in drawn) == 0.0
    assert shapely.hausdorff_distance(net(drawn), net(meant)) < WITHIN


@READERS
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("piece", ["upper_flounce", "lower_flounce", "skirt_front"])
@pytest.mark.parametrize("paper", ["A4", "A2"])
def test_parts_are_joined_by_the_crosses_at_their_corners(
    reader: Reader, piece: str, size: str, paper: str, tmp_path: Path
) -> None:
    """Page by page: the words of a label say which part it is, the crosses where it lies."""
    (text,) = plot(
        tmp_path,
        Options(pieces=(piece,), sizes=(size,)),
        paper=Paper(papers(paper), turn="drawn"),
        text="labels",
    )
    name = re.escape(DEMO["pieces"][piece]["name"])
    labels = [re.search(f"LB({name}, part [^{ETX}]*){ETX}", page) for page in text.split("PG;\n")]
    parts = [(label[1], page) for label, page in zip(labels, reader(text, tmp_path), strict=False) if label]
    assert len(parts) > 1
    joined: Lines = []
    for k, (label, page) in enumerate(parts, 1):
        at = np.array(_crosses(page))
        assert len(at) == 4
        row, column = _cell(label, k, piece, size)
        corner, step = complex(at.real.min(), at.imag.max()), complex(np.ptp(at.real), np.ptp(at.imag))
        place = complex((row - 1) * step.real, -(column - 1) * step.imag)
        joined += [line - corner + place for line in cuts([page])]
    assert shapely.hausdorff_distance(net(at_zero(joined)), net(at_zero(cut_of(piece, size)))) < WITHIN


def _cell(label: str, k: int, piece: str, size: str) -> tuple[int, int]:
    """Row and column; parts in one row or one column follow each other along the longer side of the piece."""
    if two := re.search(r"\(row (\d+) from below, column (\d+)\)", label):
        return int(two[1]), int(two[2])
    left, low, right, high = net(cut_of(piece, size)).bounds
    return (k, 1) if right - left > high - low else (1, k)


def _crosses(page: Page) -> list[complex]:
    """The middles of two strokes of 8 mm that cross."""
    arms = [z for pen, z in page if pen == 2 and len(z) == 2 and abs(abs(z[1] - z[0]) - 8.0) < 0.1]
    return [
        complex(a.mean())
        for a in arms
        for b in arms
        if abs(a.mean() - b.mean()) < 0.1 and abs((a[1] - a[0]).real) > 7 and abs((b[1] - b[0]).imag) > 7
    ]


@pytest.mark.parametrize("device", ["pen-a4", "pen-a3", "pen-a0", "roll-36in", "cutter-600", "knife-600"])
def test_every_number_of_the_whole_demo_is_within_the_limits(device: str, tmp_path: Path) -> None:
    """±32,767 without exponents, sizes of plots (PS) included (HP PCL 5 Technical Reference Manual, part II, p. 17-11)."""
    done = jobs.convert_loaded(
        jobs.load(example("sound.pattern.json")),
        tmp_path / "demo.hpgl",
        options={"device": device, "text": "labels"},
    )
    for data in done.files.values():
        text = re.sub(f"LB[^{ETX}]*{ETX};", "", data.decode("ascii"))
        assert re.fullmatch(r"(?:[A-Z]{2}(?:-?\d+(?:\.\d+)?(?:,-?\d+(?:\.\d+)?)*)?;\n?)+", text), (
            "plain commands only"
        )
        numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", text)]
        assert max(map(abs, numbers)) <= LIMIT
