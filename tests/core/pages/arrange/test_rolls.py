"""How short a roll becomes: the literature's irregular strip packing instances, and the example's pieces.

The best lengths published so far are from memory of the literature on irregular strip packing (the instances' names are those
used there); they are a mark to be held against, not a goal. The instances are no part of the project: the environment variable
NOTCHWORK_CORPUS names the folder that holds ``nesting`` with them as JSON; without it the test is skipped.
"""

from __future__ import annotations

import json
import math
import os
from pathlib import Path

import numpy as np
import pytest

from notchwork.demo.example import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.pages.arrange import Shape, arranged, laid, shape_of
from notchwork.pages.paper import Turn
from notchwork.sewing import Nest

CORPUS = Path(os.environ.get("NOTCHWORK_CORPUS") or "no such folder")
PUBLISHED = {
    "albano": 9826.0,
    "dagli": 57.5,
    "fu": 31.2,
    "jakobs1": 11.0,
    "jakobs2": 22.75,
    "marques": 76.9,
    "shapes0": 58.0,
    "shirts": 60.4,
    "trousers": 239.9,
}
WITHIN = 1.15


@pytest.mark.slow
@pytest.mark.parametrize("name", PUBLISHED)
def test_the_strip_is_not_much_longer_than_the_best_published(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = CORPUS / "nesting" / f"{name}.json"
    if not path.exists():
        pytest.skip("NOTCHWORK_CORPUS names no folder with the instances")
    data = json.loads(path.read_text())
    # Some mm to each unit, so that lengths are those of cloth.
    scale = 2.0 ** round(math.log2(1000 / data["strip_height"]))
    shapes: list[Shape] = []
    for item in data["items"]:
        # There the strip runs to the right, here upward.
        corners = np.array(item["shape"]["data"][:-1]) @ np.array([-1j, 1]) * scale
        shapes += [Shape((corners,))] * item["demand"]
    allowed = {angle for item in data["items"] for angle in item["allowed_orientations"]}
    ways = tuple(complex(np.round(np.exp(1j * np.radians(angle)), 9)) for angle in sorted(allowed))
    monkeypatch.setattr(laid, "whole_ways", lambda shape, wide, tall, turn: ways)
    (roll,) = arranged(shapes, data["strip_height"] * scale, math.inf, 0.0, "quarter")
    length = max((each.turn * shapes[each.group].points + each.shift).imag.max() for each in roll)
    assert length / scale <= WITHIN * PUBLISHED[name]


def pieces() -> list[Shape]:
    pattern = read_pattern(example("sound.pattern.json"), "example").pattern
    assert pattern is not None
    return [shape_of(group) for group in draw_pattern(Nest(pattern)).groups]


@pytest.mark.parametrize(("turn", "most"), [("free", 1.25), ("quarter", 1.25)])
def test_the_example_wastes_little_of_a_roll(turn: Turn, most: float) -> None:
    shapes = pieces()
    (roll,) = arranged(shapes, 914.0, math.inf, 5.0, turn)
    length = max((each.turn * shapes[each.group].points + each.shift).imag.max() for each in roll)
    assert length <= most * sum(shape.area for shape in shapes) / 914.0
    assert arranged(shapes, 914.0, math.inf, 5.0, turn) == (roll,)
