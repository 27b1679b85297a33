"""How wide words are before there is a font, held against the font itself where it is at hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.drawing import Text
from notchwork.pages.setting.lettering import at_most, box, shortened, width, wrapped

FOLDERS = ("/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/dejavu-sans-fonts", "/usr/share/fonts/TTF")
LETTERS = "".join(map(chr, range(32, 127))) + "äöüßéèñçøåÄÖÜÉØÅ×·–—…“”‘’•°±"
WORDS = (
    "Measure both ways, with a ruler that you trust.",
    "Print at 100 % (“actual size”), not fitted to the page.",
    "C12: D12 is laid on here",
    "2 × Soot-grey cotton sateen, on the fold",
    "Rückenteil, im Stoffbruch",
)


@pytest.mark.parametrize("face", ["DejaVuSans", "DejaVuSans-Bold"])
def test_no_letter_is_wider_than_reckoned(face: str) -> None:
    """The advances of DejaVu Sans 2.37, read from the font by fontTools; whole lines are told at most an eighth too wide."""
    fonts = pytest.importorskip("fontTools.ttLib")
    paths = [path for folder in FOLDERS if (path := Path(folder) / f"{face}.ttf").exists()]
    if not paths:
        pytest.skip("the font is not installed")
    font = fonts.TTFont(paths[0])
    advances, names, unit = font["hmtx"], font.getBestCmap(), font["head"].unitsPerEm
    bold = face.endswith("Bold")

    def true(words: str) -> float:
        return sum(float(advances[names[ord(letter)]][0]) for letter in words) / unit

    for letter in LETTERS:
        assert true(letter) <= width(letter, 1.0, bold) + 1e-9, letter
    for words in WORDS:
        assert true(words) <= width(words, 1.0, bold) <= 1.125 * true(words)


@given(st.text(st.sampled_from("abc WMi1 –é"), max_size=80), st.floats(8.0, 90.0))
def test_lines_are_no_wider_than_asked_for_and_lose_nothing(words: str, wide: float) -> None:
    lines = wrapped(words, 3.0, wide)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert all(width(line, 3.0) <= wide for line in lines)


def test_a_number_stays_with_its_unit() -> None:
    for wide in range(12, 60):
        for line in wrapped("print again at 100 % and look at 4 in or 2 × net", 3.0, float(wide)):
            assert not line.endswith(("100", "4", "×")) or wide < 14


@given(st.text(st.sampled_from("abcWM "), min_size=1, max_size=60), st.floats(5.0, 60.0))
def test_what_is_shortened_fits(words: str, wide: float) -> None:
    assert width(shortened(words, 3.0, wide), 3.0) <= wide


def test_boxes_turn_with_their_words() -> None:
    level, upright = Text(10 + 10j, "word", 4.0), Text(10 + 10j, "word", 4.0, angle=90.0)
    (low, high), (low_up, high_up) = box(level), box(upright)
    assert (high - low).real == pytest.approx((high_up - low_up).imag)
    assert low.real == 10.0
    assert low_up.imag == 10.0
    assert low_up.real == pytest.approx(10.0 - 0.8 * 4.0)


@pytest.mark.parametrize("words", ["W" * 100_000, "petrel " * 20_000])
def test_endless_words_are_only_looked_at_as_far_as_they_are_shown(words: str) -> None:
    """Cutting off one letter after another, each time measuring all that is left, would take hours for these."""
    assert shortened(words, 3.0, 60.0) == shortened(words[:100], 3.0, 60.0)
    assert "".join("".join(wrapped(words, 3.0, 60.0)).split()) == "".join(words.split())


@given(st.text(st.sampled_from("abcWM "), max_size=90), st.floats(9.0, 60.0), st.integers(1, 4))
def test_no_more_lines_than_asked_for(words: str, wide: float, most: int) -> None:
    every, lines = wrapped(words, 3.0, wide), at_most(most, words, 3.0, wide)
    assert len(lines) == min(most, len(every))
    assert lines == every or (lines[-1].endswith("…") and lines[:-1] == every[: most - 1])
    assert all(width(line, 3.0) <= wide for line in lines)
