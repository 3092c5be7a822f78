"""`stops` on dividing hardware."""

from __future__ import annotations

import csv
import io
import json
import math
import re
from dataclasses import replace
from pathlib import Path

import pytest

from profilegen.dividing.of_part import plan_of
from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.drawing.marks import Sheet, Text
from profilegen.output.svg import svg_bytes
from profilegen.sheets.index_sheet import dividing_sheets
from tests.cli.support import run
from tests.dividing.hardware import PLATES, WHEELS
from tests.parts import job, ratchet, vee

PART = "take-up-ratchet.toml"


def with_hardware(shop: Path, text: str) -> str:
    """The example part with a table `[dividing]`."""
    path = shop / "divided.toml"
    path.write_text((shop / PART).read_text() + "\n[dividing]\n" + text, encoding="utf-8")
    return path.name


def test_json_has_the_agreed_keys(shop: Path) -> None:
    """The keys are those of the contract, with and without hardware, and what was added to it."""
    wanted = ["method", "exact", "worst_error_arcmin", "worst_error_mm", "spacing_error_mm"]
    wanted += ["may_be_off_mm", "ways", "stops", "closing_stops", "teeth", "way", "turn", "laps"]
    wanted += ["slips"]
    name = with_hardware(shop, 'kind = "plate"\nholes = 36\nvernier = 10\n')
    for file, method in ((PART, "free"), (name, "direct")):
        plan = json.loads(run("stops", file, "--json").stdout)
        assert list(plan) == wanted
        assert (plan["method"], plan["exact"], len(plan["stops"])) == (method, True, 30)
        keys = ["stop", "lap", "angle", "set_angle", "error_arcmin", "reading"]
        assert list(plan["stops"][1]) == list(plan["closing_stops"][0]) == keys


def test_json_has_what_the_text_says(shop: Path) -> None:
    """Closing stops count on, a slip costs what it does in the text (9 degrees of a radius of 19 mm
    for a turn of the crank), the way is told by its number and the turn by its sense."""
    name = with_hardware(shop, f'kind = "worm"\nratio = "40:1"\nplates = {PLATES}\n')
    plan = json.loads(run("stops", name, "--json", "--way", "2").stdout)
    assert (plan["teeth"], plan["way"], plan["turn"]) == (30, 2, "counter-clockwise")
    assert [way["number"] for way in plan["ways"]] == list(range(1, len(plan["ways"]) + 1))
    assert plan["ways"][1]["sectors"] == [6]
    (closing,) = plan["closing_stops"]
    assert (closing["stop"], closing["reading"]) == (31, "40 turns, hole 0 of 18")
    assert [slip["slip"] for slip in plan["slips"]] == [
        "one hole of the 18 circle",
        "one turn of the crank",
    ]
    assert plan["slips"][1]["arcmin"] == 540.0
    assert plan["slips"][1]["mm"] == pytest.approx(math.radians(9) * 19)
    bare = json.loads(run("stops", PART, "--json").stdout)
    assert (bare["way"], bare["slips"]) == (None, [])


def test_another_count_is_told_beside_the_part_s(shop: Path) -> None:
    """A list for 90 on a part of 30 teeth says so in its heading and its words; the part's own
    does not."""
    name = with_hardware(shop, PLATE)
    text = run("stops", name, "--teeth", "90").stdout
    assert "90 stops, where the part has 30" in text.splitlines()[0]
    assert "Not for the part as it is, which has 30 teeth" in " ".join(text.split())
    assert "where the part has" not in run("stops", name).stdout


