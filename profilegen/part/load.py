"""From a file name to a `Part` with all that it names: every file of a job is read here.

Owns the order: text, TOML, hardware, tables, then what the cutters name.
Refuses: what one table or one file holds (`part`, `reading`, `references`).
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from profilegen.errors import InputError, Problem
from profilegen.part.lines import key_lines
from profilegen.part.part import Part
from profilegen.part.reading import named, parsed, placed, text_of


def load(path: str | Path) -> Part:
    """Return the part in a file, every size in mm and every angle in radians, whatever it is
    written in.

    Args:
        path: files that it names are looked for beside it.

    Raises:
        InputError: the file cannot be read, or with every problem found in it.
    """
    file = Path(path)
    return loads(text_of(file), file)


def loads(text: str, path: Path | None = None, name: str = "") -> Part:
    """Return the part in a text, every size in mm and every angle in radians.

    Args:
        text: a whole part file, lines ended by line feeds.
        path: the file it came from, for the messages and the title; files that it names are looked
            for beside it, or in the current folder.
        name: what it is called in messages; the file's name, or `the text`, when left out.

    Raises:
        InputError: with every problem found.
    """
    hint = "profilegen start ratchet writes a part file to begin with"
    mapping = parsed(text, name or (named(path) if path else "the text"), hint)
    elsewhere, hardware = _take_dividing(mapping, path)
    try:
        part = _with_files(Part.from_dict(mapping, path))
    except InputError as error:
        raise InputError(*placed((*elsewhere, *error.problems), text)) from None
    if elsewhere:
        raise InputError(*placed(elsewhere, text))
    return replace(part, lines=key_lines(text), files=(*hardware, *part.files))


def _with_files(part: Part) -> Part:
    """Return the part with what its cutters' files hold in place of the files' names."""
    if not any(cutter.kind in ("form", "drawn") for cutter in part.cutters):
        return part
    from profilegen.part.references import with_files

    cutters, files = with_files(part.cutters, part.path, part.units)
    return replace(part, cutters=cutters, files=files)


def _take_dividing(
    mapping: dict[str, Any], path: Path | None
) -> tuple[tuple[Problem, ...], tuple[Path, ...]]:
    """Put the table in place of the file that `dividing` names; return what is wrong with it, and
    the files that were read for it."""
    name = mapping.get("dividing")
    if not isinstance(name, str):
        return (), ()
    from profilegen.part.references import dividing_of

    del mapping["dividing"]
    try:
        mapping["dividing"], files = dividing_of(name, path)
    except InputError as error:
        return error.problems, ()
    return (), files
