"""Derive the kernel's answers anew and compare them with the stored ones, or store them.

    python -m tests.oracles.derive --check     # needs the kernel only
    python -m tests.oracles.derive --write     # needs the kernel; keeps the stored dials
    python -m tests.oracles.derive --dials     # needs the package only; stores its dials

The exit code is 1 when an answer differs or is missing.
"""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path
from typing import Any

HOME = Path(__file__).parent
ANSWERS, DIALS = HOME / "answers.json", HOME / "dials.json"
SAME = 1e-9
"""Relative, and absolute below 1: far above the kernel's rounding, far below any real
difference."""


def same(left: float | str, right: float | str) -> bool:
    """Whether two derivations of one number, or word, agree."""
    if isinstance(left, str) or isinstance(right, str):
        return left == right
    return math.isclose(left, right, rel_tol=SAME, abs_tol=SAME)


def published_dials() -> dict[str, Any]:
    """The dials of every cut row and of every fit row as the package gives them."""
    return {"cut": dials_of_cuts(), "fits": dials_of_fits()}


def dials_of_cuts() -> dict[str, Any]:
    """The dials of every cut row."""
    from tests.oracles.rows import CUT

    return {name: _dials_of_plan(*row) for name, row in CUT.items()}


def dials_of_fits() -> dict[str, Any]:
    """The dials of every fit row."""
    from tests.oracles.rows import FITS

    return {name: _dials_at_best(*row) for name, row in FITS.items()}


def _dials_of_plan(wheel: Any, cutter: Any) -> list[dict[str, float]]:
    """As published for the machine."""
    from profilegen.job import job_for
    from profilegen.part.part import Part

    job = job_for(Part.from_dict({"units": "mm", "wheel": wheel, "cutter": [cutter]}))
    keys = ("offset", "tip_height", "wheel_angle")
    return [{key: cut[key] for key in keys} for cut in job.as_dict()["cuts"]]


def _dials_at_best(wheel: Any, cutter: Any) -> list[dict[str, float]]:
    """As the comparison of cutters has them, the usual way round; `turn` from base orientation."""
    from profilegen.cutting.compare import compared
    from profilegen.cutting.tools import tools_for
    from profilegen.forms.solve import solve
    from profilegen.part.part import Part

    part = Part.from_dict({"units": "mm", "wheel": wheel, "cutter": [cutter]})
    (match,) = compared(solve(part), [tools_for(part.cutters[0])[:1]], part.setup)
    return [
        {"offset": cut.offset, "tip_height": cut.tip.imag, "turn": math.degrees(cut.turn)}
        for cut in match.cuts
    ]


def derived() -> dict[str, Any]:
    """All answers, with the kernel that gave them."""
    from tests.oracles import kernel, recipe

    tables: dict[str, Any] = {}
    for table, name, numbers in recipe.derive(json.loads(DIALS.read_text())):
        tables.setdefault(table, {})[name] = numbers
    return {"kernel": kernel.PACKAGE, "version": kernel.kernel_version(), **tables}


def flat(tree: dict[str, Any], path: str = "") -> dict[str, float | str]:
    """Every number and word of a tree under its path, but not which kernel gave them."""
    found: dict[str, float | str] = {}
    for key, value in tree.items():
        if isinstance(value, dict):
            found |= flat(value, f"{path}{key} / ")
        elif path:
            found[path + key] = value
    return found


def check() -> int:
    """Compare; one line for each difference and one for the count."""
    stored, anew = flat(json.loads(ANSWERS.read_text())), flat(derived())
    failed = sorted(stored.keys() ^ anew.keys())
    failed += [key for key in stored.keys() & anew.keys() if not same(stored[key], anew[key])]
    for key in failed:
        sys.stdout.write(f"{key}: stored {stored.get(key)}, derived {anew.get(key)}\n")
    passed = len(stored.keys() | anew.keys()) - len(failed)
    sys.stdout.write(f"{passed} passed, {len(failed)} failed\n")
    return 1 if failed else 0


def _store(path: Path, tree: dict[str, Any]) -> None:
    path.write_text(json.dumps(tree, indent=1) + "\n")


def main(arguments: list[str]) -> int:
    """Do what the one argument asks."""
    match arguments:
        case ["--check"]:
            return check()
        case ["--write"]:
            _store(ANSWERS, derived())
        case ["--dials"]:
            _store(DIALS, published_dials())
        case _:
            sys.stderr.write(__doc__ or "")
            return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
