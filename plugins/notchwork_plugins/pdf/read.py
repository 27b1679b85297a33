"""The pattern that a PDF of ours carries along. Nothing else of a PDF is read."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager

import pikepdf
from pikepdf import Pdf
from pikepdf.settings import set_qpdf_limits

from notchwork.document import MOST_BYTES, read_pattern
from notchwork.findings import Finding, NotchworkError, Place, listed
from notchwork.formats import Read, Source
from notchwork_plugins.pdf.attached import SUFFIX
from notchwork_plugins.pdf.rules import READ_ATTACHED

MOST_ATTACHED = 1000
"""Attached files that are looked at."""
_MOST_ITEMS = 1_000_000
"""Entries of one list or dictionary."""
_FEW = 5


def read(source: Source) -> Read:
    """The one pattern attached to a PDF. Raises NotchworkError."""
    result = read_pattern(_document(source), source.name)
    told = Finding(
        READ_ATTACHED,
        Place(),
        "The pattern was read from the document inside the PDF; what is drawn on its pages was not looked at.",
    )
    return Read(result.pattern, (told, *result.faults), judged=True)


def _document(source: Source) -> bytes:
    try:
        with _guarded(), Pdf.open(io.BytesIO(source.data), suppress_warnings=True) as pdf:
            return _attached(pdf, source.name)
    except pikepdf.PasswordError as error:
        raise NotchworkError(
            source.name,
            "This PDF is locked with a password.",
            "Save it without one, or ask for the open file.",
        ) from error
    except (pikepdf.PdfError, ValueError, TypeError, AttributeError, KeyError, RuntimeError) as error:
        raise NotchworkError(
            source.name,
            "This PDF is damaged, or swells to more than any pattern has.",
            "Copy or download it again, or ask for the open file.",
        ) from error


def _attached(pdf: Pdf, name: str) -> bytes:
    found = []
    for count, (key, spec) in enumerate(pdf.attachments.items()):
        if count >= MOST_ATTACHED:
            break
        called = spec.filename or key
        if called.lower().endswith(SUFFIX):
            found.append((called, spec))
    if not found:
        raise NotchworkError(
            name,
            "This PDF holds only lines on pages, no pattern.",
            "Ask for the open file or an SVG; or convert the pattern again without --no-document.",
        )
    if len(found) > 1:
        raise NotchworkError(
            name,
            f"Several patterns are attached to this PDF: {listed([called for called, _ in found[:_FEW]])}.",
            "Save the one that is meant from the list of attached files, and name that file.",
        )
    document: bytes = found[0][1].get_file().read_bytes()
    return document


@contextmanager
def _guarded() -> Iterator[None]:
    """Whatever a file says it holds, no part of it may take more memory than a pattern may."""
    before = set_qpdf_limits(
        flate_max_memory=MOST_BYTES,
        run_length_max_memory=MOST_BYTES,
        png_max_memory=MOST_BYTES,
        tiff_max_memory=MOST_BYTES,
        parser_max_container_size=_MOST_ITEMS,
    )
    try:
        yield
    finally:
        set_qpdf_limits(**before)  # type: ignore[arg-type]
