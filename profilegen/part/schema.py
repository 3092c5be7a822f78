"""The JSON Schema of the whole part file, every kind, for editors.

Owns: joining the models' own schemas. Imports every kind: only `start --schema` may ask for it.
Refuses: rules between keys, which a schema for editors need not know.
"""

from __future__ import annotations

from typing import Any

from profilegen.part import kinds

_NAMED = {
    "type": "string",
    "description": "The name of a file that holds the table, from the folder of the part file.",
}


def json_schema() -> dict[str, Any]:
    """Return the schema: one object for the file, one alternative for each kind of a table."""
    head = _model_schema("")
    properties = dict(head["properties"])
    for table in kinds.TABLES:
        schema = _table_schema(table)
        properties[table] = {"type": "array", "items": schema} if table in kinds.LISTS else schema
    properties["dividing"] = {"anyOf": [_NAMED, properties["dividing"]]}
    dials = {axis: _model_schema("setup.dials") for axis in ("x", "y", "z")}
    properties["setup"]["properties"]["dials"] |= {
        "properties": dials,
        "additionalProperties": False,
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "profilegen part file",
        "description": "One toothed wheel, its bore, the cutters at hand and the set-up.",
        "type": "object",
        "properties": properties,
        "required": [*head.get("required", []), "wheel"],
        "additionalProperties": False,
    }


def _table_schema(table: str) -> dict[str, Any]:
    if table not in kinds.KINDS:
        return _model_schema(table)
    return {"oneOf": [_model_schema(table, kind) for kind in kinds.KINDS[table]]}


def _model_schema(table: str, kind: str = "") -> dict[str, Any]:
    schema = kinds.model(table, kind).model_json_schema()
    for key, value in schema["properties"].items():
        schema["properties"][key] = _plain(value)
    if kind and "kind" not in schema.get("required", []):
        schema["required"] = ["kind", *schema.get("required", [])]
    return schema


def _plain(schema: dict[str, Any]) -> dict[str, Any]:
    """Return a key's schema without the alternative `null`, which TOML cannot write."""
    if "anyOf" not in schema:
        return {key: value for key, value in schema.items() if (key, value) != ("default", None)}
    rest = {key: value for key, value in schema.items() if key not in ("anyOf", "default")}
    real = [item for item in schema["anyOf"] if item.get("type") != "null"]
    return {**real[0], **rest} if len(real) == 1 else {**rest, "anyOf": real}
