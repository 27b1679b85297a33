"""All sizes laid one on another, and what is said of how they grow."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from patterns import Document, case, nest_of
from verdicts import SOUND, verdict_of

from notchwork.checks import Verdict
from notchwork.pictures import standalone
from notchwork.pictures.glance import nest_pictures
from notchwork.pictures.glance.growth import growth
from notchwork.pictures.tokens import token


def graded(
    rules: dict[str, dict[str, list[float]]], nodes: list[str | None], sizes: str = "S M L"
) -> Document:
    """The half skirt with a grade rule at each of its corners: center/hem, center/waist, side/waist, side/hem."""
    document = case("two_panel_skirt")
    document["sizes"] = {"names": sizes.split(), "base": "M"}
    document["grade_rules"] = rules
    for node, rule in zip(document["pieces"]["front"]["outline"], nodes, strict=True):
        if rule is not None:
            node["grade"] = rule
    return document


def told(document: Document) -> list[str]:
    nest = nest_of(document)
    return growth(nest, nest.pieces["front"])


def test_one_picture_for_every_piece_with_a_shape(looked_at: Verdict) -> None:
    nest = looked_at.nest
    assert nest is not None
    shown = [f"nest-{token(ident)}" for ident, piece in nest.pieces.items() if piece.has_shape]
    assert [p.key for p in nest_pictures(nest)] == (shown if len(nest.sizes) > 1 else [])


def test_an_edge_that_moves_is_told_by_its_name() -> None:
    rules = {"out": {"S": [-12, 0], "L": [12, 0]}}
    assert told(graded(rules, [None, None, "out", "out"])) == ["side edge: 12.0 mm out"]


def test_a_corner_that_moves_is_told_by_the_edges_that_meet_there() -> None:
    rules = {"up": {"S": [0, -6], "L": [0, 6]}}
    assert told(graded(rules, [None, None, "up", None])) == ["corner waist/side: 6.0 mm up"]


def test_moves_both_ways_are_told_together() -> None:
    rules = {"both": {"S": [-4, -6], "L": [4, 6]}}
    assert told(graded(rules, [None, None, "both", None])) == ["corner waist/side: 4.0 mm out and 6.0 mm up"]


def test_uneven_steps_are_told_as_a_range_and_going_back_as_such() -> None:
    rules = {"out": {"S": [-10, 0], "L": [12, 0]}, "back": {"S": [-10, 0], "L": [-4, 0]}}
    assert told(graded(rules, [None, None, "out", "out"])) == ["side edge: 10.0 mm to 12.0 mm out"]
    assert told(graded(rules, [None, None, "back", "back"])) == [
        "side edge: out, then back, by up to 10.0 mm"
    ]


def test_a_piece_that_only_lies_elsewhere_does_not_grow() -> None:
    rules = {"all": {"S": [-5, 3], "L": [5, -3]}}
    document = graded(rules, ["all"] * 4)
    assert told(document) == []
    assert "It is the same in all sizes." in nest_pictures(nest_of(document))[0].says


def test_the_middle_of_a_piece_without_a_fold_divides_out_from_in() -> None:
    rules = {"out": {"S": [-5, 0], "L": [5, 0]}}
    document = graded(rules, ["out", "out", None, None])
    document["pieces"]["front"]["edges"]["center"] = {"finish": {"kind": "raw"}}
    assert told(document) == ["center edge: 5.0 mm in"]


def test_sizes_that_are_not_one_run_do_not_grow() -> None:
    document = graded({"out": {"S": [-12, 0], "L": [12, 0]}}, [None, None, "out", "out"])
    document["sizes"]["ordered"] = False
    assert "Its sizes are not one run." in nest_pictures(nest_of(document))[0].says


@pytest.mark.parametrize("count", [3, 5, 8])
def test_sizes_are_told_apart_without_colour(count: int) -> None:
    names = [f"T{k}" for k in range(count)]
    rule = {name: [10 * (k - 1), 0] for k, name in enumerate(names) if k != 1}
    document = graded({"out": rule}, [None, None, "out", "out"], " ".join(names))
    document["sizes"]["base"] = "T1"
    root = ElementTree.fromstring(standalone(nest_pictures(nest_of(document))[0]))
    svg = "{http://www.w3.org/2000/svg}"
    kinds = {g.get("data-size"): g[0].get("class") for g in root.iter(f"{svg}g") if g.get("data-size")}
    assert set(kinds) == set(names)
    assert kinds["T1"] == "size drafted"
    assert kinds["T0"] == "size smaller"
    assert str(kinds[f"T{count - 1}"]).startswith("size larg")
    assert ("size between" in kinds.values()) is (count > 5)


def test_the_pictures_of_the_example_name_every_piece() -> None:
    nest = verdict_of(SOUND).nest
    assert nest is not None
    for picture, piece in zip(nest_pictures(nest), nest.pieces.values(), strict=True):
        assert piece.name in picture.title
        assert picture.says.startswith(f"{piece.name} in S, M and L.")
