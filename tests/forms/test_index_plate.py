"""The index plate against holes drawn apart from it: circles of shapely, and plain trigonometry."""

from __future__ import annotations

import csv
import io
import math
from itertools import combinations
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from ezdxf.entities import LWPolyline
from shapely.geometry import Point

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.forms.solve import solve
from profilegen.job import Job, job_for
from profilegen.part.load import load
from profilegen.part.part import Part
from tests.cli.support import run

Keys = dict[str, Any]


def ring(holes: int = 24, circle: float = 70.0, hole: float = 4.0) -> Keys:
    """One circle of holes, mm."""
    return {"holes": holes, "circle_diameter": circle, "hole_diameter": hole}


def tables(*circles: Keys, **more: Any) -> Keys:
    """A plate of 120 mm."""
    wheel = {"kind": "index-plate", "outside_diameter": 120, "thickness": 6}
    return {"units": "mm", "wheel": {**wheel, "circles": list(circles)}, **more}


def plate(*circles: Keys, **more: Any) -> Job:
    """The job of such a plate."""
    return job_for(Part.from_dict(tables(*circles, **more)))


def test_it_has_no_teeth_and_its_circles_are_divided() -> None:
    """No toothing, no cut, a round and an index plan for each circle."""
    made = plate(ring(), ring(30, 90))
    assert (made.wheel.toothing, made.wheel.teeth, made.wheel.hand) == (None, 0, None)
    assert made.plan.cuts == ()
    assert [(of.count, of.diameter, of.size) for of in made.wheel.rounds] == [
        (24, 70.0, 4.0),
        (30, 90.0, 4.0),
    ]
    assert [plan.teeth for plan in made.indexes] == [24, 30]
    assert made.findings == ()


def test_the_holes_stand_where_drawing_puts_them(tmp_path: Path) -> None:
    """The DXF, read by ezdxf, has a hole at each place that cosine and sine give, of its size, and
    the list for the readout names the same places."""
    made = plate(ring(), ring(36, 108, 3))
    wanted = {
        (round(d / 2 * math.cos(k * math.tau / n), 6), round(d / 2 * math.sin(k * math.tau / n), 6))
        for n, d in ((24, 70), (36, 108))
        for k in range(n)
    }
    file = tmp_path / "plate.dxf"
    file.write_bytes(made.dxf())
    found = set()
    for entity in ezdxf.readfile(file).modelspace().query("LWPOLYLINE CIRCLE"):
        if entity.dxf.layer == "HOLES":
            if entity.dxftype() == "CIRCLE":
                at = complex(entity.dxf.center.x, entity.dxf.center.y)
            else:
                assert isinstance(entity, LWPolyline)
                first, second = [complex(x, y) for x, y, *_ in entity.get_points()]
                at = (first + second) / 2
            found.add((round(at.real, 6) + 0.0, round(at.imag, 6) + 0.0))
    assert found == {(x + 0.0, y + 0.0) for x, y in wanted}
    told = made.as_dict()["circles"]
    listed = {
        (round(at["x"], 6) + 0.0, round(at["y"], 6) + 0.0) for one in told for at in one["places"]
    }
    assert listed == found


@pytest.mark.parametrize(
    ("circles", "code"),
    [
        ((ring(24, 117),), "hole-breaks-out"),
        ((ring(24, 114),), "web-thin"),
        ((ring(60, 70),), "hole-breaks-out"),
        ((ring(40, 70),), "web-thin"),
        ((ring(), ring(30, 74)), "hole-breaks-out"),
        ((ring(), ring(24, 80.5)), "web-thin"),
        ((ring(24, 72), ring(24, 84.5)), ""),
    ],
)
def test_what_is_too_near_is_told(circles: tuple[Keys, ...], code: str) -> None:
    """By shapely: holes that cut into each other or the rim are refused, thin webs are cautions."""
    holes = [
        Point(
            each["circle_diameter"] / 2 * math.cos(k * math.tau / each["holes"]),
            each["circle_diameter"] / 2 * math.sin(k * math.tau / each["holes"]),
        )
        for each in circles
        for k in range(each["holes"])
    ]
    least = min(
        *(one.distance(other) for one, other in combinations(holes, 2)),
        *(60.0 + 2.0 - hole.distance(Point(0, 0)) for hole in holes),
    )
    web = least - 4.0
    assert code == ("hole-breaks-out" if web <= 0 else "web-thin" if web < 2.0 else "")
    try:
        told = solve(Part.from_dict(tables(*circles))).findings
    except CannotMakeError as refusal:
        told = refusal.findings
    assert {one.code for one in told} == ({code} if code else set())
    if code:
        assert min(one.value or 0.0 for one in told) == pytest.approx(web, abs=1e-9)


def test_a_bore_between_its_holes_is_told() -> None:
    """A bore that reaches into the inner circle leaves no web."""
    made = plate(ring(), bore={"kind": "round", "diameter": 65})
    assert [one.code for one in made.findings] == ["web-thin"]
    assert made.findings[0].value == pytest.approx(35 - 2 - 32.5)


def test_every_circle_is_divided_by_the_hardware() -> None:
    """A worm of 60 with a circle of 24 divides 24 and 30 exactly: 2 1/2 and 2 turns a hole."""
    worm = {"kind": "worm", "ratio": 60, "plates": [[24]]}
    made = plate(ring(), ring(30, 90), dividing=worm)
    first, second = made.indexes
    assert first.stops[1].reading == "2 turns, hole 12 of 24"
    assert second.stops[1].reading == "2 turns"
    assert first.exact
    assert second.exact


