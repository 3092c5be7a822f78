"""Findings in words: the one place that makes a sentence of a finding, and of its remedy.

Owns the order (what it is about, the sentence, what to do) and how each fact is written. The words
stand in the catalogue, the figures are those of the reader: the part's unit and decimal mark for
people, `MM` where nobody has said.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from string import Formatter
from typing import Any

from profilegen.errors import Worded
from profilegen.figures import MM, Figure, Figures
from profilegen.findings.catalogue import CATALOGUE
from profilegen.findings.finding import Fact, Finding, Make, Phrase, Remedy
from profilegen.findings.phrases import PHRASES
from profilegen.units import Unit


def told(finding: Finding, figures: Figures = MM) -> str:
    """The sentence of a finding, with the figures of its reader.

    Args:
        finding: with its facts in mm and rad.
        figures: the unit and the decimal mark in which they are told.

    Raises:
        KeyError: the catalogue has no such code, or the finding lacks a fact that its words name.
    """
    parts = [*finding.about, _sentence(finding), finding.advice]
    text = ": ".join(_written(one, figures) for one in parts if one is not None)
    if not finding.drawer:
        return text
    cutter = finding.where.removeprefix(f"{finding.drawer}: ").partition(".")[0]
    return text.replace(cutter, f"{cutter} of {finding.drawer}", 1)


def worded(findings: Iterable[Finding], figures: Figures) -> tuple[Worded, ...]:
    """Findings as they are said, in unit and decimal mark of their reader."""
    return tuple(Worded(one.code, one.severity, told(one, figures)) for one in findings)


def typed(remedy: Remedy, unit: Unit) -> str | int | float | bool | None:
    """The value of a remedy as a person would type it in a part file: a size with its unit (`0.2
    mm`, `14 deg`), rounded to the side that passes."""
    if not isinstance(remedy.value, Figure):
        return remedy.value
    if remedy.value.quantity == "number":
        return float(remedy.value.value)
    text = Figures(unit, "point").told(remedy.value)
    return f"{text.removesuffix('°')} deg" if text.endswith("°") else text


@dataclass(frozen=True, slots=True)
class _Sentence:
    """Words with names in braces, and what stands for the names."""

    words: str
    facts: Mapping[str, Fact]


def _sentence(finding: Finding) -> _Sentence:
    says = CATALOGUE[finding.code].says
    return _Sentence(says if isinstance(says, str) else says[finding.case], finding.facts)


def _written(fact: Fact | _Sentence, figures: Figures) -> str:
    """One fact in words."""
    match fact:
        case Figure():
            return figures.told(fact)
        case Phrase():
            return _Writer(figures).vformat(PHRASES[fact.name], (), fact.facts)
        case _Sentence():
            return _Writer(figures).vformat(fact.words, (), fact.facts)
        case Make():
            words = ("make", fact.key, fact.than, _written(fact.value, figures))
            return " ".join(word for word in words if word)
        case Finding():
            return _written(_sentence(fact), figures)
        case tuple():
            return ", ".join(_written(one, figures) for one in fact)
        case _:
            return str(fact)


class _Writer(Formatter):
    """Fills words with facts, in the ways that `Entry.says` tells."""

    def __init__(self, figures: Figures) -> None:
        self.figures = figures

    def get_value(self, key: int | str, args: Sequence[Any], kwargs: Mapping[str, Any]) -> Any:
        """The fact of a name."""
        return kwargs[str(key)]

    def format_field(self, value: Any, format_spec: str) -> str:
        """A fact as it is written."""
        if format_spec == "both":
            return self.figures.both(value.value)
        text = _written(value, self.figures)
        return text.partition(":")[0] if format_spec == "short" else text
