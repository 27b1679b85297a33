from __future__ import annotations

import pytest

from notchwork.model import Cut, Edge, Node, Notch, Pattern, Piece, Place, Strip, resolved_pieces, root_of

OUTLINE = (Node(0j, edge="a"), Node(9 + 0j, edge="b"), Node(9j, edge="c"))
BASE = Piece(
    name="Base",
    allowance=10,
    outline=OUTLINE,
    edges={"a": Edge(allowance=3, fold=True), "b": Edge(trim_to=2)},
    notches={"n": Notch("a", Place("b"))},
    cut=(Cut("linen", count=2),),
    note="Mind the nap.",
    extra={"x-a": 1, "x-b": 2},
)


def complete(**pieces: Piece) -> dict[str, Piece]:
    return resolved_pieces(Pattern(version="1.0", pieces={"base": BASE, **pieces}))


def test_what_is_not_stated_is_taken_over() -> None:
    piece = complete(other=Piece(like="base", allowance=5))["other"]
    assert piece.allowance == 5
    assert piece.outline == OUTLINE
    assert piece.name == "Base"
    assert piece.cut == BASE.cut


def test_a_stated_object_replaces_its_namesake_whole_and_leaves_the_others() -> None:
    piece = complete(other=Piece(like="base", edges={"a": Edge(allowance=4)}))["other"]
    assert piece.edges == {"a": Edge(allowance=4), "b": Edge(trim_to=2)}


def test_null_removes_one_thing_or_a_whole_key() -> None:
    piece = complete(other=Piece(like="base", edges={"a": None}, removed=frozenset({"notches", "note"})))[
        "other"
    ]
    assert piece.edges == {"b": Edge(trim_to=2)}
    assert piece.notches == {}
    assert piece.note is None


def test_a_strip_takes_the_place_of_an_outline() -> None:
    piece = complete(other=Piece(like="base", strip=Strip(9, 90)))["other"]
    assert (piece.outline, piece.outlines, piece.strip) == (None, None, Strip(9, 90))


def test_keys_of_ones_own_are_merged() -> None:
    assert complete(other=Piece(like="base", extra={"x-b": 3}))["other"].extra == {"x-a": 1, "x-b": 3}


def test_chains_are_followed_to_their_root() -> None:
    pieces = {"one": Piece(like="two", allowance=1), "two": Piece(like="base", notches={"n": None})}
    found = complete(**pieces)
    assert found["one"].notches == {}
    assert found["one"].allowance == 1
    assert list(found) == ["base", "one", "two"]
    assert root_of(Pattern(version="1.0", pieces={"base": BASE, **pieces}), "one") == "base"


def test_circles_and_unknown_pieces_are_refused() -> None:
    with pytest.raises(ValueError, match="a -> b -> a"):
        complete(a=Piece(like="b"), b=Piece(like="a"))
    with pytest.raises(KeyError):
        complete(a=Piece(like="nobody"))
