"""PDFs for tests: sheets put together by hand, and what other programs find in a file."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pytest

from notchwork.drawing import Drawing, Group, Stroke, Text
from notchwork.formats import Written
from notchwork.geometry import lines
from notchwork.pages import Sheet, Sheets, Window
from notchwork_plugins.pdf.write import write_sheets

A4 = 210 + 297j


def needs(tool: str, package: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(
        shutil.which(tool) is None, reason=f"the Debian package {package} is not installed"
    )


def square(at: complex = 0j, side: float = 100.0, **facts: str) -> Stroke:
    """A cut line."""
    corners = np.array([at, at + side, at + side * (1 + 1j), at + side * 1j])
    return Stroke(lines(corners, closed=True), "cut", True, dict(facts))  # type: ignore[arg-type]


def sheets_of(
    *groups: Group,
    pages: int = 1,
    sizes: Sequence[str] = (),
    size: complex = A4,
    marks: Group | None = None,
    **about: Any,
) -> Sheets:
    """Every group on every page, its origin 50 mm from the lower left corner."""
    sheet = Sheet(
        size,
        tuple(Window(k, 1 + 0j, 50 + 50j, 10 + 10j, size - 10 - 10j) for k in range(len(groups))),
        marks or Group("marks"),
    )
    base = sizes[0] if sizes else None
    return Sheets(Drawing(groups, sizes=tuple(sizes), base=base, **about), groups, (sheet,) * pages)


def named(words: str, **more: Any) -> Sheets:
    """A sheet with a square that is called something."""
    return sheets_of(Group("a", (square(),), texts=(Text(10 + 10j, words, 6.0, "name"),)), **more)


def written(sheets: Sheets, **options: str) -> Written:
    return write_sheets(sheets, options)


def data_of(sheets: Sheets, **options: str) -> bytes:
    return written(sheets, **options).files[".pdf"]


_KEPT: list[pikepdf.Pdf] = []
"""What pikepdf hands out is gone with its file, so files stay open until the tests are over."""


def opened(data: bytes) -> pikepdf.Pdf:
    _KEPT.append(pikepdf.open(io.BytesIO(data)))
    return _KEPT[-1]


def streams(data: bytes) -> list[str]:
    """Every content stream: pages first, then forms."""
    pdf = opened(data)
    pages = [page.Contents.read_bytes().decode("ascii") for page in pdf.pages]
    forms = [
        item.read_bytes().decode("ascii")
        for item in pdf.objects
        if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Form"
    ]
    return pages + forms


def run(*command: str | Path) -> str:
    """What a program says of a file; it must not complain."""
    done = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout + done.stderr


def text_of(data: bytes, path: Path) -> str:
    """The text as poppler reads it, each run of blanks as one."""
    path.write_bytes(data)
    return re.sub(r"\s+", " ", run("pdftotext", path, "-"))
