"""A measured blank: what stays, what moves, and that the settings then cut the wheel from it."""

from __future__ import annotations

import re

import pytest
from shapely import affinity
from shapely.geometry import Point
from shapely.geometry.base import BaseGeometry

from profilegen.cutting.budget import GREATEST_RUN_OUT
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.telling import told
from profilegen.forms.form import Form
from profilegen.forms.ratchet import RatchetForm
from profilegen.forms.solve import resolve_for_blank
from profilegen.job import Job
from profilegen.topics.setting_words import setting_sections
from profilegen.topics.sheet_words import sections
from profilegen.topics.topic import Pair, written
from tests.geometry.oracles import polygon
from tests.parts import Keys, double, job, part, ratchet, single, vee

GIVENS: list[Keys] = [
    {},
    {"land": None, "tooth_depth": 1.4},
    {"land": None, "root_diameter": 22.6},
    {"space_angle": None, "root_diameter": 22.6, "root_radius": None},
]
KEYS = ("land", "space_angle", "root_diameter", "tooth_depth")


def fact(made: Job, key: str) -> float:
    """A size of the wheel on the blank at hand."""
    value = made.made.fact(key)
    assert value is not None
    return value


@pytest.mark.parametrize("givens", GIVENS)
def test_the_givens_of_the_print_stay(givens: Keys) -> None:
    """On another blank what the print gives is as it gives it, and the rest moves."""
    wheel = ratchet(**givens)
    nominal, made = job(wheel), job(wheel, blank={"diameter": 25.2})
    for key in KEYS:
        stays = fact(made, key) == pytest.approx(fact(nominal, key), abs=1e-9)
        assert stays == (key in wheel), key
    assert made.wheel == nominal.wheel
    assert 2 * made.made.radius == pytest.approx(25.2)


@pytest.mark.parametrize("givens", GIVENS)
@pytest.mark.parametrize("hold", ["land", "root"])
def test_hold_overrides(givens: Keys, hold: str) -> None:
    """With `hold` the space angle stays, which the cutter gives, and the size named."""
    wheel = ratchet(**givens)
    nominal, made = job(wheel), job(wheel, blank={"diameter": 25.2, "hold": hold})
    held = "land" if hold == "land" else "root_diameter"
    for key in ("space_angle", held):
        assert fact(made, key) == pytest.approx(fact(nominal, key), abs=1e-9)
    other = "root_diameter" if hold == "land" else "land"
    assert abs(fact(made, other) - fact(nominal, other)) > 0.05


def cut_from(made: Job) -> BaseGeometry:
    """The measured blank less the cutter at every stop of the shop's plan."""
    left: BaseGeometry = Point(0, 0).buffer(made.made.radius, quad_segs=4000)
    for cut in made.plan.cuts:
        tool = polygon(cut.silhouette())
        for stop in range(made.made.teeth):
            to = cut.wheel_from_setup(made.made, stop)
            turned = [to.turn.real, -to.turn.imag, to.turn.imag, to.turn.real]
            if to.flip:
                turned = [to.turn.real, to.turn.imag, to.turn.imag, -to.turn.real]
            left = left.difference(affinity.affine_transform(tool, [*turned, 0, 0]))
    return left


@pytest.mark.parametrize("cutter", [vee(), single(), double(12, 48), vee(45)])
@pytest.mark.parametrize("diameter", [25.2, 25.6])
def test_the_settings_cut_the_wheel_from_it(cutter: Keys, diameter: float) -> None:
    """The blank as measured, cut by its settings, is the wheel told for it."""
    made = job(ratchet(teeth=12, land=2.0), cutter, blank={"diameter": diameter, "hold": "land"})
    assert made.plan.cuts != made.print_plan.cuts
    wanted = polygon(made.made.outline)
    assert cut_from(made).symmetric_difference(wanted).area < 5e-3


def test_the_table_says_what_moves() -> None:
    """Land and root first, then offset and both infeeds of every lap."""
    made = job(ratchet(), vee(45), blank={"diameter": 25.2, "hold": "root"})
    assert made.setting.blank is not None
    rows = [(shift.key, shift.lap) for shift in made.setting.blank.shifts]
    keys = ("offset", "infeed_from_top", "infeed_from_offset")
    wheel: list[tuple[str, int | None]] = [("land", None), ("root_diameter", None)]
    assert rows == wheel + [(key, lap) for lap in (1, 2) for key in keys]
    found = made.as_dict()["blank"]
    assert (found["diameter"], found["hold"]) == (pytest.approx(25.2), "root")
    for shift, cut in zip(found["shifts"][3::3], made.plan.cuts, strict=True):
        assert shift["measured"] == cut.infeed_from_top
    assert made.as_dict()["cuts"][0]["infeed_from_top"] == made.plan.cuts[0].infeed_from_top


def test_a_nominal_blank_moves_nothing() -> None:
    """A blank of the print's size, or none measured, leaves the plan of the print."""
    for blank in ({}, {"diameter": 25.4}):
        made = job(ratchet(), vee(), blank=blank)
        assert made.setting.blank is None
        assert made.plan is made.print_plan


