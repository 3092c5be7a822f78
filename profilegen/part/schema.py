"""The JSON Schemas of part files, drawers and hardware files, every kind, for editors.

Owns: joining the models' own schemas. A table with kinds is judged by the keys of the kind that it
names, so that an editor marks the one key that is wrong. Imports every kind: only `start` may ask.
Refuses: rules between keys, which a schema for editors need not know.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final

from profilegen.part import kinds
from profilegen.part.tables import DrawerHead

Schema = dict[str, Any]


def part_schema() -> Schema:
    """The schema of a part file."""
    properties = dict(_model_schema("")["properties"])
    for table in kinds.TABLES:
        schema = _table_schema(table)
        properties[table] = {"type": "array", "items": schema} if table in kinds.LISTS else schema
    properties["dividing"] = _or_file(properties["dividing"])
    dials = {axis: _model_schema("setup.dials") for axis in ("x", "y", "z")}
    properties["setup"]["properties"]["dials"] |= {
        "properties": dials,
        "additionalProperties": False,
    }
    about = "One toothed wheel, its bore, the cutters at hand and the set-up."
    return _file("part file", about, properties, ["units", "wheel"])


def drawer_schema() -> Schema:
    """The schema of a drawer: a file of cutters."""
    head = _plain_model(DrawerHead.model_json_schema())["properties"]
    cutters = {"type": "array", "items": _table_schema("cutter"), "minItems": 1}
    about = "The cutters at hand, each a [[cutter]]."
    return _file("drawer", about, {**head, "cutter": cutters}, ["units", "cutter"])


def dividing_schema() -> Schema:
    """The schema of a file of dividing hardware, which may hold more than its table."""
    about = "What turns the work through equal shares."
    properties = {"dividing": _or_file(_table_schema("dividing"))}
    return _file("hardware file", about, properties, ["dividing"]) | {"additionalProperties": True}


SCHEMAS: Final[dict[str, Callable[[], Schema]]] = {
    "part": part_schema,
    "drawer": drawer_schema,
    "dividing": dividing_schema,
}
"""Sort of file -> its schema."""


def _file(name: str, about: str, properties: Schema, required: list[str]) -> Schema:
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"profilegen {name}",
        "description": about,
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _or_file(table: Schema) -> Schema:
    """A table, or the name of a file that holds it."""
    description = "The table, or the name of a file that holds it, from the folder of this one."
    return {
        "description": description,
        "type": ["string", "object"],
        "minLength": 1,
        "if": {"type": "object"},
        "then": table,
    }


def _table_schema(table: str) -> Schema:
    """The schema of one table; one with kinds by the kind that it names."""
    if table not in kinds.KINDS:
        return _model_schema(table)
    of_kind = {kind: _model_schema(table, kind) for kind in kinds.KINDS[table]}
    known = {
        key: {"description": value["description"]}
        for one in of_kind.values()
        for key, value in one["properties"].items()
    }
    kind = {"enum": list(of_kind), "description": f"The kind of {table}."}
    return {
        "type": "object",
        "required": ["kind"],
        "properties": known | {"kind": kind},
        "allOf": [
            {"if": {"properties": {"kind": {"const": name}}, "required": ["kind"]}, "then": schema}
            for name, schema in of_kind.items()
        ],
    }


def _model_schema(table: str, kind: str = "") -> Schema:
    """The schema of one table of one kind: its keys and no others."""
    model = kinds.model(table, kind)
    schema = _plain_model(model.model_json_schema())
    for key in model.left_out_at_zero:
        schema["properties"][key]["minimum"] = schema["properties"][key].pop("exclusiveMinimum")
    for key, name in model.inner.items():
        inner = schema["properties"][key]
        inner |= {"if": {"type": "object"}, "then": _table_schema(name)}
    for key, each in model.inner_lists.items():
        about = schema["properties"][key]["description"]
        items = _plain_model(each.model_json_schema())
        schema["properties"][key] = {
            "description": about,
            "type": "array",
            "minItems": 1,
            "items": items,
        }
    schema.pop("$defs", None)
    return schema


def _plain_model(schema: Schema) -> Schema:
    return {**schema, "properties": {k: _plain(v) for k, v in schema["properties"].items()}}


def _plain(schema: Schema) -> Schema:
    """Return a key's schema without the alternative `null`, which TOML cannot write."""
    if "anyOf" not in schema:
        return {key: value for key, value in schema.items() if (key, value) != ("default", None)}
    rest = {key: value for key, value in schema.items() if key not in ("anyOf", "default")}
    (real,) = (item for item in schema["anyOf"] if item.get("type") != "null")
    return {**real, **rest}
