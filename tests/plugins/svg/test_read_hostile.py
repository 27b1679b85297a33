"""Hostile and broken files: an error or a finding within seconds, in bounded memory, and nothing else is read or fetched."""

from __future__ import annotations

import builtins
import gzip
import resource
import socket
import time
from collections.abc import Iterator

import pytest
from svg_files import MM, beyond_info, drawing, read, said, strokes, svg

from notchwork.findings import NotchworkError
from notchwork_plugins.svg import css, walk

SECONDS = 10.0
"""Far beyond what any of these takes, so that a busy machine is no failure."""
MEGABYTES = 1500

_GUARDED = (builtins.open, socket.socket, socket.create_connection)


@pytest.fixture(autouse=True)
def guarded(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No file is opened, no connection made; neither time nor memory runs away."""

    def refused(*_: object, **__: object) -> None:
        raise AssertionError("a reader reaches for nothing but the bytes it is given")

    read(svg(""))  # everything that is imported is imported before
    monkeypatch.setattr(builtins, "open", refused)
    monkeypatch.setattr(socket, "socket", refused)
    before = resource.getrlimit(resource.RLIMIT_AS)
    with builtins_open() as status:
        used = int(next(line for line in status if line.startswith("VmSize")).split()[1]) * 1024
    resource.setrlimit(resource.RLIMIT_AS, (used + MEGABYTES * 2**20, before[1]))
    start = time.process_time()
    yield
    resource.setrlimit(resource.RLIMIT_AS, before)
    assert time.process_time() - start < SECONDS


def builtins_open():  # type: ignore[no-untyped-def]
    return _GUARDED[0]("/proc/self/status", encoding="ascii")  # type: ignore[operator]


def refusal(data: bytes) -> str:
    with pytest.raises(NotchworkError) as error:
        read(data)
    return str(error.value)


def doctype(entities: str, body: str) -> bytes:
    return f"<!DOCTYPE svg [{entities}]>".encode() + svg(body)


def test_entity_bombs() -> None:
    bomb = "".join(f'<!ENTITY e{k} "{f"&e{k - 1};" * 10}">' for k in range(1, 12))
    assert "swell without end" in refusal(doctype(f'<!ENTITY e0 "lol">{bomb}', "<text>&e11;</text>"))
    assert "swell without end" in refusal(
        doctype(f'<!ENTITY e "{"x" * 100_000}">', f"<text>{'&e;' * 50_000}</text>")
    )
    assert "refer to themselves" in refusal(doctype('<!ENTITY a "&b;"><!ENTITY b "&a;">', "<text>&a;</text>"))
    many = f'<!ENTITY e "{"<g/>" * 20_000}">'
    assert refusal(doctype(many, "&e;" * 2000))


@pytest.mark.parametrize(
    "entity",
    [
        '<!ENTITY e SYSTEM "file:///etc/passwd">',
        '<!ENTITY e SYSTEM "http://example.org/e">',
        '<!ENTITY e PUBLIC "x" "http://example.org/e">',
    ],
)
def test_what_lies_outside_the_file_is_refused(entity: str) -> None:
    assert "lie outside it" in refusal(doctype(entity, "<text>&e;</text>"))


def test_document_types_elsewhere_are_not_fetched() -> None:
    data = (
        b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
        + svg("")
    )
    assert read(data).drawing is not None
    data = b'<!DOCTYPE svg [<!ENTITY % p SYSTEM "http://example.org/p"> %p;]>' + svg("")
    assert "lie outside it" in refusal(data)


def test_the_entities_of_drawing_programs_are_read() -> None:
    body = '<g xmlns:a="&ns;"><path d="&d;"/></g>'
    found = read(doctype('<!ENTITY ns "http://ns.example.org/"><!ENTITY d "M1 1h5">', body)).drawing
    assert found is not None
    assert len(found.groups[0].strokes) == 1


def test_compressed_drawings_are_not_unpacked() -> None:
    assert "is compressed (.svgz)" in refusal(gzip.compress(svg("<g/>") * 1000))


@pytest.mark.parametrize(
    "data",
    [b"", b"   \n", b"hello", b"\x00" * 100, b"\xff\xfe\x00", b"<", b"{}", b"<html/>", b"<svg", b"<a>" * 50],
)
def test_what_is_no_drawing(data: bytes) -> None:
    assert refusal(data).startswith("a.svg: ")


def test_truncated_anywhere() -> None:
    whole = svg('<g id="a"><path d="M1 1 L2 2"/><text>front</text></g>')
    for end in range(len(whole)):
        assert refusal(whole[:end])


def test_deep_groups() -> None:
    assert "more than 256 deep" in refusal(svg("<g>" * 10_000 + "</g>" * 10_000))
    assert len(strokes("<g>" * 200 + '<path d="M0 0h1"/>' + "</g>" * 200)) == 1


def test_too_many_parts() -> None:
    assert "more than 200,000 parts" in refusal(svg("<g/>" * 1_000_000))
    wide = "".join(f' a{k}=""' for k in range(300))
    assert "more than 256 attributes" in refusal(svg(f"<g{wide}/>"))
    many = "".join(f' a{k}=""' for k in range(200_000))
    assert refusal(svg(f"<g{many}/>"))


def test_too_many_segments() -> None:
    assert refusal(svg('<path d="M0 0' + "h1" * 700_000 + '"/>'))
    assert refusal(svg('<polyline points="' + "1 2 " * 700_000 + '"/>'))
    arcs = "a1e6 1e6 0 1 1 1 1" * 60_000
    assert refusal(svg(f'<path d="M0 0{arcs}"/>'))


def test_a_long_path_is_read() -> None:
    [stroke] = strokes('<path d="M0 0' + "h.1v.1" * 100_000 + '"/>')
    assert len(stroke.cubics) == 200_000


def test_fan_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(walk, "MOST_ELEMENTS", 20_000)
    levels = "".join(f'<g id="l{k}">' + f'<use href="#l{k - 1}"/>' * 10 + "</g>" for k in range(1, 12))
    body = f'<defs><path id="l0" d="M0 0h1"/>{levels}</defs><use href="#l11"/>'
    assert "more than 200,000 parts" in refusal(svg(body))


def test_a_heavy_part_used_over_and_over() -> None:
    junk = "M0 0 " + "L1 1 " * 150_000 + "#"
    uses = '<use href="#j"/>' * 5_000
    assert refusal(svg(f'<defs><path id="j" d="{junk}"/></defs>{uses}'))
    assert refusal(svg(f'<defs><path id="j" transform="{junk}" d="M0 0h1"/></defs>{uses}'))
    assert strokes(f'<defs><g id="j" display="none">{"<a/>" * 10_000}</g></defs>{uses}') == []


def test_a_long_chain_of_uses() -> None:
    chain = "".join(f'<use id="u{k}" href="#u{k + 1}"/>' for k in range(2000))
    assert beyond_info(f'<defs>{chain}</defs><use href="#u0"/>') == [
        ("svg/dead-link", "Left out, because too many parts use each other in turn: use “u31” (line 1).")
    ]


def test_style_sheets_that_would_take_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(css, "MOST_TRIED", 100_000)
    rules = "".join(f".a .b{{fill:#{k:06x}}}" for k in range(5000))
    body = "<g>" * 200 + '<path class="b" d="M0 0h1"/>' * 2000 + "</g>" * 200
    assert refusal(svg(f"<style>{rules}</style>{body}"))
    for text in (
        "{" * 1_000_000,
        "/*" * 500_000,
        "a" * 1_000_000,
        "@media{" * 200_000,
        "[" * 1_000_000,
        ":not(" * 200_000,
    ):
        assert drawing(f"<style><![CDATA[{text}]]></style>") is not None


@pytest.mark.parametrize(
    "text",
    ["1" * 1_000_000, "1e" * 500_000, "-" * 1_000_000, "1," * 50_000, " " * 300_000, "1 " * 50_000 + "#"],
)
def test_numbers_that_would_take_for_ever(text: str) -> None:
    for body in (
        f'<path d="M{text}"/>', f'<path d="M0 0 a{text}"/>', f'<polygon points="{text}"/>', f'<rect width="{text}" height="1"/>',
        f'<g transform="translate({text})"/>', f'<g stroke-dasharray="{text}"/>', f'<g fill="rgb({text})"/>',
        f'<g style="{text}"/>', f'<text x="{text}">a</text>', f'<g transform="{text}"/>',
    ):  # fmt: skip
        read(svg(body))
    read(svg("", f'viewBox="{text}" width="{text}"'))


@pytest.mark.parametrize("number", ["nan", "inf", "-inf", "1e308", "-1e308", "1e-320", "1e999", "9" * 400])
def test_wild_numbers_everywhere(number: str) -> None:
    body = "".join(
        (
            f'<rect x="{number}" y="1" width="{number}" height="{number}" rx="{number}"/>',
            f'<circle cx="{number}" r="{number}"/>',
            f'<path d="M{number} 1 A{number} {number} {number} 1 1 5 5 C 1 2 3 4 {number} {number} z"/>',
            f'<path d="M1 1 A{number} 3 {number} 1 1 5 5"/>',
            f'<path d="M1 1 a 3 3 0 1 1 {number} 0"/>',
            f'<polygon points="{number},1 2,{number} 3 3"/>',
            f'<g transform="matrix({number} 0 {number} 1 0 0)"><path d="M1 1h1"/></g>',
            f'<g transform="rotate({number}) scale({number}) skewX({number})"><path d="M1 1h1"/></g>',
            f'<text x="{number}" y="{number}" font-size="{number}">a</text>',
            f'<svg width="{number}" viewBox="0 0 {number} 1"><path d="M1 1h1"/></svg>',
        )
    )
    for root in (MM, f'width="{number}mm" viewBox="0 0 100 100"', f'viewBox="0 0 {number} {number}"'):
        found = read(svg(body, root)).drawing
        assert found is not None
        for group in found.groups:
            assert all(abs(stroke.cubics).max() < 2e6 for stroke in group.strokes)
            assert all(abs(text.at) < 2e6 and text.height < 2e6 for text in group.texts)


def test_much_text() -> None:
    assert "larger than 10 MB" in refusal(svg(f"<text>{'word ' * 2_200_000}</text>"))
    [group] = drawing(f"<text>{'word ' * 1_000_000}</text>").groups
    assert len(group.texts[0].words) == 4_999_999


def test_names_cannot_steer() -> None:
    body = '<use id="&#x9b;31m\n[/b]{0}" href="#no"/>'
    [(_, _, text)] = [row for row in said(read(svg(body))) if row[1] == "svg/dead-link"]
    assert "[/b]{0}" in text