@pytest.mark.usefixtures("no_sheets")
def test_the_part_names_its_way(shop: Path) -> None:
    """With `way` in [dividing] the plan, the files of make and the check follow it, but for another
    count; a number that the list has not is wrong input of the part."""
    hardware = f'kind = "worm"\nratio = 40\nplates = {PLATES}\nchange_wheels = {WHEELS}\n'
    name = with_hardware(shop, hardware)
    path = shop / name
    text = path.read_text().replace("outside_diameter = 38", "outside_diameter = 160")
    text = text.replace("bar_diameter = 40", "bar_diameter = 165")
    path.write_text(text.replace("teeth = 30", "teeth = 127"), encoding="utf-8")
    ways = json.loads(run("stops", name, "--json").stdout)["ways"]
    number = next(way["number"] for way in ways if way["circle"] == 21)
    path.write_text(f"{path.read_text()}way = {number}\n", encoding="utf-8")
    plan = json.loads(run("stops", name, "--json").stdout)
    assert (plan["method"], plan["exact"], plan["way"]) == ("differential", True, number)
    assert json.loads(run("stops", name, "--json", "--way", "4").stdout)["way"] == 4
    assert json.loads(run("stops", name, "--json", "--teeth", "30").stdout)["way"] == 1
    assert "Differential: 7/21 for each stop" in run("check", name).stdout
    run("make", name)
    made = (shop / "out" / "divided" / "divided-stops.csv").read_bytes().decode()
    assert rows_of(made)[-1][-1] == "42 turns, hole 7 of 21"
    path.write_text(path.read_text().replace(f"way = {number}", "way = 99"), encoding="utf-8")
    for verb in ("stops", "check", "make"):
        done = run(verb, name)
        assert (done.exit_code, "dividing.way" in done.stderr + done.stdout) == (2, True)


@pytest.mark.parametrize("ratio", ["40", '"40:1"', '"40 : 1"', '"40 to 1"'])
def test_a_ratio_as_it_stands_on_the_head(shop: Path, ratio: str) -> None:
    """40:1 is 40."""
    name = with_hardware(shop, f'kind = "worm"\nratio = {ratio}\nplates = [[15]]\n')
    assert json.loads(run("stops", name, "--json").stdout)["stops"][3]["reading"] == (
        "4 turns, hole 0 of 15"
    )


@pytest.mark.parametrize("ratio", ['"1:40"', '"40:2"', '"forty"', '"0:1"', '"4000:1"'])
def test_a_ratio_that_is_none(shop: Path, ratio: str) -> None:
    """Any other text is refused."""
    done = run("stops", with_hardware(shop, f'kind = "worm"\nratio = {ratio}\n'))
    assert (done.exit_code, "dividing.ratio" in done.stderr) == (2, True)


def test_a_worm_head_without_plates_says_so(shop: Path) -> None:
    """Only whole turns are possible: where they are not enough the refusal says so."""
    for ratio, code in ((20, 3), (45, 3), (60, 0)):
        done = run("stops", with_hardware(shop, f'kind = "worm"\nratio = {ratio}\n'))
        assert done.exit_code == code
        assert ("gives no plates" in " ".join(done.stderr.split())) == (code == 3)


def test_a_motor_with_its_gearing_apart(shop: Path) -> None:
    """200 steps of the motor, 16 parts each, 90 turns for one of the work: 288000, 9600 a stop."""
    name = with_hardware(shop, 'kind = "motor"\nsteps = 200\nratio = 90\nmicrosteps = 16\n')
    plan = json.loads(run("stops", name, "--json").stdout)
    assert plan["stops"][1]["reading"] == "9600 steps"
    assert plan["closing_stops"][0]["reading"] == "288000 steps"


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


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_table_behind_marks_in_the_starters(shop: Path, unit: str) -> None:
    """With the # taken away from the lines of [dividing] a started part has a plan: 24 stops of 15
    whole degrees."""
    assert run("start", "ratchet", "--units", unit, "--out", "started.toml").exit_code == 0
    head, mark, table = (shop / "started.toml").read_text().partition("# [dividing]")
    lines = [re.sub("^# (?=\\w+ =)", "", line) for line in table.splitlines()]
    (shop / "started.toml").write_text(head + mark[2:] + "\n".join(lines))
    plan = json.loads(run("stops", "started.toml", "--json").stdout)
    assert (plan["method"], plan["exact"]) == ("direct", True)
    assert plan["stops"][1]["reading"] == "hole 1, vernier 5"


PLATE = 'kind = "plate"\nholes = 36\nvernier = 10\n'


