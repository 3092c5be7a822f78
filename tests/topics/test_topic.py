"""Topics in text, rows and records in JSON: numbers are data until they are written at the end."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction

from profilegen.figures import ANGLE, Figure, Figures, both, mm, rad, text
from profilegen.topics.columns import text_lines
from profilegen.topics.records import by_key, picked, plain
from profilegen.topics.shared_rows import way_round
from profilegen.topics.topic import Grid, Pair, Row, Table, told, topics, written
from tests.parts import job, ratchet, single, vee

MM, INCH = Figures("mm", "comma"), Figures("in", "point")


@dataclass(frozen=True)
class Tilt:
    """A record with an angle, and another record in it."""

    name: str
    angle: float = field(metadata=ANGLE)
    corners: tuple[float, ...] = field(metadata=ANGLE)
    inner: Tilt | None = None

    @property
    def sizes(self) -> tuple[float, float]:
        """Two values under one name."""
        return 1.0, math.inf


def test_a_figure_is_written_in_the_unit_and_mark_of_the_part() -> None:
    """By hand: 25.4 mm are 1 in, pi / 8 rad are 22.5 degrees; the least is rounded up, the greatest
    down; what is less than a billionth of a mm has no sign."""
    wanted = {
        mm(25.4, "Ø {}"): ("Ø 25,400 mm", "Ø 1.0000 in"),
        both(25.4): ("25,400 mm (1,0000 in)", "1.0000 in (25.400 mm)"),
        both(-1e-10): ("0,000 mm (0,0000 in)", "0.0000 in (0.000 mm)"),
        rad(math.pi / 8): ("22,500°", "22.500°"),
        mm(25.4004, style="at least"): ("25,401 mm", "1.0001 in"),
        mm(25.4006, style="at most"): ("25,400 mm", "1.0000 in"),
        Figure((25.3996, 25.4503), "length", "limits", "{} to {}"): (
            "25,400 mm to 25,450 mm",
            "1.0000 in to 1.0019 in",
        ),
        Figure((25.4, 50.8), "length", words="{} of {}"): (
            "25,400 mm of 50,800 mm",
            "1.0000 in of 2.0000 in",
        ),
        Figure(3, "count", words="{} wheels"): ("3 wheels", "3 wheels"),
        text("left", "on the {}"): ("on the left", "on the left"),
    }
    assert {figure: (MM.told(figure), INCH.told(figure)) for figure in wanted} == wanted


def test_what_only_programs_are_told_is_not_printed() -> None:
    """A row without a label or without a value reaches JSON and no text."""
    rows = [Row("Seen", text(None, "a {}"), "seen"), Row("", text("left"), "side"), Row("Ink", "")]
    assert told(rows, MM) == (Pair("Ink", ""),)
    assert by_key(rows[:2]) == {"seen": None, "side": "left"}


def test_a_dot_in_a_key_opens_a_dictionary() -> None:
    """Angles in degrees, lengths in mm, whatever the unit that people are told."""
    rows = [
        Row("Length", mm(25.4), "span.length"),
        Row("Teeth", Figure(4, "count"), "span.teeth"),
        Row("Angle", rad(math.pi / 6), "angle"),
    ]
    found = by_key(rows)
    assert found["span"] == {"length": 25.4, "teeth": 4}
    assert math.isclose(found["angle"], 30.0)


def test_a_record_is_told_by_its_fields() -> None:
    """Angles in degrees by what their field says, in tuples and inner records too; no infinity; a
    way that ends early is None; what is given stands in its place."""
    record = Tilt("a", math.pi / 2, (math.pi,), Tilt("b", math.pi, ()))
    inner = {"name": "b", "angle": 180.0, "corners": [], "inner": None}
    assert plain(record) == {"name": "a", "angle": 90.0, "corners": [180.0], "inner": inner}
    keys = "label=name deep=inner.angle none=inner.inner.angle first=sizes.0 sizes more"
    found = picked(record, keys, more=Fraction(1, 2))
    assert list(found) == ["label", "deep", "none", "first", "sizes", "more"]
    assert list(found.values()) == ["a", 180.0, None, 1.0, [1.0, None], Fraction(1, 2)]


def test_topics_as_text() -> None:
    """Rows share their columns, figures of a table end in one line, a sentence below a table has an
    empty line before it; a topic without lines is left out."""
    said = topics(
        {
            "Sizes": [Row("Bore", mm(5.0)), Row("Outside", mm(25.4)), "Measure."],
            "Nothing": [],
            "Given": [Row("Bore", mm(5.0), source="given"), Row("Disc", mm(25.4), source="solved")],
            "Table": [Table(("what", "size"), (("a", mm(5.0)), ("b", mm(25.4)))), "Below."],
        }
    )
    assert "\n".join(text_lines(written(said, Figures("mm", "point")))) == (
        "\nSizes\n  Bore     5.000 mm\n  Outside  25.400 mm\n  Measure."
        "\n\nGiven\n  Bore   5.000 mm  given\n  Disc  25.400 mm  solved"
        "\n\nTable\n  what       size\n  a      5.000 mm\n  b     25.400 mm\n\n  Below."
    )
    assert written(said, INCH)[2].lines[0] == Grid(
        (("what", "size"), ("a", "0.1969 in"), ("b", "1.0000 in")), frozenset({1})
    )


def test_which_way_round_has_one_row_for_each_key_of_json() -> None:
    """Text, sheet and JSON are of the same rows."""
    for cutters in ((), (vee(),), (single(),)):
        made = job(ratchet(), *cutters)
        assert by_key(way_round(made)) == made.as_dict()["setup"]
