"""`Part.from_dict`: what a good mapping gives, and every problem of a bad one at once."""

from __future__ import annotations

import math
import tomllib
from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from profilegen.forms.ratchet import Ratchet
from profilegen.part.base import CutterTable
from profilegen.part.bore_tables import SquareBore
from profilegen.part.cutter_tables import VeeCutter
from profilegen.part.part import MOST_TABLES, Part
from tests.part.samples import bore, cutter, only, problems, take_up, wheel
from tests.parts import teeth_of


def test_the_sample_is_read_in_mm_and_radians() -> None:
    """Every key of the sample arrives under its own name, lengths in mm, angles in radians."""
    part = Part.from_dict(take_up())
    assert (part.title, part.number, part.units) == ("Cloth take-up ratchet", "LM-07", "mm")
    assert isinstance(part.wheel, Ratchet)
    assert (teeth_of(part.wheel), part.wheel.outside_diameter, part.wheel.land) == (30, 38.0, 0.4)
    assert part.wheel.space_angle == math.radians(60)
    assert part.wheel.hook_angle == math.radians(5)
    assert isinstance(part.bore, SquareBore)
    assert part.bore.across_flats == 9.0
    assert isinstance(part.cutters[0], VeeCutter)
    assert part.cutters[0].included_angle == math.radians(60)


def test_what_is_left_out_has_a_stated_default() -> None:
    """A part of the fewest keys has no bore, hub or holes, and the plain set-up."""
    part = Part.from_dict(take_up(title=None, number=None, bore=None, cutter=None))
    assert (part.title, part.number, part.material, part.decimal) == ("untitled", "", "", "point")
    assert (part.bore.kind, part.hub, part.holes, part.cutters) == ("none", None, (), ())
    setup = part.setup
    assert (setup.front, setup.head, setup.cutter_side) == ("free end", "left", "behind")
    assert (setup.flat, setup.spindle, setup.first) == (None, "clockwise", "face")
    assert not setup.model_fields_set


def test_a_key_given_as_its_default_is_still_known_as_given() -> None:
    """The set-up knows which keys the user wrote."""
    part = Part.from_dict(take_up(setup={"front": "free end"}))
    assert part.setup.model_fields_set == {"front"}


def test_a_part_without_a_title_is_called_by_its_file() -> None:
    """The file's name stands in for a missing title."""
    assert Part.from_dict(take_up(title=None), Path("in/take-up.toml")).title == "take-up"


def test_a_part_cannot_be_changed() -> None:
    """Neither the part nor a table of it takes another value."""
    part = Part.from_dict(take_up())
    with pytest.raises(FrozenInstanceError):
        part.title = "other"  # type: ignore[misc]
    with pytest.raises(ValidationError):
        part.wheel.thickness = 31


def test_bare_lengths_are_in_the_units_of_the_part() -> None:
    """A bare number is in the part's unit in every table; a unit behind it wins."""
    part = Part.from_dict(
        take_up(
            units="in",
            wheel={
                "kind": "ratchet",
                "teeth": 24,
                "outside_diameter": "1-1/4",
                "thickness": "4 mm",
                "land": "15 thou",
                "tooth_depth": 0.1,
            },
            bore={"kind": "round", "diameter": "3/8"},
            hub={"diameter": 0.75, "length": "1/4", "side": "back"},
            holes=[{"count": 3, "circle_diameter": 0.875, "diameter": ".125"}],
            cutter=None,
        )
    )
    assert isinstance(part.wheel, Ratchet)
    assert (part.wheel.outside_diameter, part.wheel.thickness) == (31.75, 4.0)
    assert (part.wheel.land, part.wheel.tooth_depth) == (0.381, 2.54)
    assert part.hub is not None
    assert (part.hub.diameter, part.hub.length, part.holes[0].diameter) == (19.05, 6.35, 3.175)


def test_a_part_in_inches_and_the_same_in_mm_are_one_part() -> None:
    """The same sizes in either unit give the same floats."""
    inch = {"outside_diameter": 1.5, "thickness": 0.15, "land": 0.015, "root_radius": 0.008}
    mm = {"outside_diameter": 38.1, "thickness": 3.81, "land": 0.381, "root_radius": 0.2032}
    rest = {"kind": "ratchet", "teeth": 30, "space_angle": 60}
    one = Part.from_dict({"units": "in", "wheel": {**rest, **inch}})
    two = Part.from_dict({"units": "mm", "wheel": {**rest, **mm}})
    assert one.wheel == two.wheel


