"""Frozen values: data classes whose fields are set once, and which are equal where they hold the same.

``dataclass(frozen=True)`` compiles seven methods anew for every class: for all the classes that a run needs, that takes about
as long as checking a pattern. Here only ``__init__`` is compiled, and the rest is shared.
"""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """The class as a data class with slots, to be used like ``dataclass(frozen=True, slots=True)``."""
    made: Any = dataclass(eq=False, repr=False, slots=True)(cls)
    held = attrgetter(*(each.name for each in fields(made) if each.compare))

    def equal(self: object, other: object) -> bool:
        return held(self) == held(other) if type(other) is type(self) else NotImplemented

    def hashed(self: object) -> int:
        return hash(held(self))

    made.__eq__, made.__hash__, made.__repr__ = equal, hashed, _shown
    made.__setattr__, made.__delattr__ = _set_once, _refuse
    done: type[T] = made
    return done


def _set_once(self: object, name: str, to: object) -> None:
    if hasattr(self, name):
        _refuse(self, name)
    object.__setattr__(self, name, to)


def _refuse(self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"{type(self).__name__}.{name} cannot be changed")


def _shown(self: Any) -> str:
    held = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({', '.join(held)})"
