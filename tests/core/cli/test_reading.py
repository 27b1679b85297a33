"""How a drawing is to be read, said on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from notchwork.cli import main

DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">'
    '<path d="M10 10h200v200h-200z" fill="none" stroke="#000"/><text x="100" y="100" font-size="9">Front</text></svg>'
)


@pytest.fixture
def drawing(tmp_path: Path) -> str:
    path = tmp_path / "front.svg"
    path.write_text(DRAWING, encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    ("options", "length"),
    [
        (["--outline", "stitch"], "200.0"),
        (["--outline", "cut", "--allowance", "10"], "180.0"),
        (["--outline", "cut", "--allowance", "1 cm"], "180.0"),
        (["--outline=cut", "--allowance", "3/8in"], "180.9"),
        (["--outline", "stitch", "--scale", "2"], "400.0"),
        (["--outline", "stitch", "-O", "scale=10mm"], "2000.0"),
    ],
)
def test_lengths_follow(
    drawing: str, options: list[str], length: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["describe", drawing, *options]) == 0
    assert length in capsys.readouterr().out


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--outline", "cut"], "--allowance"),
        (["--allowance", "wide"], "This is no length"),
        (["--scale", "0"], "scale"),
        (["--scale", "1/0"], "divided by 0"),
        (["--tolerance", "-1"], "--tolerance"),
        (["-O", "dpi"], "KEY=VALUE"),
    ],
)
def test_what_cannot_be_meant_is_one_line(
    drawing: str, options: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main(["check", drawing, *options])
    except SystemExit as stopped:
        code = int(str(stopped.code))
    assert code == 2
    err = capsys.readouterr().err
    assert said in err
    assert len(err.strip().splitlines()) == 1


def test_convert_reads_drawings_too(drawing: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "front.pattern.json"
    assert (
        main(["convert", drawing, str(target), "--outline", "cut", "--allowance", "10", "-O", "dpi=96"]) == 0
    )
    assert '"front"' in target.read_text(encoding="utf-8")
    assert main(["convert", drawing, str(target), "-O", "colour=red"]) == 2
    assert "colour" in capsys.readouterr().err
