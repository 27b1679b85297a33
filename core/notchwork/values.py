"""Frozen values: data classes whose fields are set once, and which are equal where they hold the same.

``dataclass(frozen=True)`` compiles seven methods anew for every class: for all the classes that a run needs, that takes about
as long as checking a pattern. Here only ``__init__`` is compiled, and the rest is shared.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """The class as a data class with slots, to be used like ``dataclass(frozen=True, slots=True)``."""
    made: Any = dataclass(init=False, eq=False, repr=False, slots=True)(cls)
    held = attrgetter(*(each.name for each in fields(made) if each.compare))

    def equal(self: object, other: object) -> bool:
        return held(self) == held(other) if type(other) is type(self) else NotImplemented

    def hashed(self: object) -> int:
        return hash(held(self))

    made.__eq__, made.__hash__, made.__repr__ = equal, hashed, _shown
    made.__init__, made.__setattr__, made.__delattr__ = _init_of(made), _refuse, _refuse
    made.__getstate__, made.__setstate__ = _state, _restore
    done: type[T] = made
    return done


def _init_of(made: Any) -> Callable[..., None]:
    """An ``__init__`` that fills the slots themselves: going through ``__setattr__`` takes several times as long, and an outline has
    nodes by the thousand."""
    known: dict[str, object] = {"MISSING": MISSING}
    named: list[str] = []
    by_keyword: list[str] = []
    body: list[str] = []
    for k, each in enumerate(fields(made)):
        known[f"fill_{k}"] = getattr(made, each.name).__set__
        taken, value = each.name, each.name
        if each.default_factory is not MISSING:
            known[f"make_{k}"] = each.default_factory
            taken, value = f"{each.name}=MISSING", f"make_{k}() if {each.name} is MISSING else {each.name}"
        elif each.default is not MISSING:
            known[f"default_{k}"] = each.default
            taken = f"{each.name}=default_{k}"
        (by_keyword if each.kw_only else named).append(taken)
        body.append(f"    fill_{k}(self, {value})")
    if hasattr(made, "__post_init__"):
        body.append("    self.__post_init__()")
    parameters = ["self", *named, *(["*", *by_keyword] if by_keyword else [])]
    exec("\n".join([f"def __init__({', '.join(parameters)}):", *(body or ["    pass"])]), known)
    init: Any = known["__init__"]
    init.__qualname__ = f"{made.__qualname__}.__init__"
    return init  # type: ignore[no-any-return]


def _refuse(self: object, name: str, to: object = None) -> NoReturn:
    raise FrozenInstanceError(f"{type(self).__name__}.{name} cannot be changed")


def _state(self: Any) -> list[object]:
    return [getattr(self, each.name) for each in fields(self)]


def _restore(self: Any, state: list[object]) -> None:
    """For copies, which are made without ``__init__``."""
    for each, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, each.name, value)


def _shown(self: Any) -> str:
    held = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({', '.join(held)})"