def test_every_kind_of_bore_is_read() -> None:
    """Each kind of bore has its own keys."""
    for keys in (
        {"kind": "none"},
        {"kind": "round", "diameter": 6},
        {"kind": "square", "across_flats": 6},
        {"kind": "hexagon", "across_flats": 6, "corner_radius": 0.2, "angle": 15},
        {"kind": "keyed", "diameter": 10, "key_width": 3, "key_depth": 1.4},
        {"kind": "d-bore", "diameter": 6, "flat_to_far_side": 5.2},
    ):
        assert Part.from_dict(take_up(bore=keys)).bore.kind == keys["kind"]


def test_every_kind_of_cutter_is_read() -> None:
    """Each kind of cutter has its own angle, and a tip that is rounded or flat."""
    part = Part.from_dict(
        take_up(
            cutter=[
                {"name": "a", "kind": "vee", "included_angle": 60, "tip_flat": 0.1},
                {"name": "b", "kind": "single-angle", "angle": 60, "tip_radius": 0},
                {"name": "c", "kind": "double-angle", "angles": ["12 deg", 48], "tip_radius": 0.2},
            ],
            setup={"cutter": "c"},
        )
    )
    assert [tool.kind for tool in part.cutters] == ["vee", "single-angle", "double-angle"]
    assert getattr(part.cutters[2], "angles") == (math.radians(12), math.radians(48))  # noqa: B009
    assert all(isinstance(tool, CutterTable) for tool in part.cutters)


