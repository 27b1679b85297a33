"""``notchwork report``: where the page goes, what is never overwritten, and the exit codes."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest
from patterns import case

from notchwork.cli import main

FAULTS = b'{"notchwork": "1.0", "pieces": {"front": {"allowence": 12}}}'


@pytest.fixture
def skirt(tmp_path: Path) -> Path:
    path = tmp_path / "skirt.pattern.json"
    path.write_text(json.dumps(case("two_panel_skirt")), encoding="utf-8")
    return path


@pytest.fixture
def longer(tmp_path: Path) -> Path:
    path = tmp_path / "longer.pattern.json"
    text = json.dumps(case("ferry_smock"))
    path.write_text(text.replace('"at": [250, 0]', '"at": [250, -4.5]', 1), encoding="utf-8")
    return path


def test_the_page_lies_beside_its_pattern(skirt: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = skirt.with_name("skirt.html")
    assert main(["report", str(skirt)]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("Sews together:")
    assert out.endswith(f"Wrote {page}.\n")
    assert err == ""
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert main(["report", str(skirt)]) == 0  # a page of its own is replaced
    assert [path.name for path in sorted(skirt.parent.iterdir())] == ["skirt.html", "skirt.pattern.json"]


def test_what_is_no_page_of_its_own_is_not_replaced_unasked(
    skirt: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = skirt.with_name("skirt.html")
    page.write_text("<p>My notes on this skirt.", encoding="utf-8")
    assert main(["report", str(skirt)]) == 2
    assert "There is something else by this name already. Name the page with -o." in capsys.readouterr().err
    assert page.read_text(encoding="utf-8").startswith("<p>My notes")
    assert main(["report", str(skirt), "-o", str(page)]) == 0
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_the_pattern_itself_is_never_replaced(skirt: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = skirt.read_bytes()
    assert main(["report", str(skirt), "-o", str(skirt)]) == 2
    assert "This is the pattern itself." in capsys.readouterr().err
    assert skirt.read_bytes() == before


def test_from_standard_input_to_standard_output(
    skirt: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(skirt.read_bytes())))
    assert main(["report", "-", "-o", "-"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("<!DOCTYPE html>")
    assert out.endswith("</html>\n")
    assert err.startswith("Sews together:")


def test_standard_input_has_no_name_to_lie_beside(
    skirt: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(skirt.read_bytes())))
    assert main(["report", "-"]) == 2
    assert "Name the page with -o." in capsys.readouterr().err


def test_every_picture_is_a_file_too(longer: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = longer.parent / "new" / "pictures"
    assert main(["report", str(longer), "--pictures", str(folder)]) == 0
    files = list(folder.iterdir())
    assert f"Wrote {len(files)} pictures into {folder}." in capsys.readouterr().out
    assert {"seam-side.svg", "seam-armhole.svg"} <= {path.name for path in files}
    for path in files:
        root = ElementTree.parse(path).getroot()
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        assert root.get("width", "").endswith("mm")


def test_where_pictures_cannot_go_nothing_is_written(skirt: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["report", str(skirt), "--pictures", str(skirt)]) == 2
    assert "This is a file, and the pictures go into a folder" in capsys.readouterr().err
    assert not skirt.with_name("skirt.html").exists()


@pytest.mark.parametrize(("fail_on", "code"), [(None, 0), ("error", 1), ("warning", 1)])
def test_findings_are_no_failure_unless_asked(longer: Path, fail_on: str | None, code: int) -> None:
    assert main(["report", str(longer), *(["--fail-on", fail_on] if fail_on else [])]) == code
    assert longer.with_name("longer.html").exists()


@pytest.mark.parametrize(("asked", "code"), [([], 0), (["--fail-on", "error"], 1)])
def test_of_a_document_with_faults_a_page_tells_those(
    tmp_path: Path, asked: list[str], code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "faulty.pattern.json"
    path.write_bytes(FAULTS)
    assert main(["report", str(path), *asked]) == code
    assert capsys.readouterr().out.startswith("Could not be checked: 2 errors in how the pattern is written.")
    assert "Mend first" in path.with_name("faulty.html").read_text(encoding="utf-8")


def test_what_cannot_be_read_makes_no_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["report", str(tmp_path / "nowhere.json")]) == 2
    assert "There is no such file." in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_drawing_is_reported_as_it_is(skirt: Path, capsys: pytest.CaptureFixture[str]) -> None:
    drawing = skirt.with_name("skirt.svg")
    assert main(["convert", str(skirt), str(drawing)]) == 0
    assert main(["report", str(drawing)]) == 0
    assert "Wrote" in capsys.readouterr().out
    assert drawing.with_suffix(".html").exists()
