"""What comes out of the printer, laid together by its match marks, is the pattern to 0.2 mm.

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
from pdf_pixels import Ink, Laid, beside, islands, joins, laid_on, marks, page_of, settled, squares, stitched
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


@pytest.mark.parametrize(("paper", "fewest"), [("A4", 10), ("Letter", 10), ("A0", 1)])
def test_pages_laid_together_by_their_marks_are_the_pattern(
    paper: str, fewest: int, demo: Path, lines: Mapping[str, Sequence[Line]], tmp_path: Path
) -> None:
    """``fewest``: sets of pages that are joined; the lower flounce is longer than A0."""
    pdf = tmp_path / "demo.pdf"
    chosen = Paper(papers(paper))
    jobs.convert(demo, pdf, paper=chosen)
    sheets = laid_out(draw_pattern(Nest(jobs.load(demo).sound())), chosen)
    every = joins(pdf)
    together = islands(every)
    assert len(together) >= fewest
    joined = {page for island in together for page in island}
    alone = [[k] for k, sheet in enumerate(sheets.sheets) if sheet.windows and k not in joined]
    worst: dict[str, float] = {}
    for island in [*together, *alone]:
        pages = {k: page_of(pdf, k + 1) for k in island}
        talls = {k: sheets.sheets[k].size.imag for k in island}
        found = {k: marks(pages[k], talls[k]) for k in island} if len(island) > 1 else {}
        laid = stitched(island, every, found)
        for group in sorted({window.group for k in island for window in sheets.sheets[k].windows}):
            name = sheets.groups[group].name
            at, normal, off, seen = measured(sheets, group, island, pages, laid, lines[name])
            assert min(seen.values()) > LEAST, f"{name}: {seen}"
            worst[name] = float(np.nanmax(np.abs(laid_on(at, normal, off))))
    print(paper, {name: round(off, 3) for name, off in worst.items()})
    assert set(worst) == set(lines)
    assert max(worst.values()) <= WITHIN, worst


def measured(
    sheets: Sheets,
    group: int,
    island: Sequence[int],
    pages: Mapping[int, Ink],
    laid: Mapping[int, Laid],
    lines: Sequence[Line],
) -> tuple[NDArray[np.complex128], NDArray[np.complex128], NDArray[np.float64], dict[str, float]]:
    """Points of a piece's lines on the table, their normals, and how far along them a line is printed, NaN where that cannot be
    told; and the share of places at which it could, by kind and size."""
    first, window = next((k, w) for k in island for w in sheets.sheets[k].windows if w.group == group)
    at = [laid[first].on_table(window.turn * line.at + window.shift) for line in lines]
    normal = [laid[first].turn * window.turn * line.normal for line in lines]
    off = [
        _printed(
            sheets, island, pages, laid, at[k], normal[k], np.concatenate([*at[:k], *at[k + 1 :], [1e9]])
        )
        for k in range(len(lines))
    ]
    seen: dict[str, list[bool]] = {}
    for line, one in zip(lines, off, strict=True):
        seen.setdefault(f"{line.kind} {line.size}", []).extend((~np.isnan(one[one != np.inf])).tolist())
    shares = {name: float(np.mean(share)) for name, share in seen.items() if len(share) >= FEW}
    whole = np.concatenate([settled(np.where(one == np.inf, np.nan, one)) for one in off])
    return np.concatenate(at), np.concatenate(normal), whole, shares


def _printed(
    sheets: Sheets,
    island: Sequence[int],
    pages: Mapping[int, Ink],
    laid: Mapping[int, Laid],
    at: NDArray[np.complex128],
    normal: NDArray[np.complex128],
    others: NDArray[np.complex128],
) -> NDArray[np.float64]:
    """How far from its points one line is printed; infinite where another line is too near for that."""
    tree = cKDTree(np.stack([others.real, others.imag], axis=1))
    near = tree.query(np.stack([at.real, at.imag], axis=1), k=MOST_NEAR, distance_upper_bound=APART)[1]
    # Lines of other sizes that run in the same place do no harm.
    away = np.append(others, 0)[near] - at[:, None]
    away[near == len(others)] = 0.0
    clear = (np.abs((away * normal[:, None].conj()).real) < SAME).all(axis=1)
    best, depth = np.full(len(at), -1), np.full(len(at), MARGIN + DEEP)
    for page in island:
        size, z = sheets.sheets[page].size, laid[page].on_page(at)
        inside = np.min([z.real, size.real - z.real, z.imag, size.imag - z.imag], axis=0)
        deeper = inside > depth
        best[deeper], depth[deeper] = page, inside[deeper]
    off = np.where(clear & (best >= 0), np.nan, np.inf)
    for page in island:
        here = np.flatnonzero((best == page) & clear)
        if len(here):
            z, n = laid[page].on_page(at[here]), normal[here] / laid[page].turn
            off[here] = beside(pages[page], sheets.sheets[page].size.imag, z, n)
    return off


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
