"""`make`: everything of one part or of many."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import click
import pytest

from profilegen import job_for, load
from profilegen.cli import producing
from profilegen.cli.batch import FEW
from profilegen.cli.spare import spare_name
from profilegen.cli.writing import Outgoing
from profilegen.dxf.writing import Layer, dxf_bytes
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.geometry.chain import chain
from profilegen.job import Job
from tests.cli.support import changed, environment, files_below, real, run

ENDINGS = [
    "-cutter-DO-NOT-CUT.dxf",
    "-record.pdf",
    "-sheet.pdf",
    "-sheet.svg",
    "-stops.csv",
    "-template.pdf",
    "-template.svg",
    ".dxf",
    ".json",
]


def names(folder: Path) -> list[str]:
    """The names in a folder, in order, hidden ones left out."""
    return sorted(path.name for path in folder.iterdir() if path.name[0] != ".")


def test_everything_of_a_part(shop: Path) -> None:
    """All files stand in out/NAME/, and the last lines name each with its use."""
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 0
    assert done.stdout == ""
    assert names(shop / "out" / "take-up-ratchet") == [f"take-up-ratchet{e}" for e in ENDINGS]
    last = done.stderr.splitlines()[-len(ENDINGS) :]
    for use, ending in (("send", ".dxf"), ("print", "-template.pdf"), ("pin up", "-sheet.pdf")):
        assert any(re.match(rf" +{use} +take-up-ratchet{ending}:", line) for line in last)


@pytest.mark.usefixtures("no_sheets")
def test_diameter_in_both_units(shop: Path) -> None:
    """The outside diameter is said in both units, the part's own first."""
    done = run("make", "take-up-ratchet.toml", "warp-beam-ratchet.toml")
    assert "take-up-ratchet.toml: outside diameter 38.000 mm (1.4961 in)" in done.stderr
    assert "warp-beam-ratchet.toml: outside diameter 2.5000 in (63.500 mm)" in done.stderr


def test_file_and_make_file_are_the_same(shop: Path) -> None:
    """`profilegen FILE` writes the bytes that `profilegen make FILE` writes."""
    assert run("make", "take-up-ratchet.toml", "--out", "one").exit_code == 0
    assert run("take-up-ratchet.toml", "--out", "two").exit_code == 0
    assert files_below(shop / "one") == files_below(shop / "two")


def test_same_input_same_bytes_in_another_process(shop: Path) -> None:
    """Processes that hash differently, as every new one does, write the same bytes."""
    words = ("make", "warp-beam-ratchet.toml", "--out")
    for seed in ("1", "2"):
        assert real(*words, seed, PYTHONHASHSEED=seed).returncode == 0
    assert run(*words, "here").exit_code == 0
    assert files_below(shop / "1") == files_below(shop / "2") == files_below(shop / "here")


def test_anew_makes_what_is_unchanged(shop: Path) -> None:
    """Asked to make it all the same, the same bytes come out, and each file is listed so."""
    run("take-up-ratchet.toml")
    done = run("take-up-ratchet.toml", "--anew")
    assert done.exit_code == 0
    assert done.stderr.count("(unchanged)") == len(ENDINGS)


def test_an_edited_part_is_made_again(shop: Path) -> None:
    """After an edit our own files, that nobody changed, are replaced unasked."""
    run("take-up-ratchet.toml")
    changed(shop / "take-up-ratchet.toml", "teeth = 30", "teeth = 28")
    done = run("take-up-ratchet.toml", "--paper", "Letter")
    assert done.exit_code == 0
    folder = shop / "out" / "take-up-ratchet"
    made = json.loads((folder / "take-up-ratchet.json").read_text())
    assert made["wheel"]["teeth"] == 28
    kept = json.loads((folder / ".profilegen.json").read_text())
    assert set(kept["files"]) == set(names(folder))
    assert kept["options"]["paper"] == "Letter"
    source = (shop / "take-up-ratchet.toml").read_bytes()
    assert kept["inputs"] == {"take-up-ratchet.toml": hashlib.sha256(source).hexdigest()}


