"""Edges that run on across a seam: what speaks, from how many degrees, and the corners that are design."""

from __future__ import annotations

import cmath
import math
from typing import Any

import pytest
from patterns import Document, case, loud, nest_of, said

from notchwork.sewing.shapes.truing import STRAIGHT, running_on

RUN_ON = "seams/does-not-run-on"


def node(document: Document, piece: str, edge: str) -> dict[str, Any]:
    found: dict[str, Any] = next(n for n in document["pieces"][piece]["outline"] if n.get("edge") == edge)
    return found


def turned(document: Document, piece: str, edge: str, handle: str, degrees: float) -> Document:
    """Turn the handle of one corner."""
    corner = node(document, piece, edge)
    at, end = complex(*corner["at"]), complex(*corner[handle])
    end = at + (end - at) * cmath.exp(1j * math.radians(degrees))
    corner[handle] = [end.real, end.imag]
    return document


def test_all_six_corners_of_the_smock_run_on() -> None:
    """180° by tangents, and within 1° as measured."""
    nest = nest_of(case("ferry_smock"))
    pairs = list(running_on(nest))
    assert len(pairs) == 6
    for pair in pairs:
        one, other = (nest.corners[spot.piece, spot.line] for spot in pair.corners)
        assert (one + other).exact == pytest.approx([STRAIGHT] * 3, abs=1e-6)
        assert (one + other).measured == pytest.approx([STRAIGHT] * 3, abs=1)
    assert said(case("ferry_smock"), RUN_ON) == []


@pytest.mark.parametrize(
    ("piece", "edge", "handle", "seam"),
    [
        ("front", "armhole", "out", "shoulder"),
        ("back", "armhole", "out", "shoulder"),
        ("front", "shoulder", "in", "shoulder"),
        ("back", "side", "in", "side"),
        ("sleeve", "cap", "out", "sleeve_seam"),
    ],
)
@pytest.mark.parametrize("degrees", [8, -8])
def test_a_turned_handle_is_told_once_at_its_own_seam(
    piece: str, edge: str, handle: str, seam: str, degrees: float
) -> None:
    document = turned(case("ferry_smock"), piece, edge, handle, degrees)
    assert loud(document, RUN_ON) == {RUN_ON: "warning"}
    [(_, _, words)] = said(document, RUN_ON)
    assert words.startswith(seam.replace("_", " ").capitalize())


@pytest.mark.parametrize(("degrees", "severity"), [(1, None), (3, "info"), (7, "warning"), (40, "warning")])
def test_it_is_never_an_error(degrees: float, severity: str | None) -> None:
    document = turned(case("ferry_smock"), "front", "armhole", "out", degrees)
    assert {how for _, how, _ in said(document, RUN_ON)} == ({severity} if severity else set())


def test_it_is_told_with_the_sum_and_the_shape() -> None:
    document = turned(case("ferry_smock"), "front", "armhole", "out", 8)
    [(_, _, words)] = said(document, RUN_ON)
    assert "Front (armhole) and Back (armhole) meet at 1" in words
    assert "instead of 180.0°" in words


def test_a_stray_short_handle_fools_the_tangent_but_not_the_measure() -> None:
    """A handle of 0.1 mm in the wrong direction is not seen in the cloth."""
    document = case("ferry_smock")
    corner = node(document, "front", "armhole")
    corner["out"] = [corner["at"][0] + 0.02, corner["at"][1] - 0.1]
    outline = document["pieces"]["front"]["outline"]
    outline.insert(outline.index(corner) + 1, {"at": [190, 550], "in": [191.5, 556], "out": [165, 450]})
    pair = next(p for p in running_on(nest_of(document)) if p.seam == "shoulder" and not p.at_start)
    assert abs(pair.sum[1] - STRAIGHT) < 5


def hem_lowered(by: float) -> Document:
    """The side corner of the front drops: its hem meets the back's at an angle."""
    document = case("ferry_smock")
    for piece in ("front", "back"):
        node(document, piece, "hem")["at"][1] -= by
    return document


@pytest.mark.parametrize(("by", "severity"), [(0, None), (25, "warning"), (60, "info")])
def test_edges_that_share_only_a_finish_may_make_a_corner_on_purpose(by: float, severity: str | None) -> None:
    """A handkerchief hem is normal dressmaking: more than 20° off is design."""
    assert {how for _, how, _ in said(hem_lowered(by), RUN_ON)} == ({severity} if severity else set())


def kinked(**change: Any) -> Document:
    document = turned(case("ferry_smock"), "front", "armhole", "out", 9)
    node(document, "front", "armhole").update(change.pop("corner", {}))
    document["seams"]["shoulder"].update(change)
    return document


@pytest.mark.parametrize(
    "change",
    [
        {"corner": {"corner": "point"}},
        {"construction": "bagged"},
        {"construction": "basted"},
        {"over": "side"},
    ],
    ids=str,
)
def test_points_bagged_seams_and_seams_over_others_are_quiet(change: dict[str, Any]) -> None:
    assert loud(kinked(), RUN_ON) == {RUN_ON: "warning"}
    assert loud(kinked(**change), RUN_ON) == {}


def test_the_ends_of_gathered_sides_and_trimmed_edges_are_quiet() -> None:
    document = kinked()
    side = document["seams"]["shoulder"]["sides"][1]
    document["seams"]["shoulder"]["sides"][1] = {
        "spans": side,
        "join": {"kind": "gathered", "ratio": [0.9, 1.1]},
    }
    assert loud(document, RUN_ON) == {}
    document = kinked()
    document["pieces"]["back"]["edges"]["armhole"] = {"allowance": 25, "trim_to": 12, "trim_when": "fitting"}
    assert loud(document, RUN_ON) == {}


