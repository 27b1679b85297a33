"""The picture that stands in the README is drawn from the demo as it is."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.demo import example
from notchwork.draw import Options

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def test_the_picture_is_what_convert_draws(tmp_path: Path) -> None:
    """To refresh it: notchwork convert core/notchwork/demo/sound.pattern.json core/notchwork/demo/storm_petrel.svg --no-document."""
    source, target = tmp_path / "sound.pattern.json", tmp_path / "storm_petrel.svg"
    source.write_bytes(example("sound.pattern.json"))
    jobs.convert(source, target, drawing=Options(document=False))
    drawn = target.read_text("utf-8")
    kept = files("notchwork.demo").joinpath("storm_petrel.svg").read_text("utf-8")
    assert NUMBER.sub("0", drawn) == NUMBER.sub("0", kept)
    assert [float(n) for n in NUMBER.findall(drawn)] == pytest.approx(
        [float(n) for n in NUMBER.findall(kept)], abs=0.01
    )