def rows_of(text: str) -> list[list[str]]:
    """The rows of a CSV."""
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.mark.usefixtures("no_sheets")
def test_csv_has_what_is_set_behind_the_other_columns(shop: Path) -> None:
    """`--csv` and the file of `make` are the same: the columns of a part without hardware, and
    three more."""
    name = with_hardware(shop, PLATE)
    plain, more = (rows_of(run("stops", *w).stdout) for w in ((PART,), (name, "--csv")))
    assert [row[:5] for row in more] == plain
    assert more[0][5:] == ["set_angle", "error_arcmin", "reading"]
    assert more[2][5:] == ["12.0000", "0.000", "hole 1, vernier 2"]
    assert more[-1][3] == "same as stop 1"
    run("make", name)
    made = (shop / "out" / "divided" / "divided-stops.csv").read_bytes().decode()
    assert rows_of(made) == more


def test_a_part_says_that_its_stops_are_not_exact(shop: Path) -> None:
    """One rule for every command but `stops --allow-error`: refused, and no reading anywhere; or
    within what a land may be off, a caution and every reading."""
    for notches, severity, code in ((32, "refused", 3), (11_000, "caution", 0)):
        kind = 'notched"\nnotches' if notches < 1000 else 'motor"\nsteps'
        name = with_hardware(shop, f'kind = "{kind} = {notches}\n')
        done = run("check", name, "--json")
        found = json.loads(done.stdout)["findings"]
        assert ("index-inexact", severity) in {(f["code"], f["severity"]) for f in found}
        codes = [done.exit_code]
        codes += [run(verb, name, "--force").exit_code for verb in ("make", "sheet", "stops")]
        assert codes == [code] * 4
        rows = rows_of((shop / "out" / "divided" / "divided-stops.csv").read_bytes().decode())
        assert rows[0][-1] == ("done" if code else "reading")
        assert run("stops", name, "--allow-error").exit_code == 0


def test_what_is_allowed_is_listed_as_inexact(shop: Path) -> None:
    """Text, CSV and sheet of stops that are off say so over the readings; of exact ones none."""
    for holes, inexact in ((32, True), (30, False)):
        name = with_hardware(shop, f'kind = "plate"\nholes = {holes}\n')
        words = ("stops", name, "--allow-error")
        assert ("INEXACT: lands come out" in run(*words).stdout) == inexact
        title = "INEXACT reading" if inexact else "reading"
        assert rows_of(run(*words, "--csv").stdout)[0][-1] == title
        run(*words, "--out", f"{holes}.svg")
        svg = (shop / f"{holes}.svg").read_text(encoding="utf-8")
        assert ('aria-label="Stops, INEXACT"' in svg) == inexact


@pytest.mark.usefixtures("no_sheets")
def test_the_angle_of_a_stop_is_the_same_everywhere(shop: Path) -> None:
    """Stops, make's JSON and CSV agree in both laps, whichever way the dial increases, with
    hardware and without: the turn since stop 1 of lap 1 the way the stops count."""
    for hardware in ("", PLATE, f'{PLATE}dial_increases = "clockwise"\n'):
        name = two_laps(shop, hardware)
        if not hardware:
            path = shop / name
            path.write_text(path.read_text().replace("\n[dividing]\n", ""), encoding="utf-8")
        plan = json.loads(run("stops", name, "--json").stdout)
        listed = [stop["angle"] for stop in plan["stops"]]
        assert run("make", name, "--force").exit_code == 0
        folder = shop / "out" / "divided"
        told = json.loads((folder / "divided.json").read_text(encoding="utf-8"))["stops"]
        rows = rows_of((folder / "divided-stops.csv").read_bytes().decode())
        in_rows = [float(row[2]) for row in rows[1:] if row[3] != "same as stop 1"]
        clockwise = "clockwise" in hardware.replace("counter-clockwise", "")
        assert listed[30] == pytest.approx(3 if clockwise else 9)
        assert [stop["angle"] for stop in told] == listed
        assert in_rows == pytest.approx(listed, abs=5e-5)
        assert all(0 <= angle < 360 for angle in listed)
        assert listed == sorted(listed[:30]) + sorted(listed[30:])


