"""Options of DXF as a person states them are taken, or refused in plain words."""

from __future__ import annotations

import pytest

from notchwork.findings import NotchworkError
from notchwork_plugins.dxf.convention.options import choices
from notchwork_plugins.dxf.write.options import OPTIONS, chosen


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ({"nest": "both"}, "Option nest: It cannot be “both”. Choose blocks or rules."),
        ({"notches": "5"}, "Option notches: It cannot be “5”."),
        ({"chord": "5"}, "Option chord: It cannot be “5”. Give a number of mm from 0.01 to 1, such as 0.05."),
        ({"chord": "nan"}, "Option chord: It cannot be “nan”."),
    ],
)
def test_what_cannot_be_written_is_refused(stated: dict[str, str], told: str) -> None:
    with pytest.raises(NotchworkError) as error:
        chosen(stated)
    assert str(error.value).startswith(told)


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ({"units": "furlong"}, "Option units: It cannot be “furlong”. Choose "),
        ({"deltas": "some"}, "Option deltas: It cannot be “some”. Choose cumulative or stepwise."),
        ({"chord": ""}, "Option chord: It cannot be “”."),
    ],
)
def test_what_cannot_be_read_is_refused(stated: dict[str, str], told: str) -> None:
    with pytest.raises(NotchworkError) as error:
        choices(stated)
    assert str(error.value).startswith(told)


def test_nothing_stated_is_what_the_help_says() -> None:
    assert chosen({}) == chosen({option.name: option.default or "" for option in OPTIONS})
    assert chosen({"chord": "0.2mm", "nest": " Rules "}).chord == 0.2
    assert chosen({"nest": " Rules "}).by_rules
    assert choices({"units": "English", "deltas": "STEPWISE"}).mm == 25.4
