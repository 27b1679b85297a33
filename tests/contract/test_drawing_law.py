"""What is drawn can be recognised: the nests of recognise(draw(p)) and of p agree in all that a drawing carries."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from drawn import Document, differences, small_patterns
from hypothesis import given, settings
from patterns import CASES, case, nest_of

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.model import Side
from notchwork.recognise.recognise import recognise
from notchwork.sewing import Nest

GARMENTS = sorted(path for path in CASES.rglob("*.pattern.json") if "measured" not in path.name)


def seen_again(nest: Nest, options: Options | None = None) -> Nest:
    return Nest(recognise(draw_pattern(nest, options)).pattern)


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
def test_every_garment_is_recognised_as_it_was_drawn(path: Path) -> None:
    pattern = read_pattern(path.read_bytes(), path.name).pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest)) == []


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
def test_letters_give_back_their_seams_word_for_word_or_not_at_all(path: Path) -> None:
    pattern = read_pattern(path.read_bytes(), path.name).pattern
    assert pattern is not None
    nest = Nest(pattern)
    found = recognise(draw_pattern(nest))
    again = found.pattern.seams
    assert all(again[name] == pattern.seams[name] for name in again)
    assert list(again) == [name for name in pattern.seams if name in again]
    told = {
        finding.values["what"] for finding in found.findings if finding.rule.id == "recognised/no-longer-fits"
    }
    drawn = {
        name for name, seam in pattern.seams.items() if any(_is_drawn(nest, side) for side in seam.sides)
    }
    assert told == drawn - set(again)


def _is_drawn(nest: Nest, side: Side) -> bool:
    return any(nest.pieces[span.piece].has_shape for span in side.spans)


def test_most_seams_come_back_from_letters_and_those_of_missing_pieces_do_not() -> None:
    nest = nest_of(case("ferry_smock"))
    # The cap's crown is a node, and no drawing names nodes.
    assert set(recognise(draw_pattern(nest)).pattern.seams) == set(nest.pattern.seams) - {"armhole"}
    alone = recognise(draw_pattern(nest, Options(pieces=("front", "sleeve"))))
    assert set(alone.pattern.seams) == {
        name
        for name, seam in nest.pattern.seams.items()
        if {span.piece for side in seam.sides for span in side.spans} <= {"front", "sleeve"}
    } - {"armhole"}


def test_copies_are_no_pieces_of_their_own() -> None:
    nest = nest_of(case("ferry_smock"))
    drawing = draw_pattern(nest, Options(copies=True))
    assert sum("copy" in group.facts for group in drawing.groups) > 0
    assert differences(nest, Nest(recognise(drawing).pattern)) == []


def test_a_piece_of_which_only_copies_are_drawn_is_told() -> None:
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["cut"] = [{"material": "outer", "count": 1, "hand": "mirrored"}]
    document["materials"] = {"outer": {}} | document.get("materials", {})
    found = recognise(draw_pattern(nest_of(document), Options(copies=True)))
    assert "sleeve" not in found.pattern.pieces
    assert "recognised/copies-only" in {finding.rule.id for finding in found.findings}


def test_the_demo_is_recognised_as_it_was_drawn() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest)) == []


def test_a_piece_drawn_whole_is_still_a_half_on_its_fold() -> None:
    pattern = read_pattern((CASES / "ferry_smock.pattern.json").read_bytes(), "smock").pattern
    assert pattern is not None
    nest = Nest(pattern)
    assert differences(nest, seen_again(nest, Options(unfolded=True))) == []
    assert differences(nest, seen_again(nest, Options(allowances=False))) == []


@settings(max_examples=25, deadline=None)
@given(small_patterns())
def test_any_pattern_is_recognised_as_it_was_drawn(document: Document) -> None:
    nest = nest_of(document)
    assert differences(nest, seen_again(nest)) == []


@pytest.mark.parametrize(
    ("pointer", "value", "what"),
    [
        ("/pieces/front/outline/4/at", [250, 400.01], "line side"),
        ("/pieces/back/notches/pitch/at", ["side", 90.01], "notch pitch"),
        ("/pieces/back/notches/pitch/kind", "single", "notch pitch"),
        ("/pieces/sleeve/grainline", [[0, 60], [1, 360]], "grain"),
        ("/pieces/front/edges/center/fold", False, "folds"),
        ("/pieces/sleeve/cut/0/count", 4, "cut orders"),
        ("/pieces/front/edges/hem/allowance", 31, "allowance of hem"),
        ("/grade_rules/tip/L", [4, -2], "line armhole in L"),
    ],
)
def test_the_comparison_sees_what_differs(pointer: str, value: object, what: str) -> None:
    document = case("ferry_smock")
    *path, last = pointer.removeprefix("/").split("/")
    holder: Any = document
    for key in path:
        holder = holder[int(key) if isinstance(holder, list) else key]
    holder[int(last) if isinstance(holder, list) else last] = value
    assert any(what in line for line in differences(nest_of(case("ferry_smock")), nest_of(document)))
