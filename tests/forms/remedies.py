"""Take a finding at its word: change the key it names to the value it names."""

from __future__ import annotations

import copy
import re
from typing import Any

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding
from profilegen.findings.telling import told
from profilegen.job import job_for
from profilegen.part.part import Part

Keys = dict[str, Any]

_ADVICE = re.compile(
    r"(?:make|give) (?P<key>(?:wheel|bore|hub|holes|cutter|setup|blank)(?:\[\d+\])?\.[a-z_]+) "
    r"(?P<than>at least |at most |up to |less than )?"
    r'(?P<value>-?[\d.]+ ?(?:mm|in|°|deg)|\d+$|-?\d+\.\d+$|"[a-z ]+"|false)'
)


def advice_of(finding: Finding) -> tuple[str, Any] | None:
    """The key path and the value, as a part file would have it, that a finding's message names."""
    found = _ADVICE.search(told(finding))
    if found is None:
        return None
    value = found["value"]
    if value == "false":
        return found["key"], False
    if value.isdigit():
        return found["key"], int(value)
    if re.fullmatch(r"-?\d+\.\d+", value):
        return found["key"], float(value)
    if value.startswith('"'):
        return found["key"], value.strip('"')
    if found["than"] == "less than ":
        size, unit = value.split()
        return found["key"], f"{0.99 * float(size)} {unit}"
    return found["key"], value.replace("°", " deg")


def taken(tables: Keys, key: str, value: Any) -> Keys:
    """The tables with one key changed, or taken out by None; `holes[2].diameter` counts from 1.

    A tip or a root is round or flat: the one takes the place of the other.
    """
    changed = copy.deepcopy(tables)
    name, _, rest = key.partition(".")
    table = re.match(r"([a-z]+)(?:\[(\d+)\])?", name)
    if table is None:
        raise ValueError(key)
    home = changed.setdefault(table[1], {})
    if table[2] is not None:
        home = home[int(table[2]) - 1]
    for pair in (("tip_radius", "tip_flat"), ("root_radius", "root_flat")):
        if rest in pair:
            home.pop(pair[1 - pair.index(rest)], None)
    if value is None:
        home.pop(rest, None)
    else:
        home[rest] = value
    return changed


def findings_of(tables: Keys) -> tuple[Finding, ...]:
    """Every finding of a part, whether its wheel can be made or not."""
    try:
        return job_for(Part.from_dict(tables)).findings
    except CannotMakeError as refusal:
        return refusal.findings


def codes_of(tables: Keys) -> set[str]:
    """The codes of every finding of a part."""
    return {finding.code for finding in findings_of(tables)}