BAD: list[tuple[dict[str, Any], str, str]] = [
    (take_up(units=None), "units", "units is missing"),
    (take_up(units="inch"), "units", 'write "in"'),
    (take_up(units=25.4), "units", 'allowed: "mm", "in"'),
    (take_up(wheel=None), "wheel", "the part has no wheel"),
    (take_up(wheel=3), "wheel", "a table is wanted here"),
    (take_up(wheel=[]), "wheel", "a table is wanted here"),
    (take_up(wheel=[{}]), "wheel", "write [wheel]"),
    (take_up(cutter={"name": "a"}), "cutter", "write [[cutter]]"),
    (take_up(holes={"count": 3}), "holes", "write [[holes]]"),
    (take_up(cutter=["a"]), "cutter[1]", "a table is wanted here"),
    (take_up(lever={"pin": 2}), "lever", "there is no table lever"),
    (take_up(cutters=[{}]), "cutters", "write [[cutter]]"),
    (take_up(Wheel={}), "Wheel", "write [wheel]"),
    (take_up(boss={}), "boss", "write [hub]"),
    (take_up(titel="x"), "titel", "did you mean title?"),
    (take_up(land=0.4), "land", "land belongs under [wheel]"),
    (take_up(title=7), "title", "a number where text is wanted"),
    (take_up(title=""), "title", "empty"),
    (take_up(title="x" * 121), "title", "121 characters"),
    (take_up(title="a\nb"), "title", r"a line break (\n)"),
    (take_up(title="C:\new\table"), "title", "single quotes"),
    (take_up(title="a\u202eb"), "title", "U+202E"),
    (take_up(title="a\u200bb"), "title", "U+200B"),
    (take_up(title="a\u2060b"), "title", "U+2060"),
    (take_up(title="a\u00adb"), "title", "U+00AD"),
    (take_up(title="a\u200db"), "title", "U+200D"),
    (take_up(title="\u3164"), "title", "U+3164"),
    (take_up(title="a\u034fb"), "title", "U+034F"),
    (take_up(title="a\ufffeb"), "title", "U+FFFE"),
    (wheel(kind=None), "wheel.kind", 'allowed: "ratchet"'),
    (wheel(kind="rachet"), "wheel.kind", 'did you mean "ratchet"?'),
    (wheel(kind=["ratchet"]), "wheel.kind", "no such kind of wheel"),
    (wheel(kind="worm-gear"), "wheel.kind", 'allowed: "ratchet"'),
    (
        wheel(teeth=None),
        "wheel.teeth",
        "teeth is missing; write teeth = 30, with your own value: the number of teeth",
    ),
    (wheel(teeth=0), "wheel.teeth", "a whole number from 2 to 1000"),
    (wheel(teeth=1), "wheel.teeth", "too small"),
    (wheel(teeth=-30), "wheel.teeth", "too small"),
    (wheel(teeth=1001), "wheel.teeth", "too big"),
    (wheel(teeth=10**9), "wheel.teeth", "too big"),
    (wheel(teeth=10**999), "wheel.teeth", "more than 60 digits"),
    (wheel(teeth=30.0), "wheel.teeth", "write 30, without"),
    (wheel(teeth=30.5), "wheel.teeth", "no decimals"),
    (wheel(teeth="30"), "wheel.teeth", "write 30, without quotes"),
    (wheel(teeth=True), "wheel.teeth", "true or false where a count"),
    (wheel(teeth={"a": 1}), "wheel.teeth", "a table where a count"),
    (wheel(land=-0.1), "wheel.land", "more than 0"),
    (wheel(land=math.nan), "wheel.land", "not a size"),
    (wheel(land=math.inf), "wheel.land", "not a size"),
    (wheel(land=1e300), "wheel.land", "far too big"),
    (wheel(land="1,250"), "wheel.land", "1250 or as 1.250"),
    (wheel(land="60 deg"), "wheel.land", "an angle where a length"),
    (wheel(land=[0.4]), "wheel.land", "a list where a length"),
    (wheel(land={"mm": 0.4}), "wheel.land", "a table where a length"),
    (wheel(space_angle=0), "wheel.space_angle", "more than 0 deg to less than 180"),
    (wheel(space_angle=180), "wheel.space_angle", "out of range"),
    (wheel(space_angle=270), "wheel.space_angle", "out of range"),
    (wheel(space_angle="5 mm"), "wheel.space_angle", "a length where an angle"),
    (wheel(hook_angle=45), "wheel.hook_angle", "out of range"),
    (wheel(hook_angle=-90), "wheel.hook_angle", "out of range"),
    (wheel(rotation="ccw"), "wheel.rotation", 'write "counter-clockwise"'),
    (wheel(rotation="Anticlockwise"), "wheel.rotation", 'write "counter-clockwise"'),
    (wheel(rotation="clokwise"), "wheel.rotation", 'did you mean "clockwise"?'),
    (wheel(root_exact="yes"), "wheel.root_exact", "true or false"),
    (wheel(root_exact=1), "wheel.root_exact", "true or false"),
    (wheel(od=38, outside_diameter=None), "wheel.od", "write outside_diameter"),
    (wheel(z=30, teeth=None), "wheel.z", "write teeth"),
    (wheel(dp=20), "wheel.dp", "diametral pitch"),
    (wheel(pa=20), "wheel.pa", "pressure angle"),
    (wheel(face_width=4, thickness=None), "wheel.face_width", "write thickness"),
    (wheel(rake=5, hook_angle=None), "wheel.rake", "write hook_angle"),
    (wheel(undercut=5, hook_angle=None), "wheel.undercut", "write hook_angle"),
    (wheel(gullet=2, land=None), "wheel.gullet", "write tooth_depth"),
    (wheel(flat=0.4, land=None), "wheel.flat", "write land"),
    (wheel(af=9), "wheel.af", "write across_flats under [bore]"),
    (wheel(tip_radius=0.2), "wheel.tip_radius", "tip_radius belongs under [[cutter]]"),
    (wheel(across_flats=9), "wheel.across_flats", "across_flats belongs under [bore]"),
    (wheel(title="x"), "wheel.title", "belongs at the top of the file"),
    (wheel(tooth_dpeth=2, land=None), "wheel.tooth_dpeth", "did you mean tooth_depth?"),
    (wheel(**{"Outside-Diameter": 38}), "wheel.Outside-Diameter", "write outside_diameter"),
    (wheel(xyzzy=1), "wheel.xyzzy", "allowed: kind, thickness, teeth"),
    (bore(kind="square", af=9), "bore.af", "write across_flats"),
    (bore(kind="square", flat=9), "bore.flat", "write across_flats"),
    (bore(kind="hex", across_flats=9), "bore.kind", 'write "hexagon"'),
    (bore(kind="round", across_flats=9, diameter=9), "bore.across_flats", 'of kind "square"'),
    (bore(kind="round", diameter=9, angle=361), "bore.angle", "out of range"),
    (take_up(hub={"diameter": 9, "length": 3}), "hub.side", "side is missing"),
    (cutter(name=None), "cutter[1].name", "name is missing"),
    (cutter(kind="dovetail"), "cutter[1].kind", 'write "single-angle"'),
    (cutter(included_angle=180), "cutter[1].included_angle", "out of range"),
    (cutter(relief_angle=45), "cutter[1].relief_angle", "out of range"),
    (cutter(teeth=0), "cutter[1].teeth", "too small"),
    (cutter(nose_radius=1), "cutter[1].nose_radius", "write tip_radius"),
    (cutter(angle=60), "cutter[1].angle", "write included_angle"),
    (cutter(tip_flat=0.1), "cutter[1].tip_flat", "rounded or flat, not both"),
    (take_up(setup={"cutter": "other"}), "setup.cutter", "no [[cutter]] has this name"),
    (take_up(setup={"cutter": "single point 60"}), "setup.cutter", "did you mean"),
    (take_up(setup={"head": "Left"}), "setup.head", 'write "left"'),
    (take_up(setup={"front": "chuck"}), "setup.front", 'write "head"'),
]


@pytest.mark.parametrize(("mapping", "where", "words"), BAD)
def test_a_bad_value_is_told_with_its_key_path(
    mapping: dict[str, Any], where: str, words: str
) -> None:
    """A slip is one problem, at its key path, with what is allowed or the next step."""
    told = [problem for problem in problems(mapping) if problem.where == where]
    assert len(told) == 1
    assert words in str(told[0])


