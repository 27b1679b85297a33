"""A document that cannot be read or written at all: the errors of this room.

NotchworkError (findings)
├── UnreadableDocument   the bytes are no JSON that may be a pattern
└── UnwritablePattern    a pattern holds a value that no document can
"""

from __future__ import annotations

from notchwork.findings.errors import NotchworkError


class UnreadableDocument(NotchworkError):
    """Bytes that hold no document: not JSON, too big, too deep, of a version that this program cannot know."""


class UnwritablePattern(NotchworkError):
    """A pattern with a value that no document can hold, such as a number that is not finite."""
