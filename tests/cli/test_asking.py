"""`start --ask` stopped half-way, gone on with, helped along; and samples that suit the wheel."""

from __future__ import annotations

import re
import sys
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from profilegen import job_for, load
from profilegen.cli.answers import AnswerError, Key
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.part import kinds
from tests.cli.support import files_below, run
from tests.cli.terminal import Terminal
from tests.cli.test_start import ANSWERS, DEFAULTS

UNIX = pytest.mark.skipif(sys.platform == "win32", reason="has no pseudo-terminals")


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty current folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def first(lines: int) -> str:
    """The first answers of the whole dialogue."""
    return "".join(ANSWERS.splitlines(keepends=True)[:lines])


@pytest.mark.parametrize("name", ["ratchet.toml", "ratchet.svg"])
def test_a_file_in_the_way_is_told_first(bench: Path, name: str) -> None:
    """A part file or picture that stands in the way is named before the first question."""
    (bench / name).write_text("mine")
    done = run("start", "ratchet", "--ask", answers=ANSWERS)
    assert done.exit_code == 4
    assert name in done.stderr
    assert "units" not in done.stderr
    assert files_below(bench) == {name: b"mine"}
    assert run("start", "ratchet", "--ask", "--force", answers=ANSWERS).exit_code == 0


@pytest.mark.parametrize("force", [(), ("--force",)])
def test_a_place_that_cannot_be_written_is_told_first(bench: Path, force: tuple[str]) -> None:
    """A folder of the file's name, a link to nothing or a file for a folder: told at once."""
    (bench / "ratchet.toml").mkdir()
    (bench / "link.toml").symlink_to("nowhere/part.toml")
    (bench / "file").write_text("mine")
    for name, reason in (
        ("ratchet.toml", "this is a folder"),
        ("link.toml", "a link to"),
        ("file/part.toml", "cannot be written"),
    ):
        done = run("start", "ratchet", "--ask", "--out", name, *force, answers=ANSWERS)
        assert (done.exit_code, reason in done.stderr) == (4, True), done.stderr
        assert "units" not in done.stderr


@cache
def whole() -> dict[str, Any]:
    """The tables of the file that an undisturbed dialogue writes."""
    run("start", "ratchet", "--ask", "--out", "whole.toml", answers=ANSWERS)
    return tomllib.loads(Path("whole.toml").read_text())


@pytest.mark.usefixtures("no_samples")
@pytest.mark.parametrize("lines", [2, 9, 16, 24])
def test_answers_that_end_too_soon_are_kept(bench: Path, lines: int) -> None:
    """The answers so far are kept as comments; with empty lines for them the rest goes on, and the
    file is the one that an undisturbed dialogue writes."""
    done = run("start", "ratchet", "--ask", answers=first(lines))
    assert done.exit_code == 2
    assert "ended before the last question" in done.stderr
    kept = (bench / "ratchet.toml").read_text()
    assert all(line.startswith("# ") for line in kept.splitlines())
    assert "profilegen start ratchet --ask" in kept
    assert run("check", "ratchet.toml").exit_code == 2
    rest = "\n" * lines + ANSWERS.removeprefix(first(lines))
    assert run("start", "ratchet", "--ask", answers=rest).exit_code == 0
    assert tomllib.loads((bench / "ratchet.toml").read_text()) == whole()


@pytest.mark.parametrize("lines", [0, 1])
def test_nothing_is_kept_of_nothing(bench: Path, lines: int) -> None:
    """Before the first answer there is nothing to keep, and no file."""
    assert run("start", "ratchet", "--ask", answers=first(lines)).exit_code == 2
    assert files_below(bench) == {}


def test_stopped_again_keeps_what_was_kept(bench: Path) -> None:
    """Stopped a second time before the old answers are passed, none of them is lost."""
    run("start", "ratchet", "--ask", answers=first(16))
    before = (bench / "ratchet.toml").read_text()
    run("start", "ratchet", "--ask", answers="\nAnother title\n")
    after = (bench / "ratchet.toml").read_text().splitlines()
    assert sorted(after) == sorted(before.replace("Beam wheel", "Another title").splitlines())


def test_going_on_in_the_other_unit_keeps_the_sizes(bench: Path) -> None:
    """A kept bare length is still of its own unit when one goes on in the other."""
    run("start", "ratchet", "--ask", answers=first(9))
    assert "# wheel.outside_diameter = 2.5\n" in (bench / "ratchet.toml").read_text()
    run("start", "ratchet", "--ask", answers="mm\n" + DEFAULTS)
    assert load("ratchet.toml").units == "mm"
    assert job_for(load("ratchet.toml")).wheel.radius == pytest.approx(25.4 * 1.25)


