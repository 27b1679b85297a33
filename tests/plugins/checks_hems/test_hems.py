"""Hems: too deep for their curve, and unlike where they meet."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import Document, case, loud, said


def panel(
    radius: float, finish: dict[str, Any] | None, allowance: float = 60, inward: bool = False
) -> Document:
    """A skirt panel of 40° whose hem has a radius (mm); inward: the cloth lies outside the circle."""
    half = math.radians(20)
    long = 4 / 3 * math.tan(half / 2)
    top = radius * math.cos(half) - (-80 if inward else 300)

    def at(a: float, tangent: float = 0.0) -> list[float]:
        x = radius * (math.sin(a) + tangent * math.cos(a))
        return [x, (1 if inward else -1) * radius * (math.cos(a) - tangent * math.sin(a))]

    high = top if inward else -top
    outline = [
        {"at": [at(-half)[0], high], "edge": "waist"},
        {"at": [at(half)[0], high], "edge": "right"},
        {"at": at(half), "out": at(half, -long), "edge": "hem"},
        {"at": at(-half), "in": at(-half, long), "edge": "left"},
    ]
    edge = {"allowance": allowance} | ({"finish": finish} if finish else {})
    piece = {"outline": outline, "edges": {"hem": edge}, "grainline": [[0, high], [0, high - 20]]}
    return {"notchwork": "1.0", "pieces": {"panel": piece}}


def hem(depth: float, **more: Any) -> dict[str, Any]:
    return {"kind": "hem", "depth": depth, "turns": 1} | more


@pytest.mark.parametrize(
    ("depth", "severity"),
    [(6, None), (10, None), (11, "info"), (17, "info"), (18, "warning"), (25, "warning")],
)
def test_a_curved_hem_of_radius_711(depth: float, severity: str | None) -> None:
    """Plane geometry: (r + d) / (r - d) with r = 711 mm is 1.017 at 6 mm and 1.0729 at 25; 3 % and 5 %: common practice."""
    found = {rule: how for rule, how, _ in said(panel(711, hem(depth)), "hems")}
    assert found.get("hems/too-deep-for-its-curve") == severity


def test_a_hem_too_deep_is_told_with_both_lengths_and_a_depth_that_would_do() -> None:
    [(_, _, words)] = said(panel(711, hem(25)), "hems")
    arc = math.radians(40)
    assert f"is cut {736 * arc:.1f} mm long but comes to lie on {686 * arc:.1f} mm: 7.3 %" in words
    assert "Make the hem 17.0 mm deep or less" in words


@pytest.mark.parametrize(
    "finish",
    [
        hem(25, eased=True),
        {"kind": "bound", "with": "tape", "width": 20},
        {"kind": "faced"},
        hem(6),
        None,
    ],
    ids=str,
)
def test_narrow_bound_faced_and_eased_hems_are_quiet(finish: dict[str, Any] | None) -> None:
    document = panel(150, finish)
    document["pieces"]["tape"] = {"strip": {"width": 40, "length": 900}}
    assert loud(document, "hems") == {}


def test_a_circle_hem_of_12_turned_twice_is_quiet() -> None:
    """12 mm turned twice is a depth of 6: normal dressmaking, stated or not; turned once it is too deep for a small circle."""
    assert loud(panel(200, {"kind": "hem", "turns": 2}, allowance=12), "hems") == {}
    found = loud(panel(200, {"kind": "hem", "turns": 1}, allowance=12), "hems")
    assert found == {"hems/too-deep-for-its-curve": "warning"}


@pytest.mark.parametrize(("depth", "speaks"), [(7, False), (9, True)])
def test_a_hem_that_bends_inward_is_too_short_to_lie_flat(depth: float, speaks: bool) -> None:
    """(r - d) / (r + d) with r = 800 mm is 0.9826 at 7 mm, 0.9778 at 9; 2 %: common practice, no source."""
    document = panel(800, hem(depth), inward=True)
    assert loud(document, "hems") == ({"hems/too-deep-for-its-curve": "warning"} if speaks else {})
    if speaks:
        [(_, _, words)] = said(document, "hems")
        assert "too short to lie flat" in words


def test_a_straight_hem_may_be_deep_and_a_corner_in_it_is_mitred() -> None:
    document = case("ferry_smock")
    assert loud(document, "hems/too-deep-for-its-curve") == {}
    document["pieces"]["front"]["outline"].append({"at": [125, -60], "corner": "point"})
    assert loud(document, "hems/too-deep-for-its-curve") == {}


def hems_of(depth: float, **more: Any) -> Document:
    document = case("ferry_smock")
    finish = {"kind": "hem", "turns": 2, "depth": depth} | more
    document["pieces"]["back"]["edges"]["hem"]["finish"] = finish
    return document


@pytest.mark.parametrize(
    ("depth", "severity"),
    [(24, None), (24.9, None), (25.2, "warning"), (44, "warning"), (44.5, "info"), (3, "info")],
)
def test_hems_that_meet_at_a_side_seam_are_alike_or_meant_to_differ(
    depth: float, severity: str | None
) -> None:
    found = {rule: how for rule, how, _ in said(hems_of(depth), "hems/unlike-at-a-seam")}
    assert found.get("hems/unlike-at-a-seam") == severity


def test_unlike_hems_are_told_with_both_depths() -> None:
    [(_, _, words)] = said(hems_of(18), "hems/unlike-at-a-seam")
    assert words.startswith("Side seam")
    assert "the hem of Front is turned up 24.0 mm and the hem of Back 18.0 mm: 6.0 mm apart" in words


def test_one_hem_that_is_unlike_at_two_seams_is_told_once() -> None:
    document = hems_of(18)
    side = document["seams"].pop("side")
    document["seams"] |= {"right": side | {"half": "right"}, "left": side | {"half": "left"}}
    [(_, _, words)] = said(document, "hems/unlike-at-a-seam")
    assert "The same holds for Left seam." in words


def test_one_side_faced_and_layers_of_another_cloth_are_quiet() -> None:
    document = case("ferry_smock")
    document["pieces"]["back"]["edges"]["hem"]["finish"] = {"kind": "faced"}
    assert loud(document, "hems/unlike-at-a-seam") == {}
    document = hems_of(18)
    document["materials"]["lining"] = {"name": "Lining"}
    document["pieces"]["back"]["cut"] = [{"material": "lining", "count": 1}]
    assert loud(document, "hems/unlike-at-a-seam") == {}


def test_a_vent_is_quiet() -> None:
    """The side seam ends above the hem; what is below is an opening."""
    document = hems_of(18)
    for side, piece in enumerate(("front", "back")):
        document["pieces"][piece]["notches"]["vent"] = {"edge": "side", "at": ["hem", 120], "use": "place"}
        document["seams"]["side"]["sides"][side] = [
            {"edge": f"{piece}.side", "from": "armhole", "to": "vent"}
        ]
    assert loud(document, "hems/unlike-at-a-seam") == {}
