"""The shipped part files: starters and examples, in the source tree or an installed package.

Owns how they are named. Refuses to change them; where they are is known to `part.shipped`.
"""

from __future__ import annotations

from typing import Final

from profilegen.part.shipped import STARTERS, drawer_path, templates_folder

EXAMPLES: Final = "examples"
DIVIDING: Final = "dividing"


def example_names() -> tuple[str, ...]:
    """The names of the shipped example parts, without `.toml`."""
    return tuple(sorted(path.stem for path in (templates_folder() / EXAMPLES).glob("*.toml")))


def example_bytes(name: str) -> bytes:
    """One shipped example part.

    Raises:
        FileNotFoundError: there is none of this name.
    """
    return (templates_folder() / EXAMPLES / f"{name}.toml").read_bytes()


def starter_kinds() -> tuple[str, ...]:
    """What can be started, such as `ratchet`: every starter comes in mm and in inches."""
    found = (templates_folder() / STARTERS).glob("*-mm.toml")
    return tuple(sorted(path.stem.removesuffix("-mm") for path in found))


def starter_text(kind: str, unit: str) -> str:
    """The starter part file of a kind, `unit` being `mm` or `in`.

    Raises:
        FileNotFoundError: there is none of this kind.
    """
    return (templates_folder() / STARTERS / f"{kind}-{unit}.toml").read_text(encoding="utf-8")


def dividing_files() -> tuple[tuple[str, bytes], ...]:
    """The shipped examples of dividing hardware: file name and contents."""
    folder = templates_folder() / DIVIDING
    return tuple((path.name, path.read_bytes()) for path in sorted(folder.glob("*.toml")))


def drawer_bytes(unit: str) -> bytes:
    """The shipped drawer of cutters, `unit` being `mm` or `in`."""
    return drawer_path(unit).read_bytes()


def title_of(text: str) -> str:
    """The title in the text of a part file."""
    import tomllib

    return str(tomllib.loads(text).get("title", ""))