def test_forced_over_a_part_keeps_both(bench: Path) -> None:
    """With --force the part that stands there is not lost to a dialogue that is stopped; the
    answers are kept beside it, offered again, and taken away when all is answered."""
    run("start", "ratchet")
    before = (bench / "ratchet.toml").read_bytes()
    line = ("start", "ratchet", "--ask", "--force")
    assert "ratchet-unfinished.toml" in run(*line, answers=first(6)).stderr
    assert (bench / "ratchet.toml").read_bytes() == before
    assert (
        "title [Beam wheel]" in run(*line, answers="\n" * 6 + ANSWERS.removeprefix(first(6))).stderr
    )
    assert sorted(files_below(bench)) == [".profilegen-part.json", "ratchet.svg", "ratchet.toml"]
    assert load("ratchet.toml").title == "Beam wheel"


def test_answers_kept_and_spoilt_by_hand(bench: Path) -> None:
    """A kept answer that will not do any more is not offered; a key that counts makes a part."""
    run("start", "ratchet", "--ask", answers=first(9))
    path = bench / "ratchet.toml"
    path.write_text(path.read_text().replace("teeth = 20", "teeth = -1") + "# [x\n# y = = 2\n")
    assert "teeth [24]" in run("start", "ratchet", "--ask", answers=first(6)).stderr
    path.write_text(path.read_text() + 'title = "mine"\n')
    assert run("start", "ratchet", "--ask", answers=ANSWERS).exit_code == 4


@UNIX
def test_ctrl_c_keeps_the_answers(bench: Path) -> None:
    """Ctrl-C at a terminal ends with 130 and keeps what was answered; the next run offers it."""
    at = Terminal("start", "ratchet", "--ask", "--units", "mm", folder=bench)
    at.answer("title [", "Cloth wheel")
    at.answer("number [", "-")
    at.answer("material [", "")
    at.answer("teeth [", "hello")
    at.wait_for("teeth [24]")
    at.press("\x03")
    assert at.ends() == 130
    assert "kept in ratchet.toml" in at.shown
    again = Terminal("start", "ratchet", "--ask", "--units", "mm", folder=bench)
    again.answer("title [Cloth wheel]", "")
    again.answer("number [-]", "")
    again.wait_for("material [medium-carbon steel]")
    again.press("\x04")
    assert again.ends() == 2
    assert '# number = "-"' in (bench / "ratchet.toml").read_text()


@cache
def undisturbed() -> str:
    """What a dialogue of empty lines asks."""
    return run("start", "ratchet", "--ask", "--out", "plain.toml", answers=DEFAULTS).stderr


@pytest.mark.usefixtures("no_samples")
@pytest.mark.parametrize(
    ("question", "typed", "reason"),
    [
        ("units [mm]", "inch", 'write "in"'),
        ("bore kind [round]", "hex", 'write "hexagon"'),
        ("bore kind [round]", "rond", 'did you mean "round"'),
        ("cutter kind [vee]", "V", 'write "vee"'),
        ("rotation [clockwise]", "ccw", 'write "counter-clockwise"'),
        ("teeth [24]", "18.5 teeth", "a count has no decimals"),
        ("teeth [24]", "18 teeth", "is no unit"),
        ("which [space_angle land]", "space angle and depth", "write tooth_depth"),
        ("outside_diameter [40.0]", "1,250", "write 1.250 or 1250"),
        ("land [0.5]", "6", "less than 5.235 mm"),
    ],
)
def test_the_suggestions_of_check_work_here(
    bench: Path, question: str, typed: str, reason: str
) -> None:
    """What `check` would suggest is told."""
    place = undisturbed()[: undisturbed().index(question)].count("]: ")
    answers = "\n" * place + f"{typed}\n" + DEFAULTS
    done = run("start", "ratchet", "--ask", answers=answers)
    assert reason in done.stderr
    assert done.exit_code == 0


@pytest.mark.parametrize(
    ("key", "typed", "offer"),
    [
        (Key("wheel", "ratchet", "teeth", "mm"), "18 teeth", "18"),
        (Key("wheel", "ratchet", "teeth", "mm"), "18T", "18"),
        (Key("wheel", "ratchet", "teeth", "mm"), "18.5 teeth", ""),
        (Key("wheel", "ratchet", "teeth", "mm"), "1 teeth", ""),
        (Key("wheel", "ratchet", "outside_diameter", "mm"), "2 ft", ""),
        (Key("wheel", "ratchet", "outside_diameter", "mm"), "Ø40", "40"),
        (Key("wheel", "ratchet", "root_radius", "mm"), "R0.3", "0.3"),
        (Key("wheel", "ratchet", "outside_diameter", "mm"), "1,250", ""),
        (Key("wheel", "ratchet", "outside_diameter", "mm"), "“40 mm”", "40 mm"),
        (Key("wheel", "ratchet", "outside_diameter", "mm", below=50), "60;", ""),
        (Key("wheel", "ratchet", "rotation", "mm"), "cw", "clockwise"),
        (Key("setup", "", "front", "mm"), "free", "free end"),
    ],
)
def test_only_what_would_do_is_offered(key: Key, typed: str, offer: str) -> None:
    """What was probably meant is offered for the next empty line, but never a size that lost its
    unit, one of two readings, or a value that would be refused again."""
    with pytest.raises(AnswerError) as error:
        key.read(typed)
    assert error.value.offer == offer


