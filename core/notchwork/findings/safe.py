"""Text from a file or a file's name, made safe to show."""

from __future__ import annotations

import re

_STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]+")
"""Control characters, line separators, and marks that turn the direction of writing."""


def safe(text: str) -> str:
    """The text without anything that could steer a terminal."""
    return _STEERING.sub(" ", text)
