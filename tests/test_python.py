"""The package from Python: the README's lines, the files of a job, one number of a wheel."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest

import profilegen
from profilegen.output.registry import OUTPUTS
from tests.cli.support import ROOT, environment, real
from tests.parts import job

PART = ROOT / "templates" / "examples" / "take-up-ratchet.toml"


def test_the_readmes_lines_write_what_the_commands_write(tmp_path: Path) -> None:
    """Run as they stand, beside the templates: DXF with bore, sheet, template."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    found = re.search(r"```python\n(.*?)```", readme, re.DOTALL)
    assert found
    (tmp_path / "templates").symlink_to(ROOT / "templates")
    subprocess.run([sys.executable, "-c", found[1]], cwd=tmp_path, env=environment(), check=True)
    data = (tmp_path / "wheel.dxf").read_bytes()
    space = ezdxf.read(io.StringIO(data.decode())).modelspace()
    assert {entity.dxf.layer for entity in space} == {"OUTLINE", "HOLES"}
    sheet = (tmp_path / "wheel-sheet.pdf").read_bytes()
    template = (tmp_path / "wheel-template.svg").read_bytes()
    for made, *words in ((data, "dxf"), (sheet, "sheet", "--pdf"), (template, "template")):
        assert made == real(words[0], str(PART), *words[1:], "--out", "-").stdout


def test_the_files_of_a_job_take_the_choices_of_the_commands() -> None:
    """Version, kind, paper and scale; what is asked for by name is the same file."""
    made = job(bore={"kind": "round", "diameter": 6})
    assert b"AC1009" in made.dxf("R12")
    assert b"AC1024" in made.dxf()
    assert made.sheet("svg", "Letter") != made.sheet("svg", "A4")
    assert made.template("svg", scale=10.0) != made.template("svg")
    assert profilegen.build(made, "dxf", profilegen.Options()).data == made.dxf()
    assert made.template() == profilegen.build(made, "template-pdf", profilegen.Options()).data


def test_nothing_is_said_on_the_way() -> None:
    """Not even of the unit that an R12 file cannot hold: a library's own remarks stay out."""
    code = f"import profilegen as p; p.job_for(p.load({str(PART)!r})).dxf('R12')"
    said = real(code=code)
    assert (said.returncode, said.stdout, said.stderr) == (0, b"", b"")


def test_every_public_name_is_there() -> None:
    """And no other; what can be asked for by name is told."""
    for name in profilegen.__all__:
        assert getattr(profilegen, name) is not None
    assert {*profilegen.__all__} <= {*dir(profilegen)}
    with pytest.raises(AttributeError, match="typo"):
        profilegen.typo  # noqa: B018
    with pytest.raises(KeyError):
        profilegen.build(job(), "typo", profilegen.Options())
    assert "json" in OUTPUTS


def test_a_misspelt_fact_is_told() -> None:
    """With the numbers that there are; a text is no number; what is given for the case is taken."""
    wheel = job().wheel
    assert wheel.fact("teeth") == 30
    for key in ("typo", "rotation"):
        with pytest.raises(KeyError, match="root_diameter"):
            wheel.fact(key)
        assert wheel.fact(key, None) is None