@pytest.mark.parametrize("teeth", ["2", "7", "1000"])
def test_any_count_may_be_asked(shop: Path, teeth: str) -> None:
    """`--teeth` asks the hardware for a count that the part has not, to 1000."""
    (shop / "part.toml").write_text(f'dividing = "table.toml"\n{(shop / PART).read_text()}')
    run("start", "dividing")
    done = run("stops", "part.toml", "--teeth", teeth, "--json", "--allow-error")
    plan = json.loads(done.stdout)
    assert (done.exit_code, len(plan["stops"])) == (0, int(teeth))
    assert plan["exact"] == (129600 % int(teeth) == 0)
    assert run("stops", "part.toml", "--teeth", teeth, "--allow-error").exit_code == 0
    assert run("stops", PART, "--teeth", teeth, "--csv").exit_code == 0


def test_another_way_is_taken_by_its_number(shop: Path) -> None:
    """127 on a worm head is not exact by plain dividing: change wheels are taken, with a caution
    that tells how; the plain way, asked for, comes within what a land may be off."""
    (shop / "part.toml").write_text(f'dividing = "worm.toml"\n{(shop / PART).read_text()}')
    run("start", "dividing")
    done = run("stops", "part.toml", "--teeth", "127")
    assert done.exit_code == 0
    assert "caution: index-differential" in done.stderr
    assert "locking pin out" in done.stderr
    plan = json.loads(run("stops", "part.toml", "--teeth", "127", "--json").stdout)
    assert (plan["method"], plan["exact"], plan["way"]) == ("differential", True, 1)
    last = next(way["number"] for way in plan["ways"] if way["method"] == "plain")
    done = run("stops", "part.toml", "--teeth", "127", "--way", str(last))
    said = " ".join(done.stderr.split())
    assert (done.exit_code, "caution: index-inexact" in said) == (0, True)
    assert "way 1 (differential) is exact: say --way 1" in said
    assert run("stops", "part.toml", "--teeth", "127", "--way", "99").exit_code == 2


def test_every_form_closes_where_the_crank_has_come_to(shop: Path) -> None:
    """127 moves of 5/15 are 42 turns and 5 holes, with change wheels no whole turns: text and CSV
    say so at the closing stop."""
    (shop / "part.toml").write_text(f'dividing = "worm.toml"\n{(shop / PART).read_text()}')
    run("start", "dividing")
    words = ("stops", "part.toml", "--teeth", "127", "--way", "1")
    closing = "42 turns, hole 5 of 15"
    assert f"{closing} (same as stop 1)" in run(*words).stdout
    assert rows_of(run(*words, "--csv").stdout)[-1][-1] == closing


def test_too_many_stops_are_refused_for_good(shop: Path) -> None:
    """More stops than positions are refused even with --allow-error; another count is not."""
    name = with_hardware(shop, 'kind = "notched"\nnotches = 24\n')
    done = run("stops", name, "--allow-error")
    assert (done.exit_code, done.stdout) == (3, "")
    assert "only 24 positions" in " ".join(done.stderr.split())
    assert run("stops", name, "--teeth", "12").exit_code == 0


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ({}, "there is no such file"),
        ({"one.toml": ""}, "this file is empty"),
        ({"one.toml": "x = 1"}, "there is no table [dividing] in it"),
        ({"one.toml": "dividing = 'one.toml'"}, "in a ring"),
        ({"one.toml": "dividing = 'two.toml'", "two.toml": "dividing = 'one.toml'"}, "in a ring"),
        ({"one.toml": "dividing = 'part.toml'"}, "in a ring"),
        ({"one.toml": "x ="}, "one.toml, line 1: nothing stands behind the ="),
        ({"one.toml": "[dividing]\nkind = 'worm'\nratio = 0"}, "dividing.ratio, line 3"),
        ({"one.toml": "dividing = 3"}, "a table is wanted here"),
    ],
)
def test_named_files_that_lead_nowhere(shop: Path, files: dict[str, str], words: str) -> None:
    """What is wrong with a named file is told with its name, beside what is wrong in the part."""
    for name, text in files.items():
        (shop / name).write_text(text)
    part = f'dividing = "one.toml"\n{(shop / PART).read_text()}'.replace("teeth = 30", "teeth = 1")
    (shop / "part.toml").write_text(part)
    done = run("stops", "part.toml")
    assert done.exit_code == 2
    for said in (words, "one.toml", "wheel.teeth", "dividing, line 1"):
        assert said in done.stderr


