"""Grainlines, folds, and pieces opened out: each at its limit and one step beyond it."""

from __future__ import annotations

import math
from typing import Any

import pytest
from patterns import Document, case, loud, said


def half(**piece: Any) -> Document:
    """Half a bodice on a fold."""
    known = {
        "outline": [
            {"at": [0, 0], "edge": "center"},
            {"at": [0, 400], "out": [30, 400], "edge": "neck"},
            {"at": [80, 470], "in": [80, 440], "edge": "shoulder"},
            {"at": [250, 300], "edge": "side"},
            {"at": [250, 0], "edge": "hem"},
        ],
        "edges": {"center": {"fold": True}},
        "grainline": [[60, 50], [60, 300]],
        "cut": [{"material": "cloth", "count": 1}],
    }
    return {
        "notchwork": "1.0",
        "materials": {"cloth": {"kind": "cloth"}},
        "pieces": {"front": known | piece},
    }


def turned(degrees: float, length: float = 200.0) -> list[list[float]]:
    """A grainline so far from upright."""
    a = math.radians(90 + degrees)
    return [[120, 60], [120 + length * math.cos(a), 60 + length * math.sin(a)]]


def test_nothing_is_said_of_half_a_bodice() -> None:
    assert said(half(), "pieces") == []


def test_a_piece_without_a_grainline() -> None:
    document = half(grainline=None)
    del document["pieces"]["front"]["grainline"]
    [(rule, severity, words)] = said(document, "pieces")
    assert (rule, severity) == ("pieces/no-grain", "warning")
    assert words.startswith("Front: It has no grainline")


@pytest.mark.parametrize("kind", ["felt", "leather", "net", "interfacing"])
def test_what_has_no_grain_needs_no_grainline(kind: str) -> None:
    document = half()
    del document["pieces"]["front"]["grainline"]
    document["materials"]["cloth"]["kind"] = kind
    assert loud(document, "pieces/no-grain") == {}


def test_several_pieces_without_a_grainline_are_one_finding() -> None:
    document = half()
    del document["pieces"]["front"]["grainline"]
    document["pieces"]["back"] = document["pieces"]["front"] | {"name": "Back"}
    [(_, _, words)] = said(document, "pieces/no-grain")
    assert "The same holds for Back." in words
    assert "“grain”: “any”" in words
    document["accepted"] = [{"check": "pieces/no-grain", "piece": "back", "reason": "A toile."}]
    assert len(said(document, "pieces/no-grain")) == 2  # what is accepted excuses no other piece


def test_a_piece_of_unknown_material_may_need_no_grainline_where_there_is_net() -> None:
    document = half()
    del document["pieces"]["front"]["grainline"]
    document["pieces"]["front"].pop("cut", None)
    assert loud(document, "pieces/no-grain") == {"pieces/no-grain": "warning"}
    document["materials"] = {"net": {"kind": "net"}}
    assert loud(document, "pieces/no-grain") == {}


def test_what_claims_the_bias_is_not_held_to_its_fold_too() -> None:
    assert loud(half(grainline=turned(40), grain="bias"), "pieces") == {"pieces/bias-not-45": "warning"}


@pytest.mark.parametrize("change", [{"grain": "any"}, {"use": "template"}])
def test_any_grain_and_templates_need_no_grainline(change: dict[str, str]) -> None:
    document = half(**change)
    del document["pieces"]["front"]["grainline"]
    assert loud(document, "pieces/no-grain") == {}


@pytest.mark.parametrize("upright", [0, 45, 90, -45])
@pytest.mark.parametrize(("off", "speaks"), [(0, False), (0.9, False), (1.1, True), (-1.1, True)])
def test_the_grain_lies_along_the_fold_across_it_or_on_the_bias(
    upright: float, off: float, speaks: bool
) -> None:
    document = half(grainline=turned(upright + off))
    assert loud(document, "pieces") == ({"pieces/grain-against-fold": "warning"} if speaks else {})


def test_the_grain_against_the_fold_is_told_with_its_angle() -> None:
    [(_, _, words)] = said(half(grainline=turned(6)), "pieces")
    assert "The grainline stands at 6.0° to its fold (center)" in words


@pytest.mark.parametrize(("off", "speaks"), [(0, False), (2.9, False), (-3.1, True)])
def test_a_bias_piece_stands_at_45_degrees(off: float, speaks: bool) -> None:
    document = half(grainline=turned(45 + off), grain="bias", bias_to="side", edges={})
    assert loud(document, "pieces/bias-not-45") == ({"pieces/bias-not-45": "warning"} if speaks else {})


def test_a_tilted_gore_that_claims_no_bias_is_quiet() -> None:
    """Grain of a flared panel not parallel to its seam is normal dressmaking."""
    assert loud(half(grainline=turned(17), edges={}), "pieces") == {}


