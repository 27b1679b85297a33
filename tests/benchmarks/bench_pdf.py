"""Writing 60 tiles of a drawing that is placed once, against reportlab with a form object; and how the cost of a page grows.

Both draw the same curves in one form, show it through the same windows, and draw the same marks on each page. No words are drawn,
so that neither embeds a font, and the sheets are arranged beforehand.

Run: python tests/benchmarks/bench_pdf.py
"""

from __future__ import annotations

import io
import json
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1]))
from big_pattern import panels
from patterns import case

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Drawing, Group, Stroke, line_style
from notchwork.pages import Sheet, Sheets, Window
from notchwork.pages.setting.ink import Pen
from notchwork.sewing import Nest
from notchwork_plugins.pdf.document import as_pdf
from notchwork_plugins.pdf.fonts import Faces

ROUNDS = 7
PAGES = (6, 10)
POINT = 72 / 25.4
SIZE, LOW, HIGH, STEP = 210 + 297j, 10 + 10j, 200 + 287j, 180 + 267j
"""mm: A4, what is printed of it, and from tile to tile."""


def one_group(drawing: Drawing) -> Group:
    """All lines of a drawing as one group, its words left out."""
    strokes = [
        replace(stroke, cubics=stroke.cubics + group.shift)
        for group in drawing.groups
        for stroke in group.strokes
    ]
    return Group("all", tuple(strokes))


def tiled(drawing: Drawing, pages: tuple[int, int] = PAGES) -> Sheets:
    """A grid of tiles (columns, rows) that all show one group, each with its lines of joining and eight match marks."""
    group = one_group(drawing)
    low, _ = group.bounds or (0j, 0j)
    sheets = []
    for row in range(pages[1]):
        for column in range(pages[0]):
            shift = LOW - low - complex(column * STEP.real, row * STEP.imag)
            sheets.append(Sheet(SIZE, (Window(0, 1 + 0j, shift, LOW, HIGH),), marks(), f"{column}.{row}"))
    return Sheets(drawing, (group,), tuple(sheets))


def marks() -> Group:
    pen = Pen()
    low, high = LOW + 5 + 5j, HIGH - 5 - 5j
    corners = [low, complex(high.real, low.imag), high, complex(low.real, high.imag)]
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        pen.line(start, end, width=0.2)
        along = (end - start) / abs(end - start)
        for share in (0.25, 0.75):
            at = start + share * (end - start)
            for side in (1j, -1j):
                base = at + 4 * side * along
                pen.filled(at, base + 2 * along, base - 2 * along)
    return pen.group()


def by_reportlab(sheets: Sheets) -> bytes:
    """The same pages."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(SIZE.real * POINT, SIZE.imag * POINT), pageCompression=1, invariant=1)
    (group,) = sheets.groups
    low, high = group.bounds or (0j, 0j)
    canvas.beginForm("all", low.real - 1, low.imag - 1, high.real + 1, high.imag + 1)
    for stroke in group.strokes:
        draw(canvas, stroke, sheets.drawing)
    canvas.endForm()
    for sheet in sheets.sheets:
        canvas.saveState()
        canvas.scale(POINT, POINT)
        for window in sheet.windows:
            canvas.saveState()
            size = window.high - window.low
            clip = canvas.beginPath()
            clip.rect(window.low.real, window.low.imag, size.real, size.imag)
            canvas.clipPath(clip, stroke=0, fill=0)
            canvas.translate(window.shift.real, window.shift.imag)
            canvas.doForm("all")
            canvas.restoreState()
        for stroke in sheet.marks.strokes:
            draw(canvas, stroke, sheets.drawing)
        canvas.restoreState()
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def draw(canvas: Canvas, stroke: Stroke, drawing: Drawing) -> None:
    look = stroke.look
    style = line_style(stroke.meaning, str(stroke.facts.get("size")), drawing.sizes, drawing.base)
    line, filling = look is None or look.line is not None, look is not None and look.filling is not None
    if filling:
        canvas.setFillGray(0)
    if line:
        canvas.setStrokeGray(0)
        canvas.setLineWidth(style.width if look is None else look.width)
        canvas.setDash(*([style.dashes] if look is None and style.dashes else []))
    path = canvas.beginPath()
    at = None
    for start, out, into, end in stroke.cubics.tolist():
        if start != at:
            path.moveTo(start.real, start.imag)
        if out == start and into == end:
            path.lineTo(end.real, end.imag)
        else:
            path.curveTo(out.real, out.imag, into.real, into.imag, end.real, end.imag)
        at = end
    if stroke.closed:
        path.close()
    canvas.drawPath(path, stroke=int(line), fill=int(filling))


def best(do: Callable[[], object]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        do()
        times.append(time.process_time() - start)
    return min(times)


def drawing_of(document: bytes) -> Drawing:
    pattern = read_pattern(document, "test").pattern
    assert pattern is not None
    return draw_pattern(Nest(pattern))


def ours(sheets: Sheets) -> bytes:
    return as_pdf(sheets, Faces())


def main() -> None:
    drawings = [
        ("smock", drawing_of(json.dumps(case("ferry_smock")).encode())),
        ("demo", drawing_of(example("sound.pattern.json"))),
        *(
            (f"{count} panels in 10 sizes", drawing_of(json.dumps(panels(count, 10)).encode()))
            for count in (5, 20)
        ),
    ]
    for name, drawing in drawings:
        sheets, many = tiled(drawing), tiled(drawing, (PAGES[0], 10 * PAGES[1]))
        strokes = len(sheets.groups[0].strokes)
        mine, theirs, longer = (
            best(partial(ours, sheets)),
            best(partial(by_reportlab, sheets)),
            best(partial(ours, many)),
        )
        page = (longer - mine) / (len(many.sheets) - len(sheets.sheets))
        print(
            f"{name}: {len(sheets.sheets)} pages, {strokes} strokes, {len(ours(sheets)) / 1000:.0f} KB in {1000 * mine:.1f} ms; "
            f"reportlab {1000 * theirs:.1f} ms, {len(by_reportlab(sheets)) / 1000:.0f} KB: {mine / theirs:.2f}; "
            f"a page more {1e6 * page:.0f} µs"
        )


if __name__ == "__main__":
    main()
