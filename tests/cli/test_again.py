"""A second `make`: what is unchanged is left alone, anything else is made again."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from profilegen.cli import opening
from profilegen.cli.batch import FEW
from tests.cli.support import changed, files_below, real, run

PART = "take-up-ratchet"
UNCHANGED = f"{PART}.toml: unchanged, its files stand in {Path('out', PART)}"


def times(folder: Path) -> dict[str, int]:
    """When each file below a folder was written, the record too."""
    return {str(path): path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()}


def is_made(*words: str) -> bool:
    """Whether a second run makes the part again, exit code 0."""
    done = run(f"{PART}.toml", *words)
    assert done.exit_code == 0, done.stderr
    return UNCHANGED not in done.stderr


def test_what_is_unchanged_is_not_made_again(shop: Path) -> None:
    """That is told, no file is touched, and nothing is worked out: the room that solves is not
    even imported."""
    run(f"{PART}.toml")
    before = times(shop / "out")
    code = (
        "import sys, profilegen.cli.program as program\n"
        "try: program.main(sys.argv[1:])\n"
        "finally: print('profilegen.job' in sys.modules)\n"
    )
    done = real(f"{PART}.toml", code=code)
    assert (done.returncode, done.stdout.strip()) == (0, b"False")
    said = done.stderr.decode().splitlines()
    assert said == [f"{PART}.toml: outside diameter 38.000 mm (1.4961 in)", UNCHANGED]
    assert times(shop / "out") == before


def test_any_option_or_file_that_changed_makes_it_again(shop: Path) -> None:
    """Another paper, unit or version; the part's text; a drawer that appears beside it, and then
    an edit of it; another version of the program."""
    part = shop / f"{PART}.toml"
    text = part.read_text().replace('cutter = "single-point 60"\n', "")
    head, tail = text.split("[[cutter]]", 1)
    part.write_text(head + tail[tail.index("\n[setup]") :])
    assert is_made()
    for words in (["--paper", "Letter"], ["--units", "in"], ["--dxf-version", "R12"], []):
        assert is_made(*words)
        assert not is_made(*words)
    changed(part, "Cloth", "New cloth")
    assert is_made()
    assert run("start", "drawer").exit_code == 0
    assert is_made()
    assert not is_made()
    changed(shop / "drawer.toml", "tip_radius = 0.2", "tip_radius = 0.21")
    assert is_made()
    assert not is_made()
    changed(shop / "out" / PART / ".profilegen.json", '"version": "', '"version": "0')
    assert is_made()
    assert not is_made()


def test_a_file_that_is_missing_is_made_again(shop: Path) -> None:
    """It alone is new; the others are told as they are."""
    run(f"{PART}.toml")
    before = files_below(shop / "out")
    (shop / "out" / PART / f"{PART}.dxf").unlink()
    done = run(f"{PART}.toml")
    assert done.exit_code == 0
    assert done.stderr.count("(unchanged)") == 8
    assert files_below(shop / "out") == before


def test_a_refused_part_is_refused_again(shop: Path) -> None:
    """Unchanged, it has the exit code and the words of its first run; so has a caution, and a file
    that is left from before the cutter was changed."""
    run(f"{PART}.toml")
    changed(shop / f"{PART}.toml", 'included_angle = "60 deg"', 'included_angle = "70 deg"')
    first, second = run(f"{PART}.toml"), run(f"{PART}.toml")
    assert (first.exit_code, second.exit_code) == (3, 3)
    for words in (
        "refused: cutter-too-wide",
        "from an earlier run",
        f"{PART}-cutter-DO-NOT-CUT.dxf",
    ):
        assert words in first.stderr
        assert words in second.stderr
    grave = [line for line in first.stderr.splitlines() if line.startswith(("refused", "caution"))]
    again = [line for line in second.stderr.splitlines() if line.startswith(("refused", "caution"))]
    assert grave == again
    assert UNCHANGED in second.stderr
    assert "refused" in run("--quiet", f"{PART}.toml").stderr


def test_a_part_that_cannot_be_made_is_tried_again(shop: Path) -> None:
    """Nothing stands for it, so every run ends as the first; an older run's files do not count."""
    run(f"{PART}.toml")
    changed(shop / f"{PART}.toml", "land = 0.4", "land = 4.4")
    assert [run(f"{PART}.toml").exit_code for _ in range(2)] == [3, 3]
    changed(shop / f"{PART}.toml", "land = 4.4", "land = 0.4")
    assert not is_made()


def test_standard_input_is_known_again(shop: Path) -> None:
    """By its text; another text of the same number is made."""
    text = (shop / f"{PART}.toml").read_text()
    assert run("make", "-", answers=text).exit_code == 0
    again = run("make", "-", answers=text)
    assert "standard input: unchanged" in again.stderr
    other = run("make", "-", answers=text.replace("teeth = 30", "teeth = 28"))
    assert "unchanged" not in other.stderr
    assert other.exit_code == 0


@pytest.mark.parametrize(("key", "value"), [("findings", 3), ("findings", [{}]), ("files", [])])
def test_a_damaged_record_counts_for_nothing(shop: Path, key: str, value: object) -> None:
    """The part is made; what it would write stands there already."""
    run(f"{PART}.toml")
    record = shop / "out" / PART / ".profilegen.json"
    told = json.loads(record.read_text())
    record.write_text(json.dumps({**told, key: value}))
    assert is_made("--force")


def test_of_many_only_what_changed_is_made(shop: Path) -> None:
    """The summary counts made, unchanged and failed; the exit code is the gravest of all, told in
    the order of the files."""
    source = (shop / f"{PART}.toml").read_text()
    files = [f"wheel-{teeth}.toml" for teeth in range(26, 26 + FEW + 2)]
    for file in files:
        (shop / file).write_text(source.replace("teeth = 30", f"teeth = {file[6:8]}"))
    (shop / "bad.toml").write_text("teeth = ")
    assert run("make", *files[:-1]).exit_code == 0
    changed(shop / files[0], "land = 0.4", "land = 0.5")
    done = run("make", *files, "bad.toml")
    assert done.exit_code == 2
    counts = f"{len(files) + 1} parts in out: 2 made, {len(files) - 2} unchanged, 1 failed"
    assert done.stderr.splitlines()[-2:] == [counts, "look at: bad.toml"]
    told = [line.split(":")[0] for line in done.stderr.splitlines() if "outside diam" in line]
    assert told == files


def test_a_file_edited_while_it_was_read_is_made_again(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An editor that saves between reading and recording: the next run does not take the old
    outputs for those of the new text."""
    part, real_opened = shop / f"{PART}.toml", opening.opened

    def opened(*words: Any) -> Any:
        found = real_opened(*words)
        changed(part, "teeth = 30", "teeth = 28")
        return found

    monkeypatch.setattr(opening, "opened", opened)
    run(f"{PART}.toml")
    monkeypatch.undo()
    monkeypatch.chdir(shop)
    assert is_made()
    made = json.loads((shop / "out" / PART / f"{PART}.json").read_text())
    assert made["wheel"]["teeth"] == 28
