"""A report in a browser: from a finding to its drawing and back, sizes, keyboard, phones, paper, and nothing from elsewhere."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from browser_names import HOSTILE, hostile
from storm_petrel import faulty, sound

pytestmark = pytest.mark.browser

Tab = Callable[..., Any]
Pages = Callable[[str], str]


def test_from_a_finding_to_its_drawing_and_back(tab: Tab, pages: Pages) -> None:
    page = tab(pages("faulty"))
    finding = page.locator("#findings li").filter(has_text="6.0 mm longer")
    finding.get_by_role("link", name="Sleeve seam").click()
    card = page.locator(":target")
    assert card.get_attribute("id") == "card-sleeve_seam"
    assert card.bounding_box()["y"] < 900
    card.get_by_role("link").first.click()
    assert finding.get_attribute("id") == page.locator(":target").get_attribute("id")


def test_the_reason_is_one_click_away(tab: Tab, pages: Pages) -> None:
    finding = tab(pages("faulty")).locator("#findings li").filter(has_text="6.0 mm longer")
    source = finding.get_by_text("Threads 200")
    assert not source.is_visible()
    finding.locator("summary").click()
    assert source.is_visible()


@pytest.mark.parametrize("scripts", [True, False])
def test_sizes_are_chosen(tab: Tab, pages: Pages, scripts: bool) -> None:
    page = tab(pages("sound"), scripts=scripts)
    shown = page.locator("#glance .panel:visible .parts")
    assert shown.count() == 1
    seen = set()
    for size in ("S", "M", "L"):
        page.locator("#glance label").filter(has_text=re.compile(f"^{size}$")).click()
        assert shown.count() == 1
        seen.add(shown.get_attribute("id"))
    assert len(seen) == 3


def test_sizes_are_chosen_by_keyboard(tab: Tab, pages: Pages) -> None:
    page = tab(pages("sound"))
    page.locator("#glance input:checked").focus()
    before = page.locator("#glance .panel:visible .parts").get_attribute("id")
    page.keyboard.press("ArrowRight")
    assert page.locator("#glance .panel:visible .parts").get_attribute("id") != before


def test_pointing_at_a_part_says_what_it_is_and_shows_it_elsewhere(tab: Tab, pages: Pages) -> None:
    page = tab(pages("faulty"))
    part = page.locator("#card-sleeve_seam [role=button]").first
    part.focus()
    assert page.locator("#card-sleeve_seam .says").inner_text() == part.get_attribute("aria-label")
    assert page.locator("#glance .now").count() > 0


def test_enter_leads_from_a_seam_to_the_piece_and_escape_back(tab: Tab, pages: Pages) -> None:
    page = tab(pages("faulty"))
    part = page.locator("#card-sleeve_seam [data-edges]").first
    part.focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.closest('#glance') !== null")
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.closest('#card-sleeve_seam') !== null")


def test_a_sign_on_a_piece_leads_to_what_is_told_of_it(tab: Tab, pages: Pages) -> None:
    page = tab(pages("faulty"))
    sign = page.locator("#glance .panel:visible [data-findings][aria-label*='turned up']").first
    sign.focus()
    page.keyboard.press("Enter")
    assert "is turned up 6.0 mm" in page.evaluate(
        "document.activeElement.closest('#findings li').textContent"
    )
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.closest('#glance') !== null")


def test_without_scripts_everything_but_pointing_shows(tab: Tab, pages: Pages) -> None:
    with_scripts, without = (tab(pages("faulty"), scripts=scripts) for scripts in (True, False))
    for selector in ("h2", "h3", "#findings li p", "svg.picture", "table", "summary"):
        visible = page_count(without, selector)
        assert visible == page_count(with_scripts, selector) > 0, selector
    assert page_count(without, ".says") == 0
    assert page_count(with_scripts, "svg.picture [role=button][tabindex='0']") > 100
    assert without.locator("svg.picture [role=button], svg.picture [tabindex='0']").count() == 0


def page_count(page: Any, selector: str) -> int:
    count: int = page.locator(f"{selector}:visible").count()
    return count


@pytest.mark.parametrize("name", ["sound", "faulty", "smock"])
@pytest.mark.parametrize("width", [360, 375, 720, 1080])
def test_nothing_scrolls_sideways(tab: Tab, pages: Pages, name: str, width: int) -> None:
    page = tab(pages(name), width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize(("width", "abreast"), [(360, 1), (720, 2), (1080, 3)])
def test_cards_stand_abreast(tab: Tab, pages: Pages, width: int, abreast: int) -> None:
    page = tab(pages("faulty"), width=width)
    lefts = page.eval_on_selector_all(".cards > .card", "cards => cards.map(c => c.getBoundingClientRect())")
    assert len({round(card["left"]) for card in lefts}) == abreast
    assert {round(card["width"]) for card in lefts} == {344}
    assert all(card["right"] <= width for card in lefts)


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
def test_two_cards_abreast_on_paper(tab: Tab, pages: Pages, sheet: str) -> None:
    """Inside margins of 12 mm: A4 is 210 mm wide and Letter 8.5 in (ISO 216; ANSI/ASME Y14.1)."""
    inside = {"A4": 210 - 24, "Letter": 8.5 * 25.4 - 24}[sheet] / 25.4 * 96
    page = tab(pages("faulty"), width=int(inside))
    page.emulate_media(media="print")
    lefts = page.eval_on_selector_all(".cards > .card", "cards => cards.map(c => c.getBoundingClientRect())")
    assert len({round(card["left"]) for card in lefts}) == 2
    assert max(card["right"] for card in lefts) <= inside


_MARKED = """all => all.map((picture, k) => {
    const box = picture.viewBox.baseVal;
    for (const [end, y] of [["head", 12], ["foot", box.height - 3]]) {
        const text = document.createElementNS("http://www.w3.org/2000/svg", "text");
        text.textContent = "picture" + k + end;
        text.setAttribute("x", 150);
        text.setAttribute("y", y);
        picture.append(text);
    }
    return picture.checkVisibility();
})"""


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["sound", "faulty", "smock"])
def test_no_picture_is_cut_by_the_end_of_a_sheet(tab: Tab, pages: Pages, name: str, sheet: str) -> None:
    """Each has a word put at its head and at its foot: Poppler's pdftotext finds both on the same sheet."""
    reader = shutil.which("pdftotext")
    if reader is None:
        pytest.skip("needs Debian's package poppler-utils")
    page = tab(pages(name), width=700)
    page.emulate_media(media="print")
    shown = page.locator("svg.picture").evaluate_all(_MARKED)
    told = subprocess.run([reader, "-", "-"], input=page.pdf(format=sheet), capture_output=True, check=True)
    sheets = told.stdout.decode().split("\f")
    assert sum(shown) > 8
    for number, is_shown in enumerate(shown):
        ends = [
            [at for at, words in enumerate(sheets) if f"picture{number}{end}" in words]
            for end in ("head", "foot")
        ]
        assert [len(found) for found in ends] == [is_shown, is_shown], number
        assert ends[0] == ends[1], number


