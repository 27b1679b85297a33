"""Open JSON -> model, with every fault of the document told at once."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import field
from itertools import chain, islice
from typing import Any

from notchwork.document.codec import pattern_of
from notchwork.document.faults import MORE_FAULTS, fault
from notchwork.document.licences import licence_faults
from notchwork.document.lines import Lines
from notchwork.document.parse import MOST_BYTES, parsed
from notchwork.document.references import reference_faults
from notchwork.document.remains import no_doubt, remains
from notchwork.document.schemafaults import faults_of, kept_keys
from notchwork.document.validity import SchemaError, schema_errors
from notchwork.document.version import check_version, newer, newer_version
from notchwork.findings import Finding, Severity
from notchwork.model import Pattern
from notchwork.values import frozen

MOST_FAULTS = 100
"""How many faults of one document are told."""


@frozen
class ReadResult:
    """What came of reading: the pattern, or None where a fault is an error; and the faults in the text's order.

    Every fault is a finding of one of ``document.RULES``, with a JSON pointer as its place.
    """

    name: str
    pattern: Pattern | None
    faults: tuple[Finding, ...]
    _lines: Lines = field(repr=False)

    def locate(self, pointer: str) -> int | None:
        """The line (from 1) of the text to which a JSON pointer leads; the text is searched only when this is asked."""
        return self._lines.locate(pointer)


def read_pattern(data: bytes, name: str, most: int = MOST_BYTES) -> ReadResult:
    """Read a document. ``name`` is what the file is called in messages; ``most`` is how many bytes are read at most.

    Schema faults and broken references are told together, up to a hundred. Raises UnreadableDocument for bytes that hold
    no document of this format at all.
    """
    with _no_collection():
        document, text = parsed(data, name, most)
        check_version(document, name)
        lines = Lines(text)
        pattern, found = _read(document)
        faults = sorted(
            islice(found, MOST_FAULTS + 1), key=lambda fault: lines.offset(fault.place.pointer or "")
        )
    if len(faults) > MOST_FAULTS:
        more = fault(MORE_FAULTS, "", "there are more faults than the {count} listed.", count=MOST_FAULTS)
        faults[MOST_FAULTS:] = [more]
    if any(finding.rule.grade == Severity.ERROR for finding in faults):
        pattern = None
    return ReadResult(name, pattern, tuple(faults), lines)


@contextmanager
def _no_collection() -> Iterator[None]:
    """Let the garbage collector rest: what is made while reading is kept, and walking it over and over costs most of the time."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _read(document: dict[str, Any]) -> tuple[Pattern | None, Iterator[Finding]]:
    """The pattern, as far as it can be read, and what is to be said of the document, errors first."""
    errors, new = _errors(document)
    kept = [newer_version(document), *kept_keys(new)] if newer(document) else []
    doubt = remains(document, [*errors, *new]) if errors else no_doubt(document)
    if doubt is None:
        return None, chain(faults_of(errors), kept)
    pattern = pattern_of(document)
    return pattern, chain(
        faults_of(errors),
        reference_faults(pattern, document, doubt),
        licence_faults(pattern.license),
        kept,
    )


def _errors(document: dict[str, Any]) -> tuple[list[SchemaError], list[SchemaError]]:
    """What the schema refuses, up to one more than is told; apart from it the keys that a newer version may have."""
    later = newer(document)
    errors: list[SchemaError] = []
    new: list[SchemaError] = []
    for error in schema_errors(document):
        (new if later and error.keyword == "additionalProperties" else errors).append(error)
        if len(errors) > MOST_FAULTS:
            break
    return errors, new[:MOST_FAULTS]
