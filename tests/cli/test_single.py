"""The commands that write one output."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import click
import ezdxf
import ezdxf.bbox
import pytest

from tests.cli.support import changed, files_below, real, run

PART = "take-up-ratchet.toml"


def test_dxf_without_a_name_stands_where_make_puts_it(shop: Path) -> None:
    """`dxf` without --out writes the file that `make` would write, byte for byte."""
    assert run("dxf", PART).exit_code == 0
    run("make", PART, "--out", "all")
    one, every = files_below(shop / "out"), files_below(shop / "all")
    assert one == {name: data for name, data in every.items() if name in one}
    assert list(one) == [str(Path("take-up-ratchet", "take-up-ratchet.dxf"))]


def test_dxf_to_a_name(shop: Path) -> None:
    """`--out FILE` writes just this file, its folders made."""
    assert run("dxf", PART, "--out", "new/folder/part.DXF").exit_code == 0
    assert (shop / "new" / "folder" / "part.DXF").read_bytes().startswith(b"  0\nSECTION")
    assert not (shop / "out").exists()


def test_dxf_to_standard_output(shop: Path) -> None:
    """`--out -` writes the bytes to stdout, and talk stays on stderr."""
    done = real("dxf", PART, "--out", "-")
    run("dxf", PART, "--out", "part.dxf")
    assert done.stdout == (shop / "part.dxf").read_bytes()
    assert b"outside diameter" in done.stderr


def test_dxf_in_the_other_unit(shop: Path) -> None:
    """`--units in` writes the same wheel in inches: $INSUNITS is 1, and the name of R12 says so."""
    text = run("dxf", PART, "--units", "in", "--out", "-").stdout
    assert "$INSUNITS\n 70\n1\n" in text
    run("dxf", PART, "--units", "in", "--dxf-version", "R12")
    assert (shop / "out" / "take-up-ratchet" / "take-up-ratchet-R12-in.dxf").exists()


def test_not_overwritten(shop: Path) -> None:
    """A file with other contents stays, exit code 4; with --force it is replaced."""
    (shop / "part.dxf").write_text("mine")
    done = run("dxf", PART, "--out", "part.dxf")
    assert (done.exit_code, (shop / "part.dxf").read_text()) == (4, "mine")
    assert f"profilegen dxf --force {PART} --out part.dxf" in done.stderr
    assert run("dxf", "--force", PART, "--out", "part.dxf").exit_code == 0
    assert (shop / "part.dxf").stat().st_size > 1000


@pytest.mark.parametrize("command", ["sheet", "template"])
def test_svg_or_pdf(shop: Path, command: str) -> None:
    """Format by ending or --pdf; SVG otherwise."""
    assert run(command, PART, "--out", "a.svg").exit_code == 0
    assert run(command, PART, "--out", "b.pdf").exit_code == 0
    assert run(command, PART).exit_code == 0
    assert run(command, PART, "--pdf").exit_code == 0
    assert b"<svg" in (shop / "a.svg").read_bytes()
    assert (shop / "b.pdf").read_bytes().startswith(b"%PDF")
    folder = shop / "out" / "take-up-ratchet"
    assert (folder / f"take-up-ratchet-{command}.svg").read_bytes() == (shop / "a.svg").read_bytes()
    assert (folder / f"take-up-ratchet-{command}.pdf").read_bytes() == (shop / "b.pdf").read_bytes()


def test_paper_follows_the_unit(shop: Path) -> None:
    """An mm part is drawn on A4 and an inch part on Letter, unless --paper says otherwise."""
    size = 'width="210mm"', 'width="215.9mm"'
    assert size[0] in run("sheet", PART, "--out", "-").stdout
    assert size[1] in run("sheet", "warp-beam-ratchet.toml", "--out", "-").stdout
    assert size[1] in run("sheet", PART, "--paper", "letter", "--out", "-").stdout


@pytest.mark.parametrize(
    "words",
    [
        ("dxf", PART, "--out", "part.svg"),
        ("sheet", PART, "--out", "part.png"),
        ("stops", PART, "--out", "part.dxf"),
        ("cutters", PART, "--out", "part.csv"),
        ("cutters", PART, "--dxf", "part.svg"),
        ("template", PART, "--pdf", "--out", "part.svg"),
    ],
)
def test_a_name_that_promises_something_else(shop: Path, words: tuple[str, ...]) -> None:
    """A file name with another format's ending is an input error and nothing is written."""
    before = files_below(shop)
    assert run(*words).exit_code == 2
    assert files_below(shop) == before


def test_out_is_a_folder(shop: Path) -> None:
    """`--out` with a folder is an output fault that proposes a file name."""
    (shop / "drawings").mkdir()
    done = run("dxf", PART, "--out", "drawings")
    assert done.exit_code == 4
    assert "this is a folder, not a file" in done.stderr


def test_stops_print_csv(shop: Path) -> None:
    """`stops` prints a row a stop and the return to the first; nothing but CSV is on stdout."""
    rows = list(csv.reader(io.StringIO(run("stops", PART).stdout)))
    assert [row[0] for row in rows[1:]] == [str(stop) for stop in range(1, 32)]
    assert [float(row[2]) for row in rows[1:4]] == [0.0, 12.0, 24.0]


def test_refused_cutter(shop: Path) -> None:
    """With a refused cutter the DXF is still written, exit code 3; the cutter's drawing is not."""
    changed(shop / PART, 'included_angle = "60 deg"', "included_angle = 70")
    assert run("dxf", PART).exit_code == 3
    assert (shop / "out" / "take-up-ratchet" / "take-up-ratchet.dxf").exists()
    done = run("make", PART)
    assert done.exit_code == 3
    assert not list(shop.rglob("*DO-NOT-CUT.dxf"))


