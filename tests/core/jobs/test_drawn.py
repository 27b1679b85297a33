"""Pieces and materials to be drawn may be named as their maker or a report names them."""

from __future__ import annotations

import pytest

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options
from notchwork.findings import UnknownName
from notchwork.jobs.drawn import by_ids
from notchwork.model import Pattern


@pytest.fixture(scope="module")
def demo() -> Pattern:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    return pattern


@pytest.mark.parametrize("name", ["lining", "LINING", "Cotton lining", "cotton LINING"])
def test_a_material_by_its_id_or_its_name_in_any_case(demo: Pattern, name: str) -> None:
    assert by_ids(demo, Options(materials=(name,))).materials == ("lining",)


def test_materials_come_in_the_patterns_order_and_once(demo: Pattern) -> None:
    wanted = by_ids(demo, Options(materials=("net", "Cotton lining", "lining", "sateen")))
    assert wanted.materials == tuple(m for m in demo.materials if m in ("sateen", "net", "lining"))


def test_a_material_that_is_not_there_is_told_with_the_nearest(demo: Pattern) -> None:
    with pytest.raises(UnknownName, match=r"There is no material of this name\. Did you mean lining\?"):
        by_ids(demo, Options(materials=("linings",)))


def test_a_piece_by_its_name(demo: Pattern) -> None:
    assert by_ids(demo, Options(pieces=("upper FLOUNCE",))).pieces == ("upper_flounce",)
