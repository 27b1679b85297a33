"""The pattern at a glance: one picture for every size."""

from __future__ import annotations

import json

from patterns import case

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.pictures.glance import glance_pictures, nest_pictures
from notchwork.sewing import Nest


def verdict_of(name: str) -> Verdict:
    return jobs.check(jobs.load(json.dumps(case(name)).encode(), "test.pattern.json"))


def test_there_is_one_picture_for_every_size() -> None:
    verdict = verdict_of("ferry_smock")
    assert isinstance(verdict.nest, Nest)
    found = glance_pictures(verdict.nest, verdict)
    assert list(found) == list(verdict.nest.sizes)
    assert len(nest_pictures(verdict.nest)) == sum(p.has_shape for p in verdict.nest.pieces.values())
