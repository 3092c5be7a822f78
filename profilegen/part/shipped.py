"""Where the files that come with the program are, in the source tree or an installed package.

Owns the folder, and its drawers. Refuses to change them.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Final

STARTERS: Final = "starters"
DRAWERS: Final = "drawers"

_DRAWERS: Final = {"mm": "metric", "in": "inch"}


def templates_folder() -> Path:
    """The folder of shipped files: inside the package when installed, else beside it.

    Raises:
        FileNotFoundError: neither is there, so that the package is not whole.
    """
    package = Path(str(files("profilegen")))
    for folder in (package / "templates", package.parent / "templates"):
        if (folder / STARTERS).is_dir():
            return folder
    raise FileNotFoundError(f"no shipped part files at {package / 'templates'}")


def drawer_path(unit: str) -> Path:
    """The shipped drawer of a unit.

    Args:
        unit: mm or in; a drawer's sizes are those that are sold in it.

    Raises:
        KeyError: it is another word.
    """
    return templates_folder() / DRAWERS / f"{_DRAWERS[unit]}.toml"
