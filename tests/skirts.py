"""A skirt whose back is drawn anew, with whatever slip at its side seam a test asks for; and what is drawn of it."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from lxml import etree
from numpy.typing import NDArray
from patterns import Document, case
from verdicts import verdict_of

from notchwork.pictures import Picture, standalone
from notchwork.pictures.corner import CornerPicture, corner_pictures

SVG = "{http://www.w3.org/2000/svg}"
WIDE = 300.0
"""mm from the fold to the side seam."""


def skirt(lower: float = 0.0, hem: float = 0.0, waist: float = 0.0) -> Document:
    """The back's side seam is longer by ``lower`` mm at the hem, and its edges bend by so many degrees there, away from the cloth."""
    document = case("two_panel_skirt")
    back = json.loads(json.dumps(document["pieces"]["front"]))
    back["name"] = "Back"
    back["outline"] = [
        {"at": [0, -lower - WIDE * math.tan(math.radians(hem))], "edge": "center"},
        {"at": [0, 600 + WIDE * math.tan(math.radians(waist))], "edge": "waist"},
        {"at": [WIDE, 600], "edge": "side"},
        {"at": [WIDE, -lower], "edge": "hem"},
    ]
    document["pieces"]["back"] = back
    return document


def drawn(document: Document | Path, *only: str) -> Sequence[CornerPicture]:
    verdict = verdict_of(document, *only)
    assert verdict.nest is not None
    return corner_pictures(verdict.nest, verdict)


def corner(document: Document, seam: str = "side", end: str = "end") -> CornerPicture:
    """The one at an end of a seam."""
    return next(found for found in drawn(document) if (found.seam, found.end) == (seam, end))


def element(picture: Picture) -> etree._Element:
    return etree.fromstring(standalone(picture).encode())


def lines(picture: Picture, kind: str) -> list[NDArray[np.complex128]]:
    """The points (px, y downward) of all marks of a kind."""
    found = []
    for mark in element(picture).iter(f"{SVG}path"):
        if kind in (mark.get("class") or "").split():
            numbers = [float(number) for number in re.findall(r"-?[\d.]+", mark.get("d"))]
            found.append(np.array(numbers[::2]) + 1j * np.array(numbers[1::2]))
    return found


def is_hatched(picture: Picture) -> bool:
    return bool(lines(picture, "hatch"))


def texts(picture: Picture) -> list[str]:
    return ["".join(mark.itertext()) for mark in element(picture).iter(f"{SVG}text")]
