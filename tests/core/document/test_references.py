"""What may be named and what may not, where a single edit of the smock does not show it."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from notchwork.document import read_pattern
from notchwork.findings import worded

Document = dict[str, Any]


def square(**more: Any) -> Document:
    corners = [("a", [0, 0]), ("b", [100, 0]), ("c", [100, 100]), ("d", [0, 100])]
    return {"outline": [{"at": at, "edge": edge} for edge, at in corners], **more}


def ring(**more: Any) -> Document:
    """A piece with one closed edge."""
    points: list[Document] = [{"at": [0, 0], "edge": "rim", "name": "low"}, {"at": [50, 50], "name": "right"}]
    return {"outline": [*points, {"at": [0, 100]}], **more}


def lens() -> Document:
    """A piece of two edges, each the other's neighbour at both ends."""
    return {
        "outline": [
            {"at": [0, 0], "out": [0, 50], "edge": "upper", "name": "tip"},
            {"at": [100, 0], "out": [100, -50], "edge": "lower"},
        ]
    }


def told(pieces: Document, seams: Document | None = None, **more: Any) -> list[tuple[str, str]]:
    """Rule and pointer of every fault."""
    document = {"notchwork": "1.0", "pieces": pieces, "seams": seams or {}, **more}
    faults = read_pattern(json.dumps(document).encode(), "x").faults
    for finding in faults:
        assert worded(finding.text, finding.values)
        assert not re.search("{[a-z_]+}", worded(finding.hint, finding.values))
    return [(f.rule.id.partition("/")[2], f.place.pointer or "") for f in faults]


def seam(*sides: Any, **more: Any) -> Document:
    return {"s": {"sides": list(sides), **more}}


PLAIN = ["q.a"]


@pytest.mark.parametrize(
    "span",
    [
        "p.a",
        {"edge": "p.a", "mirrored": True},
        {"edge": "p.a", "from": "d"},
        {"edge": "p.a", "from": "b", "to": "d"},
        {"edge": "p.a", "from": "n", "to": "b"},
        {"edge": "p.a", "from": ["n", -5], "to": ["n", "20%"]},
        {"edge": "p.line", "from": "start", "to": "n2"},
        {"edge": "p.line", "from": "start"},
        {"edge": "p.follow", "from": "d"},
        "r.rim",
        {"edge": "r.rim", "from": "right", "way": "back"},
        {"edge": "r.rim", "from": "low", "to": "right", "way": "forward"},
        {"edge": "p.hole", "from": "top", "way": "forward"},
        {"edge": "l.upper", "from": "tip"},
        {"edge": "tape.one", "from": "three"},
        {"edge": "strip.upper", "from": "end"},
    ],
)
def test_spans_that_hold(span: Any) -> None:
    assert told(PIECES, seam([span], PLAIN)) == []


@pytest.mark.parametrize(
    ("span", "rule", "at"),
    [
        ({"edge": "p.a", "from": "c"}, "broken-reference", "/from"),
        ({"edge": "p.a", "from": "n2", "to": "b"}, "broken-reference", "/from"),
        ({"edge": "p.a", "from": "n"}, "ambiguous-place", ""),
        ({"edge": "p.line", "from": "n2"}, "ambiguous-place", ""),
        ({"edge": "p.line", "from": "d"}, "broken-reference", "/from"),
        ({"edge": "p.line", "from": "start", "way": "back"}, "badly-stated", "/way"),
        ({"edge": "r.rim", "from": "right"}, "ambiguous-place", ""),
        ({"edge": "r.rim", "from": "rim", "way": "back"}, "broken-reference", "/from"),
        ({"edge": "p.hole", "from": "top"}, "ambiguous-place", ""),
        ({"edge": "l.upper", "from": "lower"}, "ambiguous-place", "/from"),
        ({"edge": "tape.one", "from": "one"}, "broken-reference", "/from"),
        ({"edge": "strip.upper", "from": "lower"}, "broken-reference", "/from"),
        ("p.n", "broken-reference", ""),
        ("strip.top", "broken-reference", ""),
    ],
)
def test_spans_that_do_not(span: Any, rule: str, at: str) -> None:
    assert told(PIECES, seam([span], PLAIN)) == [(rule, f"/seams/s/sides/0/0{at}")]


