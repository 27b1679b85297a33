"""A stranger's plugin comes in through the same door as the program's own: built, installed and run."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

PROJECT = """
[build-system]
requires = ["hatchling>=1.24"]
build-backend = "hatchling.build"

[project]
name = "lighthouse-checks"
version = "0.1"

[project.entry-points."notchwork.plugins"]
lighthouse = "lighthouse_checks"

[tool.hatch.build.targets.wheel]
only-include = ["lighthouse_checks.py"]
"""

MODULE = '''
"""One check and one format of a stranger's own."""

from notchwork.checks import check
from notchwork.findings import Count, Finding, Place, Rule, Severity
from notchwork.formats import Feature, Format, Read, Written
from notchwork.host import hookimpl
from notchwork.model import Edge, Pattern, Piece

MANY = Rule(
    id="lighthouse/many-corners",
    title="A piece has many corners",
    rationale="A piece with many corners takes long to cut and to sew, and is often two pieces drawn as one.",
    source="Invented for this test.",
    grade=Severity.WARNING,
)


@check(MANY)
def many_corners(nest):
    for ident, piece in nest.pieces.items():
        if len(piece.edges) > 5:
            values = {"count": Count(len(piece.edges))}
            yield Finding(MANY, Place(piece=ident), "It has {count} corners.", "Look whether it can do with fewer.", values)


def read(source, options):
    edges = {}
    for text in source.data.decode().splitlines():
        piece, name, length = text.split(";")
        edges.setdefault(piece, {})[name] = Edge(length=float(length))
    return Read(Pattern(version="1.0", pieces={piece: Piece(edges=named) for piece, named in edges.items()}))


def write(pattern, options):
    rows = [
        f"{ident};{name};{edge.length}"
        for ident, piece in pattern.pieces.items()
        for name, edge in piece.edges.items()
        if edge is not None
    ]
    return Written({".tape": "\\n".join(rows).encode()})


TAPE = Format(
    name="tape",
    title="A list of tape measures",
    suffixes=(".tape",),
    sniff=lambda start: b";" in start,
    read=read,
    write=write,
    carries=frozenset({Feature.TAPED_EDGES, Feature.EDGE_NAMES}),
)


@hookimpl
def notchwork_checks():
    return [many_corners]


@hookimpl
def notchwork_formats():
    return [TAPE]
'''

Environment = Mapping[str, str]


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Environment:
    """The environment of a program beside which the plugin's wheel is installed."""
    folder = tmp_path_factory.mktemp("stranger")
    source, target = folder / "source", folder / "target"
    source.mkdir()
    (source / "pyproject.toml").write_text(PROJECT, encoding="utf-8")
    (source / "lighthouse_checks.py").write_text(MODULE, encoding="utf-8")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet"]
    offline = ["--no-deps", "--no-index"]
    built = [*pip, "wheel", *offline, "--no-build-isolation", "--wheel-dir", str(folder), str(source)]
    subprocess.run(built, check=True, timeout=120)
    [wheel] = folder.glob("*.whl")
    subprocess.run([*pip, "install", *offline, "--target", str(target), str(wheel)], check=True, timeout=120)
    return {
        **os.environ,
        "PYTHONPATH": os.pathsep.join(filter(None, (str(target), os.environ.get("PYTHONPATH")))),
    }


def notchwork(environment: Environment, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "notchwork", *map(str, arguments)]
    return subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60, check=False)


def test_its_check_runs_is_listed_and_explained(installed: Environment, cases: Path) -> None:
    smock = cases / "ferry_smock.pattern.json"
    done = notchwork(installed, "check", smock, "--format", "json", "--only", "lighthouse")
    assert done.stderr == ""
    assert done.returncode == 1
    findings = json.loads(done.stdout)["findings"]
    assert [(found["check"], found["message"]) for found in findings] == [
        ("lighthouse/many-corners", "Front: It has 6 corners."),
        ("lighthouse/many-corners", "Back: It has 6 corners."),
    ]
    assert "lighthouse/many-corners" in notchwork(installed, "checks").stdout
    assert "Invented for this test." in notchwork(installed, "explain", "lighthouse/many-corners").stdout


def test_its_format_is_read_written_and_its_losses_told(
    installed: Environment, cases: Path, tmp_path: Path
) -> None:
    (tmp_path / "a.tape").write_text("front;side;400\nback;side;402", encoding="utf-8")
    done = notchwork(installed, "convert", tmp_path / "a.tape", tmp_path / "a.pattern.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads((tmp_path / "a.pattern.json").read_bytes())["pieces"]["back"]["edges"] == {
        "side": {"length": 402}
    }
    done = notchwork(installed, "convert", cases / "ferry_smock.pattern.json", tmp_path / "smock.tape")
    assert (done.returncode, done.stderr) == (0, "")
    assert "the format (tape) cannot carry it: " in " ".join(done.stdout.split())
    assert "seams (4)" in " ".join(done.stdout.split())
    assert done.stdout.count("losses/not-carried") == 1
    assert ".tape" in notchwork(installed, "formats").stdout


def test_without_it_nothing_of_it_is_there(cases: Path) -> None:
    assert "lighthouse" not in notchwork(os.environ, "checks").stdout
