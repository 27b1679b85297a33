"""Other programs open what is written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
from pdf_files import needs, run
from PIL import Image
from storm_petrel import sound

from notchwork import jobs

CHROMIUM = needs("chromium", "chromium")


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    import json

    path = tmp_path_factory.mktemp("printed") / "demo.pdf"
    source = path.with_suffix(".pattern.json")
    source.write_text(json.dumps(sound()), encoding="utf-8")
    jobs.convert(source, path)
    return path


@pytest.mark.debian("qpdf")
@needs("qpdf", "qpdf")
def test_qpdf_finds_nothing_wrong(printed: Path) -> None:
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", printed)


@pytest.mark.debian("poppler-utils")
@needs("pdftoppm", "poppler-utils")
def test_poppler_opens_it(printed: Path, tmp_path: Path) -> None:
    said = run("pdftoppm", "-r", "40", "-png", "-f", "1", "-l", "1", printed, tmp_path / "p")
    assert said == ""
    assert dark(next(tmp_path.glob("p*.png")))


@pytest.mark.debian("mupdf-tools")
@needs("mutool", "mupdf-tools")
def test_mupdf_opens_it(printed: Path, tmp_path: Path) -> None:
    said = run("mutool", "draw", "-q", "-r", "40", "-o", tmp_path / "p.png", printed, "1")
    assert "error" not in said.lower().replace("icc support is not available", "")
    assert dark(tmp_path / "p.png")


def test_the_engine_of_chromium_opens_it(printed: Path) -> None:
    pdf = pypdfium2.PdfDocument(printed)
    page = pdf[0]
    assert page.get_size() == pytest.approx((595.276, 841.89), abs=0.01)
    picture = page.render(scale=0.5).to_pil()
    assert min(picture.convert("L").tobytes()) < 50
    assert "Storm petrel" in page.get_textpage().get_text_range()
    page.close()
    pdf.close()


@pytest.mark.browser
@pytest.mark.debian("chromium")
@CHROMIUM
def test_chromium_opens_it(printed: Path, tmp_path: Path, playwright: Any) -> None:
    """Its viewer shows white pages with dark lines on its own dark ground, and the title."""
    browser = playwright.chromium.launch(
        executable_path="/usr/bin/chromium",
        headless=False,
        args=["--headless=new", "--no-sandbox", "--disable-gpu"],
        ignore_default_args=[
            "--disable-extensions",
            "--disable-component-extensions-with-background-pages",
        ],
    )
    tab = browser.new_page(viewport={"width": 900, "height": 1100})
    tab.goto(printed.as_uri())
    seen = 0.0
    for _ in range(40):
        tab.wait_for_timeout(500)
        tab.screenshot(path=tmp_path / "seen.png")
        grey = Image.open(tmp_path / "seen.png").convert("L").tobytes()
        seen = sum(value > 250 for value in grey) / len(grey)
        if seen > 0.3:
            break
    browser.close()
    assert seen > 0.3


@pytest.mark.debian("poppler-utils")
@needs("pdftoppm", "poppler-utils")
def test_a_layer_that_is_switched_off_is_not_drawn(printed: Path, tmp_path: Path) -> None:
    """By poppler: with every size off less is dark on a page, and what holds for all sizes is still there."""
    pdf = pikepdf.open(printed)
    on, off = tmp_path / "on", tmp_path / "off"
    page = str(next(k for k, page in enumerate(pdf.pages, 1) if "/XObject" in page.Resources))
    run("pdftoppm", "-r", "60", "-gray", "-f", page, "-l", page, "-singlefile", printed, on)
    layers = pdf.Root.OCProperties.D
    layers.OFF, layers.ON = layers.ON, pikepdf.Array()
    pdf.save(tmp_path / "off.pdf")
    run("pdftoppm", "-r", "60", "-gray", "-f", page, "-l", page, "-singlefile", tmp_path / "off.pdf", off)
    ink = [sum(255 - value for value in Image.open(path.with_suffix(".pgm")).tobytes()) for path in (on, off)]
    assert 0 < ink[1] < 0.9 * ink[0]


def dark(path: Path) -> bool:
    return min(Image.open(path).convert("L").tobytes()) < 50
