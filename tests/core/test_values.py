"""Held against dataclasses of the standard library."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Mapping
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from notchwork.values import frozen


@frozen
class Buoy:
    name: str
    depth: float = 2.0
    lights: Mapping[str, int] = field(default_factory=dict)
    seen: bool = field(default=False, compare=False, repr=False)

    @property
    def deep(self) -> bool:
        return self.depth > 10


@frozen
class Bell(Buoy):
    tone: str = field(default="a", kw_only=True)


@frozen
class One:
    name: str


def by_the_library(cls: type) -> type:
    """The same class as the standard library makes it."""
    plain = {name: getattr(Buoy, name) for name in ("deep",)}
    body = {"__annotations__": Buoy.__annotations__, "depth": 2.0, "__qualname__": cls.__qualname__, **plain}
    body["lights"] = field(default_factory=dict)
    body["seen"] = field(default=False, compare=False, repr=False)
    return dataclass(frozen=True, slots=True)(type(cls.__name__, (), body))


def test_it_is_made_shown_and_compared_as_a_data_class() -> None:
    library = by_the_library(Buoy)
    assert repr(Buoy("gull", 3.0)) == repr(library("gull", 3.0))
    assert [f.name for f in fields(Buoy)] == [f.name for f in fields(library)]
    assert Buoy.__match_args__ == library.__match_args__
    for other in (Buoy("gull"), Buoy("gull", seen=True), Buoy("gull", 3.0), Buoy("tern"), "gull"):
        as_library = library(*(getattr(other, f.name) for f in fields(library))) if other != "gull" else other
        assert (Buoy("gull") == other) == (library("gull") == as_library)
    assert replace(Buoy("gull"), depth=3.0) == Buoy("gull", 3.0)
    assert Buoy("gull").lights is not Buoy("gull").lights
    with pytest.raises(TypeError, match="missing 1 required positional argument: 'name'"):
        Buoy()  # type: ignore[call-arg]


def test_another_class_is_never_equal_though_it_holds_the_same() -> None:
    assert Bell("gull") != Buoy("gull")
    assert Buoy("gull") != Bell("gull")
    assert One("gull") != "gull"


def test_equal_values_have_one_hash_and_what_cannot_be_hashed_is_told() -> None:
    assert len({One("gull"), One("gull"), One("tern")}) == 2
    with pytest.raises(TypeError, match="unhashable"):
        hash(Buoy("gull"))


@pytest.mark.parametrize("name", ["name", "depth", "seen", "tone", "deep", "lights", "other", "__class__"])
def test_nothing_can_be_set_or_deleted(name: str) -> None:
    bell = Bell("gull", tone="c")
    with pytest.raises(AttributeError):
        setattr(bell, name, "tern")
    with pytest.raises(FrozenInstanceError):
        delattr(bell, name)
    assert bell == Bell("gull", tone="c")
    assert not hasattr(bell, "__dict__")


def test_copies_are_equal() -> None:
    bell = Bell("gull", 3.0, {"red": 1}, tone="c")
    assert copy.deepcopy(bell) == bell == copy.copy(bell) == pickle.loads(pickle.dumps(bell))
