"""Letters are filled and intervals boxed exactly where the verdict says."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pytest
from patterns import Document, case
from verdicts import FAULTY, verdict_of

from notchwork.checks import Verdict
from notchwork.findings import Severity
from notchwork.pictures.glance import glance_pictures
from notchwork.pictures.glance.glance import glances
from notchwork.pictures.glance.off import Off, filled, off_parts
from notchwork.sewing import Nest


def longer(by: float = 6.0) -> Document:
    """The skirt of the README, its back longer by so many mm below the hip notch, which is 200 mm below the waist."""
    document = case("two_panel_skirt")
    back = document["pieces"]["back"] = dict(document["pieces"]["front"], name="Back")
    back["outline"] = [
        {"at": [0, -by], "edge": "center"},
        {"at": [0, 600], "edge": "waist"},
        {"at": [300, 600], "edge": "side"},
        {"at": [300, -by], "edge": "hem"},
    ]
    return document


def offs(verdict: Verdict, size: int = 0) -> list[Off]:
    assert verdict.nest is not None
    return list(off_parts(verdict.nest, verdict, size))


def test_the_interval_is_boxed_on_both_pieces_and_the_words_stand_on_the_longer() -> None:
    found = {off.piece: off for off in offs(verdict_of(longer()))}
    assert set(found) == {"front", "back"}
    assert (found["back"].longer, found["back"].words) == (True, "6.0 mm longer")
    assert (found["front"].longer, found["front"].words) == (False, "")
    # the side runs down from the waist: 200 mm to the notch, 400 (406) to the hem
    assert [*np.sort(found["front"].arcs[[0, -1]])] == pytest.approx([200.0, 600.0], abs=0.01)
    assert [*np.sort(found["back"].arcs[[0, -1]])] == pytest.approx([200.0, 606.0], abs=0.01)


def test_the_box_lies_on_its_interval() -> None:
    verdict = verdict_of(longer())
    assert verdict.nest is not None
    laid = next(glances(verdict.nest, verdict))
    scale = 96.0 / 25.4 / laid.drawn  # px a mm: 96 px to the inch, CSS Values and Units 4
    for made, _ in laid.pieces:
        ((off, polygon),) = made.bands
        long = 406.0 if off.longer else 400.0
        assert float(np.ptp(polygon.imag)) == pytest.approx(long * scale, abs=0.1)
        side = made.outline.real.max()
        assert polygon.real.min() == pytest.approx(side - 5.0, abs=0.1)
        assert polygon.real.min() < side < polygon.real.max()
        low = made.outline[np.abs(made.outline.real - side) < 0.1].imag
        assert polygon.imag.max() == pytest.approx(low.max(), abs=0.1)


@pytest.mark.parametrize(("by", "fills"), [(0.0, False), (1.5, False), (2.0, True), (6.0, True)])
def test_a_letter_is_filled_from_a_warning_on(by: float, fills: bool) -> None:
    verdict = verdict_of(longer(by))
    assert (filled(verdict, None) == {"side"}) is fills
    assert bool(offs(verdict)) is fills


def test_what_is_accepted_on_purpose_is_not_filled() -> None:
    document = longer()
    accepted = {"check": "seams/unequal-length", "seam": "side", "reason": "It is cut off after hanging."}
    document["accepted"] = [accepted]
    verdict = verdict_of(document)
    assert not filled(verdict, None)
    assert not offs(verdict)


def test_only_the_sizes_that_are_wrong_are_filled() -> None:
    verdict = verdict_of(FAULTY, "seams/unequal-length")
    assert [filled(verdict, size) for size in ("S", "M", "L")] == [
        {"lining_waist"},
        {"lining_waist"},
        {"lining_waist", "sleeve_seam"},
    ]
    assert [{off.seam for off in offs(verdict, size)} for size in range(3)] == [
        {"lining_waist"},
        {"lining_waist"},
        {"lining_waist", "sleeve_seam"},
    ]


def test_letters_on_the_pieces_are_filled_as_the_verdict_says(looked_at: Verdict) -> None:
    """Read back from the picture, against what the findings themselves state."""
    nest = looked_at.nest
    assert isinstance(nest, Nest)
    for laid, picture in zip(
        glances(nest, looked_at), glance_pictures(nest, looked_at).values(), strict=True
    ):
        size = nest.sizes[laid.size]
        bad: set[str | None] = set()
        for graded in looked_at.findings:
            if graded.accepted is None and graded.severity >= Severity.WARNING:
                rows: Any = graded.rows
                sizes = {row.row.size for row in rows if row.severity >= Severity.WARNING}
                if not rows or size in sizes or None in sizes:
                    bad |= {place.seam for place in graded.places}
        bad.discard(None)
        rings = [ring for made, _ in laid.pieces for ring in made.rings if ring.seam in bad]
        in_key = len(bad & set(nest.pattern.seams))
        assert len(re.findall('class="ring filled"', picture.body)) == len(rings) + in_key


def test_boxes_stand_only_on_seams_that_are_filled_and_inside_their_lines(looked_at: Verdict) -> None:
    nest = looked_at.nest
    assert isinstance(nest, Nest)
    for size, name in enumerate(nest.sizes):
        fills = filled(looked_at, name)
        for off in off_parts(nest, looked_at, size):
            assert off.seam in fills
            length = float(nest.line(off.piece, off.line).length[size])
            assert min(off.arcs.min(), length - off.arcs.max()) >= -0.01


def test_a_slipped_notch_is_boxed_before_and_after_it() -> None:
    document = longer(0.0)
    document["pieces"]["back"]["notches"] = {"hip": {"edge": "side", "at": ["waist", 210]}}
    found = offs(verdict_of(document))
    assert sorted((off.piece, off.longer) for off in found) == [
        ("back", False),
        ("back", True),
        ("front", False),
        ("front", True),
    ]
    assert {off.words for off in found if off.longer} == {"10.0 mm longer"}


def test_a_seam_that_runs_the_wrong_way_is_filled_and_has_no_box() -> None:
    verdict = verdict_of(FAULTY)
    assert "lining_side" in filled(verdict, "M")
    assert not [off for off in offs(verdict, 1) if off.seam == "lining_side"]


def test_too_little_to_gather_is_dashed_on_the_gathered_side() -> None:
    waist = [off for off in offs(verdict_of(FAULTY), 1) if off.seam == "waist" and off.words]
    flat = [off for off in waist if off.words.endswith("flat")]
    assert [(off.piece, off.longer, off.words) for off in flat] == [("upper_flounce", False, "× 2.03 flat")]
