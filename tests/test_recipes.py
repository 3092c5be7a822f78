"""The contributor guide's two recipes, followed with invented forms and an invented output."""

from __future__ import annotations

import cmath
import math
import re
import shutil
import sys
from collections.abc import Mapping
from pathlib import Path
from types import ModuleType
from typing import Literal

import pytest
from pydantic import Field

from profilegen.cli.producing import kinds_for
from profilegen.findings.finding import Refusal
from profilegen.forms.form import FIRST, LAST, Ask, Form
from profilegen.forms.wheel import Size, Toothing, Wheel
from profilegen.geometry.chain import Role, chain
from profilegen.geometry.moves import moved, repeated, rotation
from profilegen.job import Job, job_for
from profilegen.output import registry
from profilegen.part import kinds
from profilegen.part.base import ToothedTable
from profilegen.part.fields import Length
from profilegen.part.how_measured import Measured
from profilegen.part.part import Part
from profilegen.part.shipped import templates_folder
from tests.cli.support import run


class Castellated(ToothedTable):
    """A wheel with a straight chord across each space: the simplest form there is."""

    kind: Literal["castellated"] = Field(description="The tooth form: chords across the spaces.")
    outside_diameter: Length = Field(description="The diameter over the crests.")


class CastellatedForm(Form[Castellated]):
    """Half of each pitch is crest, the other half a chord."""

    kind = "castellated"
    keys = Castellated
    line = "chords across the spaces"

    def toothed(self, keys: Castellated) -> Wheel:
        """The wheel of these keys."""
        radius, step = keys.outside_diameter / 2, math.tau / keys.teeth
        points = [radius, radius * cmath.exp(0.5j * step), radius * cmath.exp(1j * step)]
        pitch = chain(points, [0.0, math.tan(step / 8)], [Role.ROOT, Role.LAND])
        root = radius * math.cos(step / 4)
        return Wheel(
            kind="castellated",
            thickness=keys.thickness,
            radius=radius,
            root_radius=root,
            outline=repeated(pitch, keys.teeth),
            toothing=Toothing(
                pitch, None, None, complex(root), teeth=keys.teeth, at_zero="face tip"
            ),
            sizes=(Size("kind", "castellated", "text", "Kind", "given"),),
            keys=keys,
        )


@pytest.fixture
def castellated(monkeypatch: pytest.MonkeyPatch) -> Job:
    """A job of the invented form, added as the recipe says: a model, a solver, one line each."""
    module = ModuleType("castellated")
    vars(module)["FORM"] = CastellatedForm()
    monkeypatch.setitem(sys.modules, "profilegen.forms.castellated", module)
    monkeypatch.setitem(kinds.KINDS["wheel"], "castellated", "profilegen.forms.castellated")
    keys = {"kind": "castellated", "teeth": 12, "outside_diameter": 40, "thickness": 3}
    cutter = {"name": "vee", "kind": "vee", "included_angle": 60, "tip_radius": 0.2}
    return job_for(Part.from_dict({"units": "mm", "wheel": keys, "cutter": [cutter]}))


def test_an_added_form_becomes_every_file(castellated: Job) -> None:
    """A new form reaches every output that needs no cut, without a change outside its own lines."""
    wanted = [name for name, output in registry.OUTPUTS.items() if not output.needs_cut]
    assert list(kinds_for(castellated)) == wanted
    assert all(registry.build(castellated, name, registry.Options()).data for name in wanted)
    assert [f.code for f in castellated.findings] == ["flank-curved"]