def test_a_corner_beside_nothing_that_runs_on_is_design() -> None:
    """A sleeve's free edge may meet a bodice's edge at any angle where the seam ends."""
    document = case("ferry_smock")
    for piece in ("front", "back"):
        del document["pieces"][piece]["edges"]["neck"]["finish"]
        node(document, piece, "neck")["out"] = None
        del node(document, piece, "neck")["out"]
        del node(document, piece, "shoulder")["in"]
    assert loud(document, RUN_ON) == {}


def dress(bodice_slope: float, skirt_slope: float, through: str) -> Document:
    """A fitted dress: sides that slope in to the waist, sewn with the side seam or the waist seam running through."""

    def panel(low: float, high: float, bottom: float, top: float) -> dict[str, Any]:
        return {
            "outline": [
                {"at": [0, low], "edge": "center"},
                {"at": [0, high], "edge": "upper"},
                {"at": [200 + top, high], "edge": "side"},
                {"at": [200 + bottom, low], "edge": "lower"},
            ],
            "grainline": [[50, low + 20], [50, high - 20]],
        }

    pieces: dict[str, Any] = {}
    for name in ("front", "back"):
        pieces[f"{name}_bodice"] = panel(300, 500, 0, bodice_slope)
        pieces[f"{name}_skirt"] = panel(0, 300, skirt_slope, 0)
    if through == "side":
        seams: dict[str, Any] = {
            f"{name}_waist": {
                "sides": [[f"{name}_bodice.lower"], [{"edge": f"{name}_skirt.upper", "from": "side"}]]
            }
            for name in ("front", "back")
        }
        seams["side"] = {
            "sides": [[f"{name}_bodice.side", f"{name}_skirt.side"] for name in ("front", "back")]
        }
    else:
        seams = {
            f"{part}_side": {"sides": [[f"front_{part}.side"], [f"back_{part}.side"]]}
            for part in ("bodice", "skirt")
        }
        waist = [
            [
                {"edge": f"front_{part}.{edge}", "from": "center"},
                {"edge": f"back_{part}.{edge}", "from": "side"},
            ]
            for part, edge in (("bodice", "lower"), ("skirt", "upper"))
        ]
        seams["waist"] = {"sides": waist}
    return {"notchwork": "1.0", "pieces": pieces, "seams": seams}


def test_a_side_seam_that_is_shaped_at_the_waist_in_front_and_back_is_quiet() -> None:
    """Both sides bend alike: the bend is the figure's."""
    assert loud(dress(30, 40, "side"), RUN_ON) == {}


def test_a_side_that_is_kinked_on_one_piece_only_speaks() -> None:
    document = dress(0, 0, "side")
    assert said(document, RUN_ON) == []
    document["pieces"]["back_skirt"]["outline"][3]["at"] = [240, 0]
    assert loud(document, RUN_ON) == {RUN_ON: "warning"}


def test_a_waist_that_is_smooth_in_the_skirt_and_kinked_in_the_bodice_speaks() -> None:
    assert said(dress(0, 0, "waist"), RUN_ON) == []
    assert loud(dress(20, 0, "waist"), RUN_ON) == {RUN_ON: "warning"}


def test_a_dart_at_the_corner_is_shut_first() -> None:
    """A dart of 10° between the corner and the waist turns the waist by as much once it is sewn."""

    def document(dart: bool) -> Document:
        a = math.radians(10)
        foot = 100 * math.tan(a)
        waist = [{"at": [0, 0], "edge": "waist"}]
        front = {
            "outline": [
                {"at": [0, 100], "edge": "side"},
                *waist,
                {"at": [foot, 0], "name": "foot"},
                {
                    "at": [foot + 150 * math.cos(a), -150 * math.sin(a) * (-1 if dart else 0)],
                    "edge": "center",
                },
                {"at": [150, 300], "edge": "top"},
                {"at": [0, 300], "edge": "upper"},
            ],
            "edges": {"waist": {"finish": {"kind": "faced"}}},
            "grainline": [[90, 50], [90, 250]],
        }
        if dart:
            front["darts"] = {"side_dart": {"edge": "waist", "feet": ["side", "foot"], "apex": [0, 100]}}
        back = {
            "outline": [
                {"at": [0, 0], "edge": "waist"},
                {"at": [150, 0], "edge": "center"},
                {"at": [150, 300], "edge": "top"},
                {"at": [0, 300], "edge": "upper"},
                {"at": [0, 100], "edge": "side"},
            ],
            "edges": {"waist": {"finish": {"kind": "faced"}}},
            "grainline": [[90, 50], [90, 250]],
        }
        seams = {"side": {"sides": [["front.side"], ["back.side"]]}}
        return {"notchwork": "1.0", "pieces": {"front": front, "back": back}, "seams": seams}

    [pair] = list(running_on(nest_of(document(dart=False))))
    assert pair.sum[0] == pytest.approx(180, abs=0.01)
    [pair] = list(running_on(nest_of(document(dart=True))))
    assert pair.sum[0] == pytest.approx(180, abs=0.01)


def test_a_back_that_is_like_the_front_may_bend_with_it_a_lining_may_not_excuse_it() -> None:
    document = dress(30, 40, "side")
    for part in ("bodice", "skirt"):
        document["pieces"][f"back_{part}"] = {"like": f"front_{part}"}
    assert loud(document, RUN_ON) == {}
    document["materials"] = {"wool": {}, "lining": {}}
    for name, piece in document["pieces"].items():
        piece["cut"] = [{"material": "wool" if name.startswith("front") else "lining", "count": 2}]
    assert loud(document, RUN_ON) == {RUN_ON: "warning"}
