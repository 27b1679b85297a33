"""Nicks that their allowances fill."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import CASES, Document, case, loud, said
from storm_petrel import sound

ROOM = "cutting/no-room-for-allowance"


def slashed(mouth: float = 4, deep: float = 60, allowance: object = 6, **stated: Any) -> Document:
    """A rectangle, 200 by 300 mm, with a V of that mouth cut into its upper edge."""
    corners: list[tuple[str, list[float]]] = [
        ("hem", [0, 0]),
        ("right", [200, 0]),
        ("top_right", [200, 300]),
        ("slash_right", [100 + mouth / 2, 300]),
        ("slash_left", [100, 300 - deep]),
        ("top_left", [100 - mouth / 2, 300]),
        ("left", [0, 300]),
    ]
    piece = {
        "allowance": allowance,
        "outline": [{"at": at, "edge": edge} for edge, at in corners],
        "cut": [{"material": "main", "count": 1}],
        **stated,
    }
    return {"notchwork": "1.0", "materials": {"main": {}}, "pieces": {"front": piece}, "seams": {}}


def told(document: Document) -> list[tuple[str, str]]:
    return [(severity, text) for _, severity, text in said(document, ROOM)]


def hollowed(radius: float, allowance: float) -> Document:
    """The same rectangle with a half circle of that radius taken out of its upper edge, as one edge."""
    document = slashed(mouth=2 * radius, deep=radius, allowance=allowance)
    outline = document["pieces"]["front"]["outline"]
    k = radius * 4 / 3 * math.tan(math.pi / 8)
    outline[3:5] = [
        {"at": [100 + radius, 300], "edge": "neck", "out": [100 + radius, 300 - k]},
        {
            "at": [100, 300 - radius],
            "in": [100 + k, 300 - radius],
            "out": [100 - k, 300 - radius],
        },
    ]
    outline[5]["in"] = [100 - radius, 300 - k]
    return document


def test_a_slash_is_filled_by_its_allowances() -> None:
    [(severity, text)] = told(slashed())
    assert severity == "info"
    assert "Its slash right and slash left lie in a nick 4.0 mm wide" in text
    assert "none of the 6.0 mm stated there can be cut" in text
    assert "clip the cloth up to the stitching" in text


@pytest.mark.parametrize(("allowance", "speaks"), [(9.5, False), (10.5, True)])
def test_an_inward_curve_has_room_for_its_own_radius(allowance: float, speaks: bool) -> None:
    """Plane geometry: the parallel of an arc of radius 10 on its hollow side has the radius 10 - a."""
    found = told(hollowed(10, allowance))
    assert [severity for severity, _ in found] == ["info"] * speaks
    assert all("Its neck lies in an inward curve 20.0 mm wide" in text for _, text in found)


def test_an_allowance_stated_ten_times_too_wide_is_a_warning() -> None:
    assert told(hollowed(60, 10)) == []
    [(severity, text)] = told(hollowed(60, 100))
    assert severity == "warning"
    assert "120.0 mm wide" in text
    assert "100.0 mm" in text


def test_every_size_has_its_own_row() -> None:
    """In L the nick is wide enough."""
    document = slashed(mouth=4, deep=10, allowance={"S": 6, "L": 0.5})
    document["sizes"] = {"names": ["S", "L"], "base": "S"}
    [(_, text)] = told(document)
    assert "S" in text
    assert "size L" not in text


def test_an_edge_without_allowance_that_its_neighbours_fill() -> None:
    stated = {"edges": {"slash_left": {"allowance": 0}, "slash_right": {"allowance": 0}}}
    assert told(slashed(mouth=20, deep=5, **stated)) == []
    assert told(slashed(allowance=0)) == []


@pytest.mark.parametrize("name", ["sound/" + path.name.split(".")[0] for path in (CASES / "sound").iterdir()])
def test_sound_garments_have_room(name: str) -> None:
    assert told(case(name)) == []


def test_the_demo_has_room() -> None:
    assert told(sound()) == []


def test_edges_of_less_than_a_millimetre_are_told_as_that() -> None:
    document = slashed(mouth=0.8, deep=0.4)
    assert "pieces/edge-tiny" in loud(document)
    assert told(document) == []


def test_an_outline_that_crosses_itself_is_told_as_that() -> None:
    document = slashed()
    document["pieces"]["front"]["outline"][4]["at"] = [100, -60]
    assert "pieces/outline-crosses-itself" in loud(document)
    assert told(document) == []