@pytest.mark.usefixtures("no_sheets")
def test_every_file_that_was_read_stands_in_the_record(shop: Path) -> None:
    """The part, its hardware by way of another file, and its drawer with the wheel and the edge
    that its cutters name: each by its name as seen from the part and with its digest, so that an
    edit of any is known. A drawer beside a part with cutters of its own is no input."""
    (shop / "hardware").mkdir()
    part = (shop / "take-up-ratchet.toml").read_text()
    (shop / "mate.toml").write_text(part)
    edge = chain([-3 + 8j, 0j, 3 + 8j], [0.0, 0.0])
    (shop / "edge.dxf").write_bytes(dxf_bytes((Layer("EDGE", (edge,)),), "mm"))
    (shop / "drawer.toml").write_text(
        'units = "mm"\n[[cutter]]\nname = "mate"\nkind = "form"\nof = "mate.toml"\n'
        '[[cutter]]\nname = "edge"\nkind = "drawn"\ndxf = "edge.dxf"\nlayer = "EDGE"\n'
    )
    (shop / "hardware" / "head.toml").write_text('dividing = "plate.toml"\n')
    (shop / "hardware" / "plate.toml").write_text('[dividing]\nkind = "plate"\nholes = 60\n')
    (shop / "own.toml").write_text(f'dividing = "hardware/head.toml"\n{part}')
    (shop / "drawn.toml").write_text(
        f'dividing = "hardware/head.toml"\n{part.split("[[cutter]]")[0]}[setup]\ncutter = "mate"\n'
    )
    for file in ("own.toml", "drawn.toml"):
        assert run(file).exit_code == 0
    hardware = {"hardware/head.toml", "hardware/plate.toml"}
    assert set(_inputs("own")) == {"own.toml", *hardware}
    told = _inputs("drawn")
    assert set(told) == {"drawn.toml", *hardware, "drawer.toml", "mate.toml", "edge.dxf"}
    for name, value in told.items():
        assert value == hashlib.sha256((shop / name).read_bytes()).hexdigest()


def _inputs(stem: str) -> dict[str, str]:
    kept: dict[str, str] = json.loads(Path("out", stem, ".profilegen.json").read_text())["inputs"]
    return kept


@pytest.mark.usefixtures("no_sheets")
def test_files_of_an_earlier_run_stay_ours(shop: Path) -> None:
    """A run that makes fewer files does not forget the others: made again they are replaced."""
    part = shop / "take-up-ratchet.toml"
    whole = part.read_text(encoding="utf-8")
    run("take-up-ratchet.toml")
    part.write_text(whole.replace('included_angle = "60 deg"', 'included_angle = "70 deg"'))
    assert run("take-up-ratchet.toml").exit_code == 3
    part.write_text(whole.replace("teeth = 30", "teeth = 28"))
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 0, done.stderr


@pytest.mark.usefixtures("no_sheets")
def test_killed_then_edited_then_made(shop: Path) -> None:
    """A set that a kill left half in place is finished first, so that it still counts as ours."""
    run("take-up-ratchet.toml")
    folder = shop / "out" / "take-up-ratchet"
    moves = {spare_name(n): name for n, name in enumerate(names(folder))}
    moves[spare_name(99)] = ".profilegen.json"
    changed(shop / "take-up-ratchet.toml", "teeth = 30", "teeth = 28")
    run("take-up-ratchet.toml", "--out", "other")
    other = shop / "other" / "take-up-ratchet"
    for spare, name in list(moves.items())[3:]:
        (folder / spare).write_bytes((other / name).read_bytes())
    for name in list(moves.values())[:3]:
        (folder / name).write_bytes((other / name).read_bytes())
    (folder / spare_name(100, "journal")).write_text(json.dumps(moves))
    changed(shop / "take-up-ratchet.toml", "teeth = 28", "teeth = 29")
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 0, done.stderr
    made = json.loads((folder / "take-up-ratchet.json").read_text())
    assert made["wheel"]["teeth"] == 29


