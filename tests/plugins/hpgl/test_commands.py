"""Strokes and words as commands, read again by a reader of their own."""

from __future__ import annotations

import numpy as np
import pytest
from hpgl_read import read
from hypothesis import given
from hypothesis import strategies as st

from notchwork.drawing import Text
from notchwork_plugins.hpgl.commands import END, begun_at, label, plain, replaced, stroke

LARGEST = 32_767
steps = st.integers(-LARGEST, LARGEST)
walks = st.lists(st.tuples(steps, steps), min_size=1, max_size=120)


def drawn(text: str) -> list[complex]:
    (line,) = read(f"IN;SP1;{text}PU;").pages[0].of(1)
    return (line / 0.025).tolist()


@given(walks)
def test_what_is_read_is_what_was_meant(walk: list[tuple[int, int]]) -> None:
    """Every place comes back exactly, however many moves lie before it, and no number is too large for a clamping device."""
    text = stroke(walk, LARGEST)
    meant = [complex(*place) for k, place in enumerate(walk) if k == 0 or place != walk[k - 1]]
    clamped = read(f"IN;SP1;{text}PU;", clamp=LARGEST).pages[0].of(1)[0] / 0.025
    assert clamped == pytest.approx(np.array(drawn(text)))
    passed = iter(drawn(text))
    assert all(any(abs(z - place) < 1e-6 for z in passed) for place in meant), "in order"
    assert drawn(text)[-1] == pytest.approx(meant[-1])


def test_a_move_beyond_the_largest_number_is_made_in_two() -> None:
    text = stroke([(-30_000, 0), (30_000, 7)], LARGEST)
    assert drawn(text) == pytest.approx([-30_000, 3j, 30_000 + 7j])


def test_a_point_is_a_stroke_that_goes_nowhere() -> None:
    assert drawn(stroke([(40, 80), (40, 80)], LARGEST)) == pytest.approx([40 + 80j])


def test_commands_are_short() -> None:
    """Small devices have small buffers; common practice, no source."""
    walk = np.cumsum(np.ones((1000, 2), dtype=int) * 900, axis=0) - 20_000
    assert max(map(len, stroke((walk % 30_000).tolist(), LARGEST).splitlines())) < 600


@pytest.mark.parametrize(
    "name",
    [
        "Front\x03PU0,0;SP0",
        "a\x1b.(b",
        "x\nPG;",
        "two\tblanks",
        "DT*",
        "\x00",
        "ETX\x03",
        "a\u2028b",
        "\ud800",
    ],
)
def test_no_name_ends_a_label_or_commands(name: str) -> None:
    """ETX ends a label, ESC begins a device's own command (Brother HL-1270N manual, chapter 4, on LB and DT)."""
    text = label(Text(0j, name, 5.0), 10, 20)
    plot = read(f"IN;SP1;{text}")
    ((at, words),) = plot.pages[0].labels
    assert words.isprintable()
    assert at == pytest.approx(0.25 + 0.5j)
    assert [command for command, _ in plot.commands] == ["IN", "SP", "PU", "PA", "SI", "DI", "LB"]
    assert text.count(END) == 1


@given(st.text(max_size=40))
def test_any_name_is_one_label_in_plain_letters(name: str) -> None:
    words = plain(name)
    assert words.isascii()
    assert words == "" or words.isprintable()


def test_letters_are_spelt_where_devices_have_none() -> None:
    assert plain("Größe 38½ – Ärmel × 2") == "Grosse 381/2 - Armel x 2"
    assert plain("Рукав?") == "??????"
    assert set(replaced("Рукав?")) == set("Рукав")
    assert list(replaced("Ärmel?")) == []


@pytest.mark.parametrize(("anchor", "back"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_a_label_begins_where_its_anchor_wants_it(anchor: str, back: float) -> None:
    """HP-GL letters stand in places one and a half times as wide as they are (from memory of SI)."""
    text = Text(100j, "four", 10.0, anchor=anchor, angle=90.0)  # type: ignore[arg-type]
    wide = 4 * 10.0 * 0.58
    assert begun_at(text) == pytest.approx(100j - 1j * back * wide)
    size = next(numbers for name, numbers in read(f"IN;{label(text, 0, 0)}").commands if name == "SI")
    assert size[0] * 10 * 1.5 * 4 == pytest.approx(wide, abs=0.05)
