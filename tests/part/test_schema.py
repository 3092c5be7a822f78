"""The JSON Schemas for editors: every table, kind and key, and the one key that is wrong."""

from __future__ import annotations

import json
import re
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from profilegen.errors import InputError
from profilegen.part import kinds, patterns
from profilegen.part.allowance import read_angle, read_length
from profilegen.part.fields import FieldError
from profilegen.part.part import Part
from profilegen.part.schema import SCHEMAS
from profilegen.part.shipped import templates_folder
from profilegen.units import UnitsError, parse_angle, parse_length, parse_speed
from tests.test_units import ANGLES, BAD_LENGTHS, LENGTHS

SHIPPED = {
    "part": ("starters", "examples"),
    "drawer": ("drawers",),
    "dividing": ("dividing",),
}
PART = """
units = "mm"
[wheel]
kind = "ratchet"
teeth = 24
outside_diameter = "40 mm"
thickness = 5.0
space_angle = "60 deg"
land = 0.5
[bore]
kind = "round"
diameter = 10
[[cutter]]
name = "point"
kind = "vee"
included_angle = 60
tip_radius = 0
[setup]
head = "left"
dials.y = { division = 0.02, per_turn = 2 }
[dividing]
kind = "worm"
ratio = "40:1"
"""


def _alternatives(table: str) -> list[dict[str, Any]]:
    schema = SCHEMAS["part"]()["properties"][table]
    schema = schema["items"] if table in kinds.LISTS else schema
    schema = schema["then"] if table == "dividing" else schema
    return [one["then"] for one in schema["allOf"]] if "allOf" in schema else [schema]


def faults(text: str, sort: str = "part") -> set[str]:
    """The key paths that the schema marks in a text, by the reader of schemas."""
    errors = Draft202012Validator(SCHEMAS[sort]()).iter_errors(tomllib.loads(text))
    return {".".join(map(str, error.absolute_path)) for error in errors}


def test_the_schema_holds_every_table_kind_and_key() -> None:
    """Each model stands in the schema with all its keys explained and no others allowed."""
    for table in kinds.TABLES:
        models = [kinds.model(table, kind) for kind in kinds.KINDS.get(table, {"": ""})]
        for model, schema in zip(models, _alternatives(table), strict=True):
            assert schema["properties"].keys() == model.model_fields.keys()
            assert not schema["additionalProperties"]
            assert all(key["description"] for key in schema["properties"].values())


@pytest.mark.parametrize("sort", SCHEMAS)
def test_the_schema_is_a_schema_without_null(sort: str) -> None:
    """It is one by the rules of schemas; an editor is never offered `null`, which TOML lacks."""
    schema = SCHEMAS[sort]()
    Draft202012Validator.check_schema(schema)
    assert "null" not in json.dumps(schema)
    assert "oneOf" not in json.dumps(schema)


@pytest.mark.parametrize("sort", SCHEMAS)
def test_every_shipped_file_passes(sort: str) -> None:
    """No shipped file has a mark, and neither has the part of these tests."""
    assert not faults(PART)
    for folder in SHIPPED[sort]:
        for path in (templates_folder() / folder).glob("*.toml"):
            assert not faults(path.read_text(encoding="utf-8"), sort), path


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("teeth = 24", "teeth = 24.5", {"wheel.teeth"}),
        ("teeth = 24", "teeth = 1", {"wheel.teeth"}),
        ("teeth = 24", "", {"wheel"}),
        ('"40 mm"', '"40 foo"', {"wheel.outside_diameter"}),
        ('"40 mm"', '"Ø40"', {"wheel.outside_diameter"}),
        ('"40 mm"', '"-40 mm"', {"wheel.outside_diameter"}),
        ('"40 mm"', "0", {"wheel.outside_diameter"}),
        ('"60 deg"', "180", {"wheel.space_angle"}),
        ('"60 deg"', '"60 mm"', {"wheel.space_angle"}),
        ("land =", "lend =", {"wheel"}),
        ('"ratchet"', '"rachet"', {"wheel.kind"}),
        ("diameter = 10", "diameter = true", {"bore.diameter"}),
        ('kind = "round"\n', "", {"bore"}),
        ("included_angle = 60", "angle = 60", {"cutter.0"}),
        ("tip_radius = 0", "tip_radius = -1", {"cutter.0.tip_radius"}),
        ('"left"', '"on the left"', {"setup.head"}),
        ("division = 0.02", "division = -1", {"setup.dials.y.division"}),
        ('"40:1"', '"40"', {"dividing.ratio"}),
        ('"40:1"', "0", {"dividing.ratio"}),
        ('units = "mm"', 'units = "cm"', {"units"}),
    ],
)
def test_the_one_wrong_key_is_marked(old: str, new: str, where: set[str]) -> None:
    """One slip marks its own key and nothing else, whatever the kind of its table; a key that is
    missing or too many marks its table."""
    assert old in PART
    assert faults(PART.replace(old, new, 1)) == where
    with pytest.raises(InputError):
        Part.from_dict(tomllib.loads(PART.replace(old, new, 1)))


