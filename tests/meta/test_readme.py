"""What the README shows is what happens."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from notchwork.cli import main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)


def commands() -> list[tuple[str, str]]:
    """Each command and what is shown of its output."""
    return [
        (command, output)
        for block in blocks("console")
        for command, output in re.findall(r"^\$ notchwork (.*)\n((?:(?!\$ ).*\n)*)", block, re.MULTILINE)
    ]


@pytest.fixture
def skirt(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the pattern that is shown, and with the longer one that is spoken of."""
    [text] = blocks("json")
    (tmp_path / "skirt.pattern.json").write_text(text, encoding="utf-8")
    outline = text[text.index('"outline"') : text.index('"edges"')].replace("[300, 0]", "[300, -6]")
    longer = text.replace(
        '"name": "Back", "like": "front"', '"name": "Back", "like": "front", ' + outline.strip().rstrip(",")
    )
    (tmp_path / "longer.pattern.json").write_text(longer, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(("command", "output"), commands(), ids=[command for command, _ in commands()])
def test_a_command_prints_what_is_shown(
    skirt: Path, command: str, output: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(shlex.split(command))
    printed, error = capsys.readouterr()
    assert error == ""
    assert code in (0, 1)
    if output:
        assert without_lines(printed) == without_lines(output)


def without_lines(text: str) -> list[str]:
    """What is printed without the lines of the document, which depend on how it is laid out."""
    return [re.sub(r"(, line |\.json:)\d+", r"\1…", line) for line in text.splitlines()]


@pytest.mark.parametrize("block", blocks("python"), ids=["library", "plugin"])
def test_python_that_is_shown_runs(skirt: Path, block: str) -> None:
    exec(compile(block, "README.md", "exec"), {})


def test_every_command_is_in_the_readme(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    listed = re.findall(r"^    (\w+) ", capsys.readouterr().out, re.MULTILINE)
    assert len(listed) == 10
    assert all(f"`{command}" in README for command in listed)


def test_the_two_ways_to_install_are_there() -> None:
    assert "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/notchwork demo" in README
    assert "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest" in README
