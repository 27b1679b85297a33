"""The pattern at a glance: everything is there once, nothing lies on anything else."""

from __future__ import annotations

import json
from collections import Counter
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from patterns import case
from verdicts import FAULTY, SOUND, verdict_of

from notchwork.checks import Names, Verdict
from notchwork.geometry import inside
from notchwork.pictures import standalone
from notchwork.pictures.glance import glance_pictures
from notchwork.pictures.glance.glance import Glance, glances
from notchwork.pictures.glance.rings import RADIUS, wide
from notchwork.pictures.glance.rows import ROOM
from notchwork.pictures.tokens import edge_token, token
from notchwork.sewing import Nest
from notchwork.sewing.letters import letters

SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[complex, complex]


def nest_of(verdict: Verdict) -> Nest:
    assert verdict.nest is not None
    return verdict.nest


LAID: dict[int, tuple[Verdict, list[Glance]]] = {}


def laid_out(verdict: Verdict) -> list[Glance]:
    """The pattern in all sizes, laid out once for all tests."""
    if id(verdict) not in LAID:
        LAID[id(verdict)] = verdict, list(glances(nest_of(verdict), verdict))
    return LAID[id(verdict)][1]


def drawn(verdict: Verdict) -> list[ElementTree.Element]:
    """The pictures of all sizes as documents."""
    return [
        ElementTree.fromstring(standalone(picture))
        for picture in glance_pictures(nest_of(verdict), verdict).values()
    ]


def overlap(a: Box, b: Box) -> bool:
    (a0, a1), (b0, b1) = a, b
    return (
        min(a1.real, b1.real) - max(a0.real, b0.real) > 0.01
        and min(a1.imag, b1.imag) - max(a0.imag, b0.imag) > 0.01
    )


def test_there_is_one_picture_for_every_size(looked_at: Verdict) -> None:
    nest = nest_of(looked_at)
    found = glance_pictures(nest, looked_at)
    assert list(found) == list(nest.sizes)
    assert len({picture.key for picture in found.values()}) == len(found)


def test_every_piece_with_a_shape_is_there_once_and_the_others_are_named(looked_at: Verdict) -> None:
    nest = nest_of(looked_at)
    for size, picture in enumerate(drawn(looked_at)):
        shown = [token(ident) for ident, p in nest.pieces.items() if p.has_shape and p.present[size]]
        assert [g.get("data-piece") for g in picture.iter(f"{SVG}g") if g.get("data-piece")] == shown
        said = " ".join(text.text or "" for text in picture.iter(f"{SVG}text"))
        for ident, piece in nest.pieces.items():
            if token(ident) not in shown:
                assert all(word in said for word in piece.name.split()), piece.name


def test_every_edge_can_be_pointed_at_and_says_its_name_and_length(looked_at: Verdict) -> None:
    nest = nest_of(looked_at)
    for size, picture in enumerate(drawn(looked_at)):
        hot = {
            g.get("data-edges"): g.get("aria-label") or ""
            for g in picture.iter(f"{SVG}g")
            if g.get("data-edges")
        }
        for ident, piece in nest.pieces.items():
            for edge in piece.edges if piece.has_shape and piece.present[size] else ():
                assert edge.replace("_", " ") in hot[edge_token(ident, edge)]


def test_every_edge_that_a_seam_takes_has_its_letter(looked_at: Verdict) -> None:
    nest = nest_of(looked_at)
    for laid in laid_out(looked_at):
        size, named = laid.size, letters(nest.pattern)
        there = {made.piece: {(r.seam, r.line) for r in made.rings} for made, _ in laid.pieces}
        lost = {(made.piece, seam) for made, _ in laid.pieces for seam in made.unplaced}
        wanted: dict[str, set[tuple[str, str]]] = {piece: set() for piece in there}
        for seam, sides in nest.sides.items():
            for side in sides:
                for stretch in side.stretches:
                    piece = stretch.graded.id
                    known = piece in there and np.isfinite(stretch.length[size])
                    if known and not stretch.line.by_tape and (piece, seam) not in lost:
                        wanted[piece].add((seam, stretch.line.name))
        assert {p: {r for r in rings if (p, r[0]) not in lost} for p, rings in there.items()} == wanted
        assert all(r.letter == named[r.seam] for made, _ in laid.pieces for r in made.rings)


def test_every_letter_is_drawn_on_its_piece_and_in_the_key(looked_at: Verdict) -> None:
    nest = nest_of(looked_at)
    for laid, root in zip(laid_out(looked_at), drawn(looked_at), strict=True):
        named = letters(nest.pattern)
        wanted = Counter([*named.values(), *(r.letter for made, _ in laid.pieces for r in made.rings)])
        assert (
            Counter(t.text for t in root.iter(f"{SVG}text") if "letter" in (t.get("class") or "")) == wanted
        )


def test_letters_find_room(looked_at: Verdict) -> None:
    for laid in laid_out(looked_at):
        assert not any(made.unplaced for made, _ in laid.pieces)


