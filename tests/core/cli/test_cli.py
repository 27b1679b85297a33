from __future__ import annotations

import io
import json
import re
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest

from notchwork.cli import main

SMOCK = "ferry_smock.pattern.json"
FAULTY = b'{"notchwork": "1.0", "pieces": {"front": {"allowence": 12}}}'


@pytest.fixture
def longer(cases: Path, tmp_path: Path) -> Path:
    """The example with its front 4.5 mm longer at the side, in every size."""
    text = (cases / SMOCK).read_text(encoding="utf-8")
    path = tmp_path / "longer.json"
    path.write_text(text.replace('"at": [250, 0]', '"at": [250, -4.5]', 1), encoding="utf-8")
    return path


@pytest.fixture
def faulty(tmp_path: Path) -> Path:
    path = tmp_path / "faulty.json"
    path.write_bytes(FAULTY)
    return path


def give(monkeypatch: pytest.MonkeyPatch, data: bytes) -> None:
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(data)))


def test_a_sound_pattern(cases: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(cases / SMOCK)]) == 0
    out, err = capsys.readouterr()
    assert out.endswith("Sews together: 4 seams walked in S, M and L; nothing to mend.\n")
    assert err == ""


def test_a_pattern_that_does_not_sew_together(longer: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(longer)]) == 1
    out, _ = capsys.readouterr()
    assert "Front is 4.5 mm longer than Back" in out
    assert "seams/unequal-length" in out
    assert out.splitlines()[-1].startswith("Does not sew together:")


@pytest.mark.parametrize(
    ("offset", "fail_on", "code"),
    [
        ("-0.6", "warning", 0),
        ("-0.6", "info", 1),
        ("-2", "warning", 1),
        ("-2", "error", 0),
        ("-4", "error", 1),
    ],
)
def test_how_bad_it_must_be(longer: Path, offset: str, fail_on: str, code: int) -> None:
    longer.write_text(longer.read_text(encoding="utf-8").replace("-4.5", offset), encoding="utf-8")
    assert main(["check", str(longer), "--fail-on", fail_on, "--only", "seams/unequal-length"]) == code


def test_faults_of_the_document(faulty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(faulty)]) == 1
    assert "allowence" in capsys.readouterr().out
    for command in (["walk"], ["describe"]):
        assert main([*command, str(faulty)]) == 2
        out, err = capsys.readouterr()
        assert out == ""
        assert "allowence" in err
    assert main(["convert", str(faulty), str(faulty.with_name("out.json"))]) == 2
    assert not faulty.with_name("out.json").exists()


def test_what_cannot_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path / "no.json")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "There is no such file." in err