@pytest.mark.parametrize("ending", ["-sheet.svg", ".dxf"])
def test_a_file_changed_by_hand_is_kept(shop: Path, ending: str) -> None:
    """A file that was changed by hand is named and nothing is written; the command told does it,
    quoted for the shell."""
    (shop / "my part.toml").write_bytes((shop / "take-up-ratchet.toml").read_bytes())
    run("my part.toml")
    mine = shop / "out" / "my part" / f"my part{ending}"
    mine.write_bytes(mine.read_bytes() + b"\n")
    before = files_below(shop / "out")
    changed(shop / "my part.toml", "teeth = 30", "teeth = 28")
    done = run("my part.toml", "--paper", "Letter")
    assert done.exit_code == 4
    (told,) = [line for line in done.stderr.splitlines() if "other contents" in line]
    assert mine.name in " ".join(done.stderr.split())
    assert "my part.json" not in done.stderr
    assert told
    assert "profilegen make --force 'my part.toml' --paper Letter" in done.stderr
    assert files_below(shop / "out") == before
    assert run("make", "--force", "my part.toml", "--paper", "Letter").exit_code == 0


@pytest.mark.usefixtures("no_sheets")
def test_a_damaged_record_makes_nothing_ours(shop: Path) -> None:
    """Without a record that can be read nothing that stands may be replaced unasked."""
    run("take-up-ratchet.toml")
    changed(shop / "take-up-ratchet.toml", "teeth = 30", "teeth = 28")
    for text in ("", "[]", '{"files": 3}', '{"files": {"../a.toml": "0"}}', "\x00"):
        (shop / "out" / "take-up-ratchet" / ".profilegen.json").write_text(text)
        before = files_below(shop / "out")
        assert run("take-up-ratchet.toml").exit_code == 4, text
        assert files_below(shop / "out") == before, text


