"""The open formats of sewing patterns and reports as JSON Schema documents (CC0-1.0)."""

from __future__ import annotations

from pkgutil import get_data

NAMES = ("pattern-1", "report-1")


def schema_text(name: str) -> str:
    """The text of a schema, such as "pattern-1". Raises KeyError for a name that is none."""
    if name not in NAMES:
        raise KeyError(name)
    data = get_data(__name__, f"{name}.schema.json")
    assert data is not None  # so it is with loaders that read no files, which no installer brings
    return data.decode("utf-8")
