"""The registry: every model is where it says, and only the kinds named are imported."""

from __future__ import annotations

import subprocess
import sys
from importlib import import_module

import pytest

from profilegen.part import kinds
from tests.part.samples import TAKE_UP

EVERY = [(table, kind) for table, names in kinds.KINDS.items() for kind in names]
EVERY += [(table, "") for table in kinds.SINGLE]


@pytest.mark.parametrize(("table", "kind"), EVERY)
def test_every_model_is_found_and_every_key_is_explained(table: str, kind: str) -> None:
    """Each key of each kind has one plain sentence that says what it is."""
    for key, field in kinds.model(table, kind).model_fields.items():
        assert field.description, key
        assert field.description.endswith("."), key
        assert field.description[0].isupper(), key


def test_every_class_of_a_kind_is_in_the_registry() -> None:
    """No model is forgotten: every class of keys that names its own kind has its line."""
    known = {
        place for name, names in kinds.KINDS.items() if name != "wheel" for place in names.values()
    }
    found = {
        f"{file}:{name}"
        for file in ("bore_tables", "cutter_tables", "dividing_tables")
        for name, value in vars(import_module(f"profilegen.part.{file}")).items()
        if isinstance(value, type)
        and "kind" in vars(value).get("__annotations__", {})
        and value.__module__.endswith(file)
        and name != "DividingTable"
    }
    assert found == known


def test_reading_a_file_imports_only_the_kinds_it_names() -> None:
    """Reading does not grow with the number of kinds, nor pay for error texts it does not need."""
    code = (
        "import sys; from profilegen.part.load import load; load(sys.argv[1]);"
        "print(*sorted(name for name in sys.modules if name.startswith('profilegen.')))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, str(TAKE_UP)], capture_output=True, text=True, check=True
    )
    names = [name.removeprefix("profilegen.") for name in run.stdout.split()]
    tables = [name for name in names if name.endswith("_tables")]
    assert tables == ["part.bore_tables", "part.cutter_tables"]
    assert "forms.ratchet" in names
    assert "forms.serrated" not in names
    told = {
        "nearest",
        "refusals",
        "toml_lines",
        "toml_faults",
        "model_errors",
        "synonyms",
        "schema",
    }
    assert not {f"part.{name}" for name in told} & set(names)


def test_units_and_registry_need_no_heavy_library() -> None:
    """Units, errors and the registry come up without pydantic or numpy."""
    code = (
        "import sys, profilegen.units, profilegen.errors, profilegen.part.kinds;"
        "print('pydantic' in sys.modules, 'numpy' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "False"]
