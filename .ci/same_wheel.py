"""Whether two wheels hold the same files with the same contents, and what a wheel must hold.

`python .ci/same_wheel.py FROM-THE-TREE.whl FROM-THE-SDIST.whl` ends with what differs, if anything.
"""

import sys
import zipfile

NEEDED = (
    "profilegen/py.typed",
    "profilegen/templates/examples/take-up-ratchet.toml",
    "profilegen/drawing/fonts/LICENSE.txt",
)


def contents(path: str) -> dict[str, bytes]:
    """The files of a wheel by name."""
    with zipfile.ZipFile(path) as wheel:
        return {name: wheel.read(name) for name in wheel.namelist()}


def differences(tree: dict[str, bytes], sdist: dict[str, bytes]) -> list[str]:
    """What one has and the other has not or has otherwise, and what both lack."""
    odd = [name for name in sorted({*tree, *sdist}) if tree.get(name) != sdist.get(name)]
    told = [f"{name}: not the same from the tree and from the sdist" for name in odd]
    told += [f"{name}: missing" for name in NEEDED if name not in tree]
    return told + [f"{name}: no part of the program" for name in tree if name.startswith("tests/")]


if __name__ == "__main__":
    sys.exit("\n".join(differences(*map(contents, sys.argv[1:]))) or 0)
