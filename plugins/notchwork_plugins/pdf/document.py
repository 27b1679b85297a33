"""Sheets as a PDF: every group once as a form, every sheet a page of windows on forms. Source: ISO 32000-1:2008."""

from __future__ import annotations

import io
from decimal import Decimal

from pikepdf import Array, Dictionary, Name, Object, Page, Pdf, Stream
from pikepdf import ObjectStreamMode as Packing

from notchwork.drawing import Group
from notchwork.pages import Sheet, Sheets, Window
from notchwork_plugins.pdf.about import describe
from notchwork_plugins.pdf.attached import attach
from notchwork_plugins.pdf.bookmarks import bookmarks, page_labels
from notchwork_plugins.pdf.content import Content, Writer
from notchwork_plugins.pdf.fonts import Faces
from notchwork_plugins.pdf.fonts.embedded import embed
from notchwork_plugins.pdf.layers import Layers
from notchwork_plugins.pdf.numbers import POINT, UM, fine, matrix, pair, um

MOST_POINTS = 14_400
"""Units that a page may be long (ISO 32000-1, annex C.2): 200 in, or 5080 mm."""
VERSION = "1.7"


def as_pdf(sheets: Sheets, faces: Faces) -> bytes:
    """The file; the same sheets give the same bytes. ``faces`` keeps which words could not be drawn.

    Raises ValueError for a number that is not finite.
    """
    pdf = Pdf.new()
    maker = _Maker(pdf, sheets, faces)
    for sheet in sheets.sheets:
        maker.add(sheet)
    maker.finish()
    out = io.BytesIO()
    pdf.save(
        out,
        force_version=VERSION,
        deterministic_id=True,
        object_stream_mode=Packing.generate,
        compress_streams=True,
    )
    return out.getvalue()


class _Maker:
    def __init__(self, pdf: Pdf, sheets: Sheets, faces: Faces) -> None:
        self.pdf, self.sheets, self.faces = pdf, sheets, faces
        drawing = sheets.drawing
        marks = (sheet.marks for sheet in sheets.sheets)
        self.layers = Layers(pdf, drawing.sizes, (*sheets.groups, *marks))
        self.writer = Writer(drawing, faces, self.layers, sheets.bold)
        self.fonts: dict[str, Object] = {}
        self.forms = [self._form(group) for group in sheets.groups]

    def add(self, sheet: Sheet) -> None:
        """A page: its ground, its windows, and what stands on it alone on top of them."""
        scale = user_unit(sheet)
        marks = self.writer.content(sheet.marks, sheet.marks.shift)
        ground = self.writer.content(sheet.ground, sheet.ground.shift)
        in_um = _lines(f"q {matrix(complex(POINT / scale / UM))} cm")
        data = in_um + ground.data + _lines(*map(_placed, sheet.windows)) + marks.data + _lines("Q")
        resources = self._resources(marks)
        if used := sorted({window.group for window in sheet.windows}):
            resources.XObject = Dictionary({f"/G{k}": self.forms[k] for k in used})
        page = Dictionary(
            Type=Name.Page,
            MediaBox=_box(0j, sheet.size * POINT / scale),
            Resources=resources,
            Contents=Stream(self.pdf, data),
        )
        if scale != 1.0:
            page.UserUnit = _real(scale)
        self.pdf.pages.append(Page(self.pdf.make_indirect(page)))

    def finish(self) -> None:
        """What holds for the file as a whole."""
        pdf, root = self.pdf, self.pdf.Root
        for face in self.faces:
            embed(pdf, self.fonts[face.name], face)
        if self.layers:
            root.OCProperties = self.layers.listed
        describe(pdf, self.sheets.drawing)
        bookmarks(pdf, self.sheets)
        page_labels(pdf, self.sheets)
        if self.sheets.drawing.attached is not None:
            attach(pdf, self.sheets.drawing.attached, self.sheets.drawing.title)

    def _form(self, group: Group) -> Object:
        content = self.writer.content(group)
        low, high = self.writer.covered(group, content)
        form = Stream(self.pdf, content.data)
        form.Type, form.Subtype = Name.XObject, Name.Form
        # A little room, so that no line at the edge is cut by rounding.
        form.BBox = _box((low - (1 + 1j)) * UM, (high + (1 + 1j)) * UM)
        form.Resources = self._resources(content)
        return form

    def _resources(self, content: Content) -> Dictionary:
        resources = Dictionary()
        if content.faces:
            resources.Font = Dictionary({f"/{name}": self._font(name) for name in content.faces})
        if content.sizes:
            resources.Properties = self.layers.properties(content.sizes)
        return resources

    def _font(self, name: str) -> Object:
        """The font's dictionary, which is filled once it is known which letters are used."""
        if name not in self.fonts:
            self.fonts[name] = self.pdf.make_indirect(Dictionary())
        return self.fonts[name]


def user_unit(sheet: Sheet) -> float:
    """How many points a unit of the page must be; 1 unless the page is longer than a page may be."""
    longest = round(max(sheet.size.real, sheet.size.imag) * POINT, 6)
    return 1.0 if longest <= MOST_POINTS else longest / MOST_POINTS


def _lines(*operators: str) -> bytes:
    return "".join(f"{operator}\n" for operator in operators).encode("ascii")


def _placed(window: Window) -> str:
    """A form seen through a window."""
    size = window.high - window.low
    return (
        f"q {pair(window.low)} {um(size.real)} {um(size.imag)} re W n "
        f"{matrix(window.turn, window.shift)} cm /G{window.group} Do Q"
    )


def _box(low: complex, high: complex) -> Array:
    return Array([_real(v) for v in (low.real, low.imag, high.real, high.imag)])


def _real(value: float) -> Decimal:
    return Decimal(fine(value))