PIECES: Document = {
    "p": square(
        notches={"n": {"edge": "a", "at": ["d", 30]}, "n2": {"edge": "line", "at": ["start", 3]}},
        inner={
            "line": {"line": [{"at": [9, 9], "name": "start"}, {"at": [9, 30]}]},
            "follow": {"parallel_to": "a", "distance": 9},
        },
        cutouts={"hole": {"line": [{"at": [50, 50], "name": "top"}, {"at": [60, 50]}, {"at": [50, 60]}]}},
    ),
    "q": square(darts={"dart": {"edge": "a", "feet": [["d", 40], ["d", 50]], "apex": [45, 30]}}),
    "r": ring(),
    "l": lens(),
    "tape": {"edges": {"one": {"length": 9}, "two": {"length": 8}, "three": {"length": 7}}},
    "strip": {"strip": {"width": 9, "length": 90}},
}

TOP: Document = {"top": {"sides": [["p.b"], ["q.d"]]}}
"""A seam that ends at the corners a/b and b/c of p, and c/d and d/a of q."""


@pytest.mark.parametrize(
    ("sides", "row"),
    [
        ((["p.a", "strip.lower"], ["q.a"]), ["top", None]),
        ((["p.a"], ["q.a"]), ["p.n", "q.dart"]),
        ((["p.a", {"edge": "p.a", "from": "b", "mirrored": True}], ["q.a"]), ["top", "q.dart"]),
        ((["p.a", {"edge": "p.a", "mirrored": True}], ["q.a"]), ["p.n#2", "top"]),
        ((["p.a"], [{"edge": "q.a", "from": ["d", 3], "to": ["d", 60]}]), ["p.n", "q.dart"]),
        ((["p.a"], [{"edge": "q.a", "from": "d"}]), ["p.b", "q.d"]),
        # several places are for the checks of seams to tell: a span walked the wrong way does that too
        ((["p.a", {"edge": "p.a", "mirrored": True}], ["q.a"]), ["p.n", None]),
        ((["p.a"], [{"edge": "q.a", "times": 3}]), [None, "q.dart"]),
    ],
)
def test_rows_that_meet(sides: Any, row: list[str | None]) -> None:
    assert told(PIECES, {**TOP, **seam(*sides, meet=[row])}) == []


@pytest.mark.parametrize(
    ("sides", "row", "rule", "entry"),
    [
        ((["p.c"], ["q.b"]), ["p.n", None], "broken-reference", 0),
        ((["p.a", {"edge": "p.a", "mirrored": True}], ["q.a"]), ["p.n#3", None], "broken-reference", 0),
        ((["p.a"], ["q.b"]), [None, "top"], "broken-reference", 1),
        ((["p.a"], ["q.b"]), [None, "strip.end"], "broken-reference", 1),
        ((["p.a"], ["q.b"]), [None, "nothing"], "broken-reference", 1),
        ((["p.a"], ["q.b"]), ["p.c", None], "broken-reference", 0),
    ],
)
def test_rows_that_do_not(sides: Any, row: list[str | None], rule: str, entry: int) -> None:
    assert told(PIECES, {**TOP, **seam(*sides, meet=[row])}) == [(rule, f"/seams/s/meet/0/{entry}")]


def test_what_stands_in_several_places_is_told_with_the_way_to_say_which() -> None:
    two = {
        "spans": ["p.a", {"edge": "p.a", "mirrored": True}],
        "join": {"kind": "eased", "amount": 3, "between": ["p.n", "p.d"]},
    }
    document = {"notchwork": "1.0", "pieces": PIECES, "seams": seam(["strip.lower"], two)}
    finding = read_pattern(json.dumps(document).encode(), "x").faults[0]
    assert 'Say which, in walking order: "p.n#1" or "p.n#2".' in worded(finding.hint, finding.values)


