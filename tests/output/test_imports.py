"""What the rooms of drawing and output load, and when."""

from __future__ import annotations

import subprocess
import sys


def test_heavy_libraries_wait() -> None:
    """Importing drawing and output loads neither fontTools nor svgwrite nor reportlab."""
    code = (
        "import sys, pkgutil, importlib, profilegen.drawing as d, profilegen.output as o\n"
        "for room in (d, o):\n"
        "    for each in pkgutil.iter_modules(room.__path__, room.__name__ + '.'):\n"
        "        importlib.import_module(each.name)\n"
        "heavy = {'fontTools', 'svgwrite', 'reportlab', 'ezdxf', 'shapely'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
