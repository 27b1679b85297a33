"""Open JSON <-> model, driven by the model's own fields, so that what a key means stands in one place.

A field's annotation says what its value is (``"length"`` and ``"point"`` are in the document's unit, millimetres in the
model); its metadata says its key, and whether a plain value may stand for an object or a list (see ``model.Stated``).
"""

from __future__ import annotations

import types
from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from notchwork.model import MM_PER_UNIT, Pattern, Place, Stated, Unit
from notchwork.values import frozen

DECIMALS: Mapping[Unit, int] = {"mm": 4, "cm": 5, "in": 6}
"""How finely a length is written: 0.0001 mm or finer in every unit."""


@frozen
class _Measure:
    """The document's unit: how many mm it is, and how finely it is written."""

    mm: float
    decimals: int


@frozen
class _Codec:
    read: Callable[[Any, _Measure], Any]
    write: Callable[[Any, _Measure], Any]


def pattern_of(document: Mapping[str, Any]) -> Pattern:
    """The model of a document that is valid by the schema."""
    read: Pattern = _object(Pattern).read(document, _measure(document.get("unit", "mm")))
    return read


def document_of(pattern: Pattern) -> dict[str, Any]:
    """The document of a pattern: plain JSON values in the schema's order, lengths in the pattern's unit, rounded."""
    written: dict[str, Any] = _object(Pattern).write(pattern, _measure(pattern.unit))
    return written


def as_stated(thing: Stated) -> Any:
    """What a document that counts in mm states of one object of the model: a seam, an opening, an edge."""
    cls: type = type(thing)
    return _object(cls).write(thing, _measure("mm"))


def _measure(unit: Unit) -> _Measure:
    return _Measure(MM_PER_UNIT[unit], DECIMALS[unit])


@frozen
class Key:
    """One key of an object: the model's field, and the key it has in a document."""

    name: str
    key: str
    hint: Any
    default: Any
    bare: bool
    single: bool


@cache
def keys_of(cls: type) -> tuple[Key, ...]:
    """The keys that a document may state of an object, in the order in which they are written."""
    hints = get_type_hints(cls, include_extras=True)
    own = {f.name for f in fields(Stated)}
    return tuple(
        Key(
            f.name,
            f.metadata.get("key", f.name),
            hints[f.name],
            _default(f),
            f.metadata.get("bare", False),
            f.metadata.get("single", False),
        )
        for f in fields(cls)
        if f.name not in own and f.metadata.get("key", f.name) is not None
    )


def _default(field: Field[Any]) -> Any:
    if field.metadata.get("required"):
        return MISSING
    return field.default_factory() if field.default_factory is not MISSING else field.default


def _codec(hint: Any) -> _Codec:
    origin, args = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return {"length": _LENGTH, "number": _NUMBER, "point": _POINT}[args[1]]
    if origin in (Union, types.UnionType):
        return _either([arg for arg in args if arg is not type(None)], optional=type(None) in args)
    if origin is tuple:
        return _list(_codec(args[0]))
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return _mapping(_codec(args[1]))
    if hint is Place:
        return _PLACE
    if is_dataclass(hint) and isinstance(hint, type):
        return _object(hint)
    return _NUMBER if hint is float else _AS_IT_IS


@cache
def _object(cls: type) -> _Codec:
    keys = keys_of(cls)
    by_key = {key.key: (key, _codec(key.hint).read) for key in keys}
    writers = [(key, _codec(key.hint).write) for key in keys]
    bare = next((key for key in keys if key.bare), None)
    inherits = any(f.name == "removed" for f in fields(cls))

    def read(value: Any, measure: _Measure) -> Any:
        if bare is not None and not isinstance(value, dict):
            return cls(**{bare.name: by_key[bare.key][1](value, measure)})
        stated: dict[str, Any] = {}
        extra: dict[str, Any] = {}
        written: list[str] = []
        removed: list[str] = []
        for name, entry in value.items():
            if name not in by_key:
                extra[name] = entry
                continue
            key, read_entry = by_key[name]
            if entry is None and inherits:
                removed.append(key.name)
                continue
            alone = key.single and not isinstance(entry, list)
            stated[key.name] = got = read_entry([entry] if alone else entry, measure)
            if got == key.default or (key.single and not alone and len(got) == 1):
                written.append(key.name)
        if bare is not None and len(stated) == 1 and not extra:
            written.append(bare.name)
        if removed:
            stated["removed"] = frozenset(removed)
        if written:
            stated["written"] = frozenset(written)
        return cls(**stated, extra=extra)

    def write(value: Any, measure: _Measure) -> Any:
        removed = value.removed if inherits else ()
        document: dict[str, Any] = {}
        for key, write_entry in writers:
            entry = getattr(value, key.name)
            as_written = key.name in value.written
            if key.name in removed:
                document[key.key] = None
            elif entry != key.default or as_written:
                document[key.key] = stated = write_entry(entry, measure)
                if key.single and len(stated) == 1 and not as_written:
                    document[key.key] = stated[0]
        document.update(value.extra)
        if bare is not None and len(document) == 1 and bare.name not in value.written:
            return document[bare.key]
        return document

    return _Codec(read, write)


