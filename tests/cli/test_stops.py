"""`stops` on dividing hardware."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.support import run

PART = "take-up-ratchet.toml"


def with_hardware(shop: Path, text: str) -> str:
    """The example part with a table `[dividing]`."""
    path = shop / "divided.toml"
    path.write_text((shop / PART).read_text() + "\n[dividing]\n" + text, encoding="utf-8")
    return path.name


def test_json_has_the_agreed_keys(shop: Path) -> None:
    """The keys are those of the contract, with and without hardware."""
    wanted = ["method", "exact", "worst_error_arcmin", "worst_error_mm", "ways", "stops"]
    name = with_hardware(shop, 'kind = "plate"\nholes = 36\nvernier = 10\n')
    for file, method in ((PART, "free"), (name, "direct")):
        plan = json.loads(run("stops", file, "--json").stdout)
        assert list(plan) == wanted
        assert (plan["method"], plan["exact"], len(plan["stops"])) == (method, True, 30)
        keys = ["stop", "lap", "angle", "set_angle", "error_arcmin", "reading"]
        assert list(plan["stops"][1]) == keys


def test_inexact_needs_to_be_allowed(shop: Path) -> None:
    """Without --allow-error the exit code is 3 and the finding says what would pass."""
    name = with_hardware(shop, 'kind = "plate"\nholes = 36\nvernier = 10\n')
    done = run("stops", name, "--teeth", "32")
    assert (done.exit_code, done.stdout) == (3, "")
    assert "index-inexact" in done.stderr
    assert run("stops", name, "--teeth", "32", "--allow-error").exit_code == 0


def test_named_file_and_starters(shop: Path) -> None:
    """Each example of `start dividing` can be named in a part and gives a plan and a sheet."""
    assert run("start", "dividing", "--out", "hardware").exit_code == 0
    text = (shop / PART).read_text()
    for path in sorted((shop / "hardware").glob("*.toml")):
        (shop / "part.toml").write_text(f'dividing = "hardware/{path.name}"\n{text}')
        done = run("stops", "part.toml", "--allow-error")
        assert done.exit_code == 0, done.stderr
        assert "31" in done.stdout
        sheet = run("stops", "part.toml", "--allow-error", "--out", f"{path.stem}.svg")
        assert sheet.exit_code == 0, sheet.stderr


@pytest.mark.parametrize(
    "text",
    [
        'kind = "worm"\nratio = 0\n',
        'kind = "plate"\nholes = 1\n',
        'kind = "plate"\nvernier = 10\n',
        'kind = "notched"\nnotches = 30\nvernier = 2\n',
        'kind = "table"\nratio = 90\ngraduation = "7 min"\n',
        'kind = "worm"\nratio = 40\nplates = [[1]]\n',
    ],
)
def test_hardware_that_cannot_exist(shop: Path, text: str) -> None:
    """It is refused as input, with the key."""
    done = run("stops", with_hardware(shop, text))
    assert (done.exit_code, "dividing." in done.stderr) == (2, True), done.stderr
