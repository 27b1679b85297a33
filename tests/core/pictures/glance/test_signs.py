"""A sign stands exactly where the verdict tells of a piece and no box shows it, and says what is wrong."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from patterns import Document, case
from verdicts import FAULTY, FILES, SOUND, verdict_of

from notchwork.checks import Verdict
from notchwork.findings import Severity
from notchwork.pictures import standalone
from notchwork.pictures.glance import glance_pictures
from notchwork.pictures.glance.flags import Sign
from notchwork.pictures.glance.glance import Glance, glances
from notchwork.pictures.glance.off import off_parts
from notchwork.pictures.glance.rings import RADIUS, wide
from notchwork.pictures.lettering import clipped, isolated
from notchwork.pictures.signs import SMALL as SIDE

SVG = "{http://www.w3.org/2000/svg}"
LAID: dict[int, tuple[Verdict, list[Glance]]] = {}


def laid_out(verdict: Verdict) -> list[Glance]:
    """The pattern in all sizes, laid out once for all tests."""
    if id(verdict) not in LAID:
        assert verdict.nest is not None
        LAID[id(verdict)] = verdict, list(glances(verdict.nest, verdict))
    return LAID[id(verdict)][1]


def signs(document: Document, *only: str, piece: str) -> list[Sign]:
    """The signs on a piece in the first size."""
    return next(
        made.signs for made, _ in laid_out(verdict_of(document, *only))[0].pieces if made.piece == piece
    )


def test_every_finding_that_concerns_a_drawn_piece_is_marked_there_unless_it_is_boxed(
    looked_at: Verdict,
) -> None:
    """Read from the findings themselves."""
    nest = looked_at.nest
    assert nest is not None
    for laid in laid_out(looked_at):
        size = nest.sizes[laid.size]
        boxed = {id(off.told) for off in off_parts(nest, looked_at, laid.size)}
        wanted: set[tuple[str, str]] = set()
        for number, graded in enumerate(looked_at.findings):
            rows = {row.row.size for row in graded.rows if row.severity >= Severity.WARNING}
            if graded.accepted is not None or graded.severity < Severity.WARNING or id(graded) in boxed:
                continue
            if not graded.rows or size in rows or None in rows:
                concerned = {*graded.finding.pieces, *(place.piece for place in graded.places)}
                wanted |= {(made.piece, str(number)) for made, _ in laid.pieces if made.piece in concerned}
        numbers = {id(graded): str(number) for number, graded in enumerate(looked_at.findings)}
        marked = {
            (made.piece, numbers[id(told.graded)])
            for made, _ in laid.pieces
            for sign in made.signs
            for told in sign.told
        }
        assert marked == wanted


def test_a_boxed_finding_is_boxed_for_a_reason() -> None:
    """Only what speaks of lengths, ease or fullness is shown by a box."""
    nest = (verdict := verdict_of(FAULTY)).nest
    assert nest is not None
    rules = {off.told.rule.id for size in range(3) for off in off_parts(nest, verdict, size)}
    assert rules == {"seams/unequal-length", "seams/fullness-not-as-stated", "sleeves/cap-ease"}


SOUND_ONES = [SOUND, *(path for path in FILES if path.parent.name == "sound")]


@pytest.mark.parametrize("path", SOUND_ONES, ids=lambda path: path.name)
def test_a_sound_pattern_has_none(path: Path) -> None:
    verdict = verdict_of(path)
    assert not any(made.signs for laid in laid_out(verdict) for made, _ in laid.pieces)
    assert verdict.nest is not None
    for picture in glance_pictures(verdict.nest, verdict).values():
        assert "Marked" not in picture.says
        assert "look at the list" not in picture.body


def test_signs_lie_on_nothing_else(looked_at: Verdict) -> None:
    half = complex(SIDE, SIDE) / 2
    for laid in laid_out(looked_at):
        for made, _ in laid.pieces:
            boxes = [
                *made.words,
                *(
                    (
                        ring.middle - complex(wide(ring.letter) / 2, RADIUS),
                        ring.middle + complex(wide(ring.letter) / 2, RADIUS),
                    )
                    for ring in made.rings
                ),
            ]
            placed = [(s.middle - half, s.middle + half) for s in made.signs if s.middle is not None]
            assert len(placed) == len(made.signs), made.piece
            for a0, a1 in placed:
                assert min(a0.real - made.low.real, made.high.real - a1.real) >= 0.0
                assert min(a0.imag - made.low.imag, made.high.imag - a1.imag) >= 0.0
            for (a0, a1), (b0, b1) in [*combinations(placed, 2), *((a, b) for a in placed for b in boxes)]:
                across = min(a1.real, b1.real) - max(a0.real, b0.real)
                down = min(a1.imag, b1.imag) - max(a0.imag, b0.imag)
                assert min(across, down) <= 0.01, made.piece


def test_a_sign_can_be_pointed_at_and_says_the_sentence_which_the_words_say_too(looked_at: Verdict) -> None:
    nest = looked_at.nest
    assert nest is not None
    pictures = glance_pictures(nest, looked_at).values()
    for laid, picture in zip(laid_out(looked_at), pictures, strict=True):
        root = ElementTree.fromstring(standalone(picture))
        hot = {g.get("aria-label") for g in root.iter(f"{SVG}g")}
        for made, _ in laid.pieces:
            for sign in made.signs:
                assert isolated(clipped(" ".join(told.says for told in sign.told))) in hot
                assert all(told.says in picture.says for told in sign.told)
        legend = [text.text for text in root.iter(f"{SVG}text")].count("look at the list")
        assert legend == any(made.signs for made, _ in laid.pieces)


def test_the_words_name_the_pieces_that_are_marked() -> None:
    verdict = verdict_of(FAULTY)
    assert verdict.nest is not None
    said = list(glance_pictures(verdict.nest, verdict).values())[1].says
    assert (
        "Marked: on Upper flounce. Upper flounce: No seam, opening, fold or finish takes its back (250.0 mm)."
        in said
    )
    assert "Marked: on Skirt front and Skirt back. Skirt side seam: Where it ends, the hem" in said
    assert "Marked: on Back and Back lining. Back zip (opening): " in said
    assert "cap" not in said.partition("Marked")[2], "it is boxed"


def points(verdict: Verdict, rule: str, size: int = 1) -> dict[str, list[complex]]:
    """By piece, the middles (px) of the signs of a rule."""
    found: dict[str, list[complex]] = {}
    for made, _ in laid_out(verdict)[size].pieces:
        for sign in made.signs:
            if sign.middle is not None and any(told.graded.rule.id == rule for told in sign.told):
                found.setdefault(made.piece, []).append(sign.middle)
    return found


def test_signs_stand_at_the_places_that_are_named() -> None:
    verdict = verdict_of(FAULTY)
    made = {piece.piece: piece for piece, _ in laid_out(verdict)[1].pieces}

    def corner(piece: str, way: complex) -> complex:
        """The point of the outline that lies furthest in a direction (y downward)."""
        ring = made[piece].outline
        return complex(ring[np.argmax((ring * np.conj(way)).real)])

    # The forgotten edge is the right end of the flounce: the sign stands inside it, at its middle.
    ring = made["upper_flounce"].outline
    (edge,) = points(verdict, "cutting/edge-unaccounted")["upper_flounce"]
    assert 7.0 < ring.real.max() - edge.real < 20.0
    assert edge.imag == pytest.approx((ring.imag.min() + ring.imag.max()) / 2, abs=10.0)
    # The hems meet where the side seams end, at the right corner of either skirt.
    hems = points(verdict, "hems/unlike-at-a-seam")
    assert set(hems) == {"skirt_front", "skirt_back"}
    for piece, (at,) in hems.items():
        assert abs(at - corner(piece, 1 + 0j)) < 30.0
    # The neck is dented where the shoulder seam ends, at the top corner of the front.
    dents = points(verdict, "seams/does-not-run-on")
    assert set(dents) == {"front", "back", "lining_front", "lining_back"}
    assert abs(dents["front"][0] - corner("front", -1j)) < 20.0
    # Both layers of the zip's opening, at the center edges, which are their left ones.
    for piece, (at,) in points(verdict, "openings/layers-differ").items():
        assert abs(at.real - made[piece].outline.real.min()) < 30.0
    # Both edges that grow and shrink.
    assert len(points(verdict, "sizes/grows-then-shrinks")["lower_flounce"]) == 2
    assert not points(verdict, "sizes/grows-then-shrinks", 0)
    assert set(points(verdict, "pieces/grain-against-fold")) == {"skirt_front"}


def ungrained(**more: object) -> Document:
    """The skirt of the README with a front that has no grainline."""
    document = {**case("two_panel_skirt"), **more}
    del document["pieces"]["front"]["grainline"]
    return document


def test_what_names_no_place_stands_before_the_name() -> None:
    made = next(iter(laid_out(verdict_of(ungrained(), "pieces/no-grain"))[0].pieces))[0]
    (sign,) = made.signs
    assert [told.graded.rule.id for told in sign.told] == ["pieces/no-grain"]
    assert sign.severity is Severity.WARNING
    assert sign.middle is not None
    name = next(
        (low, high)
        for low, high in made.words
        if low.imag < sign.middle.imag < high.imag and low.real > sign.middle.real
    )
    assert name[0].real - sign.middle.real < SIDE


def test_what_is_fine_has_none_and_what_was_accepted_on_purpose_neither() -> None:
    assert not signs(case("two_panel_skirt"), piece="front")
    assert signs(ungrained(), "pieces/no-grain", piece="back")
    accepted = [{"check": "pieces/no-grain", "piece": "front", "reason": "A felt without any."}]
    assert not signs(ungrained(accepted=accepted), "pieces/no-grain", piece="front")