def test_cutters_compares(shop: Path) -> None:
    """`cutters` prints a row a cutter, two for one that takes two laps, and marks the chosen; a
    remark only of the one whose root is another."""
    text = run("cutters", "warp-beam-ratchet.toml").stdout
    rows = [line for line in text.splitlines() if "vee 45" in line or "angle cutter" in line]
    assert len(rows) == 6
    assert rows[0].split()[:2] == ["set", "up"]
    assert [row.split()[2] for row in rows[:2]][1] in ("forms", "45")
    assert sum("2 of 2" in row for row in rows) == 1


def test_cutters_tells_why_one_cannot(shop: Path) -> None:
    """A cutter that cannot form the wheel stands in the table, with the reason below."""
    changed(
        shop / PART,
        'angle = "60 deg"\ntip_radius = 0.2\nedge',
        "angle = 80\ntip_radius = 0.2\nedge",
    )
    done = run("cutters", PART)
    assert done.exit_code == 0
    assert "angle cutter 60  leaves" in done.stdout
    assert "not usable as it stands" in done.stdout
    assert "wider than the space" in done.stdout


def test_cutters_for_programs(shop: Path) -> None:
    """`--json` is a list, best first, with what each cutter makes of the space."""
    found = json.loads(run("cutters", PART, "--json").stdout)
    wanted = {"cutter", "verdict", "gouge", "left_over", "gouge_area", "left_over_area", "land"}
    assert all(wanted | {"root_diameter", "cuts"} <= set(row) for row in found)
    assert [row["verdict"] for row in found] == ["forms", "forms"]
    assert found[0]["land"] == pytest.approx(0.4)


@pytest.mark.parametrize("name", ["best.svg", "best.pdf"])
def test_cutters_as_a_picture(shop: Path, name: str) -> None:
    """`--out` writes the comparison."""
    assert run("cutters", PART, "--out", name).exit_code == 0
    assert (shop / name).stat().st_size > 5000


def test_cutters_as_a_dxf(shop: Path) -> None:
    """`--dxf` draws each of the best few over the space, true size, with its name and regions."""
    changed(shop / PART, 'included_angle = "60 deg"', "included_angle = 70")
    assert run("cutters", PART, "--dxf", "best.dxf").exit_code == 0
    space = ezdxf.readfile(shop / "best.dxf").modelspace()
    found = {layer: space.query(f'*[layer=="{layer}"]') for layer in ("OUTLINE", "SHEET")}
    assert [text.dxf.text for text in found["SHEET"]] == [
        "1  angle cutter 60",
        "2  single-point 60",
    ]
    assert len(found["OUTLINE"]) == 2
    assert len(space.query('*[layer=="CUTTER-NOT-FOR-CUTTING"]')) == 2
    assert len(space.query('*[layer=="LEFT-OVER"]')) >= 1
    box = ezdxf.bbox.extents(found["OUTLINE"])
    assert -1e-9 < box.extmin.x < box.extmax.x < 100


def test_no_cutter_to_draw_is_no_fault_of_the_program(shop: Path) -> None:
    """Where no cutter enters the space a DXF is refused with 3, the list and a sheet are not."""
    wide = 'units = "mm"\n[[cutter]]\nname = "big"\nkind = "slot"\nwidth = 60\n'
    (shop / "wide.toml").write_text(wide, encoding="utf-8")
    done = run("cutters", PART, "--drawer", "wide.toml", "--dxf", "best.dxf")
    assert done.exit_code == 3
    assert "nothing to draw" in done.stderr
    assert not (shop / "best.dxf").exists()
    assert run("cutters", PART, "--drawer", "wide.toml", "--out", "best.svg").exit_code == 0


def test_cutters_without_a_cutter_uses_the_shipped_drawer(shop: Path) -> None:
    """A part without cutters is compared with the shipped drawer, and the drawer is named."""
    bare = (shop / PART).read_text().partition("[[cutter]]")[0]
    (shop / "bare.toml").write_text(bare)
    done = run("cutters", "bare.toml", "--json")
    assert done.exit_code == 0
    assert "cutters: " in done.stderr
    assert json.loads(done.stdout)[0]["verdict"] == "forms"


def test_a_slot_cutter_is_plunged(shop: Path) -> None:
    """A cutter that is no wedge is set by its deepest plunge, and what it leaves is a caution."""
    bare = (shop / PART).read_text().partition("[[cutter]]")[0]
    slot = '[[cutter]]\nname = "slot 1"\nkind = "slot"\nwidth = 1.0\n'
    (shop / "slot.toml").write_text(bare + slot)
    done = run("make", "slot.toml")
    assert done.exit_code == 0
    assert "cutter-leaves" in done.stderr


def test_open_that_fails_is_told(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When no program opens the file, that is said and is no fault."""
    monkeypatch.setattr(click, "launch", lambda _: 1)
    done = run("dxf", PART, "--open")
    assert (done.exit_code, "no program opened" in done.stderr) == (0, True)


def test_the_last_line_names_the_scale_drawn(shop: Path) -> None:
    """An enlarged template is not told as 1:1."""
    said = run("template", "take-up-ratchet.toml", "--scale", "2").stderr
    assert "check template 2:1" in said
    assert "1:1" not in said
    assert "check template 1:1" in run("template", "take-up-ratchet.toml", "--force").stderr