def test_a_named_file_may_name_another(shop: Path) -> None:
    """Names are read from the folder of the file that gives them."""
    (shop / "bench").mkdir()
    (shop / "bench" / "head.toml").write_text("dividing = 'plate.toml'")
    (shop / "bench" / "plate.toml").write_text(f"[dividing]\n{PLATE}")
    (shop / "part.toml").write_text(f'dividing = "bench/head.toml"\n{(shop / PART).read_text()}')
    assert json.loads(run("stops", "part.toml", "--json").stdout)["method"] == "direct"


def test_a_fault_is_placed_in_the_file_that_has_it(shop: Path) -> None:
    """Named over two files, it is told with the last one's name, its line and the key's path."""
    (shop / "bench").mkdir()
    (shop / "bench" / "head.toml").write_text("dividing = 'worm.toml'")
    (shop / "bench" / "worm.toml").write_text(
        "# mine\n\n[dividing]\nkind = 'worm'\nratio = 40\nplates = [[15, 1]]\nholes = 3\n"
    )
    (shop / "part.toml").write_text(f'dividing = "bench/head.toml"\n{(shop / PART).read_text()}')
    done = run("stops", "part.toml")
    file = Path("bench") / "worm.toml"
    assert done.exit_code == 2
    assert f"{file}: dividing.plates, line 6" in done.stderr
    assert f"{file}: dividing.holes, line 7" in done.stderr


def two_laps(shop: Path, hardware: str) -> str:
    """The example part, its spaces of 60 degrees cut by a vee of 45 in two laps."""
    cutter = '[[cutter]]\nname = "narrow"\nkind = "vee"\nincluded_angle = 45\ntip_radius = 0.2\n'
    name = with_hardware(shop, hardware)
    text = (shop / name).read_text().replace('cutter = "single-point 60"', 'cutter = "narrow"')
    (shop / name).write_text(text.replace("\n[setup]\n", f"\n{cutter}\n[setup]\n"))
    return name


@pytest.mark.parametrize(
    ("dial", "angle", "reading"),
    [("counter-clockwise", 9, "hole 0, vernier 9"), ("clockwise", 3, "hole 0, vernier 3")],
)
def test_the_second_lap(shop: Path, dial: str, angle: float, reading: str) -> None:
    """It lies the difference of space and cutter, 15 degrees, on in the driven direction, which is
    clockwise: 3 on from a stop of 12, or 9 counter-clockwise. Its stops, readings and return are
    listed in every form."""
    name = two_laps(shop, f'{PLATE}dial_increases = "{dial}"\n')
    plan = json.loads(run("stops", name, "--json").stdout)
    assert (plan["exact"], [stop["lap"] for stop in plan["stops"]]) == (True, [1] * 30 + [2] * 30)
    start = plan["stops"][30]
    assert (start["stop"], start["reading"], start["error_arcmin"]) == (1, reading, 0.0)
    assert (start["angle"], start["set_angle"]) == pytest.approx((angle, angle), abs=1e-9)
    text = run("stops", name).stdout
    said = f"turn the work on by {angle}.0000° {dial}, as to every stop, to {reading}"
    assert f"From the closing stop of lap 1 {said}" in " ".join(text.split())
    assert plan["laps"] == [{"lap": 1, "turn_on": 0.0}, {"lap": 2, "turn_on": angle}]
    assert re.search(rf"^ *1 +2 +{angle}\.0000 .* {reading} ", text, re.MULTILINE)
    assert re.search(rf"^ *31 +2 .* {reading} \(same as stop 1\)", text, re.MULTILINE)
    rows = rows_of(run("stops", name, "--csv").stdout)
    assert rows[32][:2] == ["1", "2"]
    assert rows[32][-1] == rows[62][-1] == reading