def test_ease_lies_between_places_of_its_side() -> None:
    def between(*names: str) -> list[tuple[str, str]]:
        two = {"spans": ["p.a", "q.a"], "join": {"kind": "eased", "amount": 3, "between": list(names)}}
        return told(PIECES, {**TOP, **seam(["strip.lower"], two)})

    assert between("n", "dart") == []
    assert between("p.n", "q.dart") == []
    assert between("p.d", "q.b") == []
    assert between("top", "n") == []
    assert between("p.n2", "n") == [("broken-reference", "/seams/s/sides/1/join/between/0")]
    assert between("d", "dart") == [("ambiguous-place", "/seams/s/sides/1/join/between/0")]


def test_a_like_piece_has_the_names_it_takes_over() -> None:
    pieces = {**PIECES, "lining": {"like": "p", "notches": {"n": None, "m": {"edge": "b", "at": ["a", 3]}}}}
    assert told(pieces, seam(["lining.a"], [{"edge": "lining.follow", "from": "b"}])) == []
    assert told(pieces, seam([{"edge": "lining.a", "from": "n", "to": "b"}], PLAIN)) == [
        ("broken-reference", "/seams/s/sides/0/0/from")
    ]


def test_a_fault_that_is_taken_over_is_told_once_where_it_stands() -> None:
    bad = square(notches={"n": {"edge": "z", "at": "a"}})
    pieces = {"one": {"like": "two"}, "two": {"like": "three"}, "three": bad}
    assert told(pieces) == [("broken-reference", "/pieces/three/notches/n/edge")]


def test_what_is_taken_away_from_under_another_thing_is_told() -> None:
    base = square(notches={"n": {"edge": "a", "at": ["d", 3]}, "m": {"edge": "a", "at": ["n", 5]}})
    pieces = {"base": base, "other": {"like": "base", "notches": {"n": None}}}
    assert told(pieces) == [("broken-reference", "/pieces/base/notches/m/at")]


def test_circles() -> None:
    assert told({"a": {"like": "b"}, "b": {"like": "c"}, "c": {"like": "b"}}) == [
        ("circle", "/pieces/b/like")
    ]
    notches = {"m": {"edge": "a", "at": ["n", 3]}, "n": {"edge": "a", "at": ["m", 3]}}
    assert ("circle", "/pieces/p/notches/m/at") in told({"p": square(notches=notches)})


def test_outlines_by_size_have_the_same_edges() -> None:
    def outline(*edges: str) -> list[Document]:
        return [{"at": [k, k * k], "edge": edge} for k, edge in enumerate(edges)]

    sizes = {"names": ["S", "M", "L"], "base": "M"}
    same = {"S": outline("a", "b", "c"), "M": outline("a", "b", "c")}
    turned = {"S": outline("a", "b", "c"), "M": outline("a", "c", "b")}
    rolled = {"S": outline("a", "b", "c"), "M": [{"at": [9, 9]}, *outline("a", "b", "c")]}
    assert told({"p": {"outlines": same}}, sizes=sizes) == []
    assert told({"p": {"outlines": rolled}}, sizes=sizes) == []
    assert told({"p": {"outlines": turned}}, sizes=sizes) == [("outlines-unlike", "/pieces/p/outlines/M")]
    assert told({"p": {"outlines": {**same, "XL": outline("a", "b", "c")}}}, sizes=sizes) == [
        ("broken-reference", "/pieces/p/outlines/XL")
    ]


def test_a_piece_of_some_sizes_gives_values_for_those() -> None:
    outline = [{"at": [0, 0], "edge": "a"}, {"at": [9, 0], "edge": "b"}, {"at": [0, 9], "edge": "c"}]
    sizes = {"names": ["S", "M", "L"], "base": "M"}
    piece = {"outlines": {"S": outline, "M": outline}}
    assert told({"p": {**piece, "allowance": {"S": 1, "M": 2}}}, sizes=sizes) == []
    assert told({"p": {**piece, "allowance": {"S": 1}}}, sizes=sizes) == [
        ("sizes-incomplete", "/pieces/p/allowance")
    ]


