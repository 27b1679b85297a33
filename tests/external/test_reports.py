"""What other programs read: reports against the schema of SARIF and a reader of JUnit XML, the hook against pre-commit itself."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import junitparser
import pytest
import yaml

from notchwork.cli import main
from notchwork.demo import write

ROOT = Path(__file__).parents[2]
SCHEMA = Path(__file__).parent / "sarif" / "sarif-schema-2.1.0.json"
SAMPLES = ROOT / "tests" / "golden" / "report"


@pytest.fixture(scope="module")
def sarif_schema() -> jsonschema.Draft7Validator:
    """The schema of the OASIS committee; ``sarif/SOURCE.md`` says where the copy is from."""
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft7Validator.check_schema(schema)
    return jsonschema.Draft7Validator(schema, format_checker=jsonschema.Draft7Validator.FORMAT_CHECKER)


@pytest.fixture
def demo(tmp_path: Path) -> list[str]:
    """The demo, sound and faulty, and a file that is not there."""
    return [str(path) for path in write(tmp_path)] + [str(tmp_path / "no.json")]


def printed(files: list[str], form: str, capsys: pytest.CaptureFixture[str]) -> str:
    main(["check", *files, "--format", form])
    return capsys.readouterr().out


def test_reports_are_sarif(
    demo: list[str], sarif_schema: jsonschema.Draft7Validator, capsys: pytest.CaptureFixture[str]
) -> None:
    log = json.loads(printed(demo, "sarif", capsys))
    sarif_schema.validate(log)
    assert log["$schema"] == sarif_schema.schema["$id"]
    assert len(log["runs"][0]["results"]) > 10


def test_the_sample_findings_are_sarif(sarif_schema: jsonschema.Draft7Validator) -> None:
    sarif_schema.validate(json.loads((SAMPLES / "all.sarif").read_text(encoding="utf-8")))


def test_the_schema_refuses_what_is_no_sarif(sarif_schema: jsonschema.Draft7Validator) -> None:
    """The copy is not one that lets anything pass."""
    log: dict[str, Any] = json.loads((SAMPLES / "all.sarif").read_text(encoding="utf-8"))
    log["runs"][0]["results"][0]["level"] = "info"
    log["runs"][0]["results"][1]["point"] = [1, 2]
    assert len(list(sarif_schema.iter_errors(log))) == 2


def test_reports_are_read_as_junit(demo: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Reference: junitparser on PyPI, which counts for itself what the attributes state."""
    read = junitparser.JUnitXml.fromstring(printed(demo, "junit", capsys).encode())
    sound, faulty, gone = read
    stated = [(suite.tests, suite.failures, suite.errors, suite.skipped) for suite in read]
    for suite in read:
        suite.update_statistics()
    assert stated == [(suite.tests, suite.failures, suite.errors, suite.skipped) for suite in read]
    assert all(case.is_passed for case in sound)
    assert len(list(sound)) > 40
    [failure] = [
        case.result[0]
        for case in faulty
        if case.classname == "seams.unequal-length" and case.name == "Sleeve seam"
    ]
    assert failure.type == "error"
    assert "6.0 mm longer" in failure.message
    [[error]] = [case.result for case in gone]
    assert isinstance(error, junitparser.Error)
    assert error.message == "There is no such file. Check the name and the folder."


def test_the_sample_findings_are_read_as_junit() -> None:
    """Reference: junitparser on PyPI."""
    read = junitparser.JUnitXml.fromfile(str(SAMPLES / "all_junit.xml"))
    assert (read.tests, read.failures, read.errors) == (16, 8, 2)
    read.update_statistics()
    assert (read.tests, read.failures, read.errors, read.skipped) == (16, 8, 2, 2)


def pre_commit(*arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """pre-commit of these tests' environment, in a folder, with nothing of the person's own settings."""
    paths = [str(Path(sys.executable).parent), os.environ["PATH"]]
    home = {"PRE_COMMIT_HOME": str(folder / ".home"), "PATH": os.pathsep.join(paths), "HOME": str(folder)}
    done = subprocess.run(
        [sys.executable, "-m", "pre_commit", *arguments],
        cwd=folder,
        env={**os.environ, **home, "PRE_COMMIT_COLOR": "never"},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert "Traceback" not in done.stdout + done.stderr
    return done


def test_the_hook_is_one_that_pre_commit_takes(tmp_path: Path) -> None:
    done = pre_commit("validate-manifest", str(ROOT / ".pre-commit-hooks.yaml"), folder=tmp_path)
    assert (done.returncode, done.stdout) == (0, "")
    broken = tmp_path / "broken.yaml"
    broken.write_text("- id: notchwork\n", encoding="utf-8")
    assert pre_commit("validate-manifest", str(broken), folder=tmp_path).returncode == 1


def test_the_settings_in_the_readme_are_what_pre_commit_takes(tmp_path: Path) -> None:
    [block] = re.findall(r"```yaml\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    path = tmp_path / ".pre-commit-config.yaml"
    path.write_text(block, encoding="utf-8")
    done = pre_commit("validate-config", str(path), folder=tmp_path)
    assert (done.returncode, done.stdout) == (0, "")
    hooks = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    [repo] = yaml.safe_load(block)["repos"]
    assert {hook["id"] for hook in repo["hooks"]} == {hook["id"] for hook in hooks}


@pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")
def test_a_commit_is_held_up_by_a_pattern_that_does_not_sew_together(tmp_path: Path) -> None:
    """The hook as it is, but for its environment, which is that of the tests instead of a new one."""
    [hook] = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    local = {"repos": [{"repo": "local", "hooks": [{**hook, "language": "system"}]}]}
    (tmp_path / ".pre-commit-config.yaml").write_text(json.dumps(local), encoding="utf-8")
    (tmp_path / "broken.json").write_text("no pattern", encoding="utf-8")
    sound, faulty = write(tmp_path / "a folder")

    def git(*arguments: str) -> None:
        subprocess.run(["git", *arguments], cwd=tmp_path, check=True, capture_output=True, timeout=60)

    git("init", "--quiet")
    git("add", ".pre-commit-config.yaml", "broken.json", str(sound))
    done = pre_commit("run", folder=tmp_path)
    assert done.returncode == 0, done.stdout
    assert "Passed" in done.stdout
    git("add", str(faulty))
    done = pre_commit("run", folder=tmp_path)
    assert done.returncode == 1
    assert "a folder/faulty.pattern.json: " in done.stdout
    assert "Does not sew together" in done.stdout
