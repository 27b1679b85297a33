"""How strokes look and which are hidden: attributes, style sheets, inheritance (SVG 2, chapters 6 and 13; CSS 2.2, 6.4)."""

from __future__ import annotations

import pytest
from svg_files import beyond_info, read, said, strokes, svg

from notchwork.drawing import Look


def look(body: str, root: str | None = None) -> Look:
    found = (strokes(body) if root is None else strokes(body, root))[0].look
    assert found is not None
    return found


def test_what_nothing_is_said_of_is_filled_black() -> None:
    assert look('<rect width="1" height="1"/>') == Look(None, "#000000", 0.0, ())


def test_colours_widths_and_dashes_in_mm() -> None:
    body = '<g transform="scale(2)"><rect width="1" height="1" fill="none" stroke="Red" stroke-width="0.5" {}/></g>'
    assert look(body.format('stroke-dasharray="3 1"')) == Look("#ff0000", None, 1.0, (6.0, 2.0))
    assert look(body.format('stroke-dasharray="1,2,3"')).dashes == (2, 4, 6, 2, 4, 6)
    assert look(body.format('stroke-dasharray="10%"')).dashes == (20, 20)
    for none in ("none", "0", "0 0", "-1 2", "x"):
        assert look(body.format(f'stroke-dasharray="{none}"')).dashes == ()


def test_widths_scale_with_the_drawing() -> None:
    body = '<path d="M0 0 H1" stroke="#000" stroke-width="0.01"/>'
    assert look(body, 'width="1in" height="1in" viewBox="0 0 1 1"').width == pytest.approx(0.254)


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#F0a", "#ff00aa"),
        ("#FF00aa", "#ff00aa"),
        ("#ff00aa80", "#ff00aa"),
        ("rgb(255, 0, 170)", "#ff00aa"),
        ("rgb(100%,0%,66.7%)", "#ff00aa"),
        ("rgba(255 0 170 / 0.5)", "#ff00aa"),
        ("hsl(320, 100%, 50%)", "#ff00aa"),
        ("darkslategrey", "#2f4f4f"),
        ("none", None),
        ("transparent", None),
        ("url(#missing)", None),
        ("url(#missing) red", "#ff0000"),
        ("url(#mist)", "#808080"),
        ("url('#dawn')", "#ffa500"),
        ("url(#swatch)", "#ffa500"),
        ("rubbish", None),
        ("rgb(nan, 0, 0)", None),
        ("rgb(1e999, -1e999, 0)", "#ff0000"),
    ],
)
def test_colours(colour: str, expected: str | None) -> None:
    defs = (
        '<defs><pattern id="mist"/><linearGradient id="dawn"><stop style="stop-color:orange"/></linearGradient>'
        '<linearGradient id="swatch" xlink:href="#dawn"/></defs>'
    )
    assert look(f'{defs}<rect width="1" height="1" fill="{colour}"/>').filling == expected


def test_the_current_colour_is_the_one_of_its_own_element() -> None:
    assert look('<g color="red"><rect width="1" height="1" fill="currentColor"/></g>').filling == "#ff0000"
    assert (
        look('<g color="red"><rect width="1" height="1" fill="currentColor" color="blue"/></g>').filling
        == "#0000ff"
    )


def test_no_opacity_is_no_paint() -> None:
    shape = '<rect width="1" height="1" stroke="red" fill="blue" {}/>'
    assert look(shape.format('fill-opacity="0"')) == Look("#ff0000", None, 1.0)
    assert look(shape.format('style="stroke-opacity:0"')) == Look(None, "#0000ff")


def winner(style: str, attributes: str) -> str | None:
    return look(f'<style>{style}</style><g id="round"><rect width="1" height="1" {attributes}/></g>').filling


