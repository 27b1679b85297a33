"""A written drawing without its document: geometry and all that is drawn come back; relations are gone."""

from __future__ import annotations

from pathlib import Path

import pytest
from drawn import differences
from patterns import CASES

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import as_svg
from notchwork.formats import Source
from notchwork.model import Pattern
from notchwork.recognise.recognise import recognise
from notchwork.sewing import Nest
from notchwork_plugins.svg.read import read

GARMENTS = [
    CASES / f"{name}.pattern.json"
    for name in ("ferry_smock", "every_key", "sound/shirt", "sound/circle_skirt")
]


def nest_of(data: bytes) -> Nest:
    pattern = read_pattern(data, "test").pattern
    assert pattern is not None
    return Nest(pattern)


def through_a_file(nest: Nest, options: Options | None = None) -> Pattern:
    found = read(Source("test.svg", as_svg(draw_pattern(nest, options)).encode()), {}).drawing
    assert found is not None
    assert found.attached is None
    return recognise(found).pattern


def test_the_demo_comes_back_in_its_three_sizes_without_its_relations() -> None:
    nest = nest_of(example("sound.pattern.json"))
    again = through_a_file(nest)
    assert again.sizes == nest.pattern.sizes
    assert differences(nest, Nest(again)) == []
    assert nest.pattern.seams
    assert not again.seams
    assert not again.notions


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
def test_garments_come_back(path: Path) -> None:
    nest = nest_of(path.read_bytes())
    assert differences(nest, Nest(through_a_file(nest))) == []


def test_halves_come_back_from_pieces_drawn_whole() -> None:
    nest = nest_of((CASES / "ferry_smock.pattern.json").read_bytes())
    assert differences(nest, Nest(through_a_file(nest, Options(unfolded=True)))) == []
