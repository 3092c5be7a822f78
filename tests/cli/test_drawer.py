"""Drawers on the command line, and the template of a cutter."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from profilegen.part.drawer import load_drawer
from tests.cli.support import files_below, run


@pytest.mark.parametrize(("units", "title"), [("mm", "metric"), ("in", "inch")])
def test_start_writes_a_drawer_that_can_be_read(shop: Path, units: str, title: str) -> None:
    """In metric or inch trade sizes; it says how it is used next."""
    done = run("start", "drawer", "--units", units)
    assert done.exit_code == 0
    assert "drawer.toml" in done.stderr
    assert title in (shop / "drawer.toml").read_text(encoding="utf-8")
    assert len(load_drawer(shop / "drawer.toml")) >= 20


def test_start_keeps_a_drawer_that_is_there(shop: Path) -> None:
    """A drawer is the user's own: it is not replaced without --force."""
    (shop / "drawer.toml").write_text("mine", encoding="utf-8")
    assert run("start", "drawer").exit_code == 4
    assert (shop / "drawer.toml").read_text(encoding="utf-8") == "mine"
    assert run("start", "drawer", "--force").exit_code == 0


def test_the_template_of_a_cutter_names_cutter_and_drawer(shop: Path) -> None:
    """The cutter that is set up, from the part's own; as SVG below out/, or as PDF."""
    done = run("template", "take-up-ratchet.toml", "--of", "cutter")
    assert done.exit_code == 0
    assert "from the part's own cutters" in done.stderr
    (name,) = [name for name in files_below(shop) if name.startswith("out/")]
    assert name == "out/take-up-ratchet/take-up-ratchet-cutter-single-point-60.svg"
    ET.parse(shop / name)
    done = run("template", "take-up-ratchet.toml", "--of", "cutter", "--pdf", "--out", "-")
    assert done.stdout_bytes.startswith(b"%PDF")


def test_a_cutter_of_a_drawer_is_taken_by_name(shop: Path) -> None:
    """With --drawer any cutter of it; the scale is to N."""
    run("start", "drawer")
    words = ("template", "take-up-ratchet.toml", "--of", "cutter", "--drawer", "drawer.toml")
    done = run(*words, "--cutter", "ball R 1", "--scale", "20", "--out", "ball.svg")
    assert done.exit_code == 0
    text = (shop / "ball.svg").read_text(encoding="utf-8")
    assert "ball R 1: cutter template 20:1" in text


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--of", "cutter", "--cutter", "ghost"), "no cutter of this name"),
        (("--of", "cutter", "--drawer", "ghost.toml"), "no such file"),
        (("--cutter", "ghost"), "--of cutter"),
    ],
)
def test_bad_choices_of_a_cutter_write_nothing(
    shop: Path, words: tuple[str, ...], said: str
) -> None:
    """An unknown cutter or drawer, and options that go with cutters only."""
    before = files_below(shop)
    done = run("template", "take-up-ratchet.toml", *words)
    assert done.exit_code == 2
    assert said in done.stderr
    assert files_below(shop) == before


def test_a_form_cutter_of_its_own_part_forms_the_space(shop: Path) -> None:
    """A cutter ground to the very wheel leaves and gouges nothing; of the file only the wheel is
    read, so that nothing goes round in a ring."""
    path = shop / "take-up-ratchet.toml"
    form = '\n[[cutter]]\nname = "form"\nkind = "form"\nof = "take-up-ratchet.toml"\n'
    path.write_text(path.read_text(encoding="utf-8") + form, encoding="utf-8")
    done = run("cutters", "take-up-ratchet.toml", "--json")
    (found,) = [item for item in json.loads(done.stdout) if item["cutter"] == "form"]
    assert found["verdict"] == "forms"
    assert max(found["gouge"], found["left_over"]) < 1e-6


def without_cutters(shop: Path, first: str = "") -> Path:
    """The example part with no cutter of its own, and a line before it."""
    path = shop / "take-up-ratchet.toml"
    text = path.read_text(encoding="utf-8").replace('cutter = "single-point 60"\n', "")
    head, tail = re.sub(r"(?m)^drawer = .*$", "", text).split("[[cutter]]", 1)
    rest = tail[tail.index("\n[setup]") :]
    path.write_text(f"{first}{head}{rest}", encoding="utf-8")
    return path


