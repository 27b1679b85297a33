"""Sizes: whatever is given by size names all of them, and none that is not there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import is_dataclass
from typing import Annotated, Any, get_args, get_origin

from notchwork.document.codec import keys_of
from notchwork.document.faults import BADLY_STATED, BROKEN_REFERENCE, SIZES_INCOMPLETE, fault
from notchwork.document.pointers import pointer
from notchwork.document.references.known import Known
from notchwork.findings import Finding, listed
from notchwork.model import Node, Pattern, Place


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
    for at, value in sized_values(document, Pattern):
        yield from _complete(at, value, names, _needed(known, at, names))


def sized_values(value: Any, hint: Any, at: str = "") -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every value of a valid document that is given by size, with its JSON pointer; ``hint`` is its type in the model."""
    if hint is Node or not isinstance(value, (dict, list)):
        return
    if get_origin(hint) is Annotated:
        yield from _sized(value, at)
    elif hint is Place:
        yield from _sized(value[1:], at, 1)
    elif is_dataclass(hint) and isinstance(hint, type):
        keys = {key.key: key for key in keys_of(hint)}
        bare = next((key for key in keys.values() if key.bare), None)
        if isinstance(value, list):
            assert bare is not None
            yield from sized_values(value, bare.hint, at)
            return
        for name, entry in value.items():
            if name in keys:
                yield from sized_values(entry, keys[name].hint, at + pointer(name))
    else:
        for inner in get_args(hint):
            yield from _of_kind(value, hint, inner, at)


def _of_kind(value: Any, hint: Any, inner: Any, at: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """The values of a list, a mapping or a union; a tuple of one kind states it once or twice."""
    origin = get_origin(hint)
    if origin is tuple:
        if inner is get_args(hint)[0] and isinstance(value, list):
            for index, entry in enumerate(value):
                yield from sized_values(entry, inner, f"{at}/{index}")
            return
    elif isinstance(origin, type) and issubclass(origin, Mapping):
        if isinstance(value, dict) and inner is not str:
            for name, entry in value.items():
                yield from sized_values(entry, inner, at + pointer(name))
    else:
        yield from sized_values(value, inner, at)


def _sized(value: Any, at: str, first: int = 0) -> Iterator[tuple[str, Mapping[str, Any]]]:
    if isinstance(value, dict):
        yield at, value
    elif isinstance(value, list):
        for index, entry in enumerate(value, first):
            yield from _sized(entry, f"{at}/{index}")


def _needed(known: Known, at: str, names: Iterable[str]) -> list[str]:
    """The sizes that must be named: those in which the piece exists."""
    parts = at.split("/", 3)
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
