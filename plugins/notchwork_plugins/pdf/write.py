"""Drawing -> Sheets -> PDF."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.drawing import Drawing
from notchwork.formats import Written
from notchwork.pages import Paper, Sheets
from notchwork.pages.laid_out import laid_out
from notchwork_plugins.pdf.document import as_pdf
from notchwork_plugins.pdf.fonts import Faces, given
from notchwork_plugins.pdf.said import said


def write_pages(drawing: Drawing, paper: Paper, options: Mapping[str, str]) -> Written:
    """The drawing on paper. Raises NotchworkError."""
    return write_sheets(laid_out(drawing, paper), options)


def write_sheets(sheets: Sheets, options: Mapping[str, str]) -> Written:
    """Sheets as a PDF. Raises NotchworkError for a font that cannot be used, ValueError for a number that is not finite."""
    font = options.get("font")
    faces = Faces(None if font is None else given(font))
    data = as_pdf(sheets, faces)
    return Written({".pdf": data}, (*sheets.findings, *said(sheets, faces)))
