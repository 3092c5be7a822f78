"""Which tables and kinds there are, as strings: a module is imported when a file names its kind.

Owns: the registry. A new tooth form is one module, a new kind of any other table one class in the
file of that table, and one line here.
Refuses: importing anything before it is asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from profilegen.part.base import Table

KINDS: Final[dict[str, dict[str, str]]] = {
    "wheel": {
        "ratchet": "profilegen.forms.ratchet",
        "serrated": "profilegen.forms.serrated",
        "spur-gear": "profilegen.forms.spur_gear",
        "form-cut-gear": "profilegen.forms.form_cut_gear",
        "sprocket": "profilegen.forms.sprocket",
        "clock-wheel": "profilegen.forms.clock_wheel",
        "clock-pinion": "profilegen.forms.clock_pinion",
        "belt-pulley": "profilegen.forms.belt_pulley",
        "index-plate": "profilegen.forms.index_plate",
    },
    "bore": {
        "none": "bore_tables:NoBore",
        "round": "bore_tables:RoundBore",
        "square": "bore_tables:SquareBore",
        "hexagon": "bore_tables:HexagonBore",
        "keyed": "bore_tables:KeyedBore",
        "d-bore": "bore_tables:DBore",
    },
    "cutter": {
        "vee": "cutter_tables:VeeCutter",
        "single-angle": "cutter_tables:SingleAngleCutter",
        "double-angle": "cutter_tables:DoubleAngleCutter",
        "slot": "cutter_tables:SlotCutter",
        "ball": "cutter_tables:BallCutter",
        "form": "cutter_tables:FormCutter",
        "drawn": "cutter_tables:DrawnCutter",
    },
    "dividing": {
        "plate": "dividing_tables:PlateDividing",
        "notched": "dividing_tables:NotchedDividing",
        "worm": "dividing_tables:WormDividing",
        "table": "dividing_tables:TableDividing",
        "motor": "dividing_tables:MotorDividing",
    },
}
"""Table -> kind -> where its model is, below `profilegen.part`; of a wheel, its tooth form."""

SINGLE: Final[dict[str, str]] = {
    "": "tables:Head",
    "hub": "tables:Hub",
    "holes": "tables:Holes",
    "setup": "tables:Setup",
    "setup.dials": "dials:Dial",
    "blank": "tables:Blank",
    "gauge": "measuring:Gauge",
    "tolerance": "measuring:Tolerance",
}
"""Table without kinds -> where its model is; the keys above all tables under the empty name."""

TABLES: Final = (
    "wheel",
    "bore",
    "hub",
    "holes",
    "cutter",
    "setup",
    "blank",
    "dividing",
    "gauge",
    "tolerance",
)
"""Every table of a part file, in the order they are read and reported."""

WITHIN: Final = ("setup.dials",)
"""Tables that stand within another table, one for each of several names."""

LISTS: Final = frozenset({"holes", "cutter"})
"""The tables that may stand more than once, each written in double brackets."""


def model(table: str, kind: str = "") -> type[Table]:
    """Return the model of one table of one kind, importing its module now.

    Raises:
        KeyError: there is no such table or kind.
    """
    if table == "wheel":
        keys: type[Table] = form_module(kind).FORM.keys
        return keys
    place = KINDS[table][kind] if table in KINDS else SINGLE[table]
    module, name = place.split(":")
    found: type[Table] = getattr(import_module(f"profilegen.part.{module}"), name)
    return found


def form_module(kind: str) -> ModuleType:
    """Return the module of a tooth form, importing it now; it holds the form as `FORM`.

    Raises:
        KeyError: there is no such kind of wheel.
    """
    return import_module(KINDS["wheel"][kind])


def bracketed(table: str) -> str:
    """Return how the head of a table is written, such as `[[cutter]]`."""
    return f"[[{table}]]" if table in LISTS else f"[{table}]"


def is_table(value: object) -> bool:
    """Tell whether a value of the top level was written as a table, one or many."""
    if isinstance(value, list):
        return bool(value) and all(isinstance(item, Mapping) for item in value)
    return isinstance(value, Mapping)
