"""Where an editor finds the JSON Schema of a file: beside it, as its first line says.

Owns the line, the name of the schema's file and its contents.
"""

from __future__ import annotations

from pathlib import Path

from profilegen.cli.writing import Outgoing
from profilegen.output.json_text import json_text


def schema_bytes(sort: str) -> bytes:
    """The schema of a sort of file: `part`, `drawer` or `dividing`."""
    from profilegen.part.schema import SCHEMAS

    return json_text(SCHEMAS[sort]()).encode()


def schema_path(folder: Path, sort: str) -> Path:
    """Where the schema of the files of a sort in a folder is; hidden, since it is for editors."""
    return folder / f".profilegen-{sort}.json"


def led_to_schema(text: str, sort: str) -> str:
    """A file with a first line that leads editors to its schema."""
    return f"#:schema {schema_path(Path(), sort)}\n{text}"


def schema_file(folder: Path, sort: str) -> Outgoing:
    """The schema to write beside a file."""
    return Outgoing(schema_path(folder, sort), schema_bytes(sort), "keep", shown=False)
