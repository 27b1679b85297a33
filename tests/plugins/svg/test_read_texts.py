"""Texts by lines: place, height, turn and anchor (SVG 2, chapter 11)."""

from __future__ import annotations

import pytest
from svg_files import drawing, texts

from notchwork.drawing import Text


def row(text: Text) -> tuple[str, complex, float]:
    """Words, place (y downward) and height."""
    at = text.at.conjugate()
    return text.words, complex(round(at.real, 3), round(at.imag, 3)), round(text.height, 3)


def test_a_text() -> None:
    [text] = texts('<text id="t" x="10" y="20" font-size="5">Centre  back\n fold </text>')
    assert row(text) == ("Centre back fold", 10 + 20j, 5)
    assert (text.anchor, text.angle, text.facts) == ("start", 0, {"name": "t"})


def test_lines_as_editors_write_them() -> None:
    role = 'xmlns:sodipodi="http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd" sodipodi:role="line"'
    body = (
        f'<text style="font-size:4px" x="1" y="2"><tspan {role} x="10" y="20">cut 2</tspan>'
        f'<tspan {role} x="10" y="25">on <tspan style="font-weight:bold">fold</tspan> here</tspan><tspan {role} x="10" y="30"/></text>'
    )
    assert [row(text) for text in texts(body)] == [("cut 2", 10 + 20j, 4), ("on fold here", 10 + 25j, 4)]


def test_lines_without_a_place_follow_below() -> None:
    role = 'xmlns:sodipodi="http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd" sodipodi:role="line"'
    body = f'<text font-size="4" x="10" y="20"><tspan {role}>one</tspan><tspan {role}>two</tspan></text>'
    assert [row(text) for text in texts(body)] == [("one", 10 + 20j, 4), ("two", 10 + 25j, 4)]


def test_spans_moved_down_are_lines_and_raised_letters_are_not() -> None:
    body = (
        '<text x="10" y="20" font-size="4">a<tspan x="10" dy="1.2em">b</tspan><tspan dy="-1">2</tspan></text>'
    )
    assert [row(text) for text in texts(body)] == [("a", 10 + 20j, 4), ("b2", 10 + 24.8j, 4)]


def test_letters_placed_one_by_one_are_one_text() -> None:
    assert [row(t) for t in texts('<text x="1 4 7" y="9" font-size="3">abc</text>')] == [("abc", 1 + 9j, 3)]


def test_turned_scaled_and_anchored() -> None:
    [text] = texts(
        '<text transform="translate(50 60) rotate(90) scale(2)" font-size="3" text-anchor="middle">side</text>'
    )
    assert row(text) == ("side", 50 + 60j, 6)
    assert text.angle == pytest.approx(-90)
    assert text.anchor == "middle"
    [text] = texts('<text style="writing-mode:tb" font-size="3">side</text>')
    assert text.angle == pytest.approx(-90)
    # Upside down in the file's own frame and turned back, as programs with y upward write it.
    [text] = texts(
        '<g transform="scale(1,-1)"><text transform="scale(1,-1)" y="5" font-size="3">up</text></g>'
    )
    assert (row(text)[1:], text.angle) == ((5j, 3), 0)


@pytest.mark.parametrize(
    ("style", "height"),
    [
        ("font-size:10mm", 37.795),
        ("font-size:50%", 10),
        ("font-size:2em", 40),
        ("font-size:small", 13),
        ("font-size:larger", 24),
        ("font:bold 12px/1.5 sans-serif", 12),
        ("font-size:rubbish", 20),
    ],
)
def test_sizes_of_type(style: str, height: float) -> None:
    assert row(texts(f'<g font-size="20"><text style="{style}">a</text></g>')[0])[2] == height


def test_hidden_words() -> None:
    body = (
        '<text x="1" y="2">a<tspan display="none">b</tspan>c<tspan visibility="hidden">d'
        '<tspan visibility="visible">e</tspan></tspan><title>f</title></text><text display="none">g</text>'
    )
    assert [text.words for text in texts(body)] == ["ace"]


def test_words_along_a_path_and_in_a_box() -> None:
    [text] = texts(
        '<path id="p" d="M10 20 v9"/><text font-size="3"><textPath href="#p">hem</textPath></text>'
    )
    assert (row(text), text.angle) == (("hem", 10 + 20j, 3), pytest.approx(-90))
    body = (
        '<flowRoot font-size="4"><flowRegion><rect x="10" y="20" width="9" height="9"/></flowRegion>'
        "<flowPara>one</flowPara><flowPara/><flowPara>two</flowPara></flowRoot>"
    )
    assert [row(text)[:2] for text in texts(body)] == [("one", 10 + 24j), ("two", 10 + 29j)]
    assert [len(group.strokes) for group in drawing(body).groups] == [0]


def test_texts_belong_to_their_group() -> None:
    found = drawing('<g id="front"><text>Front</text></g><text>note</text>')
    assert [(group.name, [text.words for text in group.texts]) for group in found.groups] == [
        ("", ["note"]),
        ("front", ["Front"]),
    ]
