"""What is drawn and what is not: use, symbol, switch, nested viewports, definitions (SVG 2, chapters 5 and 8)."""

from __future__ import annotations

import pytest
from svg_files import beyond_info, drawing, nodes, read, said, strokes, svg

SQUARE = '<rect id="s" x="1" y="2" width="1" height="1"/>'


def first(body: str) -> list[complex]:
    """The first corners of what is drawn."""
    return [nodes(stroke)[0] for stroke in strokes(body)]


@pytest.mark.parametrize(
    "holder",
    ["defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient", "metadata", "nonsense"],
)
def test_what_only_defines_is_not_drawn(holder: str) -> None:
    assert strokes(f"<{holder}>{SQUARE}</{holder}>") == []
    assert beyond_info(f"<{holder}>{SQUARE}</{holder}>") == []


def test_use_moves_what_it_uses_and_lends_it_its_style() -> None:
    body = f'<defs>{SQUARE}</defs><g transform="scale(2)"><use href="#s" x="10" y="20" transform="translate(100)" fill="red"/></g>'
    assert first(body) == [222 + 44j]
    [stroke] = strokes(body)
    assert stroke.look is not None
    assert stroke.look.filling == "#ff0000"
    assert first(f'{SQUARE}<use xlink:href="#s" x="5"/>') == [1 + 2j, 6 + 2j]
    assert first(f'<use href="#s" xlink:href="#t"/><defs>{SQUARE}<path id="t" d="M9 9h1"/></defs>') == [
        1 + 2j
    ]


def test_uses_of_uses_and_of_groups() -> None:
    body = f'<defs><g id="g" transform="translate(10)">{SQUARE}</g><use id="u" href="#g" x="100"/></defs><use href="#u" y="1000"/>'
    assert first(body) == [111 + 1002j]
    assert drawing(body).groups[0].name == "g"


def test_the_first_of_two_with_one_id_is_meant() -> None:
    assert first('<defs><path id="a" d="M1 1h1"/><path id="a" d="M2 2h1"/></defs><use href="#a"/>') == [
        1 + 1j
    ]


def test_a_symbol_is_fitted_into_the_size_of_its_use() -> None:
    symbol = f'<symbol id="y" viewBox="0 0 10 10">{SQUARE}</symbol>'
    assert first(f'{symbol}<use href="#y" width="20" height="20"/>') == [2 + 4j]
    assert first(f'{symbol}<use href="#y" width="40" height="20"/>') == [12 + 4j]
    assert first(f'{symbol}<use href="#y"/>') == [10 + 20j]
    assert first(f'<symbol id="y">{SQUARE}</symbol><use href="#y" x="3"/>') == [4 + 2j]
    assert first(f'<symbol id="y" transform="translate(5)">{SQUARE}</symbol><use href="#y"/>') == [6 + 2j]


def test_nested_viewports() -> None:
    assert first(f'<svg x="10" y="20">{SQUARE}</svg>') == [11 + 22j]
    assert first(f'<svg x="10" y="20" width="50" height="50" viewBox="0 0 10 10">{SQUARE}</svg>') == [
        15 + 30j
    ]
    assert first(
        f'<svg width="50" height="10" viewBox="0 0 10 10" preserveAspectRatio="xMaxYMid">{SQUARE}</svg>'
    ) == [41 + 2j]
    assert first(
        f'<svg width="50" height="10" viewBox="0 0 10 10" preserveAspectRatio="none">{SQUARE}</svg>'
    ) == [5 + 2j]
    assert first(f'<svg width="50%" height="50%" viewBox="0 0 10 10">{SQUARE}</svg>') == [5 + 10j]
    assert first(f'<svg width="0" height="5">{SQUARE}</svg>') == []
    [stroke] = strokes(
        '<svg width="50" height="50" viewBox="0 0 10 10"><rect width="50%" height="100%"/></svg>'
    )
    assert nodes(stroke)[2] == 25 + 50j