def test_several_files_go_on_after_one_that_cannot_be_read(
    cases: Path, longer: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [str(longer), str(tmp_path / "no.json"), str(cases / SMOCK)]
    assert main(["check", *names, "--format", "json"]) == 2
    out, err = capsys.readouterr()
    reports = [json.loads(text) for text in out.splitlines()]
    assert [report["file"] for report in reports] == names
    assert [report["sews_together"] for report in reports] == [False, None, True]
    assert reports[1]["error"]["why"] == "There is no such file."
    assert "no.json" in err
    assert main(["check", names[0], names[2]]) == 1


def test_standard_input(
    cases: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    give(monkeypatch, (cases / SMOCK).read_bytes())
    assert main(["check", "-"]) == 0
    assert capsys.readouterr().out.startswith("standard input: Ferry smock\n")
    give(monkeypatch, b"")
    assert main(["check", "-"]) == 2
    give(monkeypatch, FAULTY)
    assert main(["check", "-"]) == 1


def test_json_of_one_file_is_one_document(longer: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(longer), "--format", "json"]) == 1
    report = json.loads(capsys.readouterr().out)
    [finding] = [found for found in report["findings"] if found["check"] == "seams/unequal-length"]
    assert finding["severity"] == "error"
    assert finding["seam"] == "side"
    assert finding["pointer"] == "/seams/side"
    assert sorted(finding["pieces"]) == ["back", "front"]
    assert [abs(row["off"]) for row in finding["sizes"]] == [4.5, 4.5, 4.5]
    lines = longer.read_text(encoding="utf-8").splitlines()
    assert '"side"' in lines[finding["line"] - 1]


def test_walking_one_seam_and_a_seam_that_is_not_there(
    cases: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["walk", str(cases / SMOCK), "armhole"]) == 0
    out, _ = capsys.readouterr()
    assert ["side", "2", "longer", "by", "15.0", "14.8", "14.1"] in [
        line.split() for line in out.splitlines()
    ]
    assert "Shoulder seam" not in out
    assert main(["walk", str(cases / SMOCK), "armhol"]) == 2
    assert "Did you mean armhole?" in capsys.readouterr().err


def test_describing(cases: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["describe", str(cases / SMOCK)]) == 0
    out, _ = capsys.readouterr()
    assert ["side", "406.0", "400.0", "394.0"] in [text.split() for text in out.splitlines()]
    assert main(["describe", str(cases / SMOCK), str(cases / SMOCK), "--format", "json"]) == 0
    reports = [json.loads(text) for text in capsys.readouterr().out.splitlines()]
    assert [len(report["pieces"]) for report in reports] == [12, 12]


def test_a_file_that_belongs_to_the_one_written_is_named(
    cases: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "out.dxf"
    assert main(["convert", str(cases / SMOCK), str(target), "-O", "nest=rules"]) == 0
    first, second, *_ = capsys.readouterr().out.splitlines()
    assert first == f"Wrote {target} (DXF drawing)."
    assert second == f"Wrote {tmp_path / 'out.rul'}, which belongs to it."


def test_many_files_are_told_in_one_line(
    cases: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "out.plt"
    assert main(["convert", str(cases / SMOCK), str(target), "-O", "device=pen-a4"]) == 0
    first, second, third, *_ = capsys.readouterr().out.splitlines()
    more = len(list(tmp_path.iterdir())) - 1
    assert more > 3
    assert first.startswith(f"Wrote {target} (")
    said = f"Wrote {tmp_path / 'out.2.plt'} to {tmp_path / f'out.{more + 1}.plt'}: {more} more files, which belong to it."
    assert second == said
    assert not third.startswith("Wrote")


def test_converting(cases: Path, tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    target = tmp_path / "out.pattern.json"
    assert main(["convert", str(cases / SMOCK), str(target)]) == 0
    assert capsysbinary.readouterr().out == f"Wrote {target} (The open format).\n".encode()
    assert main(["convert", str(target), "-"]) == 0
    assert capsysbinary.readouterr().out == target.read_bytes()
    assert main(["convert", str(target), str(tmp_path / "out.json"), "-O", "scale"]) == 2
    assert main(["convert", str(target), str(tmp_path)]) == 2


def test_what_the_program_knows(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "seams/unequal-length"]) == 0
    out = capsys.readouterr().out
    assert "1.6 mm" in out
    assert "Source: " in out
    assert main(["explain", "seams/unequal-lenght"]) == 2
    assert "Did you mean seams/unequal-length?" in capsys.readouterr().err
    assert main(["explain", "seams"]) == 0
    listed = capsys.readouterr().out
    assert "seams/wrong-way" in listed
    assert "hems/" not in listed
    assert main(["explain", "zzz"]) == 2
    err = capsys.readouterr().err
    assert "The families are accepted, cutting, " in err
    assert len(err) < 300
    assert main(["checks"]) == 0
    assert "seams/unequal-length" in capsys.readouterr().out
    assert main(["formats"]) == 0
    assert ".pattern.json" in capsys.readouterr().out
    for name in ("dxf_bare", ".bare.dxf", "bare.DXF"):
        assert main(["formats", name]) == 0
        assert "document" in capsys.readouterr().out
    assert main(["formats", ".xyz"]) == 2
    assert "Known are dxf, dxf_bare," in capsys.readouterr().err
    assert main(["schema", "report"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Notchwork report 1"


def test_only_what_is_asked_for_runs(longer: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(longer), "--only", "hems/nothing"]) == 2
    assert main(["check", str(longer), "--only", "seams", "--format", "json"]) == 1
    checked = json.loads(capsys.readouterr().out)["checked"]
    assert {check.partition("/")[0] for check in checked["checks"]} == {"seams"}
    assert checked["only"] == ["seams"]
    assert (
        main(["check", str(longer), "--only", "seams,darts/crossing", "--only", "hems", "--format", "json"])
        == 1
    )
    checked = json.loads(capsys.readouterr().out)["checked"]
    assert checked["only"] == ["darts/crossing", "hems", "seams"]
    assert main(["check", str(longer), "--only", ","]) == 2


def test_what_was_left_out_is_not_called_sound(longer: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The side seam is too long, which a check of darts does not see."""
    assert main(["check", str(longer), "--only", "darts/crossing"]) == 0
    out = capsys.readouterr().out
    assert out.endswith("\nOnly darts/crossing was looked at: nothing found there.\n")
    assert main(["check", str(longer), "--only", "darts/crossing", "--format", "json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["sews_together"] is None
    assert report["verdict"] == "Only darts/crossing was looked at: nothing found there."
    assert main(["check", str(longer), "--only", "seams", "--format", "json"]) == 1
    assert json.loads(capsys.readouterr().out)["sews_together"] is False


@pytest.mark.parametrize("arguments", [[], ["chek"], ["check"], ["check", "a", "--fail-on", "loud"]])
def test_a_mistake_on_the_command_line_is_one_line(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(arguments)
    assert stopped.value.code == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_mistake_in_the_program_is_told_in_a_line(
    cases: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from notchwork import jobs

    def breaks(*_: object) -> None:
        raise ZeroDivisionError("nothing to divide")

    monkeypatch.setattr(jobs, "check", breaks)
    assert main(["check", str(cases / SMOCK)]) == 2
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert "A mistake in the program" in err


def test_an_interruption_is_quiet(
    cases: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from notchwork import jobs

    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(jobs, "load", interrupted)
    assert main(["check", str(cases / SMOCK)]) == 130
    assert capsys.readouterr() == ("", "")


def test_a_closed_pipe_is_quiet(cases: Path) -> None:
    done = subprocess.run(
        f'"{sys.executable}" -m notchwork describe --format json "{cases / SMOCK}" | head -c 10',
        shell=True,
        capture_output=True,
        timeout=60,
        check=False,
    )
    assert done.stderr == b""


@pytest.mark.parametrize(
    ("arguments", "unused"),
    [
        (["--help"], "notchwork_plugins numpy pluggy jsonschema_rs pyclipr notchwork.host notchwork.jobs"),
        (
            ["check", "--help"],
            "notchwork_plugins numpy pluggy jsonschema_rs pyclipr notchwork.host notchwork.jobs",
        ),
        (
            ["check", SMOCK],
            "scipy ezdxf svgpathtools shapely lxml jsonschema numpy.ma notchwork.demo notchwork.draw notchwork.recognise",
        ),
        (
            ["check", SMOCK, "--format", "line"],
            "notchwork.pictures notchwork.report.sarif notchwork.report.junit xml.etree.ElementTree",
        ),
    ],
)
def test_nothing_is_imported_that_is_not_used(cases: Path, arguments: list[str], unused: str) -> None:
    script = (
        "import sys; from notchwork.cli import main\n"
        f"try: main({arguments})\n"
        "except SystemExit: pass\n"
        f"print([name for name in {unused.split()} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=cases, capture_output=True, text=True, timeout=60, check=False
    )
    assert done.stderr == "[]\n"


def test_a_line_for_each_finding(
    longer: Path, faulty: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    gone = str(tmp_path / "no.json")
    only = ["--only", "seams/unequal-length"]
    assert main(["check", str(longer), str(faulty), gone, *only, "--format", "line"]) == 2
    out, err = capsys.readouterr()
    [side, key, *_, unread] = out.splitlines()
    number = longer.read_text(encoding="utf-8").splitlines()
    [line] = [k for k, text in enumerate(number, 1) if text.lstrip().startswith('"side": {')]
    assert side.startswith(f"{longer}:{line}: error: Side seam, size M: Front is 4.5 mm longer than Back")
    assert side.endswith(" [seams/unequal-length]")
    assert key.startswith(f"{faulty}:1: error: ")
    assert unread == f"{gone}: error: There is no such file. Check the name and the folder."
    assert err == f"notchwork: {gone}: There is no such file. Check the name and the folder.\n"


@pytest.mark.parametrize("form", ["line", "github"])
def test_a_sound_pattern_needs_no_line(cases: Path, form: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(cases / SMOCK), "--format", form]) == 0
    assert capsys.readouterr() == ("", "")


def test_several_files_are_one_document_where_the_form_wants_one(
    cases: Path, longer: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [str(longer), str(tmp_path / "no.json"), str(cases / SMOCK)]
    assert main(["check", *names, "--format", "sarif"]) == 2
    [run] = json.loads(capsys.readouterr().out)["runs"]
    assert [result["ruleId"] for result in run["results"] if result["level"] == "error"] == [
        "seams/unequal-length"
    ]
    assert len(run["artifacts"]) == 3
    known = {rule["id"]: rule for rule in run["tool"]["driver"]["rules"]}
    assert "1.6 mm" in known["seams/unequal-length"]["help"]["text"]
    assert main(["check", *names, "--format", "junit"]) == 2
    suites = ElementTree.fromstring(capsys.readouterr().out)
    assert [(suite.get("name"), suite.get("failures"), suite.get("errors")) for suite in suites] == [
        (names[0], "1", "0"),
        (names[1], "0", "1"),
        (names[2], "0", "0"),
    ]


@pytest.mark.parametrize("form", ["text", "json", "line", "sarif", "junit", "github"])
def test_every_form_takes_standard_input_and_exits_alike(
    longer: Path, form: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    give(monkeypatch, longer.read_bytes())
    assert main(["check", "-", "--format", form]) == 1
    assert re.search("standard(%20| )input", capsys.readouterr().out)
    give(monkeypatch, b"no pattern")
    assert main(["check", "-", "--format", form]) == 2
    out, err = capsys.readouterr()
    assert bool(out) is (form != "text")
    assert err.startswith("notchwork: standard input: ")
