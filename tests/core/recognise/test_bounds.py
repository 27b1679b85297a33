"""What no pattern has is refused before it is worked on; copies of outlines cost next to nothing. All counts are the program's own."""

from __future__ import annotations

import numpy as np
import pytest
from sketches import box, drawing, polyline

from notchwork import jobs
from notchwork.drawing import Stroke
from notchwork.findings import NotchworkError
from notchwork.geometry import TooManyPairs, near_boxes, reverse
from notchwork.jobs.drawings import pattern_of
from notchwork.recognise import TooMuchDrawn, bounds, find_shapes, relations

SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" viewBox="0 0 900 900">{}</svg>'


def outline(*nodes: complex, turned: int = 0) -> Stroke:
    return polyline(*nodes[turned:], *nodes[:turned], closed=True)


def test_copies_of_an_outline_are_never_compared(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []
    look = relations._seen
    monkeypatch.setattr(
        relations, "_seen", lambda areas, pairs, tol: asked.append(len(pairs)) or look(areas, pairs, tol)
    )
    corners = (0j, 300 + 0j, 320 + 200j, 280 + 400j, 380j)
    copies = [outline(*corners, turned=k % 5) for k in range(300)]
    backwards = Stroke(reverse(copies[0].cubics), None, True, {}, copies[0].look)
    seen = find_shapes(drawing(*copies, backwards, box(500, 0, 80, 80)))
    assert asked == [0]
    assert len(seen.shapes) == 2
    assert [
        finding.values["count"].number for finding in seen.findings if finding.rule.id.endswith("doubled")
    ] == [300]


def test_outlines_that_nearly_coincide_are_still_seen_as_one() -> None:
    seen = find_shapes(drawing(box(0, 0, 100, 80), box(0.1, 0, 100, 80)))
    assert len(seen.shapes) == 1
    assert "recognised/stroke-doubled" in [finding.rule.id for finding in seen.findings]


def test_more_outlines_across_each_other_than_any_nest_has_are_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    nest = drawing(*(box(0, 0, 100 + 2 * k, 80 + 2 * k) for k in range(6)))
    monkeypatch.setattr(bounds, "MOST_MEETINGS", 15)
    assert find_shapes(nest).shapes
    monkeypatch.setattr(bounds, "MOST_MEETINGS", 14)
    with pytest.raises(
        NotchworkError, match=r"^nest\.svg: Too many outlines .* more than 14 times .* Delete"
    ):
        pattern_of(nest, "nest.svg", None)
    monkeypatch.undo()
    monkeypatch.setattr(bounds, "MOST_COMPARED", 6 * 5 * 4 * 48 - 1)
    with pytest.raises(TooMuchDrawn):
        find_shapes(nest)


def test_more_separate_lines_than_any_sheet_has_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "MOST_STROKES", 4)
    sides = [
        polyline(0j, 200 + 0j),
        polyline(200 + 0j, 200 + 90j),
        polyline(200 + 90j, 90j),
        polyline(90j, 0j),
    ]
    assert len(find_shapes(drawing(*sides)).shapes) == 1
    with pytest.raises(NotchworkError, match=r"^hatched\.dxf: .* it has 5 separate lines, .* 4 at most"):
        pattern_of(drawing(*sides, polyline(9 + 9j, 50 + 9j)), "hatched.dxf", None)


def test_lines_that_lie_too_densely_are_refused_with_what_may_be_wrong(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def too_many(*_: object) -> None:
        raise TooManyPairs

    monkeypatch.setattr("notchwork.recognise.meshed.net", too_many)
    paths = '<path fill="none" stroke="black" d="M10 10 H200 V90"/><path fill="none" stroke="black" d="M10 10 V90 H190"/>'
    with pytest.raises(NotchworkError, match="true size"):
        jobs.load(SVG.format(paths).encode(), "tiny.svg")


def test_pairs_are_counted_before_they_are_made() -> None:
    z = np.zeros(100, dtype=complex)
    assert len(near_boxes(z, z, 1.0)[0]) == 100 * 99 // 2
    # Each point's box touches four squares, and each square has every pair.
    assert len(near_boxes(z, z, 1.0, 4 * 100 * 99 // 2)[0]) == 100 * 99 // 2
    with pytest.raises(TooManyPairs):
        near_boxes(z, z, 1.0, 100 * 99 // 2 - 1)
    far = np.array([0, 1e9 + 1e9j, *np.arange(3000)], dtype=complex)
    with pytest.raises(TooManyPairs):
        near_boxes(far, far + np.where(far == 0, 1e9 + 1e9j, 0.1), 0.0, 5000)
