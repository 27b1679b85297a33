"""What whoever sews from a pattern should know, whatever the checks say of it."""

from __future__ import annotations

CAUTIONS = (
    "Sew a trial garment first: no check knows the body that will wear it.",
    "When a pattern is printed, measure its test square before you cut.",
    "Net and other sheer or synthetic cloth scorches and melts: test the iron on a scrap.",
    "Wide sheer skirts burn fast and catch on stairs: keep clear of flames, and follow your stage's safety rules.",
    "Cords and drawstrings on children's clothes are restricted: follow the safety standard where you live.",
)
"""A sentence or two each."""