@pytest.mark.parametrize(
    ("hold", "severity"), [("land", "caution"), ("root", "caution"), (None, "caution")]
)
def test_a_blank_off_size_is_told(hold: str | None, severity: str) -> None:
    """What moves further than the left-over accepted is a caution, the rest a note."""
    blank = {"diameter": 25.2, **({"hold": hold} if hold else {})}
    told = {f.code: f for f in job(ratchet(), vee(), blank=blank).findings}["blank-differs"]
    assert told.severity == severity
    little = job(ratchet(), vee(), blank={"diameter": 25.395}, setup={"accept": 0.05})
    assert {f.code: f.severity for f in little.findings}["blank-differs"] == "note"


def test_a_blank_that_gives_no_wheel_is_refused() -> None:
    """No wheel from such a blank: a refusal, and the print's wheel and settings stay."""
    made = job(ratchet(land=None, tooth_depth=1.4), vee(), blank={"diameter": 14})
    assert made.is_refused
    assert made.plan is made.print_plan
    assert "blank-refused" in {f.code for f in made.findings}


def test_a_form_may_refuse_another_blank(monkeypatch: pytest.MonkeyPatch) -> None:
    """A form that cannot be cut from another blank says so, naming the key to take out."""
    monkeypatch.setattr(RatchetForm, "for_blank", Form.for_blank)
    with pytest.raises(CannotMakeError) as refusal:
        resolve_for_blank(part(ratchet()), 25.2)
    assert [f.code for f in refusal.value.findings] == ["blank-fixed"]
    assert refusal.value.findings[0].where == "blank.diameter"


@pytest.mark.parametrize("land", [0.1, 0.4])
@pytest.mark.parametrize("tolerance", ["+0.02 -0.01", "+0.4 -0.09"])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_there_is_one_limit_of_run_out(units: str, tolerance: str, land: float) -> None:
    """Both pages of the sheet, the finding and its value name one limit: the usual aim, or what the
    land allows where that is less."""
    mm = 1.0 if units == "mm" else 25.4
    sizes: Keys = {"outside_diameter": 25.4 / mm, "thickness": 3 / mm, "root_radius": 0.2 / mm}
    made = job(
        ratchet(**sizes, land=land / mm),
        vee(tip_radius=0.2 / mm),
        units=units,
        tolerance={"land": " ".join(f"{float(one) / mm:+g}" for one in tolerance.split())},
        blank={"run_out": 0.5 / mm},
    )
    assert made.budget is not None
    needed = next(row.needed for row in made.budget.rows if row.source == "run_out")
    assert made.run_out_limit == min(GREATEST_RUN_OUT, needed)
    figures, limits = made.part.figures, set[str]()
    for section in (*written(sections(made), figures), *written(setting_sections(made), figures)):
        for line in section.lines:
            words = f"{line.label} within {line.value}" if isinstance(line, Pair) else str(line)
            if not words.startswith("Caution"):
                limits |= set(re.findall(r"run-out[^.;]* within ([\d.]+ (?:mm|in))", words))
    assert limits == {figures.at_most(made.run_out_limit)}
    (found,) = [one for one in made.findings if one.code == "blank-runs-out"]
    assert found.limit == made.run_out_limit
    assert told(found, figures).endswith(f"at most {figures.at_most(made.run_out_limit)}")


@pytest.mark.parametrize(("measured", "is_small"), [(23.5, True), (23.87, False), (24.0, False)])
@pytest.mark.parametrize("tip", [0.2, 0.05])
def test_a_blank_outside_its_limit_is_told(measured: float, is_small: bool, tip: float) -> None:
    """24 h11 is 23.87 to 24 (ISO 286-2: IT11 of 18 to 30 mm is 130 um). Finding, shift and sheet
    name one root: that which the cutter leaves, cut out of the blank by shapely."""
    made = job(ratchet(outside_diameter=24), vee(tip_radius=tip), blank={"diameter": measured})
    found = [one for one in made.findings if one.code == "blank-small"]
    assert bool(found) == is_small
    if not found:
        return
    (cut,) = made.plan.cuts
    left = Point(0, 0).buffer(measured / 2, quad_segs=2000).difference(polygon(cut.silhouette()))
    root = 2 * cut.root_radius
    assert 2 * left.boundary.distance(Point(0, 0)) == pytest.approx(root, abs=1e-3)
    figures = made.part.figures
    assert found[0].limit == pytest.approx(23.87)
    assert f"the root {figures.length(root)}" in told(found[0], figures)
    assert made.setting.blank is not None
    shifts = {shift.key: shift.measured for shift in made.setting.blank.shifts}
    assert shifts["root_diameter"] == root
    said = [line for each in written(sections(made), figures) for line in each.lines]
    values = [line.value for line in said if isinstance(line, Pair) and "Root dia" in line.label]
    assert figures.length(root) in values
