"""Short documents that a machine could work on for ever: every one is answered in seconds."""

from __future__ import annotations

import math
import random
import time
from collections.abc import Callable
from typing import Any

import pytest
from patterns import Document, said

MOST = 6.0
"""Seconds of the processor; each of these took minutes where things were compared with all others."""


def skirt() -> Document:
    corners: list[tuple[str, list[float]]] = [
        ("center", [0, 0]),
        ("waist", [0, 600]),
        ("side", [300, 600]),
        ("hem", [300, 0]),
    ]
    front = {
        "allowance": 15,
        "outline": [{"at": at, "edge": edge} for edge, at in corners],
        "edges": {
            "center": {"fold": True},
            "waist": {"finish": {"kind": "bound"}},
            "hem": {"finish": {"kind": "hem"}},
        },
        "grainline": [[60, 100], [60, 500]],
        "cut": [{"material": "cotton"}],
    }
    return {
        "notchwork": "1.0",
        "materials": {"cotton": {"width": 1400}},
        "pieces": {"front": front, "back": {"like": "front"}},
        "seams": {"side": {"sides": [["front.side"], ["back.side"]]}},
    }


def scribble(document: Document) -> None:
    rng = random.Random(1)
    nodes = document["pieces"]["front"]["outline"]
    nodes[3:3] = [{"at": [rng.uniform(0, 600), rng.uniform(0, 600)]} for _ in range(1500)]


def curved_scribble(document: Document) -> None:
    rng = random.Random(1)
    nodes = document["pieces"]["front"]["outline"]
    nodes[3:3] = [
        {
            "at": [rng.uniform(0, 600), rng.uniform(0, 600)],
            "out": [rng.uniform(-600, 600), rng.uniform(0, 600)],
        }
        for _ in range(500)
    ]


def traced(document: Document) -> None:
    """A side drawn by hand on a tablet: thousands of nodes, and none of them wild."""
    nodes = document["pieces"]["front"]["outline"]
    count = 9900
    nodes[3:3] = [
        {"at": [300 + 5 * math.sin(k / 50), 600 - 600 * (k + 1) / (count + 1)]} for k in range(count)
    ]


def long_scribble(document: Document) -> None:
    rng = random.Random(1)
    nodes = document["pieces"]["front"]["outline"]
    nodes[3:3] = [{"at": [rng.uniform(0, 600), rng.uniform(0, 600)]} for _ in range(9900)]


def notches(document: Document) -> None:
    document["pieces"]["front"]["notches"] = {
        f"n{k}": {"edge": "side", "at": ["waist", k * 0.2]} for k in range(2000)
    }


def spans(document: Document) -> None:
    document["seams"]["side"]["sides"] = [["front.side"] * 1000, ["back.side"] * 1000]


def seams(document: Document) -> None:
    document["seams"] = {f"s{k}": {"sides": [["front.side"], ["back.side"]]} for k in range(500)}


def darts(document: Document) -> None:
    document["pieces"]["front"]["darts"] = {
        f"d{k}": {
            "edge": "waist",
            "feet": [["center", k * 0.5], ["center", k * 0.5 + 0.3]],
            "apex": [k * 0.5, 450],
        }
        for k in range(300)
    }


def pieces(document: Document) -> None:
    document["pieces"] |= {f"p{k}": {"like": "front"} for k in range(500)}


def rows(document: Document) -> None:
    document["pieces"]["front"]["notches"] = {
        f"n{k}": {"edge": "side", "at": ["waist", k]} for k in range(500)
    }
    document["seams"]["side"]["meet"] = [[f"front.n{k}", f"back.n{499 - k}"] for k in range(500)]


@pytest.mark.parametrize(
    "make", [scribble, curved_scribble, traced, long_scribble, notches, spans, seams, darts, pieces, rows]
)
def test_is_answered_soon(make: Callable[[Document], Any]) -> None:
    document = skirt()
    make(document)
    begin = time.process_time()
    told = said(document)
    assert time.process_time() - begin < MOST
    assert not any(rule.startswith(("internal", "document")) for rule, _, _ in told)