def _either(hints: list[Any], optional: bool) -> _Codec:
    """A value of one kind, or text beside it; None for a named thing that is removed."""
    (hint,) = [hint for hint in hints if hint is not str] or [str]
    inner = _codec(hint)
    plain = (str,) if str in hints else ()

    def passed(convert: Callable[[Any, _Measure], Any]) -> Callable[[Any, _Measure], Any]:
        if not plain and not optional:
            return convert
        return lambda value, measure: (
            value if value is None or isinstance(value, plain) else convert(value, measure)
        )

    return _Codec(passed(inner.read), passed(inner.write))


def _list(inner: _Codec) -> _Codec:
    return _Codec(
        lambda value, measure: tuple([inner.read(entry, measure) for entry in value]),
        lambda value, measure: [inner.write(entry, measure) for entry in value],
    )


def _mapping(inner: _Codec) -> _Codec:
    return _Codec(
        lambda value, measure: {key: inner.read(entry, measure) for key, entry in value.items()},
        lambda value, measure: {key: inner.write(entry, measure) for key, entry in value.items()},
    )


def _in_mm(value: Any, measure: _Measure) -> Any:
    if isinstance(value, dict):
        return {size: _in_mm(entry, measure) for size, entry in value.items()}
    if isinstance(value, list):
        return tuple(_in_mm(entry, measure) for entry in value)
    return value * measure.mm


def _in_unit(value: Any, measure: _Measure) -> Any:
    if isinstance(value, Mapping):
        return {size: _in_unit(entry, measure) for size, entry in value.items()}
    if isinstance(value, tuple):
        return [_in_unit(entry, measure) for entry in value]
    return _tidy(round(value / measure.mm, measure.decimals))


def _numbers(value: Any, measure: _Measure) -> Any:
    if isinstance(value, dict):
        return {size: _numbers(entry, measure) for size, entry in value.items()}
    if isinstance(value, list):
        return tuple(_numbers(entry, measure) for entry in value)
    return value


def _plain_numbers(value: Any, measure: _Measure) -> Any:
    if isinstance(value, Mapping):
        return {size: _plain_numbers(entry, measure) for size, entry in value.items()}
    if isinstance(value, tuple):
        return [_plain_numbers(entry, measure) for entry in value]
    return _tidy(value)


def _tidy(number: float) -> float:
    """A whole number without its ".0"; never -0."""
    return int(number) if number == (whole := int(number)) else number if whole or number else 0


def _point(value: Any, measure: _Measure) -> complex:
    return complex(value[0] * measure.mm, value[1] * measure.mm)


def _point_written(value: complex, measure: _Measure) -> list[float]:
    mm, decimals = measure.mm, measure.decimals
    return [_tidy(round(value.real / mm, decimals)), _tidy(round(value.imag / mm, decimals))]


def _place(value: Any, measure: _Measure) -> Place:
    if isinstance(value, str):
        return Place(value)
    name, along = value
    if isinstance(along, str):
        return Place(name, percent=float(along.removesuffix("%")))
    return Place(name, offset=_in_mm(along, measure))


def _place_written(value: Place, measure: _Measure) -> Any:
    if value.offset is not None:
        return [value.name, _in_unit(value.offset, measure)]
    if value.percent is not None:
        return [value.name, f"{_tidy(round(value.percent, 4))}%"]
    return value.name


_LENGTH = _Codec(_in_mm, _in_unit)
_NUMBER = _Codec(_numbers, _plain_numbers)
_POINT = _Codec(_point, _point_written)
_PLACE = _Codec(_place, _place_written)
_AS_IT_IS = _Codec(lambda value, _: value, lambda value, _: value)
