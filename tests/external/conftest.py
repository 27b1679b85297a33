"""The program's own commands, run on a document that was written in a test."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from external.drafting import Command, Document, Report

from notchwork.cli import main


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Callable[[str, Document], Report]:
    def run(command: str, document: Document) -> Report:
        path = tmp_path / "draft.pattern.json"
        path.write_text(json.dumps(document), encoding="utf-8")
        main([command, str(path), "--format", "json"])
        out, err = capsys.readouterr()
        printed = json.loads(out)
        assert printed["error"] is None, err
        assert printed.get("checked", True) is not None, printed["findings"]
        turned = [f["message"] for f in printed["findings"] if f["check"] == "seams/wrong-way"]
        assert turned == [], "the draft itself is at fault"
        return Report(printed)

    return run


@pytest.fixture
def check(run: Callable[[str, Document], Report]) -> Command:
    """``notchwork check`` of a document."""
    return lambda document: run("check", document)


@pytest.fixture
def describe(run: Callable[[str, Document], Report]) -> Command:
    """``notchwork describe`` of a document."""
    return lambda document: run("describe", document)
