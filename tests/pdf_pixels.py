"""Printed pages as pixels: rendered by poppler, their match marks found in the pixels alone, and laid together by them.

A match mark (notchwork.pages.joining.marks has the definition): two filled triangles that touch with one corner on the line of joining, 4 mm to
either side of it, as wide at their ends as they are high.
"""

from __future__ import annotations

import re
import subprocess
import xml.etree.ElementTree as ElementTree
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage, signal

DPI = 300
PX = 25.4 / DPI
"""mm from pixel to pixel."""
HALF = 4.0 / PX
"""Pixels: how far a mark reaches to either side of its line."""
COARSE = 4

Ink = NDArray[np.uint8]
"""How dark pixels are, 0 to 255, by row and column."""
Join = tuple[int, str, int]
"""A page, its side, and the page that is joined to it there."""
OPPOSITE = {"left": "right", "right": "left", "above": "below", "below": "above"}


def page_of(pdf: Path, number: int) -> Ink:
    """A page (from 1), rendered by poppler in greys."""
    done = subprocess.run(
        ["pdftoppm", "-r", str(DPI), "-gray", "-f", str(number), "-l", str(number), str(pdf)],
        capture_output=True,
        check=True,
    )
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", done.stdout)
    assert head is not None, done.stderr
    grey = np.frombuffer(done.stdout, np.uint8, offset=head.end()).reshape(int(head[2]), int(head[1]))
    return 255 - grey


# -- where things are on a page, in mm from its lower left corner ------------------------------------------


def in_mm(row: float, column: float, tall: float) -> complex:
    """The middle of a pixel; ``tall`` is the page's height in mm."""
    return complex((column + 0.5) * PX, tall - (row + 0.5) * PX)


def in_pixels(z: NDArray[np.complex128], tall: float) -> NDArray[np.float64]:
    """Rows and columns (2, n) of points."""
    return np.array([(tall - z.imag) / PX - 0.5, z.real / PX - 0.5])


# -- match marks --------------------------------------------------------------------------------------------


@cache
def _hourglass(half: float) -> NDArray[np.float32]:
    """A mark on a level line: what a page weighs under it is 1 where a mark is, and 0 where all is alike."""
    reach = np.arange(-np.ceil(half) - 2, np.ceil(half) + 3)
    y, x = np.meshgrid(reach, reach, indexing="ij")
    dark = (np.abs(x) <= np.abs(y) / 2) & (np.abs(y) <= half)
    return np.where(dark, 1 / dark.sum(), -1 / (~dark).sum()).astype(np.float32)


