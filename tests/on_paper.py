"""Drawings to be laid out, and what can be read off the sheets by somebody who has only those."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from notchwork.drawing import About, CutRow, Drawing, Group, Stroke, Text
from notchwork.geometry import flatten, lines
from notchwork.pages import Sheet, Sheets, Window
from notchwork.pages.setting.lettering import box

Complexes = NDArray[np.complex128]


def piece(name: str, outline: Complexes | Sequence[complex], *texts: Text) -> Group:
    """A piece whose cut line is a polygon."""
    stroke = Stroke(lines(np.asarray(outline), closed=True), "cut", closed=True)
    return Group(name, (stroke,), texts=texts, shift=5000 + 70j, facts={"piece": name, "name": name})


def oblong(name: str, wide: float, tall: float) -> Group:
    """A rectangle that begins somewhere."""
    return piece(name, np.array([0, wide, wide + 1j * tall, 1j * tall]) + (37 - 11j))


def drawn(*groups: Group, unit: str = "mm", title: str = "A smock") -> Drawing:
    cuts = tuple(CutRow(g.name, g.name, (f"2 × cotton of {g.name}",)) for g in groups)
    about = About("R. Seamer", "CC0-1.0", "For trying out.", ("Sew a trial garment first.",), cuts)
    return Drawing(groups, title, unit=unit, about=about)  # type: ignore[arg-type]


def outlines() -> st.SearchStrategy[Complexes]:
    """Polygons about a point, from small ones to such as take many pages."""
    radii = st.lists(st.floats(0.4, 1.0), min_size=3, max_size=9)
    return st.builds(_polygon, radii, st.floats(20.0, 320.0), st.floats(0.4, 1.0), st.floats(-500.0, 500.0))


def _polygon(radii: list[float], size: float, slim: float, off: float) -> Complexes:
    ways = np.exp(2j * np.pi * np.arange(len(radii)) / len(radii))
    z = size * np.array(radii) * ways
    return z.real + 1j * slim * z.imag + off


def drawings(most: int = 4) -> st.SearchStrategy[Drawing]:
    return st.lists(outlines(), min_size=1, max_size=most).map(
        lambda found: drawn(*(piece(f"piece {k}", z) for k, z in enumerate(found)))
    )


def windows_of(sheets: Sheets, group: int) -> list[Window]:
    return [w for sheet in sheets.sheets for w in sheet.windows if w.group == group]


def uncovered(sheets: Sheets) -> int:
    """How many points along the lines of all pieces are shown by no window."""
    missing = 0
    for k, group in enumerate(sheets.groups):
        for stroke in group.strokes:
            flat = flatten(stroke.cubics, 0.05).points
            if stroke.closed:
                flat = np.append(flat, flat[0])
            share = np.linspace(0, 1, 40)
            z = (flat[:-1, None] + share * np.diff(flat)[:, None]).ravel()
            shown = np.zeros(len(z), np.bool_)
            for w in windows_of(sheets, k):
                at = w.turn * z + w.shift
                shown |= (
                    (at.real >= w.low.real - 1e-6)
                    & (at.real <= w.high.real + 1e-6)
                    & (at.imag >= w.low.imag - 1e-6)
                    & (at.imag <= w.high.imag + 1e-6)
                )
            missing += int((~shown).sum())
    return missing


def mark_tips(sheet: Sheet) -> Iterator[complex]:
    """The points that the sheet's match marks mark: the first corners of its black triangles."""
    for stroke in sheet.marks.strokes:
        if (
            stroke.closed
            and len(stroke.cubics) == 3
            and stroke.look is not None
            and stroke.look.filling == "#000000"
        ):
            yield complex(stroke.cubics[0, 0])


def common_marks(one: Sheet, other: Sheet) -> int | None:
    """How many match marks of two sheets lie at one point of a piece that both show (to 1e-6 mm); None if both show none."""
    for w in one.windows:
        for v in other.windows:
            if w.group == v.group:
                tips = np.array([(tip - w.shift) / w.turn for tip in set(mark_tips(one))])
                others = np.array([(tip - v.shift) / v.turn for tip in set(mark_tips(other))])
                return int((np.abs(tips[:, None] - others[None, :]) < 1e-6).sum())
    return None


_PAIR = re.compile(r"([A-Z]+\d+): (?:cut here, lay on|cut here, join to|)\s*([A-Z]+\d+)(?: is laid on here)?")


def joins(sheet: Sheet) -> set[tuple[str, str]]:
    """The pairs of pages that the words along lines of joining name, the own one first."""
    found = (_PAIR.fullmatch(text.words) for text in sheet.marks.texts)
    return {(pair[1], pair[2]) for pair in found if pair}


def words_on(sheet: Sheet) -> str:
    return " ".join(text.words for text in sheet.marks.texts)


def beyond(sheet: Sheet, margin: float) -> list[object]:
    """What stands in a sheet's margins."""
    low, high = complex(margin, margin), sheet.size - complex(margin, margin)

    def out(a: complex, b: complex) -> bool:
        e = 1e-6
        return (
            a.real < low.real - e or a.imag < low.imag - e or b.real > high.real + e or b.imag > high.imag + e
        )

    found: list[object] = [text.words for text in sheet.marks.texts if out(*box(text))]
    for stroke in sheet.marks.strokes:
        z = stroke.cubics.ravel()
        if out(complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())):
            found.append(stroke)
    return found


def overlapping(sheet: Sheet) -> list[tuple[str, str]]:
    """Words that lie over other words."""
    boxes = [(text.words, *box(text)) for text in sheet.marks.texts]
    return [
        (a, b)
        for k, (a, low, high) in enumerate(boxes)
        for b, low_b, high_b in boxes[k + 1 :]
        if low.real < high_b.real
        and low_b.real < high.real
        and low.imag < high_b.imag
        and low_b.imag < high.imag
    ]


def squares_on(sheet: Sheet) -> list[float]:
    """The sides of closed squares on a sheet that are as wide as they are high, in mm."""
    found = []
    for stroke in sheet.marks.strokes:
        z = stroke.cubics.ravel()
        wide, tall = np.ptp(z.real), np.ptp(z.imag)
        is_drawn = stroke.look is not None and stroke.look.line is not None
        if is_drawn and stroke.closed and len(stroke.cubics) == 4 and abs(wide - tall) < 1e-9 and wide > 40.0:
            found.append(round(float(wide), 9))
    return sorted(found)
