"""What `check` tells people."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from profilegen.cutting.compare import compared_cutters
from profilegen.figures import MM
from profilegen.job import job_for
from profilegen.part.tables import Setup
from profilegen.topics.check_text import check_text, findings_lines, refused_text
from profilegen.topics.columns import WIDTH, columns, paragraph
from profilegen.topics.cutter_text import cutter_text, verdict_words
from profilegen.topics.sheet_words import sections
from profilegen.topics.topic import Pair, written
from tests.parts import double, job, part, ratchet, single, vee


def value(text: str, label: str) -> str:
    """What stands behind a label."""
    (line,) = [row for row in text.splitlines() if row.strip().startswith(label)]
    return line.partition(label)[2].strip()


def test_both_units_first() -> None:
    """The outside diameter stands near the top in both units, once."""
    text = check_text(job())
    assert value("\n".join(text.splitlines()[:8]), "Outside diameter") == (
        "25.400 mm (1.0000 in)  given"
    )
    assert text.count("1.0000 in") == 1


def test_every_depth_has_its_datum() -> None:
    """The three depths are named with what they count from, with the values of the design table.

    Source: the worked row "symmetric vee, radial face" derived in the design of this project
    (R 12.7, N 30, A 60, g 0, L 0.15, q 0.2): apex height 9.537649, infeed at offset 1.72802.
    """
    text = check_text(job(ratchet(land=0.15), vee()))
    assert value(text, "Offset of the apex from the wheel axis") == "5.507 mm (0.2168 in)"
    assert value(text, "Infeed from the offset zero").startswith("1.728 mm")
    assert value(text, "Infeed from the top zero").startswith("2.962 mm")
    assert value(text, "Radial depth, blank less root").startswith("1.539 mm")


def test_given_and_solved() -> None:
    """Each fact says whether the print gave it or the program solved it."""
    text = check_text(job())
    assert value(text, "Land").endswith("given")
    assert value(text, "Root diameter, real material").endswith("solved")


def test_the_unit_and_mark_of_the_part() -> None:
    """Another unit or decimal mark changes the writing alone."""
    other = replace(part(), units="in", decimal="comma")
    assert value(check_text(job_for(other)), "Outside diameter").startswith("1,0000 in")


def test_two_laps_are_told_apart() -> None:
    """Two cuts a space stand one below the other, and the second lap lies 25
    degrees back, which is 11 on from a stop of 12 degrees."""
    text = check_text(job(ratchet(space_angle=70), vee(45)))
    assert ", lap 1: the faces" in text
    assert ", lap 2: the backs" in text
    flat = " ".join(text.split())
    assert "From the closing stop of lap 1 turn the work on by 11.0000° counter-clockwise" in flat
    assert "in each of 2 laps" in text


def test_no_minus_zero() -> None:
    """A flat on a radial face stands at an offset of 0, without a sign."""
    text = check_text(job(ratchet(hook_angle=0), single()))
    assert value(text, "Offset of the apex from the wheel axis") == "0.000 mm (0.0000 in)"


def test_without_a_cutter() -> None:
    """A part without a cutter has its wheel told, and that nothing is set up."""
    text = check_text(job())
    assert "no cutter that can form this wheel is set up" in text
    assert "no-cutter" in text


def test_no_line_is_too_long() -> None:
    """No line runs over the width of a terminal."""
    for cutter in (vee(), single(45), double(12, 48)):
        wheel = job(ratchet(), cutter, hub={"diameter": 20, "length": 5, "side": "back"})
        assert max(map(len, check_text(wheel).splitlines())) <= WIDTH


def test_refused_text_has_name_size_and_reason() -> None:
    """A wheel that does not exist still has its name and size."""
    text = refused_text(part(), job().findings)
    assert text.startswith("take-up ratchet\noutside diameter 25.400 mm")


def test_no_findings() -> None:
    """Without findings that is said."""
    assert findings_lines((), MM) == ["", "Findings", "  none"]


def test_cutters_side_by_side() -> None:
    """Every cutter has its row; one whose flanks do not match has its reason below."""
    wide = vee(80) | {"name": "wide"}
    made = job(ratchet(), vee(), single(), wide)
    matches = compared_cutters(made.wheel, made.part.cutters, Setup())
    text = cutter_text(made, matches, 0.02, made.plan.cutter)
    assert re.search(r"set up +vee +forms +1 ", text)
    assert re.search(r"wide +leaves +1 ", text)
    assert "wide: leaves" in text
    assert "wider than the space" in " ".join(text.split())
    assert text.index("wide: leaves") < text.index("How the usable ones are set")


def test_cutters_that_just_form_the_space_need_no_words() -> None:
    """One table, then how each is set: a reason stands only where there is something to say."""
    made = job(ratchet(), vee(), single())
    matches = compared_cutters(made.wheel, made.part.cutters, Setup())
    text = cutter_text(made, matches, 0.02, made.plan.cutter)
    assert "forms the space" not in text
    assert "Remarks" not in text
    assert text.index("How each is set") > text.index("best first")


def test_of_cutters_that_are_not_usable_only_the_best_is_set() -> None:
    """Where none is usable the setting of the best is told, and that it is only that."""
    made = job(ratchet(), vee(80) | {"name": "a"}, vee(90) | {"name": "b"})
    matches = compared_cutters(made.wheel, made.part.cutters, Setup())
    text = cutter_text(made, matches, 0.02, None)
    below = text[text.index("How the best of them is set") :]
    assert matches[0].cutter in ("a", "b")
    assert re.findall(r"(?m)^ +(a|b) +1 of 1", below) == [matches[0].cutter]


def test_verdicts_name_their_limit() -> None:
    """A deviation is told with its place and the limit it is held against."""
    made = job(ratchet(), vee(60, tip_radius=0.25))
    (match,) = compared_cutters(made.wheel, made.part.cutters, Setup(accept=0.06))
    figures, wheel = made.part.figures, made.wheel
    assert "at the root, within your 0.060 mm: usable" in verdict_words(match, figures, 0.06, wheel)
    assert "over your 0.020 mm: not usable" in verdict_words(match, figures, 0.02, wheel)


def test_columns_are_straight() -> None:
    """Columns begin in one place, and numbers may end in one."""
    assert columns([("a", "1"), ("bbb", "22")], right=frozenset({1})) == ["  a     1", "  bbb  22"]


def test_a_number_keeps_its_unit() -> None:
    """A line is never broken between a number and its unit, or inside a key."""
    text = "x " * 45 + "1.5400 in"
    assert paragraph(text, "")[-1].endswith("1.5400 in")
    assert all(len(line) <= WIDTH for line in paragraph("some words " * 40, "    "))


@pytest.mark.parametrize("head", ["left", "right"])
@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
def test_the_steep_flank_of_a_cutter_above_looks_to_a_side_of_the_machine(
    head: str, rotation: str
) -> None:
    """For a cutter above, `check` and sheet call the side by column and operator; worked by hand:
    a pawl that drives a wheel clockwise pushes to the right at the top, so the face looks left at
    it and the flank that forms the face looks right; seen from the free end with the head on the
    left the column is at the right."""
    setup = {"cutter_side": "above", "head": head}
    made = job(ratchet(rotation=rotation), single(), setup=setup)
    column_is_right = head == "left"
    looks_right = rotation == "clockwise"
    side = "column" if looks_right == column_is_right else "operator"
    assert value(check_text(made), "The cutter's steep flank looks") == f"towards the {side}"
    rows = [
        line for section in written(sections(made), made.part.figures) for line in section.lines
    ]
    assert Pair("The cutter's steep flank looks", f"towards the {side}") in rows
