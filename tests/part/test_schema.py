"""The JSON Schema for editors: every table, kind and key, with its sentence."""

from __future__ import annotations

import json
from typing import Any

from profilegen.part import kinds
from profilegen.part.schema import json_schema


def _alternatives(table: str) -> list[dict[str, Any]]:
    schema = json_schema()["properties"][table]
    schema = schema["items"] if table in kinds.LISTS else schema
    schema = schema["anyOf"][-1] if table == "dividing" else schema
    found: list[dict[str, Any]] = schema.get("oneOf", [schema])
    return found


def test_the_schema_holds_every_table_kind_and_key() -> None:
    """Each model stands in the schema with all its keys explained and no others allowed."""
    for table in kinds.TABLES:
        models = [kinds.model(table, kind) for kind in kinds.KINDS.get(table, {"": ""})]
        for model, schema in zip(models, _alternatives(table), strict=True):
            assert schema["properties"].keys() == model.model_fields.keys()
            assert not schema["additionalProperties"]
            assert all(key["description"] for key in schema["properties"].values())


def test_the_schema_is_plain_json_without_null() -> None:
    """An editor is never offered `null`, which a part file cannot hold."""
    text = json.dumps(json_schema())
    assert '"null"' not in text
    assert "null" not in text
    assert "$ref" not in text


def test_dividing_may_be_the_name_of_a_file() -> None:
    """In place of the table a text may stand."""
    named = json_schema()["properties"]["dividing"]["anyOf"][0]
    assert named["type"] == "string"


def test_lengths_and_angles_are_numbers_or_text() -> None:
    """A size may be a bare number or shop notation."""
    ratchet = _alternatives("wheel")[0]["properties"]
    for key in ("outside_diameter", "land", "space_angle", "hook_angle"):
        assert ratchet[key]["type"] == ["number", "string"]
    assert ratchet["teeth"] == {
        "type": "integer",
        "minimum": 2,
        "maximum": 1000,
        "title": "Teeth",
        "description": "The number of teeth round the whole wheel.",
    }


def test_each_alternative_is_known_by_its_kind() -> None:
    """The kind of a table is fixed and required in each alternative."""
    for table, names in kinds.KINDS.items():
        for kind, schema in zip(names, _alternatives(table), strict=True):
            assert schema["properties"]["kind"]["const"] == kind
            assert "kind" in schema["required"]
