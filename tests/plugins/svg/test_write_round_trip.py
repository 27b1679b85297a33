"""Round trips of a written drawing: with its document nothing is lost; without, all that is drawn comes back."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from drawn import differences
from patterns import CASES

from notchwork import jobs
from notchwork.demo import example
from notchwork.document import read_pattern, write_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Drawing, Stroke, as_svg
from notchwork.findings import Severity
from notchwork.formats import Source
from notchwork.model import Pattern
from notchwork.recognise.recognise import recognise
from notchwork.sewing import Nest
from notchwork_plugins.svg.read import read

GARMENTS = [
    CASES / f"{name}.pattern.json"
    for name in ("ferry_smock", "every_key", "sound/shirt", "sound/circle_skirt")
]


def nest_of(data: bytes) -> Nest:
    pattern = read_pattern(data, "test").pattern
    assert pattern is not None
    return Nest(pattern)


def through_a_file(nest: Nest, options: Options | None = None) -> Pattern:
    found = read(Source("test.svg", as_svg(draw_pattern(nest, options)).encode()), {}).drawing
    assert found is not None
    assert found.attached is None
    return recognise(found).pattern


def test_the_demo_comes_back_in_its_three_sizes_with_what_it_states() -> None:
    nest = nest_of(example("sound.pattern.json"))
    again = through_a_file(nest)
    assert again.sizes == nest.pattern.sizes
    assert differences(nest, Nest(again)) == []
    assert again.seams == nest.pattern.seams
    assert again.openings == nest.pattern.openings
    assert not again.notions


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
def test_garments_come_back(path: Path) -> None:
    nest = nest_of(path.read_bytes())
    assert differences(nest, Nest(through_a_file(nest))) == []


def test_halves_come_back_from_pieces_drawn_whole() -> None:
    nest = nest_of((CASES / "ferry_smock.pattern.json").read_bytes())
    assert differences(nest, Nest(through_a_file(nest, Options(unfolded=True)))) == []


def written(data: bytes) -> Drawing:
    nest = nest_of(data)
    return replace(draw_pattern(nest), attached=write_pattern(nest.pattern))


def read_as_pattern(text: str) -> bytes:
    return write_pattern(jobs.load(text.encode(), "drawing.svg").sound())


WHOLE = [
    *GARMENTS,
    *(
        CASES / f"{name}.pattern.json"
        for name in (
            "two_panel_skirt",
            "sound/pleated_apron",
            "sound/lined_bodice",
            "sound/tunic_drawn_whole",
            "sound/zipped_pouch",
        )
    ),
]


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.name.partition(".")[0])
def test_as_written_the_document_comes_back_byte_for_byte(path: Path) -> None:
    drawing = written(path.read_bytes())
    assert read_as_pattern(as_svg(drawing)) == drawing.attached


def test_the_demo_comes_back_byte_for_byte_and_sews_together() -> None:
    drawing = written(example("sound.pattern.json"))
    text = as_svg(drawing)
    assert read_as_pattern(text) == drawing.attached
    assert jobs.check(jobs.load(text.encode(), "demo.svg")).sews_together


def rounded(text: str, digits: int) -> str:
    """As programs do that keep so many digits of each number: whatever its size, in paths and in where groups lie."""

    def shorter(found: re.Match[str]) -> str:
        numbers = re.sub(r"-?[0-9.]+", lambda number: f"{float(number[0]):.{digits}g}", found[2])
        return f'{found[1]}"{numbers}"'

    return re.sub(r'(\bd=|data-shift=)"([^"]*)"', shorter, text)


@pytest.mark.parametrize("digits", [5, 6, 7])
def test_a_program_that_rounds_all_numbers_changes_nothing(digits: int) -> None:
    drawing = written((CASES / "ferry_smock.pattern.json").read_bytes())
    assert read_as_pattern(rounded(as_svg(drawing), digits)) == drawing.attached


def test_a_piece_laid_elsewhere_is_not_changed() -> None:
    drawing = written((CASES / "ferry_smock.pattern.json").read_bytes())
    text = as_svg(drawing).replace('<g id="back" ', '<g id="back" transform="translate(12.5 40)" ')
    assert read_as_pattern(text) == drawing.attached
    # Some programs work the transform into the numbers, and leave where the group lay as it was.
    shifted = replace(drawing, groups=tuple(replace(g, shift=g.shift + 33.25) for g in drawing.groups))
    assert read_as_pattern(as_svg(shifted)) == drawing.attached


def with_corner_moved(drawing: Drawing, piece: str, corner: complex, by: complex, size: str) -> Drawing:
    def moved(stroke: Stroke) -> Stroke:
        if stroke.meaning not in ("stitch", "fold") or stroke.facts.get("size", size) != size:
            return stroke
        return replace(
            stroke, cubics=np.where(np.abs(stroke.cubics - corner) < 1e-6, corner + by, stroke.cubics)
        )

    return replace(
        drawing,
        groups=tuple(
            replace(g, strokes=tuple(moved(s) for s in g.strokes)) if g.name == piece else g
            for g in drawing.groups
        ),
    )


def test_an_edited_line_wins_over_the_document() -> None:
    drawing = written((CASES / "ferry_smock.pattern.json").read_bytes())
    text = as_svg(with_corner_moved(drawing, "front", 250 + 0j, -5j, "M"))
    loaded = jobs.load(text.encode(), "edited.svg")
    pattern, before = loaded.sound(), nest_of((CASES / "ferry_smock.pattern.json").read_bytes())
    assert pattern.seams == before.pattern.seams
    assert pattern.notions == before.pattern.notions
    assert pattern.pieces["back"] == before.pattern.pieces["back"]
    lengths = Nest(pattern).line("front", "side").length
    assert lengths - before.line("front", "side").length == pytest.approx([0, 5, 0], abs=0.001)
    found = {finding.rule.id for finding in jobs.check(loaded).findings}
    assert {"recognised/drawn-anew", "seams/unequal-length"} <= found


def test_a_line_edited_after_a_program_rounded_all_numbers_wins_too() -> None:
    drawing = written((CASES / "ferry_smock.pattern.json").read_bytes())
    edited = rounded(as_svg(with_corner_moved(drawing, "front", 250 + 0j, -5j, "M")), 5)
    pattern = jobs.load(edited.encode(), "edited.svg").sound()
    before = nest_of((CASES / "ferry_smock.pattern.json").read_bytes())
    assert pattern.pieces["back"] == before.pattern.pieces["back"]
    assert Nest(pattern).line("front", "side").length[1] == pytest.approx(405, abs=0.1)


def test_without_the_document_its_loss_is_told_and_nothing_else() -> None:
    drawing = replace(written(example("sound.pattern.json")), attached=None)
    verdict = jobs.check(jobs.load(as_svg(drawing).encode(), "demo.svg"))
    [gone] = verdict.at_least(Severity.WARNING)
    assert gone.rule.id == "recognised/document-gone"


@pytest.mark.parametrize(("by", "anew"), [(0.0008, False), (0.002, True), (0.03, True)])
def test_a_line_has_moved_when_it_moved_by_more_than_a_thousandth(by: float, anew: bool) -> None:
    drawing = written((CASES / "ferry_smock.pattern.json").read_bytes())
    text = as_svg(with_corner_moved(drawing, "sleeve", -184 + 0j, complex(by, 0), "M"))
    assert (read_as_pattern(text) != drawing.attached) == anew


@pytest.mark.parametrize(
    "options",
    [
        Options(unfolded=True),
        Options(allowances=False),
        Options(sizes=("M",)),
        Options(sizes=("S", "L")),
        Options(pieces=("front", "sleeve")),
    ],
    ids=["unfolded", "no-allowance", "one-size", "two-sizes", "two-pieces"],
)
def test_whatever_was_chosen_to_be_drawn_the_whole_document_comes_back(options: Options) -> None:
    nest = nest_of((CASES / "ferry_smock.pattern.json").read_bytes())
    document = write_pattern(nest.pattern)
    assert read_as_pattern(as_svg(replace(draw_pattern(nest, options), attached=document))) == document
