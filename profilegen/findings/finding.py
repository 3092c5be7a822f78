"""A finding: what there is to say of a wheel or of its making, as data.

Owns the record that the rooms make (code, severity, place, values, what would mend it) and the
`Refusal` that carries one out of a computation. No sentence stands here: `telling` writes it, from
the catalogue, where people or programs read it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final, Literal, TypeAlias, cast

from profilegen.figures import Figure, Style

Severity = Literal["refused", "caution", "note"]

Than = Literal["", "at least", "at most", "up to", "less than"]
"""On which side of a value all others pass; empty where it is the value itself."""

_STYLES: Final[dict[Than, Style]] = {
    "": "plain",
    "at least": "at least",
    "at most": "at most",
    "up to": "at most",
    "less than": "at most",
}


def mm(value: float, than: Than = "") -> Figure:
    """A length, mm; of a bound, rounded to the side that passes.

    Args:
        value: mm.
        than: on which side of it all others pass; empty where it is no bound.
    """
    return Figure(value, "length", _STYLES[than])


def rad(value: float, than: Than = "") -> Figure:
    """An angle, rad; of a bound, rounded to the side that passes.

    Args:
        value: rad.
        than: on which side of it all others pass; empty where it is no bound.
    """
    return Figure(value, "angle", _STYLES[than])


def bare(value: float, than: Than = "") -> Figure:
    """A number without a unit; of a bound, to whole hundredths on the side that passes."""
    steps = 100 * value
    steps = math.ceil(steps - 1e-7) if than == "at least" else math.floor(steps + 1e-7)
    return Figure(steps / 100 if than else value, "number")


@dataclass(frozen=True, slots=True)
class Remedy:
    """One value that mends a finding, written at one key of the part file.

    Attributes:
        key: the key path, `wheel.land` or `cutter[2].tip_radius`, lists counted from 1.
        value: a size, rounded to the side that passes; a whole number for a count; a word; a text
            as it is typed; true or false. None when the key is to be taken out.
    """

    key: str
    value: Figure | str | int | bool | None


@dataclass(frozen=True, slots=True)
class Make:
    """Advice to give a key of the part file another value.

    Attributes:
        key: the key path.
        than: on which side of the value every other passes too.
        value: a size, a count, or a text as it is typed.
    """

    key: str
    than: Than
    value: Figure | int | str

    @property
    def remedy(self) -> Remedy:
        """That value at that key."""
        return Remedy(self.key, self.value)


@dataclass(frozen=True, slots=True)
class Phrase:
    """A part of a sentence that many findings have, by its name in `phrases`.

    Attributes:
        name: of its words.
        facts: what stands in them.
    """

    name: str
    facts: Mapping[str, Fact] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about the wheel or its making that the user should know.

    Attributes:
        code: a fixed word code, such as `land-thin`.
        severity: `refused` (cannot be made as asked), `caution`, or `note`.
        where: the key path to change.
        value: the value found, mm or degrees, or None.
        limit: the value it is held against, in the same unit, or None.
        remedy: a value that mends it, or None where no single value is known to: with it written
            the finding goes and nothing new is refused.
        facts: what its sentence names beside that.
        case: which of the sentences of its code, where it has several.
        advice: what to do, told behind the sentence; None where the sentence says so itself.
        about: what it is about, told before the sentence: a cutter's name, the blank at hand.
        drawer: file in which the cutter of `where` stands, where that is not the part's own.
    """

    code: str
    severity: Severity
    where: str
    value: float | None = None
    limit: float | None = None
    remedy: Remedy | None = None
    facts: Mapping[str, Fact] = field(default_factory=dict, hash=False)
    case: str = ""
    advice: Fact | None = None
    about: tuple[Phrase | str, ...] = ()
    drawer: str = ""


Fact: TypeAlias = "Figure | Make | Phrase | Finding | int | str | tuple[Fact, ...]"
"""What can stand in a sentence. A tuple is a list with commas; a finding is why another one is, and
stands there without its advice."""


def bounded(
    code: str,
    severity: Severity,
    make: Make,
    value: float,
    limit: float,
    facts: Mapping[str, Fact] | None = None,
    about: tuple[Phrase | str, ...] = (),
    case: str = "",
) -> Finding:
    """A finding about one size against its limit (mm or rad, as the advice is), whose advice is a
    value that passes, and its remedy too."""
    if isinstance(make.value, Figure) and make.value.quantity == "angle":
        value, limit = math.degrees(value), math.degrees(limit)
    return Finding(
        code, severity, make.key, value, limit, make.remedy, facts or {}, case, make, about
    )


def in_table(finding: Finding, old: str, new: str) -> Finding:
    """A finding about table `old` of a part file, of the same keys in table `new`: in its place,
    its facts and its advice. It has no remedy: nobody has tried one there."""
    facts = {name: _in_table(fact, old, new) for name, fact in finding.facts.items()}
    where = cast("str", _in_table(finding.where, old, new))
    advice = None if finding.advice is None else _in_table(finding.advice, old, new)
    return replace(finding, where=where, facts=facts, advice=advice, remedy=None)


def _in_table(fact: Fact, old: str, new: str) -> Fact:
    match fact:
        case str():
            is_key = fact == old or fact.startswith(f"{old}.")
            return new + fact.removeprefix(old) if is_key else fact
        case Make():
            return replace(fact, key=cast("str", _in_table(fact.key, old, new)))
        case Phrase():
            facts = {name: _in_table(one, old, new) for name, one in fact.facts.items()}
            return replace(fact, facts=facts)
        case Finding():
            return in_table(fact, old, new)
        case tuple():
            return tuple(_in_table(one, old, new) for one in fact)
        case _:
            return fact


def refused(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Those that say what cannot be made as asked, in order."""
    return tuple(finding for finding in findings if finding.severity == "refused")


class Refusal(ValueError):
    """What cannot be, found inside a computation that knows no key of a part file.

    Attributes:
        finding: `refused`, without a place: whoever catches it says where, and what to do.
    """

    def __init__(
        self,
        code: str,
        value: float | None = None,
        limit: float | None = None,
        *,
        case: str = "",
        facts: Mapping[str, Fact] | None = None,
    ) -> None:
        super().__init__(code)
        self.finding = Finding(code, "refused", "", value, limit, facts=facts or {}, case=case)

    @property
    def code(self) -> str:
        """The finding's word code."""
        return self.finding.code

    @property
    def limit(self) -> float | None:
        """What is held against, mm or an angle in degrees, or None."""
        return self.finding.limit