@pytest.mark.parametrize(("bow", "speaks"), [(0.04, False), (0.2, True)])
def test_a_fold_is_straight(bow: float, speaks: bool) -> None:
    document = half()
    document["pieces"]["front"]["outline"].insert(1, {"at": [-bow, 200]})
    found = loud(document, "pieces/fold-not-straight")
    assert found == ({"pieces/fold-not-straight": "error"} if speaks else {})


def neck_at(degrees: float) -> Document:
    """The neck leaves the fold at so many degrees, for 30 mm as its handle says."""
    document = half()
    a = math.radians(degrees - 90)
    document["pieces"]["front"]["outline"][1]["out"] = [40 * math.cos(a), 400 + 40 * math.sin(a)]
    return document


@pytest.mark.parametrize(
    ("degrees", "speaks"), [(90, False), (91.9, False), (86, True), (100, True), (69, False), (135, False)]
)
def test_an_edge_leaves_a_fold_squarely_or_in_a_point_that_is_meant(degrees: float, speaks: bool) -> None:
    """A V-neck and a pointed waist are normal dressmaking."""
    assert loud(neck_at(degrees), "pieces") == ({"pieces/fold-corner": "warning"} if speaks else {})


def test_a_fold_corner_that_is_marked_as_a_point_or_trimmed_later_is_quiet() -> None:
    document = neck_at(84)
    document["pieces"]["front"]["outline"][1]["corner"] = "point"
    assert loud(document, "pieces") == {}
    document = neck_at(84)
    document["pieces"]["front"]["edges"]["neck"] = {"allowance": 30, "trim_to": 12, "trim_when": "fitting"}
    assert loud(document, "pieces") == {}


def test_a_fold_corner_is_told_with_its_angle() -> None:
    [(_, _, words)] = said(neck_at(84), "pieces")
    assert words.startswith("Front: Its neck leaves the fold (center) at 84.")
    assert "a point in the middle" in words


def yoke_and_skirt(skirt_side: float) -> Document:
    """A yoke with a point of 10° at the centre front, and a skirt whose upper edge rises so far to the side."""

    def half(**corners: list[float]) -> dict[str, Any]:
        return {
            "outline": [{"at": at, "edge": edge} for edge, at in corners.items()],
            "edges": {"center": {"fold": True}},
            "grainline": [[50, corners["center"][1] + 80], [50, corners["center"][1] + 150]],
        }

    yoke = half(center=[0, 200], upper=[0, 400], side=[200, 400], lower=[200, 235])
    skirt = half(center=[0, 0], upper=[0, 200], side=[200, skirt_side], lower=[200, 0])
    return {
        "notchwork": "1.0",
        "pieces": {"yoke": yoke, "skirt": skirt},
        "seams": {"yoke": {"sides": [[{"edge": "yoke.lower", "from": "center"}], ["skirt.upper"]]}},
    }


def test_a_point_at_the_fold_that_the_piece_sewn_on_answers_is_quiet() -> None:
    assert loud(yoke_and_skirt(235), "pieces/fold-corner", "seams/does-not-run-on") == {}
    found = loud(yoke_and_skirt(215), "pieces/fold-corner", "seams/does-not-run-on")
    assert found == {"pieces/fold-corner": "warning"}


def circle_skirt(waist: float, radius: float, allowance: float, fold: bool) -> Document:
    """A full circle (or half of it on the fold) whose waist line measures ``waist``, with a seam at the centre back."""
    angle = waist / radius / (2 if fold else 1)
    count = 8
    step = angle / count
    long = 4 / 3 * math.tan(step / 4)

    def at(r: float, a: float, tangent: float = 0.0) -> list[float]:
        return [r * math.cos(a) - tangent * r * math.sin(a), r * math.sin(a) + tangent * r * math.cos(a)]

    outer = [
        {
            "at": at(radius + 600, k * step),
            "in": at(radius + 600, k * step, -long),
            "out": at(radius + 600, k * step, long),
        }
        for k in range(count + 1)
    ]
    inner = [
        {"at": at(radius, k * step), "in": at(radius, k * step, long), "out": at(radius, k * step, -long)}
        for k in reversed(range(count + 1))
    ]
    for nodes in (outer, inner):
        del nodes[0]["in"], nodes[-1]["out"]
    outer[0]["edge"], outer[-1]["edge"] = "hem", "back"
    inner[0]["edge"], inner[-1]["edge"] = "waist", "front"
    edges: dict[str, Any] = {"front": {"fold": True}} if fold else {}
    other = [{"edge": "skirt.back", "mirrored": True}] if fold else [{"edge": "skirt.front", "from": "hem"}]
    return {
        "notchwork": "1.0",
        "pieces": {
            "skirt": {"allowance": allowance, "outline": outer + inner, "edges": edges, "grain": "any"}
        },
        "seams": {"back": {"sides": [["skirt.back"], other]}},
    }


