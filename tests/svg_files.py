"""Small drawings in SVG, and what was read of them."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Drawing, Stroke, Text
from notchwork.findings import Finding, worded
from notchwork.formats import Read, Source
from notchwork_plugins.svg.plugin import SVG

MM = 'width="100mm" height="100mm" viewBox="0 0 100 100"'
"""A root of which one unit is 1 mm."""

Complexes = NDArray[np.complex128]


def svg(body: str, root: str = MM) -> bytes:
    """A whole file round a body."""
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {spaces} {root}>{body}</svg>".encode()


def read(data: bytes, options: Mapping[str, str] | None = None) -> Read:
    assert SVG.read is not None
    return SVG.read(Source("a.svg", data), options or {})


def drawing(body: str, root: str = MM) -> Drawing:
    found = read(svg(body, root)).drawing
    assert found is not None
    return found


def strokes(body: str, root: str = MM) -> list[Stroke]:
    return [stroke for group in drawing(body, root).groups for stroke in group.strokes]


def texts(body: str, root: str = MM) -> list[Text]:
    return [text for group in drawing(body, root).groups for text in group.texts]


def nodes(stroke: Stroke) -> list[complex]:
    """Where its cubics begin, and where the last one ends; y downward as in the file."""
    z = np.append(stroke.cubics[:, 0], stroke.cubics[-1, 3]).conj()
    return [complex(round(p.real, 6), round(p.imag, 6)) for p in z]


def said(found: Read) -> list[tuple[str, str, str]]:
    """What is to be said: how loudly, by which rule, in which words."""
    return [(finding.rule.grade.name, finding.rule.id, words(finding)) for finding in found.findings]  # type: ignore[union-attr]


def words(finding: Finding) -> str:
    return worded(finding.text, finding.values)


def beyond_info(body: str, root: str = MM) -> list[tuple[str, str]]:
    """Rules and words of all that is worse than an info."""
    return [(rule, text) for grade, rule, text in said(read(svg(body, root))) if grade != "INFO"]
