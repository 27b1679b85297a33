"""Ways round and strokes along others are found the same and soon, however many there are."""

from __future__ import annotations

import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.drawing import Stroke, Text
from notchwork.geometry import lines
from notchwork.recognise.enclosed import ticks_on
from notchwork.recognise.placed import Line
from notchwork.recognise.rings import ring
from notchwork.recognise.shape import Contour
from notchwork.recognise.words.dents import _dents
from notchwork.recognise.words.ids import unique
from notchwork.recognise.words.paragraphs import paragraphs


def stroke(number: int, *z: complex) -> Line:
    cubics = lines(np.array(z, dtype=np.complex128))
    return Line(number, cubics, False, Stroke(cubics), (), {})


def circle(count: int) -> list[Line]:
    z = 500.0 * np.exp(2j * np.pi * np.arange(count + 1) / count)
    z[-1] = z[0]
    return [stroke(k, complex(z[k]), complex(z[k + 1])) for k in range(count)]


@settings(max_examples=30)
@given(st.permutations(range(1, 12)), st.lists(st.booleans(), min_size=12, max_size=12))
def test_a_ring_is_found_in_any_order_and_direction(order: list[int], turned: list[bool]) -> None:
    around = circle(12)
    shuffled = [around[0]]
    for k in order:
        a, b = around[k].start, around[k].end
        shuffled.append(stroke(k, b, a) if turned[k] else stroke(k, a, b))
    found = ring(shuffled, 0.5)
    assert found is not None
    assert [line.number for line in found.lines] == list(range(12))


def test_of_several_that_go_on_the_first_in_the_list_is_taken() -> None:
    first, on, instead = stroke(0, 0j, 100 + 0j), stroke(1, 100 + 0j, 0j), stroke(2, 100 + 0j, 50 + 50j, 0j)
    for one, other in ((on, instead), (instead, on)):
        found = ring([first, one, other], 0.5)
        assert found is not None
        assert [line.number for line in found.lines] == [0, one.number]


def test_what_does_not_close_is_no_ring() -> None:
    assert ring(circle(12)[:-1], 0.5) is None


def test_rings_of_many_lines_take_no_long_time() -> None:
    begun = time.process_time()
    found = ring(circle(10_000), 0.05)
    assert found is not None
    assert len(found.lines) == 10_000
    assert time.process_time() - begun < 5.0


def test_short_strokes_along_a_long_one_are_ticks_among_thousands() -> None:
    begun = time.process_time()
    others = [stroke(k, complex(k, 50), complex(k, 58)) for k in range(5_000)]
    long, tick = stroke(9_000, 0j, 6_000 + 0j), stroke(9_001, 300 + 0j, 320 + 0j)
    assert [line.number for line in ticks_on([*others, long, tick], 0.5)] == [9_001]
    assert time.process_time() - begun < 5.0


@pytest.mark.parametrize("height", [0.0, 5.0])
def test_lines_without_a_height_make_no_paragraph(height: float) -> None:
    texts = [Text(0j, "Front", height), Text(-7j, "cut 2", height)]
    assert [len(lines) for lines in paragraphs(texts)] == ([1, 1] if height == 0.0 else [2])


def test_dents_are_looked_for_only_where_an_outline_could_have_one() -> None:
    """A V in a circle of many short chords is found, and no chord of the circle is one."""
    count = 20_000
    z = 300.0 * np.exp(2j * np.pi * np.arange(count) / count)
    # A slit of 8 mm, 2 mm wide, cut inward at the right.
    open_to = int(count * 2.0 / (600.0 * np.pi))
    drawn = np.concatenate([[292.0 + 1j], z[open_to:]])
    outline = Contour(lines(np.append(drawn, drawn[:1])), (0,), np.zeros(len(drawn), dtype=np.intp))
    begun = time.process_time()
    found = list(_dents(outline))
    assert time.process_time() - begun < 3.0
    assert [(first, rows, is_dart) for first, rows, is_dart in found] == [(len(drawn) - 1, 2, False)]


def test_names_that_many_things_want_are_numbered() -> None:
    taken = {"mark", "mark_2", "mark_3"}
    assert unique("mark", taken) == unique("mark", taken, 3) == "mark_4"
    assert unique("cuff", taken, 7) == "cuff"
