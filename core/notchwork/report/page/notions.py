"""Not yet."""

from __future__ import annotations

from notchwork.report.page.markup import Section
from notchwork.report.page.subject import Subject
from notchwork.sewing import Nest


def notions(subject: Subject, nest: Nest) -> Section:
    return Section("notions", "Notions and strips", "")
