"""The page without a browser: what is on it, where its links lead, and that names stay text."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterator
from itertools import pairwise

import pytest
from browser_names import HOSTILE, renamed
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lxml import html
from patterns import Document, case
from storm_petrel import faulty, sound

from notchwork import jobs
from notchwork.checks import Names
from notchwork.report.page import GENERATOR
from notchwork.report.told import told


def page_of(document: Document) -> str:
    return jobs.report(jobs.load(json.dumps(document).encode(), "folder/test.pattern.json")).page


def tree_of(text: str) -> html.HtmlElement:
    return html.document_fromstring(text)


def text_of(element: html.HtmlElement) -> str:
    return " ".join(element.text_content().split())  # which takes unbroken spaces for spaces


def shown(text: str) -> str:
    """What a page shows, without its script."""
    return " ".join(text_of(part) for part in tree_of(text).xpath("//header|//main|//footer"))


@pytest.fixture(scope="module")
def sound_page() -> str:
    return page_of(sound())


@pytest.fixture(scope="module")
def faulty_page() -> str:
    return page_of(faulty())


@pytest.fixture(scope="module")
def both(sound_page: str, faulty_page: str) -> tuple[html.HtmlElement, html.HtmlElement]:
    return tree_of(sound_page), tree_of(faulty_page)


def test_the_verdict_comes_first(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    for tree, said in zip(both, ("Sews together:", "Does not sew together:"), strict=True):
        [verdict] = tree.xpath("//header/p[@class='verdict']")
        assert text_of(verdict).startswith(said)
        assert "18 seams walked in S, M and L" in text_of(verdict)
        assert "Not checked: how it fits the body" in text_of(tree.xpath("//header")[0])


def test_the_verdict_counts_the_seams_whose_cards_are_not_right(faulty_page: str) -> None:
    tree = tree_of(faulty_page)
    [not_right] = tree.xpath("//section[@id='seams']/h3[.='Not right']/following-sibling::div[1]")
    cards = len(not_right.xpath("./article"))
    assert cards == 8
    assert text_of(tree.xpath("//header/p[@class='verdict']")[0]).endswith(f", {cards} with findings.")


def test_every_finding_is_told_in_the_terminals_words_with_its_hint_reason_and_source() -> None:
    loaded = jobs.load(json.dumps(faulty()).encode(), "test.pattern.json")
    verdict = jobs.check(loaded)
    entries = tree_of(jobs.report(loaded).page).xpath("//li[starts-with(@id, 'finding-')]")
    assert len(entries) == len(verdict.findings) > 10
    names = Names(verdict.pattern)
    for entry, graded in zip(entries, verdict.findings, strict=True):
        said = told(graded, names)
        for words in (
            graded.severity.word.capitalize(),
            said.text,
            said.hint,
            graded.rule.rationale,
            graded.rule.source,
        ):
            assert " ".join(words.split()) in text_of(entry)
        assert [text_of(cell) for cell in entry.xpath(".//tr//*[self::th or self::td]")] == [
            cell for row in said.table for cell in row
        ]


def test_ids_are_unique_and_every_link_leads_somewhere(
    both: tuple[html.HtmlElement, html.HtmlElement],
) -> None:
    for tree in both:
        idents = tree.xpath("//@id")
        assert len(idents) == len(set(idents))
        targets = [link.removeprefix("#") for link in tree.xpath("//@href")]
        assert set(targets) <= set(idents)
        assert len(targets) > 20
        referred = [
            word
            for name in ("labelledby", "describedby")
            for value in tree.xpath(f"//@aria-{name}")
            for word in value.split()
        ]
        assert set(referred) <= set(idents)


def test_each_finding_on_a_seam_leads_to_its_card_and_the_card_back(
    both: tuple[html.HtmlElement, html.HtmlElement],
) -> None:
    tree = both[1]
    cards = {card.get("id"): card for card in tree.xpath("//article")}
    met = 0
    for entry in tree.xpath("//li[starts-with(@id, 'finding-')]"):
        for target in entry.xpath(".//a/@href"):
            if (card := cards.get(target[1:])) is not None:
                assert f"#{entry.get('id')}" in card.xpath(".//a/@href")
                met += 1
    assert met >= 8


def test_headings_go_down_step_by_step(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    for tree in both:
        levels = [int(heading.tag[1]) for heading in tree.iter("h1", "h2", "h3", "h4")]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(after - before <= 1 for before, after in pairwise(levels))


def test_no_script_but_its_own_and_nothing_from_elsewhere(sound_page: str) -> None:
    [policy] = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]*)"', sound_page)
    [script] = re.findall(r"<script>(.*?)</script>", sound_page, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    assert f"script-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")
    assert "http:" not in sound_page
    assert "https:" not in sound_page


def test_the_page_names_no_folder(sound_page: str) -> None:
    assert "test.pattern.json" in sound_page
    assert "folder" not in sound_page
    assert f'content="{GENERATOR}"' in sound_page


def row(tree: html.HtmlElement, section: str, name: str) -> list[str]:
    """The cells of the first row of a section that names something."""
    for found in tree.xpath(f"//section[@id='{section}']//tr"):
        cells = [text_of(cell) for cell in found.xpath("./th|./td")]
        if name in cells[0]:
            return cells
    raise AssertionError(f"no {name} in {section}")


def test_seams_by_size(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    sound_tree, faulty_tree = both
    assert row(sound_tree, "differences", "Side seam")[1:] == ["same"] * 3
    assert row(faulty_tree, "differences", "Sleeve seam")[1:] == ["same", "same", "+6.0 off"]
    assert row(faulty_tree, "differences", "Lining side")[1:] == ["wrong way off"] * 3
    assert row(faulty_tree, "differences", "Lining waist")[1:] == ["−8.0 off"] * 3
    assert row(faulty_tree, "differences", "Armhole")[1:] == ["+14.4 off", "+15.3 off", "+15.0 off"]
    assert "off" not in " ".join(
        cell for cell in sound_tree.xpath("//section[@id='differences']//td//text()")
    )


def test_the_table_and_the_picture_say_the_same_ease(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    """Also where the rounded lengths of both sides are a tenth further apart, or nearer."""
    drawn = both[0].xpath("//article[@id='card-shoulder']//text()[contains(., ' ease')]")
    figures = [words.removesuffix(" ease") for words in drawn if words.endswith(" ease")]
    assert len(figures) == 3
    assert row(both[0], "differences", "Shoulder seam")[1:] == [f"+{figure}" for figure in figures]


def test_ease_and_gathers_name_what_is_wanted(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    assert "eased: 19.0 to 22.0 wanted" in row(both[0], "differences", "Armhole")[0]
    assert "gathered: 2.10 to 2.40 wanted" in row(both[0], "differences", "Lower flounce seam")[0]
    assert row(both[0], "differences", "Lower flounce seam")[1].startswith("× 2.")


def test_the_cut_list_goes_by_material(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    sound_tree, faulty_tree = both
    headings = [text_of(heading) for heading in sound_tree.xpath("//section[@id='cut']//h3")]
    assert headings == [
        "Soot-grey cotton sateen",
        "Cotton lining",
        "Black costume net",
        "Light fusible interfacing",
    ]
    assert row(sound_tree, "cut", "Side front")[1:] == ["2", "in pairs: half of them mirrored"]
    assert row(sound_tree, "cut", "Front")[1:] == ["1", "on the fold"]
    assert "too few copies" in row(faulty_tree, "cut", "Upper flounce")[-1]
    cut = text_of(sound_tree.xpath("//section[@id='cut']")[0])
    assert "1450.0 mm wide: each piece fits across it." in cut


def test_cloth_that_is_too_narrow_is_told() -> None:
    document = case("two_panel_skirt")
    material = next(iter(document["materials"].values()))
    material["width"] = 200
    text = text_of(tree_of(page_of(document)).xpath("//section[@id='cut']")[0])
    assert "200.0 mm wide, which is not enough for Front" in text
    del material["width"]
    assert "Its width is not stated" in text_of(tree_of(page_of(document)).xpath("//section[@id='cut']")[0])


def test_notions_that_are_to_be_looked_at_carry_the_sign(
    both: tuple[html.HtmlElement, html.HtmlElement],
) -> None:
    signed = [
        (text_of(tr.xpath("./th/bdi")[0]), text_of(tr.xpath("./th/div")[0]), tr.xpath(".//svg/@class"))
        for tr in both[1].xpath("//*[@id='notions']//tbody/tr")
        if tr.xpath(".//svg")
    ]
    assert [kinds for *_, kinds in signed] == [["sign look"], ["sign look"]]
    (zip_name, zip_said, _), (elastic_name, elastic_said, _) = signed
    assert (zip_name, zip_said) == ("Back zip", "A zip does not fit its opening")
    assert (elastic_name, elastic_said) == ("Cuff elastic", "A casing is too narrow for its elastic or cord")
    for anchor in both[1].xpath("//*[@id='notions']//tbody//a/@href"):
        assert both[1].xpath(f"//li[@id='{anchor[1:]}']")
    assert not both[0].xpath("//*[@id='notions']//svg")


def test_notions_in_every_size_and_strips(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    tape = row(both[0], "notions", "Tape for the cuff casings")
    assert tape[1:] == ["2", "20.0 mm", "S 375.0 mm, M 395.0 mm, L 415.0 mm", "Sleeve, cuff casing"]
    assert "on the bias" in row(both[0], "notions", "Neck binding")[0]


def test_the_order_of_sewing_leads_to_the_seams(both: tuple[html.HtmlElement, html.HtmlElement]) -> None:
    steps = both[0].xpath("//section[@id='order']//ol/li")
    assert len(steps) == len(sound()["order"])
    assert "Panel seam" in text_of(steps[2])
    assert "#card-panel" in steps[2].xpath(".//a/@href")


def test_lengths_are_in_the_persons_unit() -> None:
    document = case("two_panel_skirt") | {"unit": "in"}
    said = shown(page_of(document))
    assert "lengths in inches" in said
    assert not re.search(r"\d\s?mm\b", said)


def test_a_sound_page_has_no_findings_at_all(sound_page: str) -> None:
    assert 'id="findings"' not in sound_page


def test_a_document_with_faults_is_told_and_nothing_is_drawn() -> None:
    done = jobs.report(
        jobs.load(b'{"notchwork": "1.0", "pieces": {"front": {"allowence": 12}}}', "test.json")
    )
    tree = tree_of(done.page)
    said = shown(done.page)
    assert "Could not be checked: 2 errors" in said
    assert "Mend first" in said
    assert "allowence" in said
    assert done.pictures == ()
    assert [section.get("id") for section in tree.xpath("//section")] == ["findings"]


def test_remarks_and_what_was_accepted_open_at_a_click() -> None:
    document = faulty() | {"accepted": [{"check": "seams/unequal-length", "reason": "Meant & <so>."}]}
    tree = tree_of(page_of(document))
    [quiet] = tree.xpath("//details[@class='quiet'][summary[contains(., 'accepted')]]")
    assert "Accepted on purpose: Meant & <so>." in text_of(quiet)
    assert row(tree, "differences", "Sleeve seam")[3] == "+6.0 accepted"


def test_what_was_left_out_is_told() -> None:
    loaded = jobs.load(json.dumps(sound()).encode(), "test.json")
    assert "Only darts was looked at" in text_of(tree_of(jobs.report(loaded, ["darts"]).page))


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_text(name: str) -> None:
    for document in (sound(), faulty()):
        _holds_no_more_than(page_of(renamed(document, HOSTILE[name])))


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.text(min_size=1, max_size=60).filter(lambda text: text.strip() and text.isprintable()))
def test_any_name_is_text(name: str) -> None:
    document = case("ferry_smock")
    document["title"] = name
    for kind in ("pieces", "seams", "materials"):
        for number, thing in enumerate(document[kind].values()):
            thing["name"] = f"{name} {number}"
    _holds_no_more_than(page_of(document))


def _holds_no_more_than(text: str) -> None:
    """The elements of a page are its own, whatever the names are."""
    tree = tree_of(text)
    assert len(tree.xpath("//script")) == 1
    assert not tree.xpath("//img|//iframe|//object|//*[@onload or @onerror]")
    assert set(_tags(tree)) <= _OWN
    assert len(text) < 1_500_000


def _tags(tree: html.HtmlElement) -> Iterator[str]:
    for element in tree.iter():
        if isinstance(element.tag, str):
            yield element.tag


_OWN = frozenset(
    re.findall(
        r"\w+",
        """
        html head meta title style script body a header main section div nav footer h1 h2 h3 p ul ol li strong b bdi small
        span code details summary table thead tbody tr th td article fieldset legend input label
        svg defs pattern g path rect circle text line polyline polygon desc tspan use clippath
        """,
    )
)


def test_the_links_of_a_card_tell_faults_from_remarks() -> None:
    tree = tree_of(page_of(case("every_key")))
    said = [text_of(link) for link in tree.xpath("//article[@id='card-side']/p[@class='ways']/a")]
    assert said[0] == "The two sides of a seam are not equally long"
    assert said[-1] == "A remark: The two sides of a seam are not equally long"
    assert len(set(said)) == len(said)