def test_a_second_lap_between_two_holes(shop: Path) -> None:
    """Notches of 6 degrees are 3 off at every stop of it: refused, in mm of the 38 mm wheel, though
    the stops of each lap are even."""
    name = two_laps(shop, 'kind = "notched"\nnotches = 60\n')
    done = run("stops", name)
    assert (done.exit_code, done.stdout) == (3, "")
    assert "0.995 mm (0.0392 in) off round the outside" in " ".join(done.stderr.split())
    plan = json.loads(run("stops", name, "--json", "--allow-error").stdout)
    assert (plan["exact"], plan["worst_error_arcmin"]) == (False, 180.0)
    assert plan["worst_error_mm"] == pytest.approx(math.radians(3) * 19)
    assert [abs(stop["error_arcmin"]) for stop in plan["stops"]] == [0.0] * 30 + [180.0] * 30
    assert [way["exact"] for way in plan["ways"]] == [False]
    text = " ".join(run("stops", name, "--allow-error").stdout.split())
    assert "the stops of each lap are even, but a later lap as a whole" in text


def test_the_decimal_mark_of_the_part(shop: Path) -> None:
    """With a comma no figure of the text, of its finding or of the sheet has a point; JSON and CSV,
    which programs read, keep it."""
    name = with_hardware(shop, PLATE)
    words = ("stops", name, "--teeth", "32", "--allow-error", "--decimal", "comma")
    done = run(*words)
    assert "11,2500" in done.stdout
    assert "30,000 arc minutes" in done.stdout
    run(*words, "--out", "comma.svg")
    svg = (shop / "comma.svg").read_text(encoding="utf-8")
    for text in (done.stdout, done.stderr, *re.findall(r'aria-label="([^"]*)"', svg)):
        assert not re.search(r"\d\.\d", text.replace("profilegen 0.1.0", ""))
    assert "11.2500" in run(*words, "--csv").stdout
    assert '"angle": 11.25' in run(*words, "--json").stdout


def test_units_and_paper_of_the_sheet(shop: Path) -> None:
    """Sizes begin with the unit that is asked for, and the page is the paper that is asked for."""
    name = with_hardware(shop, PLATE)
    assert "1.4961 in (38.000 mm)" in run("stops", name, "--units", "in").stdout
    for paper, width in (("A4", "210mm"), ("letter", "215.9mm")):
        assert run("stops", name, "--paper", paper, "--out", f"{paper}.svg").exit_code == 0
        assert f'width="{width}"' in (shop / f"{paper}.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("out", "begins"),
    [("a.csv", b"stop,lap"), ("a.CSV", b"stop,lap"), ("a.json", b"{"), ("a.PDF", b"%PDF")],
)
def test_a_file_holds_what_its_ending_says(shop: Path, out: str, begins: bytes) -> None:
    """The form follows the ending, in capitals too."""
    name = with_hardware(shop, PLATE)
    words = ["--json"] if out.endswith("json") else []
    assert run("stops", name, "--out", out, *words).exit_code == 0
    assert (shop / out).read_bytes().startswith(begins)


@pytest.mark.parametrize("words", [("--json", "--csv"), ("--json", "--out", "a.pdf")])
def test_one_form_at_a_time(shop: Path, words: tuple[str, ...]) -> None:
    """Forms exclude each other."""
    assert run("stops", PART, *words).exit_code == 2


