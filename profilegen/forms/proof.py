"""Remedies that keep their word: with the value written the finding goes and nothing is refused.

Each is tried on the part itself, by whatever finds the findings of a part: the wheel alone, or the
whole job. One that does not hold is taken off its finding; the sentence stays.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, refused
from profilegen.part.mending import mended
from profilegen.units import UnitsError

if TYPE_CHECKING:
    from profilegen.part.part import Part

Finds = Sequence[Finding]


def proved(part: Part, findings: Finds, again: Callable[[Part], Finds]) -> tuple[Finding, ...]:
    """The findings of a part, with those remedies only that mend them.

    Args:
        part: as it is.
        findings: all of them.
        again: the findings of a part; it may raise what the part cannot be made for.
    """
    return tuple(
        one
        if one.remedy is None or holds(part, one, findings, again)
        else replace(one, remedy=None)
        for one in findings
    )


def holds(part: Part, one: Finding, findings: Finds, again: Callable[[Part], Finds]) -> bool:
    """Whether a finding is gone with its remedy written, and nothing is refused that was not."""
    if one.remedy is None:
        return False
    try:
        after = again(mended(part, one.remedy))
    except CannotMakeError as refusal:
        after = refusal.findings
    except (InputError, KeyError, UnitsError):
        return False
    known = {_place(each) for each in refused(findings)}
    return _place(one) not in map(_place, after) and known.issuperset(map(_place, refused(after)))


def _place(one: Finding) -> tuple[str, str]:
    return one.code, one.where
