"""JSON pointers (RFC 6901): put together and taken apart."""

from __future__ import annotations


def pointer(*parts: str | int) -> str:
    """The JSON pointer with these parts: ``pointer("pieces", "front", "outline", 3)`` is "/pieces/front/outline/3"."""
    return "".join(f"/{str(part).replace('~', '~0').replace('/', '~1')}" for part in parts)


def parts_of(text: str) -> list[str]:
    """The parts of a JSON pointer."""
    return [part.replace("~1", "/").replace("~0", "~") for part in text.split("/")[1:]]