@pytest.mark.parametrize(("teeth", "pages"), [("30", 1), ("77", 2), ("127", 2), ("1000", 5)])
def test_the_sheet_holds_every_stop_and_nothing_on_another_thing(teeth: str, pages: int) -> None:
    """One page while the stops can be read on it, else pages of their own; labels keep clear of
    each other and stay on the page."""
    hardware = {"kind": "worm", "ratio": 40, "plates": PLATES, "change_wheels": WHEELS}
    made = job(ratchet(), vee(), dividing=hardware)
    plan = plan_of(made.part, made.wheel, made.plan.frame, made.plan.cuts, int(teeth))
    sheets = dividing_sheets(made.part, plan)
    assert len(sheets) == pages
    said = "".join(svg_bytes(sheet).decode() for sheet in sheets)
    found = re.findall(r'aria-label="(\d+): [^"]*"', said)
    assert list(map(int, found)) == list(range(1, int(teeth) + 1))
    for sheet in sheets:
        assert overlaps(sheet.boxes) == ()
        page = Box(0, 0, sheet.width, sheet.height)
        assert all(page.holds(box) for box in sheet.boxes)


def test_a_picture_that_cannot_hold_every_stop_says_so(shop: Path) -> None:
    """A .svg is one page: with 127 stops what it leaves out is told, with 30 there is nothing."""
    name = with_hardware(
        shop, f'kind = "worm"\nratio = 40\nplates = {PLATES}\nchange_wheels = {WHEELS}\n'
    )
    for teeth, left_out in (("127", True), ("30", False)):
        done = run("stops", name, "--teeth", teeth, "--out", f"{teeth}.svg")
        assert ("a .pdf holds them all" in done.stderr) == left_out


def sizes(sheet: Sheet) -> list[float]:
    """Capital heights of the stops' labels, mm."""
    texts = [mark for mark in sheet.marks if isinstance(mark, Text)]
    return [text.size for text in texts if re.match(r"\d+: ", text.string)]


def test_the_stops_take_the_paper_that_there_is() -> None:
    """37 stops are lettered in the biggest size, 127 as small as one page asks, headed INEXACT; of
    300 the first stand below the words, the others on the second page."""
    hardware = {"kind": "worm", "ratio": 40, "plates": PLATES}
    made = job(ratchet(), vee(), dividing=hardware)

    def sheets(teeth: int) -> tuple[Sheet, ...]:
        asked = (made.part, made.wheel, made.plan.frame, made.plan.cuts, teeth)
        plain = next(n for n, way in enumerate(plan_of(*asked).ways, 1) if way.method == "plain")
        allowed = replace(plan_of(*asked, plain), allowed=True)
        return dividing_sheets(made.part, allowed)

    (one,) = sheets(37)
    assert set(sizes(one)) == {3.5}
    (whole,) = sheets(127)
    assert len(sizes(whole)) == 127
    assert min(sizes(whole)) >= 1.8
    assert "INEXACT" in svg_bytes(whole).decode()
    first, second = sheets(300)
    assert len(sizes(first)) > 20
    assert len(sizes(first)) + len(sizes(second)) == 300
    assert "error" not in "".join(re.findall(r'aria-label="\d+: [^"]*"', svg_bytes(one).decode()))


ON_A_BLANK = """
units = "mm"
drawer = "drawer.toml"
[wheel]
kind = "ratchet"
teeth = 24
outside_diameter = 38.0
thickness = 4.0
root_diameter = 33.0
land = 0.8
[blank]
diameter = 37.6
[dividing]
kind = "motor"
steps = 1000000
"""
NARROW = """
units = "mm"
[[cutter]]
name = "vee 40"
kind = "vee"
included_angle = 40
tip_radius = 0.05
"""


@pytest.mark.usefixtures("no_sheets")
def test_stops_are_those_of_the_sheet(shop: Path) -> None:
    """On a measured blank, and with the cutters of a drawer, the list is the one that make writes:
    laps, angles and readings."""
    (shop / "part.toml").write_text(ON_A_BLANK)
    (shop / "drawer.toml").write_text(NARROW)
    said = run("make", "part.toml").stderr
    made = shop / "out" / "part" / "part-stops.csv"
    assert made.exists(), said
    done = run("stops", "part.toml", "--csv")
    assert done.stdout.splitlines() == made.read_text().splitlines()
    assert {row.split(",")[1] for row in done.stdout.splitlines()[1:]} == {"1", "2"}
