"""Findings in words: the order of a sentence, how each fact is written, how remedies are typed."""

from __future__ import annotations

import math
import pickle
from dataclasses import replace

import pytest

from profilegen.errors import ProfilegenError
from profilegen.figures import MM, Figure, Figures
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import (
    Finding,
    Make,
    Phrase,
    Refusal,
    Remedy,
    bounded,
    mm,
    rad,
)
from profilegen.findings.telling import told, typed
from profilegen.units import Unit

IN = Figures("in", "point")
COMMA = Figures("mm", "comma")

THIN = bounded(
    "land-thin",
    "caution",
    Make("wheel.land", "at least", mm(0.20001, "at least")),
    0.12345,
    0.20001,
    {"land": mm(0.12345)},
)


@pytest.mark.parametrize(
    ("figures", "land", "least"),
    [
        (MM, "0.123 mm", "0.201 mm"),
        (COMMA, "0,123 mm", "0,201 mm"),
        (IN, "0.0049 in", "0.0079 in"),
    ],
)
def test_one_finding_in_the_figures_of_its_reader(figures: Figures, land: str, least: str) -> None:
    """The same data in mm, with a comma, in inches; what must be passed is rounded up."""
    assert told(THIN, figures) == (
        f"a land of {land} burrs, and chips when hardened: make wheel.land at least {least}"
    )


def test_what_it_is_about_stands_first_and_what_to_do_last() -> None:
    """Cutter, sentence, advice, with colons between."""
    refusal = replace(
        Refusal("root-too-tight", 0.3, 0.2).finding,
        about=(Phrase("on-blank"), "vee"),
        advice=(
            Make("cutter[1].tip_radius", "", mm(0.2, "at most")),
            Phrase("or-bigger", {"key": "wheel.root_radius"}),
        ),
    )
    assert told(refusal) == (
        "on the blank as measured: vee: the cutter's tip is too blunt for the root: make "
        "cutter[1].tip_radius 0.200 mm, or wheel.root_radius bigger"
    )


def test_a_cutter_of_a_drawer_is_named_with_its_drawer() -> None:
    """The first time only, as a person would."""
    found = Finding(
        "tip-assumed-sharp",
        "caution",
        "shop.toml: cutter[2].tip_radius",
        facts={"cutter": "cutter[2]"},
        about=("vee",),
        drawer="shop.toml",
    )
    assert told(found).endswith(
        "give cutter[2] of shop.toml.tip_radius or cutter[2].tip_flat, 0.1 mm say"
    )


def test_a_finding_as_the_reason_of_another_ends_at_its_colon() -> None:
    """The reason alone, without what it says more and without its advice."""
    cause = replace(Refusal("land-gone", 0.0, 0.2).finding, advice=Phrase("choose-another"))
    found = Finding("blank-refused", "refused", "blank.diameter", facts={"cause": cause})
    assert told(found) == "on the blank as measured the flanks meet before the crest"


def test_a_length_in_both_units() -> None:
    """That of the reader first."""
    found = Finding("feeler-thick", "caution", "setup.feeler", facts={"feeler": mm(1.27)})
    assert "a feeler of 1.270 mm (0.0500 in) is thick" in told(found)
    assert "a feeler of 0.0500 in (1.270 mm) is thick" in told(found, IN)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (mm(0.20001, "at least"), "mm", "0.201 mm"),
        (mm(0.20099, "at most"), "mm", "0.200 mm"),
        (mm(25.4), "in", "1.0000 in"),
        (rad(math.radians(14.5)), "mm", "14.500 deg"),
        (rad(math.radians(14.50049), "at least"), "in", "14.501 deg"),
        (12, "mm", 12),
        ("down", "in", "down"),
        ("1.5 in", "mm", "1.5 in"),
        (None, "mm", None),
    ],
)
def test_a_remedy_is_written_as_it_is_typed(
    value: Figure | int | str | None, unit: Unit, text: object
) -> None:
    """Sizes in the part's unit, rounded to the side that passes; all else as it stands."""
    assert typed(Remedy("wheel.land", value), unit) == text


def test_a_bound_of_an_angle_is_kept_in_degrees() -> None:
    """Value and limit of a finding are mm or degrees, as programs read them."""
    make = Make("wheel.hook_angle", "at most", rad(math.radians(15), "at most"))
    found = bounded("hook-steep", "caution", make, math.radians(16), math.radians(15))
    assert (found.value, found.limit) == pytest.approx((16.0, 15.0))
    assert found.remedy == make.remedy


def test_a_fact_that_is_missing_is_a_fault_and_no_half_sentence() -> None:
    """Nothing is printed with a hole in it."""
    with pytest.raises(KeyError, match="land"):
        told(Finding("land-thin", "caution", "wheel.land"))


def test_an_error_tells_its_findings_in_its_own_figures() -> None:
    """Also after it has come from another process."""
    error = CannotMakeError(replace(THIN, severity="refused"), figures=IN)
    for one in (error, pickle.loads(pickle.dumps(error))):
        (problem,) = one.problems
        assert problem.where == "wheel.land"
        assert "0.0049 in" in problem.message
        assert str(one) == str(problem)
        assert isinstance(one, ProfilegenError)


def test_a_bound_that_passes_is_never_written_as_nothing() -> None:
    """A greatest size below the usual decimals has more of them: 0 would be refused."""
    small = bounded(
        "land-thin", "caution", Make("wheel.land", "at most", mm(4e-4, "at most")), 1, 0
    )
    assert told(replace(small, facts={"land": mm(1.0)}), MM).endswith("at most 0.0004 mm")
    assert typed(Remedy("wheel.land", mm(4e-4, "at most")), "mm") == "0.0004 mm"
