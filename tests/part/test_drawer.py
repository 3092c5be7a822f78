"""Drawers: reading them, what is said to bad ones, which one is used, files named in cutters."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pytest

from profilegen.errors import InputError, Problem
from profilegen.job import job_for
from profilegen.part.base import WheelTable
from profilegen.part.cutter_tables import DrawnCutter, FormCutter
from profilegen.part.drawer import choose_drawer, load_drawer, with_drawer
from profilegen.part.load import load
from profilegen.part.shipped import drawer_path
from tests.parts import teeth_of

WHEEL = """
[wheel]
kind = "ratchet"
teeth = 30
outside_diameter = 38
thickness = 4
space_angle = 60
land = 0.4
"""
ONE = '[[cutter]]\nname = "own"\nkind = "slot"\nwidth = 1\n'


def write(folder: Path, name: str, *parts: str, units: str = "mm") -> Path:
    """A file of a drawer or part, its unit in front."""
    path = folder / name
    path.write_text("\n".join([f'units = "{units}"', *parts]), encoding="utf-8")
    return path


def problems(path: Path, drawer: bool = True) -> tuple[Problem, ...]:
    """What is wrong with a drawer, or a part."""
    with pytest.raises(InputError) as caught:
        load_drawer(path) if drawer else load(path)
    return caught.value.problems


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_shipped_drawers_are_whole(unit: str) -> None:
    """Each holds about twenty cutters of the common kinds."""
    cutters = load_drawer(drawer_path(unit))
    assert 20 <= len(cutters) <= 30
    assert {cutter.kind for cutter in cutters} >= {"vee", "single-angle", "double-angle", "slot"}


def test_every_problem_of_a_drawer_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    """Two of one name, a bad value, an unknown key: each with file, key path and line."""
    bad = '[[cutter]]\nname = "own"\nkind = "vee"\nincluded_angle = 400\nnose = 1\n'
    path = write(tmp_path, "d.toml", ONE, bad)
    found = [problem.where for problem in problems(path)]
    assert found == [
        f"{path}: cutter[2].name, line 8",
        f"{path}: cutter[2].included_angle, line 10",
        f"{path}: cutter[2].nose, line 11",
    ]


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ("", "no cutter in this drawer"),
        (WHEEL + ONE, "a drawer has no table wheel"),
        ('[cutter]\nname = "a"\n', "double brackets"),
        ("colour = 1\n" + ONE, "there is no key colour"),
    ],
)
def test_what_is_no_drawer(tmp_path: Path, body: str, words: str) -> None:
    """A part file, an empty drawer, single brackets and strange keys are told apart."""
    assert any(words in str(problem) for problem in problems(write(tmp_path, "d.toml", body)))


def test_a_drawer_without_units(tmp_path: Path) -> None:
    """A bare length must have a unit."""
    path = tmp_path / "d.toml"
    path.write_text(ONE, encoding="utf-8")
    assert [problem.where for problem in problems(path)] == [f"{path}: units"]


def test_the_order_in_which_a_drawer_is_looked_for(tmp_path: Path) -> None:
    """Option, own cutters, the key, `drawer.toml` beside the part, the shipped one of its unit."""
    named = write(tmp_path, "mine.toml", ONE.replace("own", "named"))
    part = load(write(tmp_path, "a.toml", WHEEL))
    assert choose_drawer(part).name == "the shipped metric drawer"
    assert choose_drawer(load(write(tmp_path, "i.toml", WHEEL, units="in"))).name == (
        "the shipped inch drawer"
    )
    beside = write(tmp_path, "drawer.toml", ONE.replace("own", "beside"))
    assert choose_drawer(part).cutters[0].name == "beside"
    assert choose_drawer(part).path == beside
    keyed = load(write(tmp_path, "b.toml", 'drawer = "mine.toml"', WHEEL))
    assert choose_drawer(keyed).cutters[0].name == "named"
    own = load(write(tmp_path, "c.toml", 'drawer = "mine.toml"', WHEEL, ONE))
    assert choose_drawer(own).name == "the part's own cutters"
    assert choose_drawer(own, named).cutters[0].name == "named"


def test_a_named_drawer_that_is_not_there_is_told_by_its_key(tmp_path: Path) -> None:
    """The key, the file and its nearest neighbour are named."""
    part = load(write(tmp_path, "b.toml", 'drawer = "mine.toml"', WHEEL))
    with pytest.raises(InputError) as caught:
        choose_drawer(part)
    assert caught.value.problems[0].where == "drawer, line 2"
    assert "no such file" in str(caught.value)


def test_the_set_up_may_name_a_cutter_of_the_drawer(tmp_path: Path) -> None:
    """A part without cutters of its own sets up one of its drawer; an unknown one is told."""
    write(tmp_path, "mine.toml", ONE.replace("own", "a"), ONE.replace("own", "b"))
    setup = '[setup]\ncutter = "b"\n'
    path = write(tmp_path, "p.toml", 'drawer = "mine.toml"', WHEEL, setup)
    part, drawer = with_drawer(load(path))
    assert [cutter.name for cutter in part.cutters] == ["a", "b"]
    assert drawer.name.endswith("mine.toml")
    write(tmp_path, "p.toml", 'drawer = "mine.toml"', WHEEL, setup.replace('"b"', '"bb"'))
    with pytest.raises(InputError, match=r"setup\.cutter"):
        with_drawer(load(path))


def form(of: str) -> str:
    """A form cutter of a file."""
    return f'[[cutter]]\nname = "form"\nkind = "form"\nof = "{of}"\n'


def test_a_form_cutter_takes_the_wheel_of_another_part(tmp_path: Path) -> None:
    """The file is found beside the part, and its wheel stands in its place."""
    write(tmp_path, "mate.toml", WHEEL.replace("30", "24"))
    part = load(write(tmp_path, "a.toml", WHEEL, form("mate.toml")))
    (cutter,) = part.cutters
    assert isinstance(cutter, FormCutter)
    assert isinstance(cutter.of, WheelTable)
    assert teeth_of(cutter.of) == 24


def test_a_form_cutter_may_be_ground_to_its_own_wheel(tmp_path: Path) -> None:
    """Only the wheel of the named file is read, so a part may name itself, or two each other."""
    write(tmp_path, "b.toml", WHEEL.replace("30", "24"), form("a.toml"))
    path = write(tmp_path, "a.toml", WHEEL, form("a.toml"), form("b.toml").replace("form", "g", 1))
    part = load(path)
    wheels = [cutter.of for cutter in part.cutters if isinstance(cutter, FormCutter)]
    assert [teeth_of(wheel) for wheel in wheels] == [30, 24]
    assert wheels[0] == part.wheel


def test_a_form_cutter_of_a_file_that_is_wrong(tmp_path: Path) -> None:
    """What is wrong in the other file is told at the key that names it; so is a missing file."""
    write(tmp_path, "b.toml", WHEEL.replace("30", "1"))
    path = write(
        tmp_path, "a.toml", WHEEL, form("b.toml"), form("c.toml").replace('"form"', '"g"', 1)
    )
    first, second = problems(path, drawer=False)
    assert first.where.startswith("cutter[1].of, line")
    assert "wheel.teeth" in first.message
    assert "no such file" in second.message


def drawing(path: Path, *edges: tuple[str, list[tuple[float, float]]]) -> None:
    """A DXF of polylines by layer, made by the library itself."""
    document = ezdxf.new("R2010", units=4)
    for layer, points in edges:
        document.modelspace().add_lwpolyline(points, dxfattribs={"layer": layer})
    document.saveas(path)


def drawn(layer: str = "EDGE", dxf: str = "edge.dxf") -> str:
    """A cutter drawn on a layer."""
    return f'[[cutter]]\nname = "d"\nkind = "drawn"\ndxf = "{dxf}"\nlayer = "{layer}"\n'


VEE = [(-2.0, 3.0), (0.0, 0.0), (2.0, 3.0)]


def test_a_drawn_cutter_is_read_from_its_layer(tmp_path: Path) -> None:
    """Its points are those of the polyline, in mm; the layer's name in any case."""
    drawing(tmp_path / "edge.dxf", ("EDGE", VEE), ("FRAME", [(0, 0), (9, 0)]))
    (cutter,) = load_drawer(write(tmp_path, "d.toml", drawn("edge")))
    assert isinstance(cutter, DrawnCutter)
    assert cutter.points == ((-2.0, 3.0, 0.0), (0.0, 0.0, 0.0), (2.0, 3.0, 0.0))