@pytest.mark.parametrize(
    ("style", "attributes", "colour"),
    [
        ("rect{fill:red}", 'fill="blue"', "#ff0000"),
        ("rect{fill:red}", 'style="fill:blue"', "#0000ff"),
        ("rect{fill:red !important}", 'style="fill:blue"', "#ff0000"),
        ("rect{fill:red!important}", 'style="fill:blue !important"', "#0000ff"),
        (".a{fill:red} rect{fill:blue}", 'class="b a"', "#ff0000"),
        ("#x{fill:red} .a{fill:blue}", 'id="x" class="a"', "#ff0000"),
        (".a{fill:blue} .b{fill:red}", 'class="b a"', "#ff0000"),
        ("circle,rect{fill:red}", "", "#ff0000"),
        ("rect.a{fill:red} .a{fill:blue}", 'class="a"', "#ff0000"),
        ("*{fill:red}", "", "#ff0000"),
        ("g rect{fill:red}", "", "#ff0000"),
        ("#round>rect{fill:red}", "", "#ff0000"),
        ("svg>rect{fill:red}", 'fill="blue"', "#0000ff"),
        ("[class]{fill:red}", 'class="a"', "#ff0000"),
        ("rect[class='a']{fill:red}", 'class="a"', "#ff0000"),
        ("/* .a */ rect /**/ { /* fill:blue; */ fill:red }", "", "#ff0000"),
        ("<![CDATA[ rect{fill:red} ]]>", "", "#ff0000"),
        ("rect{fill:red} circle{fill", "", "#ff0000"),
        ("@media print{rect{fill:blue}} rect{fill:red}", "", "#ff0000"),
        ("@font-face{font-family:x} rect{fill:red}", "", "#ff0000"),
        (".st0{fill:none;stroke:#000}", 'class="st0"', None),
    ],
)
def test_which_declaration_wins(style: str, attributes: str, colour: str | None) -> None:
    assert winner(style, attributes) == colour


def test_rules_that_are_not_understood_are_told_and_nothing_is_fetched() -> None:
    style = (
        "@import url(http://example.org/a.css); rect:hover{fill:red} a b c{fill:red} rect + rect{fill:red}"
    )
    data = b'<?xml-stylesheet href="other.css"?>' + svg(f'<style>{style}</style><rect width="1" height="1"/>')
    [(grade, rule, text)] = [row for row in said(read(data)) if row[1] != "svg/scale"]
    assert (grade, rule) == ("INFO", "svg/style-not-read")
    assert text == (
        "Rules of style were not read: @import url(http://example.org/a.css), rect:hover, a b c and 2 more."
    )


def test_style_sheets_of_other_languages_are_none() -> None:
    assert (
        look('<style type="text/x">rect{fill:red}</style><rect width="1" height="1"/>').filling == "#000000"
    )


def test_hidden_parts_are_left_out_and_told() -> None:
    shape = '<rect id="inner" width="1" height="1"/>'
    for hidden in (
        f'<g id="old" display="none">{shape}</g>',
        f'<g id="old" style="display:none">{shape}</g>',
        f'<style>.off{{display:none}}</style><g id="old" class="off">{shape}</g>',
    ):
        assert strokes(hidden) == []
        assert ("INFO", "svg/hidden", "Hidden in the drawing and left out: g “old” (line 1).") in said(
            read(svg(hidden))
        )
    assert beyond_info(hidden) == []


def test_what_is_invisible_may_hold_what_is_not() -> None:
    body = '<g visibility="hidden"><rect id="a" width="1" height="1"/><rect id="b" width="1" height="1" visibility="visible"/></g>'
    assert [stroke.facts["name"] for stroke in strokes(body)] == ["b"]
    assert "Hidden in the drawing and left out: rect “a” (line 1)." in [
        text for _, _, text in said(read(svg(body)))
    ]


def test_unpainted_and_transparent_lines_are_read() -> None:
    for paint in (
        'fill="none"',
        'opacity="0"',
        'stroke="red" stroke-width="0"',
        'fill="none" stroke-opacity="0"',
    ):
        assert len(strokes(f'<path d="M0 0 H9" {paint}/>')) == 1


def test_clipped_parts_are_read_whole_and_told() -> None:
    body = (
        '<clipPath id="c"><rect width="1" height="1"/></clipPath><circle id="dot" r="5" clip-path="url(#c)"/>'
    )
    [stroke] = strokes(body)
    assert stroke.facts == {"name": "dot"}
    assert [row[1] for row in said(read(svg(body)))] == ["svg/scale", "svg/clipped"]