def test_rules_do_not_move_what_is_drawn_for_each_size() -> None:
    outline = [
        {"at": [0, 0], "edge": "a"},
        {"at": [9, 0], "edge": "b", "grade": "g"},
        {"at": [0, 9], "edge": "c"},
    ]
    sizes = {"names": ["S", "M"], "base": "M"}
    rules = {"g": {"S": [1, 1]}}
    assert told({"p": {"outlines": {"S": outline}}}, sizes=sizes, grade_rules=rules) == [
        ("contradiction", "/pieces/p/outlines/S/1/grade")
    ]


def test_nodes_between_two_corners_on_one_spot_cannot_follow() -> None:
    outline: list[Document] = [
        {"at": [0, 0], "edge": "a"},
        {"at": [50, 0]},
        {"at": [0, 0], "edge": "b", "grade": "g"},
    ]
    outline += [{"at": [0, -50], "edge": "c"}]
    sizes = {"names": ["S", "M"], "base": "M"}
    assert told({"p": {"outline": outline}}, sizes=sizes, grade_rules={"g": {"S": [1, 1]}}) == [
        ("badly-stated", "/pieces/p/outline/1")
    ]
    del outline[2]["grade"]
    assert told({"p": {"outline": outline}}) == []


def test_without_sizes_nothing_is_given_by_size() -> None:
    assert told({"p": square(allowance={"S": 1})}) == [("broken-reference", "/pieces/p/allowance/S")]


def test_an_outline_may_begin_inside_an_edge() -> None:
    outline = [{"at": [0, 50], "name": "inside"}, {"at": [0, 0], "edge": "a"}, {"at": [90, 0], "edge": "b"}]
    outline += [{"at": [0, 90], "edge": "c"}]
    pieces = {**PIECES, "p": {"outline": outline, "notches": {"n": {"edge": "c", "at": ["inside", 3]}}}}
    assert told(pieces, seam([{"edge": "p.c", "from": "inside", "to": "a"}], PLAIN)) == []


def test_openings_and_notions_name_lines_of_every_kind() -> None:
    openings = {"o": {"kind": "buttons", "sections": [[{"edge": "p.line", "from": "start"}], ["p.hole"]]}}
    notions = {
        "a": {"kind": "button", "in": "o"},
        "b": {"kind": "elastic", "in": "p.follow"},
        "c": {"kind": "cord", "in": "r.rim"},
    }
    assert told(PIECES, openings=openings, notions=notions) == []


def test_a_circle_is_told_once_wherever_it_is_entered() -> None:
    pieces = {"tail": {"like": "b"}, "b": {"like": "c"}, "c": {"like": "b"}}
    assert told(pieces) == [("circle", "/pieces/b/like")]
    notches = {
        "t": {"edge": "a", "at": ["m", 1]},
        "m": {"edge": "a", "at": ["n", 1]},
        "n": {"edge": "a", "at": ["m", 1]},
    }
    assert told({"p": square(notches=notches)}) == [("circle", "/pieces/p/notches/m/at")]


def test_things_refer_to_each_other_only_so_often_in_a_row() -> None:
    """Long circles and rows are told at once; a row of fifty is nobody's slip."""

    def row(count: int, last: Document) -> Document:
        return {f"p{k}": {"like": f"p{k + 1}"} if k < count - 1 else last for k in range(count)}

    assert told(row(50, square())) == []
    assert told(row(51, square())) == [("out-of-range", "/pieces/p0/like")]
    assert told(row(1900, square())) == [("out-of-range", "/pieces/p1849/like")]
    assert told(row(1900, {"like": "p0"})) == [("circle", "/pieces/p0/like")]

    def notched(count: int) -> Document:
        at = {f"n{k}": [f"n{k - 1}", 0.1] if k else ["b", 1] for k in range(count)}
        return square(notches={name: {"edge": "a", "at": place} for name, place in at.items()})

    assert told({"p": notched(50)}) == []
    assert told({"p": notched(1900)}) == [("out-of-range", "/pieces/p/notches/n50/at")]


def test_what_is_short_to_write_may_not_be_endless_to_walk() -> None:
    long = [{"edge": "p.a", "times": 1000}] * 6
    pieces = {"p": square(), "q": square()}
    assert told(pieces, seam(long[:5], PLAIN)) == []
    assert told(pieces, seam(PLAIN, long)) == [("out-of-range", "/seams/s/sides/1")]