@pytest.mark.parametrize("fold", [True, False])
@pytest.mark.parametrize(("waist", "allowance"), [(760.0, 15.0), (700.0, 10.0)])
def test_a_full_circle_in_one_piece_has_no_cloth_for_its_seam(
    waist: float, allowance: float, fold: bool
) -> None:
    """Plane geometry, no source: R = (W + 2a) / 2π leaves room for both allowances, R = W / 2π none."""
    tight = circle_skirt(waist, waist / (2 * math.pi), allowance, fold)
    assert loud(tight, "pieces") == {"pieces/unfolded-overlaps-itself": "warning"}
    roomy = circle_skirt(waist, (waist + 2 * allowance) / (2 * math.pi), allowance, fold)
    assert loud(roomy, "pieces") == {}


def test_the_missing_cloth_of_a_full_circle_is_told() -> None:
    [(_, _, words)] = said(circle_skirt(760, 760 / (2 * math.pi), 15, fold=True), "pieces")
    assert "its back and its mirror image lie 0 mm apart, but their allowances need 30.0 mm" in words


def test_more_than_a_circle_lies_on_itself() -> None:
    found = loud(circle_skirt(800, 760 / (2 * math.pi), 15, fold=True), "pieces")
    assert found == {"pieces/unfolded-overlaps-itself": "warning"}


def test_an_edge_that_reaches_across_the_fold() -> None:
    document = half()
    assert loud(document, "pieces/unfolded-overlaps-itself") == {}
    document["pieces"]["front"]["outline"].insert(3, {"at": [-12, 480], "name": "slip"})
    document["pieces"]["front"]["outline"].insert(4, {"at": [-12, 500]})
    [(_, severity, words)] = said(document, "pieces/unfolded-overlaps-itself")
    assert severity == "warning"
    assert "Its shoulder reaches 12.0 mm across the line of the fold" in words


def test_half_a_circle_and_a_narrow_strap_are_quiet() -> None:
    assert loud(circle_skirt(380, 760 / (2 * math.pi), 15, fold=False), "pieces") == {}
    strap = case("ferry_smock")
    strap["pieces"]["strap"] = {
        "allowance": 15,
        "outline": [
            {"at": [0, 0], "edge": "lower"},
            {"at": [300, 0], "edge": "end"},
            {"at": [300, 12], "edge": "upper"},
            {"at": [0, 12], "edge": "start"},
        ],
        "grainline": [[20, 6], [280, 6]],
    }
    strap["seams"]["strap"] = {"sides": [["strap.lower"], [{"edge": "strap.upper", "from": "start"}]]}
    assert loud(strap, "pieces") == {}


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_boxed_corners_have_their_cloth(unit: str) -> None:
    """A bag cut in one outline: its corners are cut out, and each cut is sewn shut across the side seam."""
    corners = [
        (2.5, 0, "bottom"),
        (13.5, 0, "r1"),
        (13.5, 2.5, "r2"),
        (16, 2.5, "right"),
        (16, 16, "top"),
        (0, 16, "left"),
        (0, 2.5, "l2"),
        (2.5, 2.5, "l1"),
    ]
    size = 1.0 if unit == "in" else 25.4
    outline = [{"at": [x * size, y * size], "edge": edge} for x, y, edge in corners]
    document: dict[str, Any] = {
        "notchwork": "1.0",
        "unit": unit,
        "pieces": {"body": {"outline": outline, "allowance": size / 2, "grain": "any"}},
        "seams": {
            "box": {
                "half": "none",
                "sides": [
                    [{"edge": "body.l2", "from": "l1"}, {"edge": "body.r2", "from": "right"}],
                    [{"edge": "body.l1", "from": "l2"}, {"edge": "body.r1", "from": "bottom"}],
                ],
            }
        },
    }
    assert loud(document, "pieces/unfolded-overlaps-itself") == {}


def test_a_grainline_on_one_spot_shows_no_direction() -> None:
    document = case("two_panel_skirt")
    ident = next(iter(document["pieces"]))
    document["pieces"][ident]["grainline"] = [[40, 40], [40, 40]]
    told = [words for rule, _, words in said(document) if rule == "pieces/no-grain"]
    assert len(told) == 1
    assert "Both points of its grainline lie on one spot" in told[0]
    document["pieces"][ident]["grainline"] = [[40, 40], [40, 41]]
    assert "pieces/no-grain" not in loud(document)


@pytest.mark.parametrize(("unit", "first"), [("mm", "6.0 mm"), ("in", "1/4 in")])
def test_the_hint_at_a_fold_is_in_the_makers_unit(unit: str, first: str) -> None:
    scale = 25.4 if unit == "in" else 1.0
    corners = {"center": [0, 0], "neck": [0, 200], "side": [100, 210], "hem": [100, 0]}
    document = half(
        outline=[{"at": [x / scale, y / scale], "edge": edge} for edge, (x, y) in corners.items()],
        edges={"center": {"fold": True}},
        grainline=[[1 / scale, 1 / scale], [1 / scale, 100 / scale]],
    )
    [words] = [words for rule, _, words in said(document | {"unit": unit}) if rule == "pieces/fold-corner"]
    assert f"Draw the first {first} of the neck square to the fold" in words
