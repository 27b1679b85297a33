"""Patterns whose every name is hostile, as files and pages."""

from __future__ import annotations

import json
from pathlib import Path

from patterns import Document

from notchwork import jobs

HOSTILE = {
    "script": "<script>window.hacked=1</script><img src=x onerror=window.hacked=1>",
    "quotes": "\"'><svg onload=window.hacked=1 x='\" --></style></title></script>",
    "long": "x" * 10_000,
    "turned": "\u202eقميص العبّارة\u2066 מעיל",
    "emoji": "👩🏽\u200d🎤🧵 e\u0301\u0301\u0301 ﷽",
    "template": "{0} {name} %s ${x} &amp; &#x3c; \\u003c",
}


def renamed(document: Document, name: str) -> Document:
    """Every name and note of the document replaced."""
    document["title"] = document["description"] = name
    for kind in ("pieces", "seams", "materials", "notions", "openings"):
        for number, thing in enumerate(document[kind].values()):
            if kind != "materials" and "name" not in thing and number % 2:
                continue
            thing["name"] = f"{name}{number}"
    for step in document["order"]:
        step["note"] = name
    return document


def hostile(path: Path, document: Document, name: str) -> str:
    """The address of the page of a document with that name everywhere."""
    loaded = jobs.load(json.dumps(renamed(document, name)).encode(), f"{name[:40]}.pattern.json")
    path.write_text(jobs.report(loaded).page, encoding="utf-8")
    return path.as_uri()
