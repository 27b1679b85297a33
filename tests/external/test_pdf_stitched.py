"""What comes out of the printer, laid together by its match marks or edge to edge, is the pattern to 0.2 mm.

The judge is outside of the program: poppler prints the pages at 300 dpi, the marks are found in the pixels alone and the pages laid
together by them (tests/pdf_pixels.py). The lines are those of the SVG drawing as svgpathtools reads them; that these are the open
file's own is held against its nodes here. Only the first page that shows a piece says where on it the piece lies.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import svgpathtools
from lxml import etree
from numpy.typing import NDArray
from pdf_pixels import (
    PX,
    Ink,
    Join,
    Laid,
    beside,
    islands,
    joins,
    laid_on,
    marks,
    page_of,
    settled,
    squares,
    stitched,
)
from scipy.spatial import cKDTree

from notchwork import jobs
from notchwork.draw import draw_pattern
from notchwork.pages import Paper, Sheets, papers
from notchwork.pages.laid_out import laid_out
from notchwork.sewing import Nest

WITHIN = 0.2
"""mm: no printed line lies further from where it should."""
APART = 2.5
"""mm: lines nearer to each other than this are not told apart in the pixels."""
SAME, MOST_NEAR = 0.02, 60
"""mm: lines nearer than this are one; and as many places of other lines are looked at."""
STEP = 1.0
"""mm: from one place to the next along a line."""
MARGIN, DEEP = 10.0, 2.0
"""mm: what the printer leaves free, and how far inside of that a line is looked at."""
LEAST, FEW = 0.1, 50
"""The share of places at which a line must be found: dots and dashes leave some out. Told where there are so many places."""
KINDS = ("cut", "stitch")

pytestmark = [
    pytest.mark.slow,
    pytest.mark.debian("poppler-utils"),
    pytest.mark.skipif(
        shutil.which("pdftoppm") is None, reason="the Debian package poppler-utils is not installed"
    ),
]


@dataclass(frozen=True)
class Line:
    """Points (mm) of a line of a piece in its own coordinates, with its normals."""

    kind: str
    size: str
    at: NDArray[np.complex128]
    normal: NDArray[np.complex128]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    path = folder / "demo.pattern.json"
    from notchwork.demo import example

    path.write_bytes(example("sound.pattern.json"))
    jobs.convert(path, folder / "demo.svg")
    return path


@pytest.fixture(scope="module")
def lines(demo: Path) -> Mapping[str, Sequence[Line]]:
    """The cut and stitch lines of every piece."""
    root = etree.parse(demo.with_suffix("").with_suffix(".svg")).getroot()
    found: dict[str, list[Line]] = {}
    for group in root.iter("{*}g"):
        if (name := group.get("data-group")) is None or name == "legend":
            continue
        x, y = map(float, group.get("data-shift").split())
        for path in group.iter("{*}path"):
            if (kind := path.get("data-meaning")) in KINDS:
                found.setdefault(name, []).append(
                    _line(
                        kind, path.get("data-size", ""), svgpathtools.parse_path(path.get("d")), complex(x, y)
                    )
                )
    return found


def _line(kind: str, size: str, path: Any, origin: complex) -> Line:
    at, normal = [], []
    for segment in path:
        count = max(2, int(segment.length() / STEP))
        t = (np.arange(count) + 0.5) / count
        curve = segment.poly()
        along = curve.deriv()(t)
        # y is turned upward.
        at.append(np.conj(curve(t) - origin))
        normal.append(np.conj(along / np.abs(along)) * 1j)
    return Line(kind, size, np.concatenate(at), np.concatenate(normal))


def test_the_lines_that_are_looked_for_are_the_documents_own(
    demo: Path, lines: Mapping[str, Sequence[Line]]
) -> None:
    """The drafted size of every piece that has its own outline, node by node as it stands in the open file."""
    document = json.loads(demo.read_text("utf-8"))
    base = document["sizes"]["base"]
    compared = 0
    for name, piece in document["pieces"].items():
        nodes = piece.get("outline") or piece.get("outlines", {}).get(base)
        if nodes is None:
            continue
        drawn = [line for line in lines[name] if line.kind == "stitch" and line.size in (base, "")]
        at = np.concatenate([line.at for line in drawn])
        normal = np.concatenate([line.normal for line in drawn])
        tree = cKDTree(np.stack([at.real, at.imag], axis=1))
        for a, b in zip(nodes, nodes[1:] + nodes[:1], strict=True):
            start, end = complex(*a["at"]), complex(*b["at"])
            out, into = (
                complex(*n[key]) if key in n else complex(*n["at"]) for n, key in ((a, "out"), (b, "in"))
            )
            curve = svgpathtools.CubicBezier(start, out, into, end)
            middle = curve.point(0.37)
            away, k = tree.query([middle.real, middle.imag])
            off = ((middle - at[k]) / normal[k]).real
            # A fold of a half is drawn as a fold.
            if a.get("edge") not in {
                key for key, edge in piece.get("edges", {}).items() if edge and edge.get("fold")
            }:
                assert away <= STEP, (name, a)
                assert abs(off) < 0.01, (name, a)
                compared += 1
    assert compared > 40


@pytest.mark.parametrize(("paper", "fewest"), [("A4", 60), ("Letter", 60), ("A0", 1)])
def test_pages_laid_together_by_their_marks_are_the_pattern(
    paper: str, fewest: int, demo: Path, lines: Mapping[str, Sequence[Line]], tmp_path: Path
) -> None:
    """``fewest``: sides at which pages are joined; the lower flounce is longer than A0."""
    pdf = tmp_path / "demo.pdf"
    chosen = Paper(papers(paper))
    jobs.convert(demo, pdf, paper=chosen)
    sheets = laid_out(draw_pattern(Nest(jobs.load(demo).sound())), chosen)
    every = joins(pdf)
    assert len(every) >= 2 * fewest
    together = islands(every)
    joined = {page for island in together for page in island}
    alone = [[k] for k, sheet in enumerate(sheets.sheets) if sheet.windows and k not in joined]
    worst: dict[str, float] = {}
    for island in [*together, *alone]:
        pages = {k: page_of(pdf, k + 1) for k in island}
        talls = {k: sheets.sheets[k].size.imag for k in island}
        found = {k: marks(pages[k], talls[k]) for k in island} if len(island) > 1 else {}
        laid = stitched(island, every, found)
        printed = on_table(sheets, island, laid, lines)
        for name in printed:
            at, normal, off, seen = measured(name, printed, pages, talls, laid, found)
            assert min(seen.values()) > LEAST, f"{name}: {seen}"
            worst[name] = float(np.nanmax(np.abs(laid_on(at, normal, off))))
    print(paper, {name: round(off, 3) for name, off in worst.items()})
    assert set(worst) == set(lines)
    assert max(worst.values()) <= WITHIN, worst


def test_pages_trimmed_and_put_edge_to_edge_are_the_pattern(
    demo: Path, lines: Mapping[str, Sequence[Line]], tmp_path: Path
) -> None:
    """No mark is looked at: what is left inside the margins of one page goes on at once inside those of the next."""
    pdf = tmp_path / "demo.pdf"
    chosen = Paper(papers("A4"), join="butt", margin=MARGIN)
    jobs.convert(demo, pdf, paper=chosen)
    sheets = laid_out(draw_pattern(Nest(jobs.load(demo).sound())), chosen)
    every = joins(pdf)
    assert len(every) >= 120
    worst: dict[str, float] = {}
    for island in islands(every):
        pages = {k: page_of(pdf, k + 1) for k in island}
        talls = {k: sheets.sheets[k].size.imag for k in island}
        low = complex(MARGIN, MARGIN)
        high = sheets.sheets[island[0]].size - low
        laid = edge_to_edge(island, every, high - low)
        at = {"left": low, "below": low, "right": high, "above": high}
        cuts = {k: {side: [at[side]] for page, side, _ in every if page == k} for k in island}
        printed = on_table(sheets, island, laid, lines)
        for name in printed:
            _, _, off, seen = measured(name, printed, pages, talls, laid, cuts)
            assert min(seen.values()) > LEAST, f"{name}: {seen}"
            worst[name] = float(np.nanmax(np.abs(off)))
    print({name: round(off, 3) for name, off in worst.items()})
    assert set(worst) <= set(lines)
    assert len(worst) > 8
    assert max(worst.values()) <= WITHIN, worst


def edge_to_edge(island: Sequence[int], every: Sequence[Join], cell: complex) -> dict[int, Laid]:
    """Pages side by side and one below another, as the words on them say, at the distance of what is printed."""
    steps = {"left": -cell.real, "right": cell.real, "above": 1j * cell.imag, "below": -1j * cell.imag}
    laid = {island[0]: Laid(1 + 0j, 0j)}
    todo = [island[0]]
    while todo:
        page = todo.pop()
        for one, side, other in every:
            if one == page:
                there = laid[page].shift + steps[side]
                if other not in laid:
                    laid[other] = Laid(1 + 0j, there)
                    todo.append(other)
                assert abs(laid[other].shift - there) < 1e-9, f"pages {one + 1} and {other + 1}"
    return laid


def on_table(
    sheets: Sheets, island: Sequence[int], laid: Mapping[int, Laid], lines: Mapping[str, Sequence[Line]]
) -> dict[str, list[Line]]:
    """The lines of every piece where they should lie on the table, by what the first page that shows the piece says of it."""
    found: dict[str, list[Line]] = {}
    for k in island:
        for window in sheets.sheets[k].windows:
            name = sheets.groups[window.group].name
            if name not in found:
                turn = laid[k].turn * window.turn
                shift = laid[k].on_table(window.shift)
                found[name] = [
                    Line(line.kind, line.size, turn * line.at + shift, turn * line.normal)
                    for line in lines[name]
                ]
    return found


def measured(
    name: str,
    printed: Mapping[str, Sequence[Line]],
    pages: Mapping[int, Ink],
    talls: Mapping[int, float],
    laid: Mapping[int, Laid],
    marks: Mapping[int, Mapping[str, Sequence[complex]]],
) -> tuple[NDArray[np.complex128], NDArray[np.complex128], NDArray[np.float64], dict[str, float]]:
    """Points of a piece's lines, their normals, and how far along them a line is printed, NaN where that cannot be told; and the
    share of places at which it could, by kind and size."""
    lines = printed[name]
    strangers = [line.at for other, its in printed.items() if other != name for line in its]
    off: list[NDArray[np.float64]] = []
    seen: dict[str, list[bool]] = {}
    for line in lines:
        others = np.concatenate([*strangers, *(other.at for other in lines if other is not line), [1e9]])
        clear = _alone(line, others)
        found = np.full(len(line.at), np.inf)
        for page, here in _shown(line, pages, talls, laid, marks).items():
            chosen = here[clear[here]]
            z, n = laid[page].on_page(line.at[chosen]), line.normal[chosen] / laid[page].turn
            found[chosen] = beside(pages[page], talls[page], z, n)
        seen.setdefault(f"{line.kind} {line.size}", []).extend((~np.isnan(found[found != np.inf])).tolist())
        off.append(settled(np.where(found == np.inf, np.nan, found)))
    shares = {kind: float(np.mean(share)) for kind, share in seen.items() if len(share) >= FEW}
    at, normal = (np.concatenate([getattr(line, part) for line in lines]) for part in ("at", "normal"))
    return at, normal, np.concatenate(off), shares


def _alone(line: Line, others: NDArray[np.complex128]) -> NDArray[np.bool_]:
    """At which points no other line is so near that it may be taken for this one; lines of other sizes in the same place may."""
    tree = cKDTree(np.stack([others.real, others.imag], axis=1))
    places = np.stack([line.at.real, line.at.imag], axis=1)
    near = tree.query(places, k=MOST_NEAR, distance_upper_bound=APART)[1]
    away = np.append(others, 0)[near] - line.at[:, None]
    away[near == len(others)] = 0.0
    alone: NDArray[np.bool_] = (np.abs((away * line.normal[:, None].conj()).real) < SAME).all(axis=1)
    return alone


def _shown(
    line: Line,
    pages: Mapping[int, Ink],
    talls: Mapping[int, float],
    laid: Mapping[int, Laid],
    marks: Mapping[int, Mapping[str, Sequence[complex]]],
) -> dict[int, NDArray[np.intp]]:
    """For each page which points it shows best: the deepest inside its margins, and away from its lines of joining."""
    best, depth = np.full(len(line.at), -1), np.full(len(line.at), MARGIN + DEEP)
    for page, ink in pages.items():
        wide, z = ink.shape[1] * PX, laid[page].on_page(line.at)
        inside = np.min([z.real, wide - z.real, z.imag, talls[page] - z.imag], axis=0)
        for side, points in marks.get(page, {}).items():
            across = np.real if side in ("left", "right") else np.imag
            inside[np.abs(across(z) - across(np.mean(points))) < APART] = 0.0
        deeper = inside > depth
        best[deeper], depth[deeper] = page, inside[deeper]
    return {page: np.flatnonzero(best == page) for page in pages}


@pytest.mark.parametrize("paper", ["A4", "Letter", "A0"])
def test_the_test_squares_measure_what_they_say(paper: str, demo: Path, tmp_path: Path) -> None:
    """At 300 dpi 100 mm are 1181.1 pixels and 4 in are 1200, from the middle of a line to the middle of the one opposite."""
    pdf = tmp_path / "demo.pdf"
    jobs.convert(demo, pdf, paper=Paper(papers(paper)))
    first = page_of(pdf, 1)
    for pixels in (100 / 25.4 * 300, 4 * 300):
        found = squares(first, pixels)
        assert len(found) == 1
        assert all(abs(side - pixels) <= 1.0 for side in found[0])
