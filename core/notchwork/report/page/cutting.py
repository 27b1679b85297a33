"""Not yet."""

from __future__ import annotations

from notchwork.report.page.markup import Section
from notchwork.report.page.subject import Subject
from notchwork.sewing import Nest


def cutting(subject: Subject, nest: Nest) -> Section:
    return Section("cutting", "What to cut", "")
