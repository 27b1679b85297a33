"""Sizes: whatever is given by size names all of them, and none that is not there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import is_dataclass
from typing import Annotated, Any, get_args, get_origin

from notchwork.document.codec import keys_of
from notchwork.document.faults import BADLY_STATED, BROKEN_REFERENCE, SIZES_INCOMPLETE, fault
from notchwork.document.pointers import pointer
from notchwork.document.references.known import Known
from notchwork.findings import Finding, listed
from notchwork.model import Node, Pattern, Place

Way = tuple[str | int, ...]
BySize = tuple[str, Mapping[str, Any]]
Find = Callable[[Any, Way], Iterator[BySize]]


def size_faults(known: Known, document: Mapping[str, Any]) -> Iterator[Finding]:
    """Every fault in what is given by size. ``document`` is what the pattern was read from."""
    if known.doubt.sizes:
        return
    sizes = known.pattern.sizes
    names = sizes.names if sizes is not None else ()
    if sizes is not None and sizes.base not in names:
        yield _unknown("/sizes/base", sizes.base, names)
        return
    yield from _rules(known, names)
    for ident, piece in known.pattern.pieces.items():
        for size in piece.outlines or ():
            if size not in names:
                yield _unknown(pointer("pieces", ident, "outlines", size), size, names)
    for number, acceptance in enumerate(known.pattern.accepted):
        if acceptance.size is not None and acceptance.size not in names:
            yield _unknown(pointer("accepted", number, "size"), acceptance.size, names)
    find = _sized_values(Pattern)
    assert find is not None
    for at, value in find(document, ()):
        yield from _complete(at, value, names, _needed(known, at, names))


def _sized_values(hint: Any) -> Find | None:
    """How to find every value that is given by size in a valid document of a kind of the model; None if there is none."""
    origin, args = get_origin(hint), get_args(hint)
    if hint is Node:
        return None
    if origin is Annotated:
        return _sized if args[1] in ("length", "number") else None
    if hint is Place:
        return lambda value, way: _sized(value, way) if isinstance(value, list) else iter(())
    if is_dataclass(hint) and isinstance(hint, type):
        return _in_object(hint)
    if origin is tuple or (isinstance(origin, type) and issubclass(origin, Mapping)):
        return _in_each(args[0] if origin is tuple else args[1])
    return next(filter(None, map(_sized_values, args)), None)


def _in_object(cls: type) -> Find | None:
    keys = keys_of(cls)
    finds = {key.key: inner for key in keys if (inner := _sized_values(key.hint)) is not None}
    alone = next((finds.get(key.key) for key in keys if key.bare), None)

    def find(value: Any, way: Way) -> Iterator[BySize]:
        if isinstance(value, dict):
            for name, entry in value.items():
                if name in finds and isinstance(entry, (dict, list)):
                    yield from finds[name](entry, (*way, name))
        elif alone is not None and isinstance(value, list):
            yield from alone(value, way)

    return find if finds else None


def _in_each(hint: Any) -> Find | None:
    inner = _sized_values(hint)
    if inner is None:
        return None

    def find(value: Any, way: Way) -> Iterator[BySize]:
        for key, entry in value.items() if isinstance(value, dict) else enumerate(value):
            if isinstance(entry, (dict, list)):
                yield from inner(entry, (*way, key))

    return find


def _sized(value: Any, way: Way) -> Iterator[BySize]:
    if isinstance(value, dict):
        yield pointer(*way), value
    elif isinstance(value, list):
        for index, entry in enumerate(value):
            yield from _sized(entry, (*way, index))


def _needed(known: Known, at: str, names: Iterable[str]) -> list[str]:
    """The sizes that must be named: those in which the piece exists, or for which anything of the notion is given."""
    parts = at.split("/", 3)
    notion = known.pattern.notions.get(parts[2]) if parts[1] == "notions" else None
    if notion is not None:
        stated = [v for v in (notion.width, notion.length, notion.count) if isinstance(v, Mapping)]
        return [size for size in names if any(size in by_size for by_size in stated)]
    piece = known.pieces.get(parts[2]) if parts[1] == "pieces" else None
    there = piece.outlines if piece is not None and piece.outlines else None
    return [size for size in names if there is None or size in there]


def _complete(
    at: str, value: Mapping[str, Any], names: tuple[str, ...], needed: Iterable[str]
) -> Iterator[Finding]:
    unknown = [size for size in value if size not in names]
    for size in unknown:
        yield _unknown(at + pointer(size), size, names)
    missing = [size for size in needed if size not in value]
    if missing and not unknown:
        yield fault(
            SIZES_INCOMPLETE,
            at,
            "a value for {sizes} is missing.",
            "Give a value for every size, or one number that holds in all of them.",
            sizes=listed(missing),
        )


def _rules(known: Known, names: tuple[str, ...]) -> Iterator[Finding]:
    """A grade rule names every size but the base, which does not shift."""
    sizes = known.pattern.sizes
    for rule, shifts in known.pattern.grade_rules.items():
        at = pointer("grade_rules", rule)
        others = [size for size in names if sizes is None or size != sizes.base]
        yield from _complete(at, shifts, names, others)
        if sizes is not None and shifts.get(sizes.base, 0):
            yield fault(
                BADLY_STATED,
                at + pointer(sizes.base),
                "{base} is the base size, from which the others shift; it does not shift itself.",
                "Leave it away.",
                base=sizes.base,
            )


def _unknown(at: str, size: str, names: Iterable[str]) -> Finding:
    names = list(names)
    return fault(
        BROKEN_REFERENCE,
        at,
        'there is no size called "{size}".',
        "The sizes are {names}." if names else 'Name the sizes in "sizes".',
        size=size,
        names=listed(names) if names else "",
    )
