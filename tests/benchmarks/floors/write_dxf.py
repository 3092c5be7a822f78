"""Floor of `profilegen dxf`: the same imports, and ezdxf writing the same polylines from JSON."""

import json
import sys
from pathlib import Path

import ezdxf

from tests.benchmarks.floors.read_part import read


def write(rows: list[list[list[float]]], path: str) -> None:
    """One closed polyline a row."""
    document = ezdxf.new("R2010", units=4)
    for points in rows:
        document.modelspace().add_lwpolyline(points, format="xyb", close=True)
    document.saveas(path)


if __name__ == "__main__":
    read(sys.argv[1])
    write(json.loads(Path(sys.argv[2]).read_text(encoding="utf-8")), sys.argv[3])