@pytest.mark.parametrize(
    ("cutter", "where", "words"),
    [
        (drawn(dxf="none.dxf"), "cutter[1].dxf", "no such file"),
        (drawn("OTHER"), "cutter[1].layer", '"EDGE"'),
        (drawn("TWO"), "cutter[1].layer", "2 separate curves"),
        (drawn("CAP"), "cutter[1].dxf", "wrong way"),
        (drawn("LOOP"), "cutter[1].dxf", "crosses itself"),
        (drawn(dxf="d.toml"), "cutter[1].dxf", "no DXF drawing"),
        (drawn("DUST"), "cutter[1].layer", "nothing on this layer"),
        (drawn("FINE"), "cutter[1].layer", "up to 2000 can be read"),
        (drawn("FAR"), "cutter[1].layer", "LWPOLYLINE in line"),
    ],
)
def test_bad_drawings_are_told_by_key_path(
    tmp_path: Path, cutter: str, where: str, words: str
) -> None:
    """A missing file or layer, more than one curve, an edge that no cutter can have."""
    drawing(
        tmp_path / "edge.dxf",
        ("EDGE", VEE),
        ("TWO", VEE),
        ("TWO", [(5, 5), (6, 6)]),
        ("CAP", [(-2, 0), (0, 3), (2, 0)]),
        ("LOOP", [(4, 6), (-2, 0), (2, 0), (-4, 6)]),
        ("DUST", [(0, 0), (0.0007, 0.0007)]),
        ("FINE", [(k / 400 - 2.5, abs(k / 400 - 2.5)) for k in range(2001)]),
        ("FAR", [(-2, 3), (0, 0), (1e20, 3)]),
    )
    (problem,) = problems(write(tmp_path, "d.toml", cutter))
    assert f": {where}, line" in problem.where
    assert words in str(problem)


def test_a_part_without_cutters_sets_up_the_best_of_the_drawer_it_names(tmp_path: Path) -> None:
    """The job takes the drawer's cutters and says which one it chose; a name asked for wins."""
    blunt, right = (
        f'[[cutter]]\nname = "{name}"\nkind = "vee"\nincluded_angle = {angle}\ntip_radius = 0.1\n'
        for name, angle in (("blunt", 75), ("right", 60))
    )
    write(tmp_path, "mine.toml", blunt, right)
    made = job_for(load(write(tmp_path, "p.toml", 'drawer = "mine.toml"', WHEEL)))
    assert made.plan.cutter == "right"
    assert [f.where for f in made.findings if f.code == "cutter-chosen"] == ["setup.cutter"]
    asked = '[setup]\ncutter = "blunt"\n'
    made = job_for(load(write(tmp_path, "p.toml", 'drawer = "mine.toml"', WHEEL, asked)))
    assert made.plan.cutter == "blunt"
    assert "cutter-chosen" not in {f.code for f in made.findings}
