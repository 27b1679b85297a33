"""The pattern's document inside a PDF, as a file that any viewer lists and saves. Source: ISO 32000-2:2020, 7.11.4 and 14.13."""

from __future__ import annotations

import re

from pikepdf import Array, AttachedFileSpec, Name, Pdf

SUFFIX = ".pattern.json"
MIME = "application/json"
_MOST_NAME = 80


def attach(pdf: Pdf, document: bytes, title: str) -> None:
    """Put the document into the file, as the source of what it shows."""
    name = file_name(title)
    spec = AttachedFileSpec(
        pdf,
        document,
        filename=name,
        description="The pattern that was drawn, in the open format of Notchwork",
        mime_type=MIME,
        relationship=Name.Source,
    )
    pdf.attachments[name] = spec
    pdf.Root.AF = Array([spec.obj])


def file_name(title: str) -> str:
    """A name that any system of files takes, made of the title's letters and numbers."""
    words = re.findall(r"[^\W_]+", title)
    return ("_".join(words).lower()[:_MOST_NAME].strip("_") or "document") + SUFFIX