def test_no_letter_lies_off_its_piece_without_a_line_to_its_edge(looked_at: Verdict) -> None:
    for laid in laid_out(looked_at):
        for made, _ in laid.pieces:
            for ring in made.rings:
                half = complex(wide(ring.letter) / 2, RADIUS)
                corners = ring.middle + np.array([0, half, -half, half.conjugate(), -half.conjugate()])
                assert inside(made.outline, corners).all() or ring.leader is not None


def test_neither_words_nor_letters_lie_on_each_other(looked_at: Verdict) -> None:
    for laid in laid_out(looked_at):
        for made, _ in laid.pieces:
            boxes = list(made.words)
            for ring in made.rings:
                half = complex(wide(ring.letter) / 2, RADIUS)
                boxes.append((ring.middle - half, ring.middle + half))
            for a, b in combinations(boxes, 2):
                assert not overlap(a, b), (made.piece, a, b)


def test_pieces_lie_in_rows_without_touching(looked_at: Verdict) -> None:
    for laid in laid_out(looked_at):
        boxes = [(made.low + place, made.high + place) for made, place in laid.pieces]
        for low, high in boxes:
            assert min(low.real, low.imag, laid.height - high.imag) >= -0.01
        assert not any(overlap(a, b) for a, b in combinations(boxes, 2))


@pytest.mark.parametrize("path", [SOUND, FAULTY], ids=["sound", "faulty"])
def test_the_example_keeps_to_its_width(path: Path) -> None:
    for laid in laid_out(verdict_of(path)):
        assert all((made.high + place).real <= ROOM + 8.0 for made, place in laid.pieces)


def test_a_pattern_known_by_lengths_only_is_told_in_words() -> None:
    picture = next(iter(glance_pictures(nest_of(v := verdict_of(case("sound/measured_skirt"))), v).values()))
    assert "No piece has a shape" in picture.body
    assert "known by its lengths only and not drawn" in picture.says


def test_the_key_names_every_seam_whole() -> None:
    verdict = verdict_of(SOUND)
    names = Names(verdict.pattern)
    for root in drawn(verdict):
        said = [text.text for text in root.iter(f"{SVG}text")]
        assert all(said.count(names.seam(seam)) == 1 for seam in verdict.pattern.seams)


def test_the_words_say_the_verdict_first_then_everything_that_is_shown() -> None:
    verdict = verdict_of(FAULTY)
    said = list(glance_pictures(nest_of(verdict), verdict).values())[2].says
    assert said.startswith(
        "Size L: 8 of 18 seams do not fit. Front: 1 × Soot-grey cotton sateen, on the fold"
    )
    assert "D is Sleeve seam, on Sleeve." in said
    assert "Filled: B, D, E, G, H, L, Q and R." in said
    assert "D on Sleeve, back seam: 6.0 mm longer." in said


def test_pieces_keep_their_places_from_size_to_size() -> None:
    first, *others = laid_out(verdict_of(SOUND))
    for other in others:
        assert [place for _, place in other.pieces] == [place for _, place in first.pieces]


def test_names_that_are_meant_to_break_something_are_shown_as_text() -> None:
    document = json.loads(json.dumps(case("ferry_smock")).replace('"S"', json.dumps("S" * 10_000)))
    names = ['<script>alert("x")</script>', "W" * 10_000, "שלום \u202e rtl", "\U0001f9f5 ]]> & '"]
    for kind in ("pieces", "seams", "materials"):
        for thing, name in zip(document[kind].values(), names, strict=False):
            thing["name"] = name
    verdict = verdict_of(document)
    for root in drawn(verdict):
        assert not [e for e in root.iter() if "script" in e.tag]
        words = [text.text or "" for text in root.iter(f"{SVG}text")]
        assert any("<script>" in word for word in words)
        assert not any("\u202e" in word for word in words)
    for picture in glance_pictures(nest_of(verdict), verdict).values():
        assert len(picture.body) + len(picture.says) < 40_000
    for laid in laid_out(verdict):
        assert all((made.high + place).real <= ROOM + 8.0 for made, place in laid.pieces)


def test_a_seam_on_a_cut_out_has_its_letter_there() -> None:
    document = case("two_panel_skirt")
    front = document["pieces"]["front"]
    front["cutouts"] = {
        "window": {"line": [{"at": [100, 250]}, {"at": [200, 250]}, {"at": [200, 350]}, {"at": [100, 350]}]}
    }
    document["pieces"]["net"] = {
        "outline": [{"at": [0, 0], "edge": "rim"}, {"at": [100, 0]}, {"at": [100, 100]}, {"at": [0, 100]}],
        "cut": [{"material": "cotton", "count": 2}],
    }
    document["seams"]["window"] = {"sides": [["front.window"], ["net.rim"]]}
    (root,) = drawn(verdict_of(document))
    hot = {g.get("data-edges"): g for g in root.iter(f"{SVG}g")}
    for edge in ("front:window", "net:rim"):
        assert [text.text for text in hot[edge].iter(f"{SVG}text")] == ["B"]
