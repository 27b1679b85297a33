"""Drawings through the door: read, put into the document they carry, and checked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from patterns import case, nest_of
from storm_petrel import sound

from notchwork import jobs
from notchwork.document import write_pattern
from notchwork.draw import Options as Drawn
from notchwork.draw import draw_pattern
from notchwork.drawing import as_svg
from notchwork.findings import Severity
from notchwork.recognise import Options

SQUARE = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="300mm" viewBox="0 0 700 300">'
    b'<path d="M10 10h200v200h-200z" fill="none" stroke="#000"/><text x="100" y="100" font-size="9">Front</text>'
    b'<path d="M310 10h203v203h-203z" fill="none" stroke="#000"/><text x="400" y="100" font-size="9">Back</text>'
    b'<text x="201" y="100" font-size="5">A</text><text x="314" y="100" font-size="5">A</text></svg>'
)


def rules(loaded: jobs.Loaded) -> set[str]:
    return {finding.rule.id for finding in loaded.findings}


def test_a_drawing_gives_back_the_document_byte_for_byte(tmp_path: Path) -> None:
    for document in (case("ferry_smock"), case("every_key")):
        pattern = nest_of(document).pattern
        jobs.convert(write_pattern(pattern), tmp_path / "there.svg")
        back = jobs.load(tmp_path / "there.svg")
        assert write_pattern(back.sound()) == write_pattern(pattern)
        assert not any(rule.startswith("recognised/") for rule in rules(back))


def test_without_its_document_the_demo_comes_back_as_it_is_drawn(tmp_path: Path) -> None:
    nest = nest_of(sound())
    jobs.convert(write_pattern(nest.pattern), tmp_path / "bare.svg", drawing=Drawn(document=False))
    loaded = jobs.load(tmp_path / "bare.svg")
    assert "recognised/document-gone" in rules(loaded)
    back = jobs.describe(loaded)
    assert back.sizes == nest.sizes
    for ident, graded in nest.pieces.items():
        if not graded.has_shape:
            continue
        found = back.pieces[ident]
        assert found.edges == graded.edges
        assert found.folds == graded.folds
        assert found.written.cut == graded.written.cut
        assert set(found.apexes) == set(graded.apexes)
        for edge in graded.edges:
            assert found.lines[edge].length == pytest.approx(graded.lines[edge].length, abs=0.002)
    for key, at in nest.notches.items():
        assert back.notches[key] == pytest.approx(at, abs=0.002)
    verdict = jobs.check(loaded)
    assert {g.rule.id for g in verdict.at_least(Severity.WARNING)} == {
        "seams/none-stated",
        "recognised/document-gone",
    }


def test_a_damaged_document_is_told_and_the_drawing_read() -> None:
    drawing = draw_pattern(nest_of(case("two_panel_skirt")))
    svg = as_svg(replace(drawing, attached=b'{"notchwork": "1.0", "pieces": {"front": {"allowence": 1}}}'))
    loaded = jobs.load(svg.encode(), "skirt.svg")
    assert "recognised/document-unreadable" in rules(loaded)
    assert set(loaded.sound().pieces) == {"front", "back"}


def test_what_the_outlines_are_can_be_stated() -> None:
    unknown = jobs.check(jobs.load(SQUARE, "bag.svg"))
    assert "seams/unequal-length" not in {g.rule.id for g in unknown.findings}
    assert "pieces/outline-not-known" in {g.rule.id for g in unknown.findings}
    stitch = jobs.check(jobs.load(SQUARE, "bag.svg", reading=Options(outline="stitch")), ["seams"])
    [found] = stitch.at_least(Severity.WARNING)
    assert (found.rule.id, found.finding.place.seam) == ("seams/unequal-length", "A")
    cut = jobs.describe(jobs.load(SQUARE, "bag.svg", reading=Options(outline="cut", allowance=10)))
    assert cut.line("front", "right").length == pytest.approx([180])
    assert cut.pattern.pieces["front"].allowance == 10


def test_options_of_the_format_read_and_of_the_one_written(tmp_path: Path) -> None:
    source = tmp_path / "bag.svg"
    source.write_bytes(SQUARE.replace(b'width="700mm" height="300mm" ', b""))
    done = jobs.convert(source, tmp_path / "bag.pattern.json", options={"scale": "2mm"})
    assert jobs.describe(done.pattern).line("front", "right").length == pytest.approx([400])


def test_nothing_that_is_a_piece_is_told() -> None:
    loaded = jobs.load(b'<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"/>', "empty.svg")
    assert "recognised/no-piece" in rules(loaded)
    assert jobs.check(loaded).at_least(Severity.WARNING)