def test_an_added_output_is_made_with_the_others(
    castellated: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One line in the registry makes a new file."""
    line = registry.Output(
        "-count.txt", "keep", "how many teeth", False, lambda job, _: b"%d" % job.wheel.teeth
    )
    monkeypatch.setitem(registry.OUTPUTS, "count", line)
    assert kinds_for(castellated)[-1] == "count"
    made = registry.build(castellated, "count", registry.Options())
    assert (made.ending, made.data) == ("-count.txt", b"12")


class Fluted(ToothedTable):
    """A wheel with spaces that a form cutter with hollow sides leaves."""

    kind: Literal["fluted"] = Field(description="The tooth form: round-backed teeth, flat floors.")
    outside_diameter: Length = Field(description="The diameter over the crests.")
    depth: Length = Field(description="How deep the spaces are.")
    floor: Length = Field(description="The width of the flat floor of a space.")
    flank_radius: Length = Field(description="The radius of the teeth's round flanks.")


class FlutedForm(Form[Fluted]):
    """Convex arcs for flanks, square to a flat floor: symmetrical, curved, in one file."""

    kind = "fluted"
    keys = Fluted
    line = "round-backed teeth with flat floors"
    asked = (
        *FIRST,
        *(Ask("wheel", key) for key in ("outside_diameter", "thickness", "depth", "floor")),
        Ask("wheel", "flank_radius"),
        *(step for step in LAST if step.table != "cutter"),
    )

    def toothed(self, keys: Fluted) -> Wheel:
        """The wheel of these keys, the middle of tooth 1's crest at angle 0."""
        foot, tip, bulge = _flank(keys)
        step = math.tau / keys.teeth
        half = step / 2 - cmath.phase(tip)
        if half <= 0:
            raise Refusal("space-gone", 2 * half, 0.0)
        over = tip.conjugate() * cmath.exp(1j * step)
        points = [tip.conjugate(), foot.conjugate(), foot, tip, over]
        roles = [Role.FACE, Role.ROOT, Role.BACK, Role.LAND]
        straight_up = chain(points, [bulge, 0.0, bulge, math.tan(half / 2)], roles)
        pitch, radius = moved(straight_up, rotation(step / 2)), keys.outside_diameter / 2
        crest = Measured("Crest, straight across", "Caliper", (-0.05, 0.05, "0.05 mm"))
        root = Measured("Root diameter", "Point micrometer")
        across = 2 * radius * math.sin(half)
        return Wheel(
            kind="fluted",
            thickness=keys.thickness,
            radius=radius,
            root_radius=radius - keys.depth,
            outline=repeated(pitch, keys.teeth),
            toothing=Toothing(
                pitch, None, None, complex(pitch.points[1]), teeth=keys.teeth, at_zero="crest"
            ),
            sizes=(
                Size("kind", "fluted", "text", "Kind", "given"),
                Size("teeth", keys.teeth, "count", "Teeth", "given"),
                Size("outside_diameter", 2 * radius, "length", "Outside diameter", "given"),
                Size("crest", across, "length", "Crest", "solved", crest),
                Size("root_diameter", 2 * (radius - keys.depth), "length", "Root", "solved", root),
                Size("over_pins.pin", PIN, "length", "Diameter of the pins", "solved"),
            ),
            measured=("root_diameter", "crest", "over_pins"),
            driving="crest",
            keys=keys,
        )

    def varied(self, keys: Fluted, sizes: Mapping[str, float]) -> Fluted:
        """Another crest is another depth of the same cutter."""
        low, high = 0.5 * keys.depth, 1.5 * keys.depth
        for _ in range(60):
            middle = (low + high) / 2
            deep = keys.model_copy(update={"depth": middle})
            wide = self.toothed(deep).fact("crest") > sizes["crest"]
            low, high = (middle, high) if wide else (low, middle)
        return keys.model_copy(update={"depth": low})


PIN = 4.5
"""mm. A pin that rests on both flanks."""


def _flank(keys: Fluted) -> tuple[complex, complex, float]:
    """Foot and tip of a flank, the middle of its space on +x, and its bulge."""
    radius, round_of = keys.outside_diameter / 2, keys.flank_radius
    foot = complex(radius - keys.depth, keys.floor / 2)
    centre = foot + 1j * round_of
    reach = abs(centre)
    lean = math.acos((radius**2 + reach**2 - round_of**2) / (2 * radius * reach))
    tip = radius * cmath.exp(1j * (cmath.phase(centre) - lean))
    sweep = cmath.phase((tip - centre) / (foot - centre))
    return foot, tip, math.tan(sweep / 4)


FLUTED = {
    "kind": "fluted", "teeth": 12, "outside_diameter": 40.0, "thickness": 6.0, "depth": 4.0,
    "floor": 2.0, "flank_radius": 6.0,
}  # fmt: skip

WHEEL = """[wheel]
kind = "fluted"
teeth = 12
outside_diameter = 40.0         # over the crests
thickness = 6.0                 # width of the rim
depth = 4.0                     # of the spaces
floor = 2.0                     # of a space
flank_radius = 6.0              # of a tooth

"""


def starter_of(gear: str) -> str:
    """The starter of a gear with the wheel of another form, its cutter of "this wheel" too."""
    before, _, rest = gear.partition("[wheel]\n")
    return f"{before}{WHEEL}{rest[rest.index('[bore]') :]}".replace("spur-gear", "fluted")


@pytest.fixture
def fluted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, the form and its starter added as the recipe says."""
    module = ModuleType("fluted")
    vars(module)["FORM"] = FlutedForm()
    monkeypatch.setitem(sys.modules, "profilegen.forms.fluted", module)
    monkeypatch.setitem(kinds.KINDS["wheel"], "fluted", "profilegen.forms.fluted")
    shipped = tmp_path / "templates"
    shutil.copytree(templates_folder(), shipped)
    starters = shipped / "starters"
    text = (starters / "spur-gear-mm.toml").read_text()
    (starters / "fluted-mm.toml").write_text(starter_of(text))
    monkeypatch.setattr("profilegen.cli.templates.templates_folder", lambda: shipped)
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    return work


RATCHET_WORDS = re.compile(r"(?i)\b(lands?|faces?|hook|pawl|hand)\b")
"""What no paper of a symmetrical wheel with curved flanks speaks of; a face is also that of the
wheel, which is called its front."""


@pytest.mark.parametrize(
    "words",
    [("check",), ("gauge",), ("cutters",), ("stops",), ("trial", "--take", "over_pins=46.0"),
     ("words", "undercut"), ("check", "--json"), ("template", "--out", "-"),
     ("dxf", "--out", "-"), ("sheet", "--out", "-")],
    ids=" ".join,
)  # fmt: skip
def test_a_curved_form_goes_through_every_command(fluted: Path, words: tuple[str, ...]) -> None:
    """Started by its kind, then every command, and no word of a ratchet in what people read."""
    assert run("start", "fluted").exit_code == 0
    assert b"fluted" in (fluted / "fluted.svg").read_bytes()
    command, *more = words
    done = run(*words) if command == "words" else run(command, "fluted.toml", *more)
    assert done.exit_code == 0, done.stderr
    assert done.stdout
    if not {"--json", "-"} & set(more):
        assert not RATCHET_WORDS.search(done.stdout), done.stdout


def test_a_curved_form_is_made_asked_for_and_explained(fluted: Path) -> None:
    """All files with the record sheet; the questions answered with their defaults; its keys."""
    asked = run("start", "fluted", "--ask", answers="\n" * 60)
    assert asked.exit_code == 0, asked.stdout + asked.stderr
    assert run("fluted.toml").exit_code == 0
    made = {path.name for path in (fluted / "out" / "fluted").iterdir()}
    assert {"fluted.dxf", "fluted-sheet.pdf", "fluted-record.pdf", "fluted.json"} <= made
    told = run("words", "flank_radius").stdout
    assert "round flanks" in told


def test_trial_cuts_of_a_curved_form_are_those_of_its_space(fluted: Path) -> None:
    """The cutter of its own space cuts to the whole depth on centre; infeed still to go lifts a
    pin by as much: 2 mm over an even count's pins for each mm (plane trigonometry)."""
    cutter = {"name": "own", "kind": "form", "of": FLUTED}
    made = job_for(Part.from_dict({"units": "mm", "wheel": FLUTED, "cutter": [cutter]}))
    (cut,) = made.plan.cuts
    assert (cut.offset, cut.radial_depth) == pytest.approx((0.0, 4.0), abs=1e-6)
    pins = made.taken["over_pins"]
    assert pins.at(0.1) - pins.at(0.0) == pytest.approx(0.2, abs=1e-9)
    assert all(feature.limits.has_nominal for feature in made.gauges.features)
