"""Letters of single strokes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.drawing import Text
from notchwork.drawing.drawing import Anchor
from notchwork_plugins.hpgl.letters import GRID, letter, letters, missing, strokes

LANGUAGES = {
    "Danish": "Blåbærgrød på øen",
    "Dutch": "één vérgezicht",
    "French": "Côté gauche, œillet, façon naïve, où ça",
    "German": "Ärmel, Größe, Übertritt, ẞ",
    "Czech": "Příliš žluťoučký kůň úpěl ďábelské ódy",
    "Hungarian": "Árvíztűrő tükörfúrógép",
    "Icelandic": "Þjóð, ævi, ðað",
    "Latvian": "Ķieģeļu šķēršļi",
    "Lithuanian": "Ąžuolų lapai, ėjo",
    "Polish": "Zażółć gęślą jaźń",
    "Portuguese": "Avó, maçã, limões",
    "Romanian": "Țară și față",
    "Spanish": "¿Qué? ¡Año, pingüino!",
    "Turkish": "İğne, çığlık, şişe",
    "Vietnamese": "Tiếng Việt, nước, ở đâu",
    "Catalan": "col·lecció",
}


def row(words: str, anchor: Anchor = "start", angle: float = 0.0, at: complex = 0j) -> np.ndarray:  # type: ignore[type-arg]
    return np.concatenate(strokes(Text(at, words, 10.0, anchor=anchor, angle=angle)))


def test_all_of_ascii_is_known() -> None:
    assert missing("".join(map(chr, range(32, 127)))) == ()


@pytest.mark.parametrize("language", sorted(LANGUAGES))
def test_languages_are_known(language: str) -> None:
    # Vietnamese hooks are not; such letters are told and stand as boxes.
    allowed = {"ở", "ế", "ệ", "ư", "ớ"} if language == "Vietnamese" else set()
    assert set(missing(LANGUAGES[language])) <= allowed


def test_signs_of_patterns_are_known() -> None:
    assert missing("2 × 3 ½ in, 45° ± 1 – “Front” → 1⅝ № 3 … µ • ©") == ()


def test_an_unknown_sign_is_a_box_and_told() -> None:
    assert missing("袖 Sleeve 袖") == ("袖",)
    box = row("袖")
    assert (np.ptp(box.real), np.ptp(box.imag)) == pytest.approx((3.4 * 7 / 6, 7.0))


def test_accents_written_apart_or_together_look_alike() -> None:
    assert np.array_equal(row("é"), row("e\u0301"))
    assert missing("e\u0301") == ()


@pytest.mark.parametrize("sign", sorted(letters()))
def test_every_sign_keeps_to_its_place(sign: str) -> None:
    drawn = np.concatenate(letters()[sign].strokes)
    assert np.isfinite(drawn).all()
    assert drawn.imag.min() >= -2.0
    assert drawn.imag.max() <= GRID + 1.0
    if letters()[sign].wide:
        assert drawn.real.min() >= -0.7
        assert drawn.real.max() <= letters()[sign].wide + 0.7
    assert all(len(stroke) >= 2 for stroke in letters()[sign].strokes)


def test_signs_that_could_be_mistaken_differ() -> None:
    for pair in ("Il", "I1", "l1", "O0", "S5", "Z2", "B8", "DO", "uv", "nh", "rn", "cl", "69"):
        one, other = (letter(sign) for sign in pair)
        assert one is not None
        assert other is not None
        assert len(np.concatenate(one.strokes)) != len(np.concatenate(other.strokes)) or not np.allclose(
            np.concatenate(one.strokes), np.concatenate(other.strokes), atol=0.5
        )


def test_capitals_are_seven_tenths_of_the_type() -> None:
    assert row("H").imag.max() == pytest.approx(7.0)


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_anchors(anchor: Anchor, share: float) -> None:
    wide = row("HIH").real.max()
    assert row("HIH", anchor).real.min() == pytest.approx(-share * wide)


def test_words_turn_about_their_place() -> None:
    plain, turned = row("Front"), row("Front", angle=90.0, at=5 + 7j)
    assert turned == pytest.approx(5 + 7j + 1j * plain)


@given(st.text(max_size=30))
def test_any_words_can_be_written(words: str) -> None:
    drawn = strokes(Text(0j, words, 5.0))
    assert all(np.isfinite(stroke).all() and len(stroke) >= 2 for stroke in drawn)
    assert all(letter(sign) is None for sign in missing(words))