@pytest.mark.usefixtures("no_sheets")
@pytest.mark.parametrize("error", [ZeroDivisionError("at a tooth"), CannotMakeError()])
def test_a_fault_of_one_part_stops_no_other(
    shop: Path, monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    """What fails while files are made, ours or the part's, is told with its file; the others are
    made, and a summary closes."""
    real_produce = producing.produce

    def produce(job: Job, *rest: Any, **more: Any) -> Outgoing:
        if job.part.units == "mm":
            raise error
        return real_produce(job, *rest, **more)

    monkeypatch.setattr("profilegen.cli.orders.produce", produce)
    done = run("make", "take-up-ratchet.toml", "warp-beam-ratchet.toml")
    assert done.exit_code == (1 if isinstance(error, ZeroDivisionError) else 3)
    assert names(shop / "out") == ["warp-beam-ratchet"]
    assert "take-up-ratchet.toml: nothing was written for this part" in done.stderr
    assert done.stderr.endswith(
        "2 parts in out: 1 made, 0 unchanged, 1 failed\nlook at: take-up-ratchet.toml\n"
    )


@pytest.mark.usefixtures("no_sheets")
def test_a_tolerance_that_amounts_to_nothing_names_its_part(shop: Path) -> None:
    """A tolerance without a value at its size stops its own part only."""
    with (shop / "take-up-ratchet.toml").open("a") as file:
        file.write('[tolerance]\nthickness = "+0.1 -9"\n')
    done = run("make", "take-up-ratchet.toml", "warp-beam-ratchet.toml")
    assert done.exit_code in (2, 3)
    assert "tolerance.thickness" in done.stderr
    assert names(shop / "out") == ["warp-beam-ratchet"]


def test_a_dead_worker_ends_its_own_part_only(shop: Path) -> None:
    """A process that dies under one part is told with that part; the others are made."""
    source = (shop / "take-up-ratchet.toml").read_text()
    files = [f"wheel-{teeth}.toml" for teeth in range(26, 26 + FEW + 1)]
    for file in files:
        (shop / file).write_text(source.replace("teeth = 30", f"teeth = {file[6:8]}"))
    code = (
        "import os, sys, profilegen.cli.orders as orders\n"
        "real = orders.make_one\n"
        "def one(ready, each):\n"
        "    if '27' in ready.order.file: os._exit(9)\n"
        "    return real(ready, each)\n"
        "orders.make_one = one\n"
        "if __name__ == '__main__':\n"
        "    from profilegen.cli import main\n"
        "    main(['make', *sys.argv[1:]])\n"
    )
    (shop / "dying.py").write_text(code)
    done = subprocess.run(
        [sys.executable, "dying.py", *files],
        capture_output=True, env=environment(), text=True, check=False, timeout=120,
    )  # fmt: skip
    assert done.returncode == 1, done.stderr
    assert "wheel-27.toml: the process that made this part died" in done.stderr
    assert names(shop / "out") == [Path(f).stem for f in files if "27" not in f]
    assert "Traceback" not in done.stderr


@pytest.mark.usefixtures("no_sheets")
def test_json_file_equals_the_job(shop: Path) -> None:
    """The JSON file is the job's dictionary, number for number."""
    run("take-up-ratchet.toml")
    written = (shop / "out" / "take-up-ratchet" / "take-up-ratchet.json").read_text()
    assert json.loads(written) == job_for(load("take-up-ratchet.toml")).as_dict()


@pytest.mark.usefixtures("no_sheets")
def test_make_keeps_its_names_for_r12(shop: Path) -> None:
    """The names that programs look for are the same for every version; nothing else is said."""
    done = run("make", "warp-beam-ratchet.toml", "--dxf-version", "R12")
    folder = shop / "out" / "warp-beam-ratchet"
    dxfs = [name for name in names(folder) if name.endswith(".dxf")]
    assert dxfs == [
        "warp-beam-ratchet-cutter-DO-NOT-CUT.dxf",
        "warp-beam-ratchet.dxf",
    ]
    assert "INSUNITS" not in done.stderr


def test_refused_cutter_still_gives_the_wheel(shop: Path) -> None:
    """With a cutter that cannot form the wheel what needs no cutter is written, exit code 3."""
    part = shop / "take-up-ratchet.toml"
    changed(part, 'included_angle = "60 deg"', 'included_angle = "70 deg"')
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 3
    assert "refused: cutter-too-wide" in done.stderr
    assert "written all the same" in done.stderr
    written = names(shop / "out" / "take-up-ratchet")
    assert {"take-up-ratchet.dxf", "take-up-ratchet-template.pdf", "take-up-ratchet.json"} <= set(
        written
    )
    assert not any("DO-NOT-CUT" in name for name in written)


@pytest.mark.usefixtures("no_sheets")
def test_files_of_an_earlier_run_are_told(shop: Path) -> None:
    """A file left by an earlier run that was not made anew is named as not of this part."""
    run("take-up-ratchet.toml")
    changed(shop / "take-up-ratchet.toml", 'included_angle = "60 deg"', "included_angle = 70")
    done = run("take-up-ratchet.toml", "--force")
    assert "from an earlier run" in done.stderr
    assert "take-up-ratchet-cutter-DO-NOT-CUT.dxf" in done.stderr.split("from an earlier run")[1]


def test_impossible_wheel_writes_nothing(shop: Path) -> None:
    """A wheel that does not exist leaves no file and no folder, exit code 3."""
    changed(shop / "take-up-ratchet.toml", "land = 0.4", "land = 4.4")
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 3
    assert "refused: " in done.stderr
    assert not (shop / "out").exists()


@pytest.mark.usefixtures("no_sheets")
def test_a_bad_part_among_good_ones(shop: Path) -> None:
    """A part with a mistake keeps no other from being made; the gravest exit code is returned."""
    (shop / "bad.toml").write_text('units = "mm"\n[wheel]\nkind = "ratchet"\nteeth = 1\n')
    done = run("make", "bad.toml", "take-up-ratchet.toml")
    assert done.exit_code == 2
    assert "bad.toml: nothing was written for this part" in done.stderr
    assert re.search(r"bad.toml: \d+ things to put right", done.stderr)
    assert names(shop / "out") == ["take-up-ratchet"]


def test_two_parts_of_one_name(shop: Path) -> None:
    """Two files that would share a folder are refused before anything is written."""
    (shop / "other").mkdir()
    (shop / "other" / "take-up-ratchet.toml").write_bytes(
        (shop / "take-up-ratchet.toml").read_bytes()
    )
    done = run("make", "take-up-ratchet.toml", "other/take-up-ratchet.toml")
    assert done.exit_code == 2
    assert not (shop / "out").exists()
    once = run("make", "take-up-ratchet.toml", "other/../take-up-ratchet.toml")
    assert once.exit_code == 0
    assert once.stderr.count("outside diameter") == 1


def test_many_parts_at_once(shop: Path) -> None:
    """More than a few parts are shared out among processes; order and exit code are kept."""
    source = (shop / "take-up-ratchet.toml").read_text()
    files = []
    for teeth in range(26, 26 + FEW + 1):
        files.append(f"wheel-{teeth}.toml")
        (shop / files[-1]).write_text(source.replace("teeth = 30", f"teeth = {teeth}"))
    (shop / "bad.toml").write_text("teeth = ")
    done = real("make", *files, "bad.toml")
    talk = done.stderr.decode()
    assert done.returncode == 2
    assert names(shop / "out") == [Path(file).stem for file in files]
    lines = [line for line in talk.splitlines() if "outside diameter" in line]
    assert [line.split(":")[0] for line in lines] == files
    assert "Traceback" not in talk


@pytest.mark.parametrize("error", [OSError(5, "Input/output error"), KeyboardInterrupt()])
def test_nothing_half_written(
    shop: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    """A fault or Ctrl-C at the fifth file leaves no file, no folder and no spare name."""
    real_replace, calls = os.replace, [0]

    def replace(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] == 5:
            raise error
        real_replace(source, target)

    monkeypatch.setattr(os, "replace", replace)
    done = run("take-up-ratchet.toml")
    assert done.exit_code == (4 if isinstance(error, OSError) else 130)
    assert "Traceback" not in done.stderr
    assert not (shop / "out").exists()


def test_output_folder_that_is_a_file(shop: Path) -> None:
    """Where the output folder should be and a file stands, that is an output fault."""
    (shop / "out").write_text("in the way")
    done = run("take-up-ratchet.toml")
    assert done.exit_code == 4
    assert (shop / "out").read_text() == "in the way"


@pytest.mark.usefixtures("no_sheets")
def test_open(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`--open` opens the folder of one part, or the folder of all."""
    opened: list[str] = []
    monkeypatch.setattr(click, "launch", opened.append)
    run("take-up-ratchet.toml", "--open")
    run("make", "take-up-ratchet.toml", "warp-beam-ratchet.toml", "--open")
    assert [Path(name).name for name in opened] == ["take-up-ratchet", "out"]


def test_a_sign_without_a_letter_is_said_once(shop: Path) -> None:
    """An emoji in the title is named with its key; the sheet's name keeps it, its lettering not."""
    changed(shop / "take-up-ratchet.toml", 'title = "Cloth', 'title = "🧵 Zwirnräder 🧵 Cloth')
    said = [line for line in run("take-up-ratchet.toml").stderr.splitlines() if "🧵" in line]
    words = "title: sheets have no letter for 🧵 (U+1F9F5) and show ? in its place"
    assert said == [f"take-up-ratchet.toml: {words}"]
    assert words in run("sheet", "take-up-ratchet.toml", "--force").stderr.splitlines()
    assert "no letter" not in run("check", "warp-beam-ratchet.toml").stderr


def test_a_part_saved_as_text_keeps_its_name(shop: Path) -> None:
    """`wheel.toml.txt`, as an editor may save it, makes the files of `wheel`, and its title."""
    text = (shop / "take-up-ratchet.toml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("title")]
    (shop / "wheel.toml.txt").write_text("\n".join(lines), encoding="utf-8")
    assert run("wheel.toml.txt").exit_code == 0
    assert names(shop / "out" / "wheel") == [f"wheel{e}" for e in ENDINGS]
    assert load("wheel.toml.txt").title == "wheel"