def test_one_number_of_a_way_is_refused_for_two_circles() -> None:
    """Each circle has ways of its own."""
    worm = {"kind": "worm", "ratio": 60, "plates": [[24]], "way": 1}
    with pytest.raises(InputError, match="ways of its own"):
        _ = plate(ring(), ring(30, 90), dividing=worm).indexes


@pytest.mark.parametrize(
    ("wheel", "where"),
    [
        ({"circles": []}, "wheel.circles"),
        ({"circles": 5}, "wheel.circles"),
        ({"circles": [5]}, "wheel.circles[1]"),
        ({"circles": [{**ring(), "holes": 1}]}, "wheel.circles[1].holes"),
        ({"circles": [ring(), {**ring(), "hole": 1}]}, "wheel.circles[2].hole"),
        ({"teeth": 30, "circles": [ring()]}, "wheel.teeth"),
    ],
)
def test_what_is_wrong_with_circles_is_told_by_its_place(wheel: Keys, where: str) -> None:
    """Each problem by the circle it stands in; a plate has no teeth."""
    mapping = tables(ring())
    mapping["wheel"] |= wheel
    with pytest.raises(InputError) as error:
        Part.from_dict(mapping)
    assert [one.where for one in error.value.problems] == [where]


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a started plate and a started pulley."""
    monkeypatch.chdir(tmp_path)
    for kind in ("index-plate", "belt-pulley"):
        assert run("start", kind).exit_code == 0
        assert (tmp_path / f"{kind}.svg").is_file()
    return tmp_path


@pytest.mark.parametrize("kind", ["index-plate", "belt-pulley"])
@pytest.mark.parametrize(
    "words",
    [("check",), ("check", "--json"), ("gauge",), ("stops",), ("stops", "--json"),
     ("template", "--out", "-"), ("dxf", "--out", "-"), ("sheet", "--out", "-"), ("make",)],
    ids=" ".join,
)  # fmt: skip
def test_a_wheel_without_teeth_goes_through_every_command(
    bench: Path, kind: str, words: tuple[str, ...]
) -> None:
    """Nothing ends in a fault; check and gauge speak of no tooth form and no trial cut."""
    command, *more = words
    done = run(command, f"{kind}.toml", *more)
    assert done.exit_code == 0, done.output
    if words in (("check",), ("gauge",)):
        said = done.stdout.lower()
        assert not [word for word in ("land", "trial", "lap,", "over pins") if word in said]
        assert kind == "belt-pulley" or "tooth" not in said
    if command == "make":
        assert (bench / "out" / kind / f"{kind}-sheet.pdf").is_file()


@pytest.mark.parametrize("kind", ["index-plate", "belt-pulley"])
def test_it_can_be_asked_for(bench: Path, kind: str) -> None:
    """Every answer left at its default, the file is written, circles and all."""
    done = run("start", kind, "--ask", "--out", "asked.toml", answers="\n" * 60)
    assert done.exit_code == 0, done.output
    asked, starter = (load(bench / name) for name in ("asked.toml", f"{kind}.toml"))
    assert asked.wheel == starter.wheel


@pytest.mark.parametrize("kind", ["index-plate", "belt-pulley"])
@pytest.mark.parametrize("command", ["trial", "cutters"])
def test_commands_of_cutters_are_refused(bench: Path, kind: str, command: str) -> None:
    """In one sentence, as a matter of the input."""
    del bench
    done = run(command, f"{kind}.toml")
    assert done.exit_code == 2
    assert "no teeth for a cutter to form" in done.stderr


def test_the_drilling_list_is_of_every_hole(bench: Path) -> None:
    """A row a hole with its drill, circle by circle."""
    del bench
    rows = list(csv.DictReader(io.StringIO(run("stops", "index-plate.toml").stdout)))
    assert len(rows) == 24 + 30 + 36
    assert rows[24] | {"done": ""} == {
        "circle": "2", "hole": "1", "angle_deg": "0.0000", "x_mm": "45.0000", "y_mm": "0.0000",
        "hole_mm": "4.0000", "drill": "drill 4.0 mm", "done": "",
    }  # fmt: skip


def test_a_cutter_of_no_use_is_told_and_one_of_no_teeth_refused() -> None:
    """A plate needs no cutter; no form cutter has the space of a plate."""
    vee = {"name": "v", "kind": "vee", "included_angle": 60}
    assert [one.code for one in plate(ring(), cutter=[vee]).findings] == ["cutter-needless"]
    form = {"name": "f", "kind": "form", "of": tables(ring())["wheel"]}
    gear = {"kind": "spur-gear", "teeth": 20, "module": 1, "thickness": 6}
    with pytest.raises(CannotMakeError) as refusal:
        job_for(Part.from_dict({"units": "mm", "wheel": gear, "cutter": [form]}))
    assert [one.code for one in refusal.value.findings] == ["form-without-teeth"]


def test_a_smaller_plate_keeps_its_holes() -> None:
    """On a blank as measured only the outside is another."""
    made = plate(ring(), blank={"diameter": 119.5})
    assert made.made.radius == pytest.approx(59.75)
    assert made.made.rounds == made.wheel.rounds
