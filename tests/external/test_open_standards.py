"""Licences by SPDX, and the schemas by JSON Schema 2020-12, held against other libraries."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
from external.drafting import Command, box, pattern
from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression

from notchwork import jobs

# Valid SPDX identifiers by the packaging library.
LICENCES = [
    "CC0-1.0",
    "CC-BY-4.0",
    "CC-BY-SA-4.0",
    "CC-BY-NC-4.0",
    "CC-BY-NC-SA-4.0",
    "CC-BY-NC-ND-4.0",
    "MIT",
    "OFL-1.1",
    "ODbL-1.0",
    "AGPL-3.0-or-later",
    "CERN-OHL-S-2.0",
    "LicenseRef-our-own",
    "CC-BY-4.0 OR MIT",
]


def said(check: Command, licence: str) -> list[str]:
    document = pattern({"flag": {"outline": box(300, 200)}}) | {"license": licence}
    return [f["severity"] for f in check(document).printed["findings"] if f["pointer"] == "/license"]


@pytest.mark.parametrize("licence", LICENCES)
def test_licences_that_spdx_has(check: Command, licence: str) -> None:
    """Reference: packaging.licenses, which holds the SPDX list."""
    assert canonicalize_license_expression(licence) == licence
    assert said(check, licence) == []


@pytest.mark.parametrize("licence", ["CC-BY-SA", "CC-BY-SA-4", "CC0", "free for all", "GPL4"])
def test_licences_that_spdx_has_not_are_an_info(check: Command, licence: str) -> None:
    """Reference: packaging.licenses."""
    with pytest.raises(InvalidLicenseExpression):
        canonicalize_license_expression(licence)
    assert said(check, licence) == ["info"]


def test_all_licences_that_are_known_are_in_spdx() -> None:
    """Reference: packaging.licenses."""
    from notchwork.document.licences import KNOWN

    assert [name for name in KNOWN if canonicalize_license_expression(name) != name] == []


def objects(value: Any) -> Iterator[dict[str, Any]]:
    """Every object of a schema that is itself a schema or holds schemas."""
    if isinstance(value, dict):
        yield value
        for key, inner in value.items():
            if key not in ("examples", "enum", "const", "properties"):
                yield from objects(inner)
        for inner in value.get("properties", {}).values():
            yield from objects(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from objects(inner)


@pytest.mark.parametrize("name", ["pattern", "report"])
def test_the_schemas_are_schemas(name: str) -> None:
    """Reference: jsonschema, JSON Schema 2020-12: valid against the meta-schema, and "$id" has no fragment. The
    version stands in it (common practice, no source)."""
    schema = json.loads(jobs.schema(name))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "#" not in schema["$id"]
    assert f"{name}-1" in schema["$id"]


@pytest.mark.parametrize("name", ["pattern", "report"])
def test_nothing_hangs_on_annotations(name: str) -> None:
    """JSON Schema 2020-12: "format" is an annotation only, unless a checker is on, and "items" does not take a list."""
    for schema in objects(json.loads(jobs.schema(name))):
        assert not isinstance(schema.get("format"), str)
        assert not isinstance(schema.get("items"), list)


def test_tuples_are_of_their_length(check: Command) -> None:
    """JSON Schema 2020-12 by jsonschema: a point has two coordinates, a place two entries at most; no more, no fewer."""
    validator = jsonschema.Draft202012Validator(json.loads(jobs.schema()))

    def damaged(change: Any) -> bool:
        document = pattern({"flag": {"outline": box(300, 200)}})
        change(document["pieces"]["flag"])
        valid: bool = validator.is_valid(document)
        loaded = jobs.load(json.dumps(document).encode(), "draft", "open_json")
        assert (loaded.pattern is not None) is valid
        return valid

    notch = {"edge": "upper"}
    assert damaged(lambda piece: None)
    assert damaged(lambda piece: piece.update(notches={"n": notch | {"at": ["end", 20]}}))
    assert not damaged(lambda piece: piece.update(notches={"n": notch | {"at": ["end", 20, 1]}}))
    assert not damaged(lambda piece: piece.update(notches={"n": notch | {"at": ["end"]}}))
    assert not damaged(lambda piece: piece["outline"][0].update(at=[0, 0, 0]))
    assert not damaged(lambda piece: piece["outline"][0].update(at=[0]))