def test_the_policy_lets_nothing_out(tab: Tab, pages: Pages) -> None:
    text = Path(pages("sound").removeprefix("file://")).read_text(encoding="utf-8")
    assert "default-src 'none'" in text
    assert not re.search(r"<(link|img|iframe|object|embed)\b|@import|url\((?!#)", text)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", ["sound", "faulty", "smock"])
def test_axe_finds_nothing(tab: Tab, pages: Pages, name: str, scheme: str) -> None:
    """axe-core, the rules of WCAG 2.2 A and AA and its best practices."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="needs axe-playwright-python")
    page = tab(pages(name), scheme=scheme)
    found = axe.Axe().run(page).response["violations"]
    assert [(rule["id"], rule["nodes"][0]["html"][:200]) for rule in found] == []


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("which", ["smock", "faulty"])
def test_no_line_breaks_inside_a_figure(tab: Tab, pages: Pages, which: str, width: int) -> None:
    shown = tab(pages(which), width=width).locator("#notions .figures")
    lines = shown.evaluate_all("all => all.map(one => [one.textContent, one.getClientRects().length])")
    alone = [(said, count) for said, count in lines if said and "," not in said]
    assert alone
    assert [said for said, count in alone if count != 1] == []


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_text(tab: Tab, tmp_path: Path, name: str) -> None:
    for number, document in enumerate((sound(), faulty())):
        address = hostile(tmp_path / f"{number}.html", document, HOSTILE[name])
        for width in (360, 1080):
            page = tab(address, width=width)
            assert page.evaluate("window.hacked") is None
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            assert page.locator("script").count() == 1
            assert page.locator("main section").count() >= 6
            assert len(page.locator("h1").inner_text()) < 200
