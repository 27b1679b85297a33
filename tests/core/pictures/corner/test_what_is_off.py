"""What is hatched, and by how much edges are drawn to bend: exactly what the verdict says."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from patterns import case
from skirts import corner, drawn, is_hatched, lines, skirt, texts
from verdicts import FAULTY

from notchwork.checks import Verdict
from notchwork.findings import Severity
from notchwork.pictures.corner import CornerPicture, corner_pictures
from notchwork.pictures.corner.steps import LONGER
from notchwork.sewing.shapes.truing import fold_corners, running_on

AT_CORNERS = {"seams/does-not-run-on", "pieces/fold-corner"}


def angle(line: NDArray[np.complex128]) -> float:
    return float(np.degrees(np.angle(np.conj(line[-1] - line[0]))))


def bend_drawn(found: CornerPicture) -> float:
    """From the broken line to the edge, in degrees; positive downward on the picture."""
    (wanted,) = lines(found.picture, "cross") + lines(found.picture, "on")
    edge = lines(found.picture, "edge")[1]
    return angle(wanted) - angle(edge[-2:])


def test_a_corner_is_hatched_exactly_where_the_verdict_speaks_above_info(looked_at: Verdict) -> None:
    assert looked_at.nest is not None
    found = corner_pictures(looked_at.nest, looked_at)
    for here in found:
        spoken = [
            row.row.size
            for graded in here.findings
            for row in graded.rows
            if graded.accepted is None and row.severity >= Severity.WARNING
        ]
        assert is_hatched(here.picture) == (here.size in spoken), here.picture.says
        assert is_hatched(here.picture) == (here.severity is not None)
    shown = [graded for here in found for graded in here.findings]
    assert all(graded in shown for graded in looked_at.findings if graded.rule.id in AT_CORNERS)


def test_every_corner_of_a_pattern_is_there_once(looked_at: Verdict) -> None:
    assert looked_at.nest is not None
    found = corner_pictures(looked_at.nest, looked_at)
    places = [place for here in found for place in ((here.seam, here.end), *here.also)]
    at_seams = {place for place in places if place[0] is not None}
    stated = {(pair.seam, "start" if pair.at_start else "end") for pair in running_on(looked_at.nest)}
    assert at_seams <= stated
    if not looked_at.findings and not (looked_at.checked and looked_at.checked.not_run):
        assert at_seams == stated
        assert (None, "fold") in places or not list(fold_corners(looked_at.nest))
    assert len({here.picture.key for here in found}) == len(found)


def test_the_faults_of_the_example_come_first_and_name_their_findings() -> None:
    found = drawn(FAULTY)
    first = [(here.seam, here.end, here.severity) for here in found if here.severity]
    assert first == [("sleeve_seam", "end", Severity.ERROR), ("shoulder", "end", Severity.WARNING)]
    assert found[0].findings[0].rule.id in LONGER
    assert found[1].findings[0].rule.id == "seams/does-not-run-on"
    assert all(here.severity is None for here in found[2:])
    # Drawn in the size in which it is told.
    assert (found[0].size, found[1].picture.says.count("size S")) == ("L", 1)


def test_shell_and_lining_are_one_picture() -> None:
    found = {(here.seam, here.end): here for here in drawn(FAULTY)}
    assert found["shoulder", "end"].also == (("lining_shoulder", "end"),)
    assert "The same at Lining shoulder seam." in found["shoulder", "end"].picture.says


@given(st.floats(5.1, 60.0), st.sampled_from((-1.0, 1.0)))
@settings(max_examples=12, deadline=None)
def test_the_edge_is_drawn_to_bend_by_the_angle_that_is_told(by: float, way: float) -> None:
    found = corner(skirt(hem=by * way))
    (told,) = (graded for graded in found.findings if graded.rule.id == "seams/does-not-run-on")
    assert told.rows[0].row.off == pytest.approx(by * way, abs=0.01)
    # Lines are written to a hundredth of a px, and the shortest is 100 px long.
    assert bend_drawn(found) == pytest.approx(told.rows[0].row.off, abs=0.02)


def test_a_bend_at_the_waist_is_drawn_upward() -> None:
    found = corner(skirt(waist=7.0), end="start")
    assert bend_drawn(found) == pytest.approx(-7.0, abs=0.02)
    assert "7.0° up" in texts(found.picture)


@pytest.mark.parametrize(
    ("lower", "figure", "scale", "said"),
    [
        (2.0, "2.0 mm lower", 2.0, "5 mm (twice life size)"),
        (-2.0, "2.0 mm higher", 2.0, "5 mm (twice life size)"),
        (7.0, "7.0 mm lower", 2.0, "5 mm (twice life size)"),
        (7.1, "7.1 mm lower", 1.0, "5 mm (life size)"),
        (40.0, "40.0 mm lower", 0.5, "10 mm (half life size)"),
        (150.0, "150.0 mm lower", 0.1, "50 mm (a tenth of life size)"),
    ],
)
def test_a_step_is_as_long_as_told_at_the_scale_that_is_said(
    lower: float, figure: str, scale: float, said: str
) -> None:
    found = corner(skirt(lower=lower))
    first, second = lines(found.picture, "edge")
    # 96 px to the inch: CSS Values and Units 3, 5.2.
    assert (second[1] - first[0]).imag == pytest.approx(lower * scale * 96 / 25.4, abs=0.02)
    assert figure in texts(found.picture)
    assert said in texts(found.picture)


def test_the_net_and_the_scale_bar_are_in_the_persons_own_unit() -> None:
    document = skirt(lower=3.0)
    document["unit"] = "in"
    for piece in document["pieces"].values():
        for node in piece["outline"]:
            node["at"] = [value / 25.4 for value in node["at"]]
        piece |= {"allowance": 0.5, "grainline": [[2, 4], [2, 20]], "notches": {}}
        for edge in piece["edges"].values():
            edge.pop("allowance", None)
            edge.pop("finish", None)
        piece["edges"]["hem"] = {"finish": {"kind": "hem", "turns": 1, "depth": 1}, "allowance": 1}
    document["materials"], document["notions"] = {"cotton": {"width": 55}}, {}
    shown = texts(corner(document).picture)
    assert "1/4 in (twice life size)" in shown
    assert "1/8 in lower" in shown


def test_a_small_bend_keeps_its_line_but_is_not_hatched() -> None:
    found = corner(skirt(hem=3.0))
    assert (found.severity, is_hatched(found.picture)) == (None, False)
    assert bend_drawn(found) == pytest.approx(3.0, abs=0.02)
    assert "That is let pass." in found.picture.says


def test_a_sound_corner_is_one_line_with_nothing_beside_it() -> None:
    found = corner(skirt())
    assert not lines(found.picture, "cross") + lines(found.picture, "on")
    first, second = lines(found.picture, "edge")
    assert first[0] == second[0]
    assert abs(angle(first)) == pytest.approx(180.0)
    assert angle(second) == pytest.approx(0.0)


def test_a_fold_is_drawn_with_its_mirror_half_and_both_are_hatched() -> None:
    found = next(c for c in drawn(skirt(hem=6.0)) if c.end == "fold" and c.severity)
    left, right = lines(found.picture, "edge")
    assert angle(right) == pytest.approx(6.0, abs=0.02)
    assert np.allclose(left, -np.conj(right - right[0]) + left[0], atol=0.02)
    assert len(lines(found.picture, "hatch")) == 2
    assert "84.0° instead of 90.0°" in found.picture.says


def test_what_was_accepted_on_purpose_is_not_hatched_and_says_so() -> None:
    document = skirt(hem=9.0)
    document["accepted"] = [{"check": "seams/does-not-run-on", "seam": "side", "reason": "a swallow tail"}]
    found = corner(document)
    assert (found.severity, is_hatched(found.picture)) == (None, False)
    assert "Accepted on purpose: a swallow tail" in found.picture.says


def test_corners_that_were_not_checked_are_not_drawn_as_sound() -> None:
    assert drawn(skirt(hem=9.0), "seams/unequal-length") == ()
    document = case("two_panel_skirt")
    document["pieces"]["front"]["outline_is"] = "unknown"
    assert drawn(document) == ()