def test_drawers_and_hardware_have_their_own() -> None:
    """A part is no drawer; what is wrong in a drawer or a hardware file is marked there."""
    drawer = 'units = "mm"\n[[cutter]]\nname = "a"\nkind = "slot"\nwidth = 2\n'
    assert not faults(drawer, "drawer")
    assert faults(drawer.replace("width = 2", 'width = "wide"'), "drawer") == {"cutter.0.width"}
    assert faults(PART, "drawer") == {""}
    hardware = '[dividing]\nkind = "plate"\nholes = 36\n'
    assert not faults(hardware, "dividing")
    assert not faults('dividing = "worm.toml"\n', "dividing")
    assert faults(hardware.replace("36", "1"), "dividing") == {"dividing.holes"}


def test_a_table_or_the_name_of_its_file_may_stand() -> None:
    """The wheel of a form cutter and the hardware are tables or names; a table is judged."""
    plain = PART[: PART.index("[dividing]")]
    assert not faults(f'dividing = "worm.toml"\n{plain}')
    form = '[[cutter]]\nname = "f"\nkind = "form"\nof = '
    assert not faults(f'{plain}{form}"mate.toml"')
    wheel = "{ kind = 'ratchet', teeth = 2.5, outside_diameter = 10, thickness = 2 }"
    assert faults(f"{plain}{form}{wheel}") == {"cutter.1.of.teeth"}


def test_a_root_radius_of_nothing_is_not_marked() -> None:
    """0 says the same as leaving it out, in the schema as in the part."""
    assert not faults(PART.replace("land = 0.5", "land = 0.5\nroot_radius = 0"))


def matches(schema: dict[str, Any], text: object) -> bool:
    """Whether a text is no slip to an editor."""
    return re.search(schema["pattern"], str(text)) is not None


def test_good_sizes_are_never_marked() -> None:
    """Every spelling in the tables of shop notation is matched, and of tolerances too."""
    for text, _, _ in LENGTHS:
        assert not isinstance(text, str) or matches(patterns.length(signed=True), text), text
    for angle in ANGLES:
        assert not isinstance(angle[0], str) or matches(patterns.angle(), angle[0]), angle
    for speed in ("10", "12 m/min", "40 ft/min", "40 SFM", "33fpm", "3,5"):
        assert matches(patterns.speed(), speed)
    for text in ("+0.02 -0", "0.05", "H7", "js 9", "ISO 2768-m", "iso2768 f", "±0.1 mm", "+/-.05"):
        assert matches(patterns.allowance(), text), text
    for text in ("1 deg", "+1 deg -0.5 deg", "-30' +30'", "±1°", "ISO 2768-1 c"):
        assert matches(patterns.allowance(of_angle=True), text), text


@pytest.mark.parametrize("text", ["5 furlongs", "mm", "abc", "", "Ø40", "R0.3", "18 teeth", "2 ft"])
def test_what_is_no_size_is_marked(text: str) -> None:
    """A word, a mark of a drawing or an unknown unit is a slip to an editor too."""
    for schema in (patterns.length(signed=True), patterns.angle(), patterns.speed()):
        assert not matches(schema, text) or (text, schema) == ("2 ft", patterns.speed())


def test_most_bad_lengths_are_marked() -> None:
    """Of the lengths that `units` refuses by name, most are marked before anything is run."""
    bad = [text for text, _ in BAD_LENGTHS if isinstance(text, str)]
    marked = [text for text in bad if not matches(patterns.length(signed=True), text)]
    assert len(marked) > len(bad) / 2


@given(st.text("0123456789.,/+-± '\"°mincdegthouradsµH¼fsISO", max_size=14))
def test_what_is_read_is_never_marked(text: str) -> None:
    """Any text at all that the program reads as a size is matched by the pattern of such a size."""
    for read, schema in (
        (lambda: parse_length(text, "mm"), patterns.length(signed=True)),
        (lambda: parse_angle(text), patterns.angle()),
        (lambda: parse_speed(text, "mm"), patterns.speed()),
        (lambda: read_length(text, "mm"), patterns.allowance()),
        (lambda: read_angle(text), patterns.allowance(of_angle=True)),
    ):
        try:
            read()
        except (UnitsError, FieldError):
            continue
        assert matches(schema, text)