def marks(page: Ink, tall: float) -> dict[str, list[complex]]:
    """The points (mm) of a page's match marks by side, from the left or from below."""
    rows, columns = (size // COARSE * COARSE for size in page.shape)
    small = (
        page[:rows, :columns].reshape(rows // COARSE, COARSE, columns // COARSE, COARSE).mean((1, 3)) / 255
    )
    found: dict[str, list[complex]] = {}
    for level in (True, False):
        seen = small if level else small.T
        glass = _hourglass(HALF / COARSE)
        fit = signal.oaconvolve(seen, glass[::-1, ::-1], mode="same")
        peaks = (fit > 0.5) & (fit == ndimage.maximum_filter(fit, size=2 * glass.shape[0]))
        for row, column in np.argwhere(peaks):
            near = ((row + 0.5) * COARSE - 0.5, (column + 0.5) * COARSE - 0.5)
            if (point := _point(page if level else page.T, *near)) is None:
                continue
            row_at, column_at = point
            z = in_mm(row_at, column_at, tall) if level else in_mm(column_at, row_at, tall)
            wide = page.shape[1] * PX
            if level:
                side = "above" if z.imag > tall / 2 else "below"
            else:
                side = "right" if z.real > wide / 2 else "left"
            found.setdefault(side, []).append(z)
    return {side: sorted(points, key=lambda z: z.real + z.imag) for side, points in found.items()}


def _point(page: Ink, row: float, column: float) -> tuple[float, float] | None:
    """Where the triangles of a mark on a level line touch; None if it is no mark.

    Their sides are two lines through that point, row = ±2 column. Each of the four sides is where most rows see it, and one of
    them may be hidden, so that lines and words of the pattern that cross the mark do no harm.
    """
    falling, rising = [], []
    for way in (-1, 1):
        rows = [round(row) + way * step for step in range(8, int(HALF) - 3)]
        if not (min(rows) >= 0 and max(rows) < len(page) and 0 < column < page.shape[1] - 1):
            return None
        left = [_edge(page[y], round(column), -1) for y in rows]
        right = [_edge(page[y], round(column), 1) for y in rows]
        # Above the point its left side falls to the right, below the point its right side does.
        falling.append([x - y / 2 for x, y in zip(left if way < 0 else right, rows, strict=True)])
        rising.append([x + y / 2 for x, y in zip(right if way < 0 else left, rows, strict=True)])
    down, up = ([x for side in sides if (x := _most(side)) is not None] for sides in (falling, rising))
    if len(down) + len(up) < 3:
        return None
    a, b = float(np.mean(down)), float(np.mean(up))
    return b - a, (a + b) / 2


def _edge(line: Ink, column: int, way: int) -> float:
    """Where, from a column on, the first dark run ends: where it is half dark."""
    half = 127.5
    while 0 < column < len(line) - 1 and line[column + way] >= half:
        column += way
    beyond = column + way
    if not 0 <= beyond < len(line) or line[column] < half:
        return float("nan")
    last, next_one = float(line[column]), float(line[beyond])
    return column + way * (last - half) / (last - next_one)


def _most(said: Sequence[float], within: float = 0.8) -> float | None:
    """The mean of the largest set of numbers that lie so near together; None if it is not a third of them."""
    found = np.sort([one for one in said if one == one])
    last = np.searchsorted(found, found + within, side="right")
    if not len(found) or (last - np.arange(len(found))).max() < len(said) / 3:
        return None
    first = int(np.argmax(last - np.arange(len(found))))
    return float(found[first : last[first]].mean())


# -- which page is joined to which, by the words on them ----------------------------------------------------------


def joins(pdf: Path) -> list[Join]:
    """What the words along the lines of joining say: "A1: B1 is laid on here". Pages count from 0; words are read by poppler."""
    done = subprocess.run(["pdftotext", "-bbox-layout", str(pdf), "-"], capture_output=True, check=True)
    space = "{http://www.w3.org/1999/xhtml}"
    said: list[tuple[int, str, str, str]] = []
    own: dict[str, int] = {}
    for k, page in enumerate(ElementTree.fromstring(done.stdout).iter(f"{space}page")):
        wide, tall = float(page.attrib["width"]), float(page.attrib["height"])
        for line in page.iter(f"{space}line"):
            words = [word.text or "" for word in line.iter(f"{space}word")]
            if len(words) < 3 or not re.fullmatch(r"[A-Z]+\d+:", words[0]):
                continue
            other = [word for word in words[1:] if re.fullmatch(r"[A-Z]+\d+", word)]
            box = {key: float(line.attrib[key]) for key in ("xMin", "xMax", "yMin", "yMax")}
            free = {
                "left": box["xMin"] / wide,
                "right": 1 - box["xMax"] / wide,
                "above": box["yMin"] / tall,
                "below": 1 - box["yMax"] / tall,
            }
            upright = box["yMax"] - box["yMin"] > box["xMax"] - box["xMin"]
            side = min(("left", "right") if upright else ("above", "below"), key=free.__getitem__)
            own[words[0][:-1]] = k
            said.append((k, side, words[0][:-1], other[0]))
    return [(k, side, own[other]) for k, side, _, other in said]


# -- laying pages together ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Laid:
    """Where a page lies on the table: its point z at ``turn * z + shift``."""

    turn: complex
    shift: complex

    def on_table(self, z: Any) -> Any:
        return self.turn * z + self.shift

    def on_page(self, z: Any) -> Any:
        return (z - self.shift) / self.turn


def islands(every: Sequence[Join]) -> list[list[int]]:
    """The pages that hang together, each set in order."""
    beside: dict[int, set[int]] = {}
    for a, _, b in every:
        beside.setdefault(a, set()).add(b)
        beside.setdefault(b, set()).add(a)
    left, found = set(beside), []
    while left:
        todo, done = [min(left)], set()
        while todo:
            page = todo.pop()
            if page not in done:
                done.add(page)
                todo += beside[page]
        left -= done
        found.append(sorted(done))
    return found


def stitched(
    pages: Sequence[int], every: Sequence[Join], seen: Mapping[int, Mapping[str, list[complex]]]
) -> dict[int, Laid]:
    """The pages laid together, the first as it is: all marks of all joins as near each other as can be (least squares)."""
    column = {page: 3 * k for k, page in enumerate(pages)}
    rows: list[NDArray[np.float64]] = []
    wanted: list[float] = []
    for a, side, b in every:
        if a not in column or a > b:
            continue
        mine, theirs = seen[a].get(side, []), seen[b].get(OPPOSITE[side], [])
        assert len(mine) == len(theirs) == 2, (
            f"pages {a + 1} and {b + 1} have {len(mine)} and {len(theirs)} marks"
        )
        for p, q in zip(mine, theirs, strict=True):
            # A page turned by a little angle t lies at z + i t z + shift.
            for part in (np.real, np.imag):
                row = np.zeros(3 * len(pages))
                for page, z, sign in ((a, p, 1), (b, q, -1)):
                    row[column[page] : column[page] + 3] = [sign * float(part(v)) for v in (1j * z, 1, 1j)]
                rows.append(row)
                wanted.append(float(part(q - p)))
    if len(pages) == 1:
        return {pages[0]: Laid(1 + 0j, 0j)}
    fixed = np.array(rows)[:, 3:]
    solved = np.concatenate([np.zeros(3), np.linalg.lstsq(fixed, np.array(wanted), rcond=None)[0]])
    return {
        page: Laid(complex(np.exp(1j * solved[k])), complex(solved[k + 1], solved[k + 2]))
        for page, k in column.items()
    }


# -- what is printed where a line should be -------------------------------------------------------------------------


def beside(
    page: Ink,
    tall: float,
    at: NDArray[np.complex128],
    normal: NDArray[np.complex128],
    reach: float = 1.5,
    widest: float = 0.9,
) -> NDArray[np.float64]:
    """How far (mm, along the normal) the one printed line lies from each point; NaN where there is none, or not one alone.

    ``reach``: how far is looked to either side; ``widest``: wider than this, it is a crossing or a letter.
    """
    steps = np.arange(-reach, reach + 1e-9, PX / 2)
    where = at[:, None] + normal[:, None] * steps
    places = in_pixels(where.ravel(), tall)
    darkness = ndimage.map_coordinates(page, places, np.float32, order=1, cval=0.0).reshape(where.shape) / 255
    darkness[darkness < 0.1] = 0
    found = np.full(len(at), np.nan)
    for k, profile in enumerate(darkness):
        dark = np.flatnonzero(profile)
        if not len(dark) or profile.max() < 0.5:
            continue
        if (
            dark[-1] - dark[0] + 1 == len(dark)
            and len(dark) * PX / 2 <= widest
            and dark[0] > 0
            and dark[-1] < len(steps) - 1
        ):
            found[k] = float((profile * steps).sum() / profile.sum())
    return found


def settled(off: NDArray[np.float64], places: int = 7) -> NDArray[np.float64]:
    """The same, each the median of what was found at so many places next to it along the line: a line that crosses another, or a
    letter between dashes, is met at one or two. A page that lies wrong is so over all its length."""
    found = np.flatnonzero(~np.isnan(off))
    result = np.full(len(off), np.nan)
    if len(found) >= places:
        windows = np.lib.stride_tricks.sliding_window_view(off[found], places)
        result[found[places // 2 : len(found) - places // 2]] = np.median(windows, axis=1)
    return result


def laid_on(
    at: NDArray[np.complex128], normal: NDArray[np.complex128], off: NDArray[np.float64]
) -> NDArray[np.float64]:
    """What is left of ``off`` once the lines are laid on what is printed as well as can be, moved and turned but not stretched."""
    seen = ~np.isnan(off)
    z = at[seen] - at[seen].mean()
    n = normal[seen]
    # A step d and a little turn t move a point by d + i t z, of which the part along the normal shows.
    moves = np.stack([n.real, n.imag, (1j * z * n.conj()).real], axis=1)
    best = np.linalg.lstsq(moves, off[seen], rcond=None)[0]
    left = off.copy()
    left[seen] -= moves @ best
    return left


# -- squares ---------------------------------------------------------------------------------------------------------


def squares(page: Ink, about: float, fuzz: int = 3) -> list[tuple[float, float]]:
    """Width and height in pixels, between the middles of their lines, of all squares about so large."""
    upright, level = _lines(page.T, about - 4 * fuzz), _lines(page, about - 4 * fuzz)
    found = []
    for left, top, bottom in upright:
        for right, top_too, bottom_too in upright:
            if (
                abs(right - left - about) > fuzz
                or abs(top - top_too) > fuzz
                or abs(bottom - bottom_too) > fuzz
            ):
                continue
            for over, start, end in level:
                for under, start_too, end_too in level:
                    ends = abs(start - start_too) <= fuzz and abs(end - end_too) <= fuzz
                    corner = abs(over - top) <= 2 * fuzz and abs(start - left) <= 2 * fuzz
                    if ends and corner and abs(under - over - about) <= fuzz:
                        found.append((right - left, under - over))
    return found


def _lines(page: Ink, least: float) -> list[tuple[float, int, int]]:
    """Level lines of at least so many pixels: the row of their middle, and the columns of their ends."""
    dark = np.ascontiguousarray(page > 76)
    lines: list[list[tuple[int, int, int]]] = []
    for row in np.flatnonzero(np.count_nonzero(dark, axis=1) >= least).tolist():
        turns = np.flatnonzero(np.diff(dark[row], prepend=False, append=False))
        for start, stop in zip(turns[::2].tolist(), turns[1::2].tolist(), strict=True):
            if stop - start < least:
                continue
            for line in lines:
                above, left, right = line[-1]
                if row == above + 1 and min(stop, right) > max(start, left):
                    line.append((row, start, stop))
                    break
            else:
                lines.append([(row, start, stop)])
    return [_middle(page, line) for line in lines]


def _middle(page: Ink, line: Sequence[tuple[int, int, int]]) -> tuple[float, int, int]:
    rows, starts, stops = zip(*line, strict=True)
    first, end = rows[0] - 3, rows[-1] + 4
    long = min(stops) - max(starts)
    across = page[first:end, max(starts) + long // 4 : min(stops) - long // 4]
    darkness = np.median(across, axis=1)
    return float((darkness * np.arange(first, end)).sum() / darkness.sum()), min(starts), max(stops)
