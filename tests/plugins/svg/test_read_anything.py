"""Whatever is put together of SVG's own words, or damaged, is read or refused; never a crash."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from svg_files import read, svg

from notchwork.findings import NotchworkError

ELEMENTS = (
    "g",
    "path",
    "rect",
    "use",
    "svg",
    "text",
    "tspan",
    "symbol",
    "style",
    "switch",
    "circle",
    "polygon",
    "defs",
)
ATTRIBUTES = (
    "d",
    "points",
    "x",
    "y",
    "width",
    "height",
    "transform",
    "viewBox",
    "href",
    "id",
    "style",
    "class",
    "r",
    "rx",
)
VALUES = st.one_of(
    st.sampled_from(
        (
            "#a",
            "#b",
            "a",
            "b",
            "10",
            "-1",
            "50%",
            "5mm",
            "M0 0h5v5z",
            "0 0 10 10",
            "scale(2)",
            "fill:red",
            "display:none",
        )
    ),
    st.text("0123456789.,-+eE MmLlAaCcZz%#;:()", max_size=20),
)


@st.composite
def elements(draw: st.DrawFn, depth: int = 3) -> str:
    tag = draw(st.sampled_from(ELEMENTS))
    given_ = draw(st.dictionaries(st.sampled_from(ATTRIBUTES), VALUES, max_size=4))
    held = (
        "".join(draw(st.lists(elements(depth - 1), max_size=3)))
        if depth
        else draw(st.sampled_from(("", "a{fill:red}", "words")))
    )
    return f"<{tag}{''.join(f' {k}={chr(34)}{v}{chr(34)}' for k, v in given_.items())}>{held}</{tag}>"


@settings(max_examples=60, deadline=None)
@given(st.lists(elements(), max_size=3))
def test_anything_made_of_svg_s_own_words_is_read(bodies: list[str]) -> None:
    found = read(svg("".join(bodies))).drawing
    assert found is not None
    low, high = found.bounds or (0j, 0j)
    assert abs(low) < 1e8
    assert abs(high) < 1e8


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 400), st.binary(min_size=1, max_size=3))
def test_damaged_bytes_are_read_or_refused(at: int, instead: bytes) -> None:
    whole = svg(
        '<style>.a{fill:red}</style><g id="a" transform="scale(2)"><path class="a" d="M1 1 L2 2 a1 1 0 0 1 2 2z"/></g><use href="#a"/>'
    )
    damaged = whole[: at % len(whole)] + instead + whole[at % len(whole) + len(instead) :]
    try:
        found = read(damaged).drawing
    except NotchworkError:
        return
    assert found is not None
