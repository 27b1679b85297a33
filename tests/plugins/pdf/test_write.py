"""What is in a written PDF: pages, forms, layers, lines."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace

import numpy as np
import pdfplumber
import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pdf_files import A4, data_of, named, opened, sheets_of, square, streams, written

from notchwork.drawing import About, Dot, Drawing, Group, Look, Stroke, Text, line_style
from notchwork.pages import Sheet, Sheets, Window

SIZES = ("S", "M", "L")


def nested() -> Sheets:
    group = Group("a", (square(), *(square(k * 5 * (1 + 1j), size=size) for k, size in enumerate(SIZES))))
    return sheets_of(group, pages=3, sizes=SIZES)


def forms(pdf: pikepdf.Pdf) -> list[pikepdf.Object]:
    return [
        item for item in pdf.objects if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Form"
    ]


def test_a_drawing_stands_once_in_the_file_and_every_page_places_it() -> None:
    pdf = opened(data_of(nested()))
    (form,) = forms(pdf)
    assert len(pdf.pages) == 3
    for page in pdf.pages:
        assert list(page.Resources.XObject.keys()) == ["/G0"]
        assert page.Resources.XObject.G0.objgen == form.objgen
        assert re.search(r"re W n .* cm /G0 Do Q", page.Contents.read_bytes().decode())


def test_a_page_costs_the_same_whatever_the_drawing() -> None:
    def of_a_page(count: int) -> int:
        group = Group("a", tuple(square(0.1 * k * (1 + 1j)) for k in range(count)))
        return len(data_of(sheets_of(group, pages=40))) - len(data_of(sheets_of(group, pages=20)))

    assert of_a_page(500) == pytest.approx(of_a_page(1), rel=0.05)


def test_a_page_is_as_large_as_its_paper_and_is_not_scaled() -> None:
    """A point is 1/72 in. Source: ISO 32000-1:2008, 8.3.2.3."""
    pdf = opened(data_of(named("a")))
    box = [float(v) for v in pdf.pages[0].MediaBox]
    assert box == pytest.approx([0, 0, 210 / 25.4 * 72, 297 / 25.4 * 72], abs=1e-6)
    assert "/UserUnit" not in pdf.pages[0]
    assert pdf.Root.ViewerPreferences.PrintScaling == "/None"


def test_a_page_beyond_14400_points_says_what_its_unit_is_and_is_told() -> None:
    """Source: ISO 32000-1:2008, annex C.2."""
    longest = 14_400 / 72 * 25.4
    assert written(named("a", size=complex(longest, 300))).findings == ()
    done = written(named("a", size=complex(6000, 300)))
    pdf = opened(done.files[".pdf"])
    page = pdf.pages[0]
    assert float(page.MediaBox[2]) * float(page.UserUnit) == pytest.approx(6000 / 25.4 * 72, abs=1e-3)
    assert float(page.MediaBox[2]) <= 14_400
    assert [finding.rule.id for finding in done.findings] == ["pdf/long-page"]


def test_sizes_are_layers_that_two_other_readers_list() -> None:
    data = data_of(nested())
    ours = opened(data)
    listed = ours.Root.OCProperties
    assert [str(layer.Name) for layer in listed.D.Order] == list(SIZES)
    assert [str(layer.Name) for layer in listed.OCGs] == list(SIZES)
    assert list(listed.D.OFF) == []
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        groups = pdf.doc.catalog["OCProperties"]["OCGs"]
        assert [layer.resolve()["Name"].decode() for layer in groups] == list(SIZES)


def test_what_holds_for_all_sizes_is_in_no_layer() -> None:
    *_, form = streams(data_of(nested()))
    inside = re.findall(r"/OC /S\d BDC\n(.*?)EMC", form, re.DOTALL)
    outside = re.sub(r"/OC /S\d BDC\n.*?EMC", "", form, flags=re.DOTALL)
    assert [part.count(" m ") for part in inside] == [1, 1, 1]
    assert outside.count(" m ") == 1


def test_one_size_makes_no_layer() -> None:
    assert (
        "/OCProperties" not in opened(data_of(sheets_of(Group("a", (square(size="M"),)), sizes=("M",)))).Root
    )


def test_lines_look_as_the_styles_say_and_bold_ones_are_wider() -> None:
    sheets = nested()
    *_, form = streams(data_of(sheets))
    for size in SIZES:
        style = line_style("cut", size, SIZES, "S")
        dashes = " ".join(f"{1000 * dash:.0f}" for dash in style.dashes)
        assert f"{1000 * style.width:.0f} w" in form
        assert f"[{dashes}] 0 d" in form
    *_, bold = streams(data_of(replace(sheets, bold=2.0)))
    assert f"{2000 * line_style('cut').width:.0f} w" in bold


def test_a_curve_stays_one_cubic_to_a_thousandth_of_a_mm() -> None:
    cubic = np.array([[0, 10.12345 + 20.5j, 30 + 40.98765j, 50.00049 + 0j]])
    *_, form = streams(data_of(sheets_of(Group("a", (Stroke(cubic, "stitch"),)))))
    assert "0 0 m 10123 20500 30000 40988 50000 0 c S" in form


def test_a_stroke_with_a_look_of_its_own_keeps_it() -> None:
    stroke = replace(square(), look=Look("#ff0000", "#808080", 1.25, (3.0, 1.0)))
    *_, form = streams(data_of(sheets_of(Group("a", (stroke,)))))
    assert "1 0 0 RG" in form
    assert "0.502 g" in form
    assert "1250 w" in form
    assert "[3000 1000] 0 d" in form
    assert form.rstrip().endswith("h B")


def test_the_form_reaches_round_all_it_draws() -> None:
    group = Group("a", (square(),), (Dot(-20 + 5j),), (Text(95 + 50j, "a long name", 8.0, "name"),))
    pdf = opened(data_of(sheets_of(group)))
    (form,) = forms(pdf)
    low, high = complex(*map(float, form.BBox[:2])) / 1000, complex(*map(float, form.BBox[2:])) / 1000
    assert low.real < -20.8
    assert low.imag < -0.25
    assert high.real > 95 + 0.55 * 8.0 * len("a long name")
    assert high.imag > 100.25


@given(
    st.floats(-math.pi, math.pi),
    st.complex_numbers(max_magnitude=1000),
    st.complex_numbers(max_magnitude=2000),
)
def test_a_turned_window_puts_every_point_where_it_says(angle: float, shift: complex, z: complex) -> None:
    turn = complex(math.cos(angle), math.sin(angle))
    window = Window(0, turn, shift, 0j, A4)
    sheets = Sheets(Drawing(()), (Group("a", (square(),)),), (Sheet(A4, (window,)),))
    page, _ = streams(data_of(sheets))
    outer, inner = (list(map(float, found.split())) for found in re.findall(r"([-\d. ]+) cm", page))
    placed = complex(inner[0], inner[1]) * (z * 1000) + complex(inner[4], inner[5])
    on_page = complex(outer[0], outer[1]) * placed
    assert abs(on_page / 72 * 25.4 - (turn * z + shift)) < 0.002


def test_the_same_sheets_give_the_same_bytes_and_no_date() -> None:
    sheets = named("Ärmel", title="a", attached=b"{}")
    data = data_of(sheets)
    assert data == data_of(sheets)
    assert not re.search(rb"/(CreationDate|ModDate)", data)
    assert not re.search(rb"\(D:\d{4}", data)
    assert b"MetadataDate" not in data


def test_what_the_file_says_of_itself() -> None:
    about = About(author="A. Maker", license="CC-BY-4.0", description="A skirt.")
    pdf = opened(data_of(named("a", title="Rock (weit) \\ <b>", about=about)))
    assert str(pdf.docinfo["/Title"]) == "Rock (weit) \\ <b>"
    assert str(pdf.docinfo["/Author"]) == "A. Maker"
    with pdf.open_metadata() as meta:
        assert meta["dc:title"] == "Rock (weit) \\ <b>"
        assert meta["dc:rights"] == "CC-BY-4.0"
        assert meta["dc:creator"] == ["A. Maker"]
        assert meta["dc:description"] == "A skirt."
    assert str(pdf.Root.Lang) == "en"


def test_bookmarks_lead_to_pages_and_pieces_and_pages_are_called_as_in_the_plan() -> None:
    groups = (Group("f", (square(),), facts={"name": "Front"}), Group("b", (square(),)))
    front = Window(0, 1 + 0j, 0j, 0j, A4)
    back = Window(1, 1 + 0j, 0j, 0j, A4)
    sheets = (
        Sheet(A4, title="Print this first"),
        Sheet(A4, (front,), label="A1"),
        Sheet(A4, (front, back), label="A2"),
    )
    pdf = opened(data_of(Sheets(Drawing(groups), groups, sheets)))
    with pdf.open_outline() as outline:
        told = [(item.title, [child.title for child in item.children]) for item in outline.root]
        pieces = [pdf.pages.index(pikepdf.Page(child.destination[0])) for child in outline.root[1].children]
    assert told == [("Print this first", []), ("Pieces", ["Front", "b"]), ("Pages", ["A1", "A2"])]
    assert pieces == [1, 2]
    assert [page.label for page in pdf.pages] == ["1", "A1", "A2"]


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_no_number_that_is_none_is_written(bad: float) -> None:
    with pytest.raises(ValueError, match="hold"):
        data_of(sheets_of(Group("a", (square(complex(bad, 0)),))))
    with pytest.raises(ValueError, match="hold"):
        data_of(sheets_of(Group("a", texts=(Text(complex(0, bad), "a", 5.0),))))


def test_an_empty_sheet_and_no_sheet_at_all_can_be_written() -> None:
    assert len(opened(data_of(Sheets(Drawing(()), (), (Sheet(A4),)))).pages) == 1
    assert len(opened(data_of(Sheets(Drawing(()), (), ()))).pages) == 0


def test_three_hundred_sizes_are_three_hundred_layers() -> None:
    sizes = tuple(f"size {k}" for k in range(300))
    group = Group("a", tuple(square(0.1 * k + 0j, size=size) for k, size in enumerate(sizes)))
    pdf = opened(data_of(sheets_of(group, sizes=sizes)))
    assert [str(layer.Name) for layer in pdf.Root.OCProperties.OCGs] == list(sizes)
