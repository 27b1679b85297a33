"""The order of sewing, as its maker stated it."""

from __future__ import annotations

from notchwork.report.page.markup import Section
from notchwork.report.page.subject import Subject


def order(subject: Subject) -> Section:
    return Section("order", "The order of sewing", "")
