"""Written drawings in other programs: a browser measures them, an editor saves them again."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from patterns import CASES

from notchwork.document import read_pattern, write_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import as_svg
from notchwork.formats import Source
from notchwork.sewing import Nest
from notchwork_plugins.svg.read import read

MEASURE = """<!doctype html><body style="margin:0">{svg}<script>
const square = document.querySelector('path[data-kind="test-square"]');
const box = square.getBBox(), scale = square.getScreenCTM();
document.title = "measured " + box.width * scale.a + " " + box.height * scale.d;
</script>"""


def needs(tool: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(
        shutil.which(tool) is None, reason=f"the Debian package {tool} is not installed"
    )


@pytest.fixture(scope="module")
def written() -> str:
    pattern = read_pattern((CASES / "ferry_smock.pattern.json").read_bytes(), "smock").pattern
    assert pattern is not None
    return as_svg(replace(draw_pattern(Nest(pattern)), attached=write_pattern(pattern)))


@pytest.mark.debian("chromium")
@needs("chromium")
def test_a_browser_draws_the_test_square_100_mm_wide(written: str, tmp_path: Path) -> None:
    """A px of CSS is 1/96 in (CSS Values and Units 4, 6.2): 100 mm are 377.9528 of them."""
    page = tmp_path / "page.html"
    page.write_text(MEASURE.format(svg=written.partition("?>")[2]), encoding="utf-8")
    done = subprocess.run(
        [
            "chromium",
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            f"--user-data-dir={tmp_path / 'profile'}",
            "--dump-dom",
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    found = re.search(r"<title>measured ([0-9.]+) ([0-9.]+)</title>", done.stdout)
    assert found is not None
    assert [float(px) / 96 * 25.4 for px in found.groups()] == pytest.approx([100, 100], abs=0.001)


@pytest.mark.debian("inkscape")
@needs("inkscape")
def test_an_editor_keeps_the_document_and_what_lines_mean(written: str, tmp_path: Path) -> None:
    before, after = tmp_path / "before.svg", tmp_path / "after.svg"
    before.write_text(written, encoding="utf-8")
    subprocess.run(
        ["inkscape", str(before), "--export-type=svg", "--export-plain-svg", "-o", str(after)],
        capture_output=True,
        timeout=120,
        check=True,
    )
    one, other = (read(Source(p.name, p.read_bytes()), {}).drawing for p in (before, after))
    assert one is not None
    assert other is not None
    assert one.attached is not None
    assert other.attached is not None
    assert read_pattern(other.attached, "a").pattern == read_pattern(one.attached, "a").pattern
    assert [(g.name, g.facts) for g in other.groups] == [(g.name, g.facts) for g in one.groups]
    for a, b in zip(one.groups, other.groups, strict=True):
        for s, t in zip(a.strokes, b.strokes, strict=True):
            assert (s.meaning, s.facts) == (t.meaning, t.facts)
            assert abs(s.cubics - t.cubics).max() < 0.001
