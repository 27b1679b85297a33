"""Streams that are closed, full or used twice: a sentence and exit code 2, never a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from notchwork.cli import main
from notchwork.cli.streams import width

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="streams are closed by a POSIX shell")

SMOCK = "ferry_smock.pattern.json"
FULL = "notchwork: standard output: It could not be written: No space left on device.\n"
CLOSED = "notchwork: standard output: It is closed. Leave it open, or send it to a file or to /dev/null.\n"

needs_full = pytest.mark.skipif(
    not os.path.exists("/dev/full"), reason="there is no device that is always full"
)


def shell(command: str, folder: Path) -> tuple[int, str, str]:
    """Exit code, standard output and standard error of ``notchwork`` with what a shell makes of it."""
    done = subprocess.run(
        f'"{sys.executable}" -m notchwork {command}',
        shell=True,
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.parametrize("command", [f"check {SMOCK}", f"convert {SMOCK} -", "--help"])
def test_standard_output_is_closed(command: str, cases: Path) -> None:
    assert shell(f"{command} >&-", cases) == (2, "", CLOSED)


@needs_full
@pytest.mark.parametrize("command", [f"check {SMOCK}", f"convert {SMOCK} -", "schema", "--help"])
def test_standard_output_is_full(command: str, cases: Path) -> None:
    assert shell(f"{command} >/dev/full", cases) == (2, "", FULL)


def test_standard_input_is_closed(cases: Path) -> None:
    code, out, err = shell("check - <&-", cases)
    assert (code, out) == (2, "")
    assert err == "notchwork: standard input: It is closed. Name a file, or send a pattern to it.\n"


def test_standard_input_cannot_be_read(cases: Path) -> None:
    code, out, err = shell("check - 0>/dev/null", cases)
    assert (code, out) == (2, "")
    assert err.startswith("notchwork: standard input: It could not be read: ")


def test_nothing_goes_to_standard_output_instead_where_standard_error_is_closed(cases: Path) -> None:
    assert shell("check no.json 2>&-", cases) == (2, "", "")
    assert shell("check no.json >&- 2>&-", cases) == (2, "", "")


def test_standard_input_can_be_read_once(capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("check", "describe"):
        assert main([command, "-", "-"]) == 2
        out, err = capsys.readouterr()
        assert out == ""
        assert err == "notchwork: standard input: It can be read only once. Name - only once.\n"


def test_the_width_is_what_columns_says_but_can_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    for said, columns in (("60", 60), ("7", 40), ("300", 100)):
        monkeypatch.setenv("COLUMNS", said)
        assert width() == columns


def test_warnings_for_programmers_are_shown_to_those_who_ask_for_them() -> None:
    program = (
        "import warnings; from notchwork.cli.streams import prepare; prepare(); warnings.warn('slipped')"
    )
    for options, shown in (((), False), (("-W", "default"), True)):
        done = subprocess.run(
            [sys.executable, *options, "-c", program], capture_output=True, text=True, check=True
        )
        assert ("slipped" in done.stderr) == shown
