"""The open formats of sewing patterns and reports as JSON Schema documents (CC0-1.0)."""

from __future__ import annotations

NAMES = ("pattern-1", "report-1")


def schema_text(name: str) -> str:
    """The text of a schema, such as "pattern-1". Raises KeyError for a name that is none."""
    from importlib.resources import files  # half of this module's import time, and --help needs no schema

    if name not in NAMES:
        raise KeyError(name)
    return files(__name__).joinpath(f"{name}.schema.json").read_text(encoding="utf-8")
