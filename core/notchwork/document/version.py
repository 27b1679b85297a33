"""The version a document is written in: read before anything else."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from notchwork.document.errors import UnreadableDocument
from notchwork.document.faults import NEWER_VERSION, fault
from notchwork.findings import Finding

CURRENT = "1.0"

_VERSION = re.compile(r"(0|[1-9][0-9]{0,5})\.(0|[1-9][0-9]{0,5})")
_TELLING_KEYS = frozenset({"pieces", "seams"})


def check_version(document: object, name: str) -> None:
    """Refuse what is no pattern in a version 1. Raises UnreadableDocument."""
    if not isinstance(document, dict):
        raise UnreadableDocument(
            name,
            "The document is no object.",
            'A pattern in the open format begins with { "notchwork": "1.0".',
        )
    version = document.get("notchwork")
    if version is None and not _TELLING_KEYS & document.keys():
        raise UnreadableDocument(
            name,
            "This JSON is no pattern in the open format.",
            'Such a pattern begins with "notchwork": "1.0".',
        )
    match = _VERSION.fullmatch(version) if isinstance(version, str) else None
    if match and match[1] != "1":
        raise UnreadableDocument(
            name,
            f"It is written in version {version} of the format; this program reads version 1.",
            "Save it in version 1, or use a newer program." if match[1] != "0" else "Save it in version 1.",
        )


def newer(document: Mapping[str, Any]) -> bool:
    """Whether the document is of a later 1.x, whose new keys are kept and not understood."""
    version = document.get("notchwork")
    match = _VERSION.fullmatch(version) if isinstance(version, str) else None
    return match is not None and match[1] == "1" and match[2] != "0"


def newer_version(document: Mapping[str, Any]) -> Finding:
    return fault(
        NEWER_VERSION,
        "/notchwork",
        "the document is written in version {version}; this program knows {current}. Keys it does not know are kept.",
        version=document["notchwork"],
        current=CURRENT,
    )