def test_a_switch_takes_one() -> None:
    body = (
        '<switch><foreignObject requiredExtensions="http://ns.example.org/"/>'
        '<path systemLanguage="de" d="M1 1h1"/><nonsense/><path systemLanguage="fr, en-GB" d="M2 2h1"/><path d="M3 3h1"/></switch>'
    )
    assert first(body) == [2 + 2j]
    assert first('<switch><path systemLanguage="" d="M1 1h1"/></switch>') == []


def test_elements_of_other_languages_are_passed_over() -> None:
    body = f'<x:g xmlns:x="urn:x">{SQUARE}</x:g><x:rect xmlns:x="urn:x" width="1" height="1"/>{SQUARE}'
    assert first(body) == [1 + 2j]


def test_a_drawing_that_forgot_its_namespace_is_read() -> None:
    found = read(f'<svg width="10mm" height="10mm" viewBox="0 0 10 10">{SQUARE}</svg>'.encode())
    assert found.drawing is not None
    assert len(found.drawing.groups[0].strokes) == 1


def test_a_prefixed_namespace_is_read() -> None:
    data = (
        b'<s:svg xmlns:s="http://www.w3.org/2000/svg" width="10mm" height="10mm"><s:path d="M1 1h1"/></s:svg>'
    )
    found = read(data)
    assert found.drawing is not None
    assert len(found.drawing.groups[0].strokes) == 1


@pytest.mark.parametrize(
    ("use", "why"),
    [
        ('<use id="u" href="#none"/>', "What is used here is not in the drawing: use “u” (line 1)."),
        ('<use id="u"/>', "It is not said what is used: use “u” (line 1)."),
        ('<use id="u" href="other.svg#s"/>', "Parts of other files are not fetched: use “u” (line 1)."),
        (
            '<use id="u" href="http://example.org/a.svg#s"/>',
            "Parts of other files are not fetched: use “u” (line 1).",
        ),
        ('<use id="u" href="#u"/>', "Left out, because it would use itself without end: use “u” (line 1)."),
        (
            '<g id="g"><use id="u" href="#g"/></g>',
            "Left out, because it would use itself without end: use “u” (line 1).",
        ),
        (
            '<linearGradient id="p"/><use id="u" href="#p"/>',
            "What is used here is nothing that could be drawn: use “u” (line 1).",
        ),
    ],
)
def test_uses_of_nothing_are_told(use: str, why: str) -> None:
    assert strokes(use) == []
    assert ("svg/dead-link", why) in beyond_info(use)


def test_uses_in_a_ring_end() -> None:
    body = '<g id="a"><path d="M1 1h1"/><use href="#b"/></g><g id="b"><path d="M2 2h1"/><use href="#a"/></g>'
    assert len(strokes(body)) == 4
    assert [rule for rule, _ in beyond_info(body)] == ["svg/dead-link"]


def test_pictures_are_told() -> None:
    body = '<image id="photo" href="http://example.org/a.png" width="9" height="9"/><foreignObject><p/></foreignObject>'
    assert [(grade, rule) for grade, rule, _ in said(read(svg(body)))] == [
        ("INFO", "svg/scale"),
        ("INFO", "svg/not-read"),
    ]


def test_the_same_of_many_parts_is_said_once() -> None:
    text = beyond_info('<use href="#gone"/>' * 10)
    assert text == [
        (
            "svg/dead-link",
            "What is used here is not in the drawing: use (line 1), use (line 1), use (line 1) and 7 more.",
        )
    ]
    assert len(beyond_info("".join(f'<path d="L{k}"/>' for k in range(50)))) == 21


def test_title_and_attached_document() -> None:
    document = '{"notchwork":"1.0","title":"S\\u00e4ule"}'
    body = f'<title>A  smock\n</title><metadata><n:document xmlns:n="urn:notchwork:svg">{document}</n:document></metadata>'
    found = drawing(body)
    assert found.title == "A smock"
    assert found.attached == document.encode()
    assert drawing('<metadata id="m"/>', 'id="svg5"').attached is None
    assert drawing("", 'id="svg5"').title == ""