def test_angles_of_a_double_cutter_are_two() -> None:
    """A list of another length, or no list, is told as a whole."""
    tool = {"name": "c", "kind": "double-angle", "tip_radius": 0.2}
    for angles in ([12], [12, 48, 3], "12, 48", 12, []):
        problem = only(take_up(cutter=[{**tool, "angles": angles}]))
        assert (problem.where, problem.allowed) == ("cutter[1].angles", "[a, b]")
    assert only(take_up(cutter=[{**tool, "angles": [12, 95]}])).where == "cutter[1].angles[2]"


def test_two_cutters_of_one_name_are_told_with_the_first() -> None:
    """Names are how the set-up finds a cutter, so no two are alike; places count from 1."""
    tool = take_up()["cutter"][0]
    problem = only(take_up(cutter=[tool, {**tool, "name": "b"}, tool]))
    assert problem.where == "cutter[3].name"
    assert "cutter[1] has the same name" in problem.message


def test_all_problems_are_told_at_once() -> None:
    """Slips in every table, and broken rules between keys, come out together."""
    mapping = wheel(teeth=0, land="x", root_flat=0.2, tip_radius=1)
    mapping.update(units="inch", bore={"kind": "squar"}, titel="x", lever={})
    mapping["cutter"] = [{"kind": "vee"}, {"kind": "vee", "name": "a", "included_angle": 400}]
    mapping["setup"] = {"cutter": "b"}
    assert [problem.where for problem in problems(mapping)] == [
        "units",
        "titel",
        "wheel.teeth",
        "wheel.land",
        "wheel.tip_radius",
        "wheel.root_flat",
        "bore.kind",
        "bore.across_flats",
        "cutter[1].name",
        "cutter[1].included_angle",
        "cutter[2].included_angle",
        "lever",
        "setup.cutter",
    ]


def test_a_key_by_another_name_is_not_told_as_missing_too() -> None:
    """`od` for `outside_diameter` is one slip, and counts towards the rules between keys."""
    assert only(wheel(od=38, outside_diameter=None)).where == "wheel.od"
    assert only(wheel(crest=0.4, land=None)).where == "wheel.crest"


@pytest.mark.parametrize("value", [None, 3, [], "x"])
def test_what_is_no_mapping_is_told(value: object) -> None:
    """A value that is no table of keys is an input error."""
    assert only(value).message == "a table of keys is wanted"


def test_strange_keys_and_deep_tables_are_told() -> None:
    """Keys that are no text, and tables in tables, are input errors like any other."""
    deep: dict[str, Any] = {}
    for _ in range(5000):
        deep = {"a": deep}
    assert problems({**take_up(), 7: 1, None: {}, "a": deep})
    assert problems(wheel(land=deep))
    assert problems(take_up(wheel={**take_up()["wheel"], 7: 1}))


def test_too_many_tables_are_told_not_read() -> None:
    """A list of thousands of cutters is no drawer."""
    tool = take_up()["cutter"][0]
    tools = [{**tool, "name": str(place)} for place in range(MOST_TABLES + 1)]
    assert only(take_up(cutter=tools)).where == "cutter"


TITLES = [
    "<b>&amp;</b>",
    "a/b\\c",
    '"quoted"',
    "Rücklauf-Sperrad",
    "巻取り爪車",
    "👨‍🔧 wheel",
    "../x",
]


@pytest.mark.parametrize("title", TITLES)
def test_any_line_that_can_be_printed_is_a_title(title: str) -> None:
    """Markup, slashes, any script and signs joined into one are kept as they are."""
    assert Part.from_dict(take_up(title=f"  {title} ")).title == title


@pytest.mark.parametrize(
    ("mapping", "line"),
    [
        (wheel(outside_diameter="Ø40"), "write outside_diameter = 40"),
        (wheel(outside_diameter='dia. 1-1/2"'), "write outside_diameter = '1-1/2\"'"),
        (wheel(root_radius="R0.3"), "write root_radius = 0.3"),
        (wheel(root_radius="R 0,3 mm max."), 'write root_radius = "0,3 mm"'),
        (wheel(teeth="18T"), "write teeth = 18"),
        (wheel(teeth="18 teeth"), "write teeth = 18"),
    ],
)
def test_a_size_with_a_drawing_s_marks_is_told_with_the_line_to_write(
    mapping: dict[str, Any], line: str
) -> None:
    """Ø, R and T in quotes: the hint is the line without them."""
    problem = only(mapping)
    assert problem.hint == line
    key, _, value = line.removeprefix("write ").partition(" = ")
    mended = {**mapping["wheel"], key: tomllib.loads(f"x = {value}")["x"]}
    Part.from_dict({**mapping, "wheel": mended})