def test_what_is_short_to_write_may_not_be_endless_to_draw() -> None:
    nodes = [{"at": [k % 100, k]} for k in range(1000)]
    long = square(inner={"wave": {"line": nodes}})
    assert told({"p": long} | {f"p{k}": {"like": "p"} for k in range(995)}) == []
    assert told({"p": long} | {f"p{k}": {"like": "p"} for k in range(996)}) == [("out-of-range", "/pieces")]


def words(pieces: Document, **more: Any) -> list[str]:
    """Text and hint of every fault."""
    faults = read_pattern(json.dumps({"notchwork": "1.0", "pieces": pieces, **more}).encode(), "x").faults
    return [f"{worded(f.text, f.values)} {worded(f.hint, f.values)}" for f in faults]


def test_the_first_material_is_told_how_to_be_stated() -> None:
    [first] = words({"p": square(cut=[{"material": "cotton"}])})
    assert first.startswith('Piece p, cut order 1, "material": there is no material called "cotton".')
    assert first.endswith('There is none yet. State it: "materials": {"cotton": {"kind": "cloth"}}.')
    assert words({"p": square(cut=[{"material": "cotton"}])}, materials={"linen": {}})[0].endswith(
        'There is "linen".'
    )


def test_a_fault_is_said_of_the_piece_that_has_it() -> None:
    """The notch is right on the piece that states it; it is the other one that has no such edge."""
    front = square(notches={"n": {"edge": "a", "at": ["b", 10]}})
    other = {
        "outline": [{"at": at, "edge": edge} for edge, at in (("x", [0, 0]), ("y", [9, 0]), ("z", [9, 9]))]
    }
    for pieces in (
        {"front": front, "back": {"like": "front", **other}},
        {"back": {"like": "front", **other}, "front": front},
    ):
        [told_of] = words(pieces)
        assert told_of.startswith(
            'Piece back (like front), notch n, "edge": there is no edge or inner line of this piece'
        )
    front["notches"]["n"]["edge"] = "nowhere"
    [told_of] = words({"back": {"like": "front"}, "front": front})
    assert told_of.startswith("Piece front, notch n")


def test_what_lies_on_itself_may_be_sewn_along_its_fold() -> None:
    pocket = square(edges={"a": {"fold": True}})
    pieces = {"pocket": pocket, "front": square()}
    sides = (["front.a"], ["pocket.a"])
    assert told(pieces, seam(*sides)) == [("contradiction", "/seams/s/sides/1/0")]
    assert told(pieces, seam(*sides, construction="applied")) == []


def test_empty_keys_are_names_that_cannot_be() -> None:
    for key in ("edges", "notches", "darts", "marks", "inner", "cutouts", "pleats"):
        for entry in ({}, {"edge": "a"}, 3):
            found = told({"p": square(**{key: {"": entry}})})
            assert ("bad-name", f"/pieces/p/{key}/") in found
    for section in ("pieces", "seams", "materials", "openings", "notions", "grade_rules", "body", "girths"):
        document = {"notchwork": "1.0", section: {"": {}}}
        faults = read_pattern(json.dumps(document).encode(), "x").faults
        assert f"/{section}/" in [fault.place.pointer for fault in faults]
    assert told({"p": square()}, {"": {"sides": [["p.a"], ["p.c"]]}}) == [("bad-name", "/seams/")]


def test_faults_beside_a_broken_node_are_told_with_it() -> None:
    broken = square(name=15)
    broken["outline"][1] = {"at": "here", "edge": "b"}
    assert told({"p": broken}) == [("wrong-type", "/pieces/p/outline/1/at"), ("wrong-type", "/pieces/p/name")]
    broken["outline"][2] = 7
    assert told({"p": broken}, seam(["p.a"], ["p.c"])) == [
        ("wrong-type", "/pieces/p/outline/1/at"),
        ("wrong-type", "/pieces/p/outline/2"),
        ("wrong-type", "/pieces/p/name"),
    ]
