"""`gauge`: what to measure, as text, as JSON and as a record sheet."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from tests.cli.support import changed, run

PART = "take-up-ratchet.toml"

HEADS = ("[tolerance]", "[[cutter]]")
"""Where the measuring tables of a starter begin, and what stands behind them."""


def listed(*words: str) -> list[dict[str, Any]]:
    """The JSON list of one command."""
    done = run("gauge", PART, "--json", *words)
    assert done.exit_code == 0, done.stderr
    found: list[dict[str, Any]] = json.loads(done.stdout)
    return found


def test_json_to_the_letter(shop: Path) -> None:
    """A list of objects with six keys; mm and degrees; only the pins stand over something."""
    found = listed()
    for row in found:
        assert list(row) == ["feature", "over", "nominal", "low", "high", "unit"]
        assert row["unit"] in ("mm", "deg")
        assert row["low"] <= row["nominal"] <= row["high"]
    over = [row for row in found if row["over"] is not None]
    assert [(row["feature"], row["over"], row["unit"]) for row in over] == [
        ("over_pins", 2.0, "mm")
    ]
    named = {row["feature"]: row for row in found}
    assert named["hook_angle"]["nominal"] == pytest.approx(5)
    assert named["hook_angle"]["unit"] == "deg"
    assert named["levelled_face"]["nominal"] == pytest.approx(-1.655959, abs=1e-6)


def test_json_is_always_mm(shop: Path) -> None:
    """The unit of the print does not reach programs."""
    assert listed("--units", "in") == listed()


def test_text(shop: Path) -> None:
    """People read sizes, how they are taken, defaults, pilots, slotting and cautions."""
    text = run("gauge", PART).stdout
    for words in (
        "Over two pins of Ø 2.000 mm",
        "39.166 mm",
        "h11, the default",
        "Pilot for the square",
        "letter U",
        "spindle isolated from its power, not only switched off, and locked against turning",
        "with a tool corner of R 0.300 mm: 1.540 mm",
        "A sharp tool travels 1.664 mm for the same flats: after 1.540 mm they are 8.824 mm",
        "Measure the pilot first",
        "9.4 mm     9.400 mm       63 %",
        "Corner 1 80.000°",
        "turn the work counter-clockwise, seen from its free end",
        "qualified practice",
    ):
        assert words in " ".join(text.split()) or words in text
    assert max(map(len, text.splitlines())) <= 130


@pytest.mark.parametrize(
    ("bore", "words"),
    [
        ('kind = "round"\ndiameter = 8', "no-go stays out at both ends"),
        ('kind = "hexagon"\nacross_flats = 9', "on every pair of flats"),
        ('kind = "none"', ""),
    ],
)
def test_go_and_no_go_are_told_of_the_bore_there_is(shop: Path, bore: str, words: str) -> None:
    """Flats are spoken of where there are some, and no bore is not spoken of."""
    text = (shop / PART).read_text(encoding="utf-8")
    head, _, rest = text.partition("[bore]")
    rest = rest[rest.index("[hub]") :]
    (shop / PART).write_text(f"{head}[bore]\n{bore}\n\n{rest}", encoding="utf-8")
    said = " ".join(run("gauge", PART).stdout.split())
    assert ("no-go stays out" in said) == bool(words)
    assert words in said
    assert ("pair of flats" in said) == ("hexagon" in bore)


def test_more_infeed_is_told_of_the_lap_it_is_taken_in(shop: Path) -> None:
    """A narrow cutter forms one flank a lap: the size over pins asks for more of the last."""
    said = " ".join(run("gauge", PART).stdout.split())
    assert "more infeed, at the same offset" in said
    changed(shop / PART, 'included_angle = "60 deg"', 'included_angle = "45 deg"')
    said = " ".join(run("gauge", PART).stdout.split())
    assert "more infeed in the last lap, at the same offset" in said


@pytest.mark.parametrize(
    ("teeth", "pin", "words"),
    [
        ("30", "", ("the size over pins and its limits are", "the root diameter and its limits")),
        ("31", "", ("the size from root to root and its limits are",)),
        ("30", "[gauge]\npin = 6\n", ("0.100 mm smaller the root diameter and its limits are",)),
    ],
)
def test_a_smaller_blank_moves_the_root_too(
    shop: Path, teeth: str, pin: str, words: tuple[str, ...]
) -> None:
    """It is told of every size that moves with the blank, with pins and without."""
    changed(shop / PART, "teeth = 30", f"teeth = {teeth}")
    with (shop / PART).open("a", encoding="utf-8") as file:
        file.write(f"\n{pin}")
    said = " ".join(run("gauge", PART).stdout.split())
    assert all(word in said for word in words)


def test_a_square_too_big_for_drills(shop: Path) -> None:
    """No empty table: it is said that no drill serves, and what to do."""
    changed(shop / PART, "outside_diameter = 38.0", "outside_diameter = 138.0")
    changed(shop / PART, "across_flats = 9.0", "across_flats = 60.0")
    changed(shop / PART, "diameter = 20.0", "diameter = 100.0")
    said = run("gauge", PART).stdout
    assert "No listed drill lies between 60.000 mm and 69.000 mm" in said
    assert "flat left" not in said


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_starters_show_what_the_program_would_choose(shop: Path, unit: str) -> None:
    """Its tolerances and pin behind a `#` are the usual ones: taking the `#` away changes little.

    The land's default is in mm; in inches it is the nearest that is easily read.
    """
    assert run("start", "ratchet", "--units", unit, "--out", "r.toml").exit_code == 0
    before = json.loads(run("gauge", "r.toml", "--json").stdout)
    lines = (shop / "r.toml").read_text(encoding="utf-8").splitlines()
    first, last = (lines.index(next(at for at in lines if at.startswith(head))) for head in HEADS)
    shown = [line.removeprefix("# ") for line in lines[first:last]]
    assert shown != lines[first:last]
    text = "\n".join([*lines[:first], *shown, *lines[last:]])
    (shop / "r.toml").write_text(text, encoding="utf-8")
    after = json.loads(run("gauge", "r.toml", "--json").stdout)
    for old, new in zip(before, after, strict=True):
        assert (old["feature"], old["over"]) == (new["feature"], new["over"])
        assert (new["low"], new["high"]) == pytest.approx((old["low"], old["high"]), abs=5e-3)


def test_inch_pins_have_their_trade_names(shop: Path) -> None:
    """3/32 in is not called 0.0938 in, which is no pin that can be bought."""
    assert run("start", "ratchet", "--units", "in", "--out", "r.toml").exit_code == 0
    assert "Over two pins of Ø 3/32 in" in run("gauge", "r.toml").stdout


def test_units_and_decimal_comma(shop: Path) -> None:
    """The look can be chosen."""
    text = run("gauge", PART, "--units", "in", "--decimal", "comma").stdout
    assert "1,4961 in" in text


@pytest.mark.parametrize("ending", ["svg", "pdf"])
def test_record_sheet(shop: Path, ending: str) -> None:
    """The record sheet is written beside the text, and not overwritten."""
    done = run("gauge", PART, "--out", f"record.{ending}")
    assert done.exit_code == 0
    assert "What to measure" in done.stdout
    data = (shop / f"record.{ending}").read_bytes()
    assert data.startswith(b"%PDF" if ending == "pdf" else b"<?xml")
    changed_part = shop / PART
    changed(changed_part, "land = 0.4", "land = 0.5")
    assert run("gauge", PART, "--out", f"record.{ending}").exit_code == 4
    assert run("gauge", "--force", PART, "--out", f"record.{ending}").exit_code == 0


def test_paper(shop: Path) -> None:
    """The record sheet lies on its side, on the paper asked for."""
    assert run("gauge", PART, "--out", "r.pdf", "--paper", "Letter").exit_code == 0
    document = pypdfium2.PdfDocument(str(shop / "r.pdf"))
    try:
        assert document[0].get_size() == pytest.approx((792, 612), abs=0.1)
    finally:
        document.close()


def test_another_ending_is_refused(shop: Path) -> None:
    """A name that promises something else is an input error."""
    done = run("gauge", PART, "--out", "record.dxf")
    assert (done.exit_code, "SVG or PDF" in done.stderr) == (2, True)


@pytest.mark.parametrize(
    ("pin", "code"), [("0.2", "pin-falls-in"), ("1", "pin-not-proud"), ("6", "pin-on-tips")]
)
def test_a_bad_pin(shop: Path, pin: str, code: str) -> None:
    """A pin that does not serve ends with 3 and a pin that does; the rest is printed."""
    with (shop / PART).open("a", encoding="utf-8") as file:
        file.write(f"\n[gauge]\npin = {pin}\n")
    done = run("gauge", PART, "--json")
    assert done.exit_code == 3
    assert code in done.stderr
    assert "gauge.pin 2.000 mm" in " ".join(done.stderr.split())
    assert all(row["feature"] != "over_pins" for row in json.loads(done.stdout))


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('land = "Z9"', "letter Z"),
        ('land = "soon"', "no tolerance"),
        ('general = "ISO 2768-v"', "over 3 to 4000 mm"),
    ],
)
def test_bad_tolerances(shop: Path, line: str, words: str) -> None:
    """A class that does not exist, nonsense, and a class without a value here end with 2."""
    changed(shop / PART, "thickness = 4.0", "thickness = 2.0")
    with (shop / PART).open("a", encoding="utf-8") as file:
        file.write(f"\n[tolerance]\n{line}\n")
    done = run("gauge", PART)
    assert (done.exit_code, words in " ".join(done.stderr.split())) == (2, True), done.stderr


def test_a_class_that_leaves_its_nominal_out_is_no_miss(shop: Path) -> None:
    """Flats to F8 are not said to miss their limits as set up; a land never nominal is."""
    with (shop / PART).open("a", encoding="utf-8") as file:
        file.write('\n[tolerance]\nacross_flats = "F8"\n')
    said = run("gauge", PART).stdout
    assert "9.013 mm" in said
    assert "As set up" not in said
    changed(shop / PART, "[tolerance]", '[tolerance]\nland = "+0.05 +0.02"')
    said = " ".join(run("gauge", PART).stdout.split())
    assert "allow on this blank: root diameter; land, straight across; over" in said


def test_a_general_tolerance_that_is_named_is_not_called_the_default(shop: Path) -> None:
    """It is the part file's own; what it does not cover still is a default."""
    with (shop / PART).open("a", encoding="utf-8") as file:
        file.write('\n[tolerance]\ngeneral = "ISO 2768-f"\n')
    text = run("gauge", PART).stdout
    assert "thickness; space angle: ISO 2768-f\n" in text
    assert "h11, the default" in text


def test_make_writes_the_record_sheet(shop: Path) -> None:
    """`make` adds it, to print."""
    done = run("make", PART)
    assert "print    take-up-ratchet-record.pdf" in done.stderr
    assert (shop / "out" / "take-up-ratchet" / "take-up-ratchet-record.pdf").exists()


def test_json_says_beside_it_that_the_cutter_leaves_other_sizes(shop: Path) -> None:
    """The list is the print's; that the cutter set up does not match goes to stderr."""
    changed(shop / PART, 'included_angle = "60 deg"', "included_angle = 66")
    changed(shop / PART, 'touch = "offset"', 'touch = "offset"\naccept = 1.0')
    done = run("gauge", PART, "--json")
    assert isinstance(json.loads(done.stdout), list)
    assert "does not match" in done.stderr
