"""The contributor guide's two recipes, followed with an invented form and an invented output."""

from __future__ import annotations

import cmath
import math
import sys
from types import ModuleType
from typing import Literal

import pytest
from pydantic import Field

from profilegen.cli.producing import kinds_for
from profilegen.forms.form import Form
from profilegen.forms.wheel import Size, Space, Wheel
from profilegen.geometry.chain import Role, chain
from profilegen.geometry.moves import repeated
from profilegen.job import Job, job_for
from profilegen.output import registry
from profilegen.part import kinds
from profilegen.part.base import WheelTable
from profilegen.part.fields import Length
from profilegen.part.part import Part


class Castellated(WheelTable):
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
            teeth=keys.teeth,
            hand=None,
            thickness=keys.thickness,
            radius=radius,
            root_radius=root,
            outline=repeated(pitch, keys.teeth),
            bore=None,
            holes=(),
            space=Space(pitch, None, None, complex(root)),
            sizes=(Size("kind", "castellated", "text", "Kind", "given"),),
            bore_sizes=(),
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