def marked(*words: str) -> list[str]:
    """The cutters that `cutters` marks as set up, the same in text and JSON."""
    rows = json.loads(run("cutters", *words, "--json").stdout)
    found = [row["cutter"] for row in rows if row["set_up"]]
    text = run("cutters", *words).stdout
    assert ("set up" in text.replace("None of these is set up", "")) == bool(found)
    assert ("None of these is set up" in text) == (not found)
    return found


def set_up_by_check(name: str) -> list[str]:
    """The cutter of the cuts that `check` tells, once."""
    return list({cut["cutter"] for cut in json.loads(run("check", name, "--json").stdout)["cuts"]})


FEW = (
    'units = "mm"\n[[cutter]]\nname = "vee 60"\nkind = "vee"\nincluded_angle = 60\n'
    'tip_radius = 0.2\n[[cutter]]\nname = "slot"\nkind = "slot"\nwidth = 2\n'
)
"""A drawer of two cutters."""


def test_a_form_cutter_that_cannot_be_made_is_told_in_the_unit_of_the_part(shop: Path) -> None:
    """A drawer in mm and a part in inches: inches, and the key in the cutter's own table."""
    wheel = "kind = 'ratchet', teeth = 24, outside_diameter = 40, thickness = 4, land = 9"
    keys = f"{wheel}, space_angle = 60, hook_angle = 5, rotation = 'clockwise'"
    text = f"units = 'mm'\n[[cutter]]\nname = 'mate'\nkind = 'form'\nof = {{ {keys} }}\n"
    (shop / "forms.toml").write_text(text, encoding="utf-8")
    for words in (("cutters",), ("template", "--of", "cutter")):
        done = run(words[0], "warp-beam-ratchet.toml", *words[1:], "--drawer", "forms.toml")
        assert done.exit_code == 3
        said = " ".join(done.stderr.split())
        assert re.search(r"make cutter\[1\]\.of\.land at most 0\.\d{4} in", said)


def test_cutters_marks_what_check_sets_up(shop: Path) -> None:
    """Of the part's own, of a drawer beside it, of one that it names; none of a drawer that is only
    asked for, and none of the shipped one."""
    name = "take-up-ratchet.toml"
    assert marked(name) == set_up_by_check(name) == ["single-point 60"]
    (shop / "other.toml").write_text(FEW, encoding="utf-8")
    assert marked(name, "--drawer", "other.toml") == []
    without_cutters(shop)
    assert marked(name) == set_up_by_check(name) == []
    (shop / "drawer.toml").write_text(FEW, encoding="utf-8")
    assert marked(name) == set_up_by_check(name) != []
    assert marked(name, "--drawer", "drawer.toml") == set_up_by_check(name)
    assert marked(name, "--drawer", "other.toml") == []


def test_what_is_written_does_not_change_with_the_folder(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Part and drawer made from their own folder, from above and by the whole path: every file of
    the same name has the same bytes, though the drawer is named in one of them."""
    deep = shop / "bench" / "wheels"
    deep.mkdir(parents=True)
    path = without_cutters(shop, 'drawer = "bits/mine.toml"\n')
    path.rename(deep / path.name)
    (deep / "bits").mkdir()
    run("start", "drawer", "--out", str(deep / "bits" / "mine.toml"))
    made: list[dict[str, bytes]] = []
    names = ((deep, path.name), (shop, f"bench/wheels/{path.name}"), (shop, deep / path.name))
    for at, name in names:
        monkeypatch.chdir(at)
        out = shop / f"out{len(made)}"
        assert run("make", str(name), "--out", str(out)).exit_code == 0
        files = (out / "take-up-ratchet").iterdir()
        made.append({file.name: file.read_bytes() for file in files if file.name[0] != "."})
    assert made[0] == made[1] == made[2]
    assert b"the cutters in bits/mine.toml" in made[0]["take-up-ratchet.json"]
