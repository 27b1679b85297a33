"""The document that a drawing may carry along, handed on unread."""

from __future__ import annotations

from typing import Any

from notchwork_plugins.svg.tree import children, svg_tag

NAMESPACE = "urn:notchwork:svg"
DOCUMENT = f"{{{NAMESPACE}}}document"


def attached(root: Any) -> bytes | None:
    """The text of the document in the drawing's metadata; None where there is none."""
    for child in children(root):
        if svg_tag(child) == "metadata":
            for found in child.iter(DOCUMENT):
                return "".join(found.itertext()).strip().encode()
    return None