def test_an_empty_line_takes_what_is_offered(bench: Path) -> None:
    """The offer stands in the brackets of the question asked again."""
    done = run("start", "ratchet", "--ask", answers="inch\n" + DEFAULTS)
    assert "units [in]: " in done.stderr
    assert load("ratchet.toml").units == "in"


@pytest.mark.usefixtures("no_samples")
@pytest.mark.parametrize("bore", kinds.KINDS["bore"])
def test_every_question_about_a_bore_has_a_default(bench: Path, bore: str) -> None:
    """With empty lines throughout each kind of bore is made, on a wheel of another size too."""
    for number, wheel in enumerate(("\n" * 12, f"\n\n\n{WHEELS['watch']}\n\n")):
        answers = f"{wheel}{bore}\n{DEFAULTS}"
        out = f"{number}.toml"
        done = run("start", "ratchet", "--ask", "--units", "mm", "--out", out, answers=answers)
        assert done.exit_code == 0, done.stderr
        assert load(out).bore.kind == bore


@pytest.mark.usefixtures("no_samples")
def test_a_question_without_default_says_so(bench: Path) -> None:
    """What only the drawer knows has no default, and an empty line is no answer."""
    answers = "\n" * 14 + "slot\n\n\n2\n2\n0.1\n" + DEFAULTS
    done = run("start", "ratchet", "--ask", "--units", "mm", answers=answers)
    assert "width (no default): \n  this has no default: type a value\n" in done.stderr
    assert "the corners are rounder than the cutter is wide" in done.stderr
    assert done.exit_code in (0, 3)


WHEELS = {
    "watch": "30\n3\n0.4\n2 4\n0.05\n0.15\n8\n-",
    "big": "17\n400\n30\n1 4\n50\n20\n12\n2",
    "odd": "127\n150\n8\n1 2\n40\n0.4\n5\n0.1",
    "wide": "9\n80\n12\n1 2\n87.3\n1\n-10\n0.5",
    "refused": "24\n40\n5\n1 2\n10\n0.5\n5\n3",
}


SPACE = ("space_angle", "land", "root_diameter", "tooth_depth")


@pytest.mark.exhaustive
@pytest.mark.parametrize("name", WHEELS)
def test_no_sample_spoils_the_wheel(bench: Path, name: str) -> None:
    """Each value behind a # can be taken as it is: with its # taken away, alone, the file is read
    and brings no new refusal or caution; [dividing] as a whole."""
    text = asked(name)
    known, lines = objections(text), text.splitlines()
    head = lines.index(next(line for line in lines if line.startswith("# [dividing]")))
    for number, line in enumerate(lines[:head]):
        key = line.split(" ")[1] if line.startswith("# ") and " = " in line[:40] else ""
        if key and key not in ("drawer", *SPACE):
            tried = [*lines[:number], line[2:], *lines[number + 1 :]]
            assert objections("\n".join(tried)) <= known, line
    dividing = [line[2:] for line in lines[head:] if " = " in line[:40]]
    if any("kind" in line for line in dividing):
        assert objections("\n".join([*lines[:head], "[dividing]", *dividing])) <= known, dividing


@pytest.mark.exhaustive
@pytest.mark.parametrize("name", WHEELS)
def test_the_other_sizes_of_the_tooth_are_true(bench: Path, name: str) -> None:
    """Given in place of the two that were answered, the two behind a # make the same tooth."""
    text = asked(name)
    if name == "refused":
        assert not any(f"# {key} = " in text for key in SPACE)
        return
    wheel = job_for(load("ratchet.toml")).wheel
    plain = re.sub(rf"(?m)^# ({'|'.join(SPACE)}) = ", r"\1 = ", text)
    for pair in (SPACE[1:3], SPACE[0::2], SPACE[1::2]):
        other = "|".join(key for key in SPACE if key not in pair)
        Path("pair.toml").write_text(re.sub(rf"(?m)^({other}) = ", r"# \1 = ", plain))
        again = job_for(load("pair.toml")).wheel
        for size in SPACE:
            assert again.fact(size) == pytest.approx(wheel.fact(size), rel=0.03)


def asked(name: str) -> str:
    """The file of a wheel, by answers."""
    answers = f"\n\n\n{WHEELS[name]}\n{DEFAULTS}"
    done = run("start", "ratchet", "--ask", "--units", "mm", answers=answers)
    assert done.exit_code == (3 if name == "refused" else 0), done.stderr
    return Path("ratchet.toml").read_text()


def objections(text: str) -> set[str]:
    """The codes of what is refused or needs a look in a part file."""
    Path("tried.toml").write_text(text)
    try:
        findings = job_for(load("tried.toml")).findings
    except CannotMakeError as error:
        findings = error.findings
    return {one.code for one in findings if one.severity != "note"}
