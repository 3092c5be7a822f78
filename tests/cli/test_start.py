"""`start`: a part file to begin with."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from profilegen import job_for, load
from profilegen.cli.filling import filled
from profilegen.cli.templates import (
    example_bytes,
    example_names,
    starter_kinds,
    starter_text,
)
from profilegen.forms.form import Ask, AskKind, AskSome
from profilegen.forms.solve import form_of
from profilegen.part import kinds
from profilegen.part.kinds import form_module
from profilegen.part.part import Part
from profilegen.part.shipped import templates_folder
from tests.cli.support import files_below, real, run
from tests.dxf.drawings import light, raw
from tests.parts import teeth_of

DEFAULTS = "\n" * 40


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty current folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("kind", starter_kinds())
def test_starter_passes_check(bench: Path, kind: str, unit: str) -> None:
    """A starter is written with a picture, and `check` has neither refusal nor caution."""
    assert run("start", kind, "--units", unit).exit_code == 0
    assert b"outside_diameter" in (bench / f"{kind}.svg").read_bytes()
    done = run("check", "--json", f"{kind}.toml")
    assert done.exit_code == 0
    assert {item["severity"] for item in json.loads(done.stdout)["findings"]} <= {"note"}
    assert load(f"{kind}.toml").units == unit


def test_starter_names_itself(bench: Path) -> None:
    """A file under another name tells the commands to type with this name, everywhere."""
    run("start", "ratchet", "--out", "my cloth.toml")
    text = (bench / "my cloth.toml").read_text()
    assert "profilegen check 'my cloth.toml'" in text
    assert "profilegen gauge 'my cloth.toml'" in text
    assert "ratchet.toml" not in text
    run("start", "drawer", "--out", "mine.toml")
    assert "--drawer mine.toml" in (bench / "mine.toml").read_text()
    run("start", "--example", example_names()[0], "--out", "copy.toml")
    assert "profilegen copy.toml" in (bench / "copy.toml").read_text()


@pytest.mark.parametrize("kind", starter_kinds())
def test_both_units_say_the_same(kind: str) -> None:
    """The mm and the inch starter differ in values only, and in which of two keys stands behind a
    #: same keys, same comments, same order."""

    def frame(unit: str) -> list[tuple[str, str]]:
        lines = starter_text(kind, unit).splitlines()
        keys = [line.removeprefix("# ").partition(" = ")[0] for line in lines]
        return [(key, line.partition(" # ")[2]) for key, line in zip(keys, lines, strict=True)]

    assert frame("mm") == frame("in")


def test_sizes_behind_a_mark_are_true() -> None:
    """The sizes behind a # in the starter are those that the program solves, as shown."""
    for unit, scale in (("mm", 1.0), ("in", 25.4)):
        text = starter_text("ratchet", unit)
        shown = {
            line.split()[1]: float(line.split()[3])  # "# key = value ..."
            for line in text.splitlines()
            if line.startswith(("# root_diameter =", "# tooth_depth ="))
        }
        path = templates_folder() / "starters" / f"ratchet-{unit}.toml"
        wheel = job_for(load(path)).wheel
        for key, value in shown.items():
            digits = 2 if unit == "mm" else 3
            assert round(wheel.fact(key, 0.0) / scale, digits) == pytest.approx(value, abs=6e-4)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_what_the_tool_could_run_into_is_shown(unit: str) -> None:
    """The keys by which a clash of tool, chuck and jaws is told stand in the starter, and all of
    them together spoil nothing."""
    text = starter_text("ratchet", unit)
    for key in ("chuck", "jaw", "sweep", "holder"):
        assert f"\n# {key}_" in text
        text = text.replace(f"\n# {key}_", f"\n{key}_")
    tables = tomllib.loads(text)
    assert {"chuck_diameter", "jaw_diameter", "jaw_length"} <= tables["setup"].keys()
    assert {"sweep_diameter", "holder_diameter"} <= tables["cutter"][0].keys()
    findings = job_for(Part.from_dict(tables)).findings
    assert [item.code for item in findings if item.severity != "note"] == []


def test_started_twice_after_an_edit(bench: Path) -> None:
    """A part file that was edited is never overwritten without --force."""
    run("start", "ratchet")
    (bench / "ratchet.toml").write_text("mine")
    done = run("start", "ratchet")
    assert (done.exit_code, (bench / "ratchet.toml").read_text()) == (4, "mine")
    assert "profilegen start --force ratchet" in done.stderr


def test_list_names_kinds_and_examples() -> None:
    """`--list` names every kind, with what it is, and every example."""
    text = run("start", "--list").stdout
    for name in (*starter_kinds(), *example_names()):
        assert name in text
    for kind in starter_kinds():
        assert f"{kind:<20}  {form_module(kind).FORM.line}\n" in text


@pytest.mark.parametrize("name", example_names())
def test_example_is_copied(bench: Path, name: str) -> None:
    """`--example NAME` writes the shipped file, with or without .toml in the name."""
    assert run("start", "--example", f"{name}.toml").exit_code == 0
    line, _, rest = (bench / f"{name}.toml").read_bytes().partition(b"\n")
    assert (line[:9], rest) == (b"#:schema ", example_bytes(name))
    assert run("start", "--example", name, "--out", "copy.toml").exit_code == 0


@pytest.mark.parametrize(
    "words",
    [
        ("start",),
        ("start", "rachet"),
        ("start", "take-up-ratchet"),
        ("start", "--example", "nothing"),
        ("start", "ratchet", "--out", "part.txt"),
    ],
)
def test_nothing_to_start(bench: Path, words: tuple[str, ...]) -> None:
    """A missing or wrong name is an input error that says what there is; nothing is written."""
    done = run(*words)
    assert done.exit_code == 2
    assert "    " in done.stderr
    assert files_below(bench) == {}


def test_schema_is_json() -> None:
    """`--schema` prints the JSON Schema, with every table; of drawers and hardware on request."""
    for words in (("start", "--schema"), ("start", "ratchet", "--schema")):
        schema = json.loads(run(*words).stdout)
        assert set(kinds.TABLES) <= set(schema["properties"])
    assert "cutter" in json.loads(run("start", "drawer", "--schema").stdout)["properties"]
    assert list(json.loads(run("start", "dividing", "--schema").stdout)["properties"]) == [
        "dividing"
    ]


@pytest.mark.parametrize(
    ("words", "sort"),
    [
        (("ratchet",), "part"),
        (("ratchet", "--ask", "--units", "mm"), "part"),
        (("--example", example_names()[0]), "part"),
        (("drawer",), "drawer"),
        (("dividing",), "dividing"),
    ],
)
def test_the_first_line_leads_editors_to_the_schema(
    bench: Path, words: tuple[str, ...], sort: str
) -> None:
    """Each file written begins with the place of its schema, which is there and finds no fault."""
    assert run("start", *words, answers=DEFAULTS).exit_code == 0
    for path in bench.glob("*.toml"):
        line, _, text = path.read_text(encoding="utf-8").partition("\n")
        assert line == f"#:schema .profilegen-{sort}.json"
        schema = json.loads((bench / line.removeprefix("#:schema ")).read_bytes())
        assert not list(Draft202012Validator(schema).iter_errors(tomllib.loads(text)))


def test_an_old_schema_is_replaced_unasked(bench: Path) -> None:
    """The schema's file is the program's own: an older one is no reason to refuse."""
    (bench / ".profilegen-part.json").write_text("{}")
    assert run("start", "ratchet").exit_code == 0
    assert len((bench / ".profilegen-part.json").read_bytes()) > 1000


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_all_defaults_make_the_starter(bench: Path, unit: str) -> None:
    """Empty answers throughout give the sizes of the starter, exit code 0."""
    assert run("start", "ratchet", "--ask", "--units", unit, answers=DEFAULTS).exit_code == 0
    run("start", "ratchet", "--units", unit, "--out", "plain.toml")
    asked, plain = (tomllib.loads((bench / f"{n}.toml").read_text()) for n in ("ratchet", "plain"))
    assert asked == plain


ANSWERS = """in
Beam wheel
-
-
20
2.5
5/16 in
1 4
60
.23
0
.015
counter-clockwise
keyed
3/4
.1875
.094
single-angle
angle cutter
60
.015
left
behind
head
clockwise
"""


def test_asked_through_a_pipe(bench: Path) -> None:
    """Answers from a pipe give a file that checks, with every answer in it and the sizes shown."""
    done = real("start", "ratchet", "--ask", "--out", "beam.toml", answers=ANSWERS.encode())
    assert done.returncode == 0, done.stderr.decode()
    assert done.stdout == b""
    assert b"Root diameter, real material" in done.stderr
    part = load("beam.toml")
    assert (part.title, part.number, part.units, teeth_of(part.wheel)) == (
        "Beam wheel",
        "",
        "in",
        20,
    )
    wheel = tomllib.loads((bench / "beam.toml").read_text())["wheel"]
    assert (wheel["space_angle"], wheel["tooth_depth"]) == (60, 0.23)
    assert "land" not in wheel
    assert run("check", "beam.toml").exit_code == 0


def test_bad_answers_are_asked_again(bench: Path) -> None:
    """Each bad answer is told with its reason and asked again; the good one counts."""
    bad = ANSWERS.replace("\n20\n", "\n1\ntwenty\n1000000000\n20\n")
    bad = bad.replace("\n2.5\n", "\n-2\nnan\n2 ft\n1e300\n2.5\n").replace(
        "\n1 4\n", "\n3 4\n1\nfoo\n1 4\n"
    )
    bad = bad.replace("\nkeyed\n", "\ntriangle\nkeyed\n")
    done = run("start", "ratchet", "--ask", answers=bad)
    assert done.exit_code == 0
    for reason in (
        "this count is too small",
        "a whole number from 2 to 1000",
        "more than 0",
        "feet are not used here",
        "say the same thing twice",
        "only space_angle is given",
        "'foo' is not one of",
        "'triangle' is not one of",
    ):
        assert reason in done.stderr
    assert teeth_of(load("ratchet.toml").wheel) == 20


def test_asked_wheel_that_cannot_be_made(bench: Path) -> None:
    """Answers that make no wheel are kept in the file, the finding is shown, exit code 3."""
    done = run("start", "ratchet", "--ask", answers=ANSWERS.replace("\n20\n", "\n300\n"))
    assert done.exit_code == 3
    assert "refused: " in done.stderr
    assert (bench / "ratchet.toml").exists()


@pytest.mark.usefixtures("no_samples")
@pytest.mark.parametrize("kind", kinds.KINDS["bore"])
def test_every_bore_can_be_answered(bench: Path, kind: str) -> None:
    """Each kind of bore asks for its own keys and gives a part that checks."""
    sizes = {"round": "10", "square": "9\n0.3", "hexagon": "9\n0.3", "keyed": "10\n3\n1.4"}
    sizes["d-bore"] = "10\n9"
    answers = "\n" * 12 + f"{kind}\n" + sizes.get(kind, "") + DEFAULTS
    done = run("start", "ratchet", "--ask", "--units", "mm", answers=answers)
    assert done.exit_code == 0, done.stderr
    assert load("ratchet.toml").bore.kind == kind


CUTTERS = {
    "vee": "50\n0.2",
    "single-angle": "60\n0.2",
    "double-angle": "12, 48\n0.2",
    "slot": "2\n0.2",
    "ball": "1",
    "form": "mate.toml",
    "drawn": "edge.dxf\nEDGE",
}


@pytest.mark.usefixtures("no_samples")
@pytest.mark.parametrize("kind", kinds.KINDS["cutter"])
def test_every_cutter_can_be_answered(bench: Path, kind: str) -> None:
    """Each kind of cutter asks for its own keys, and for none that its shape settles."""
    (bench / "mate.toml").write_text(starter_text("ratchet", "mm"))
    edge = raw(light([(4.0, 6.0), (1.0, 0.0), (-1.0, 0.0), (-4.0, 6.0)]))
    (bench / "edge.dxf").write_bytes(edge)
    answers = "\n" * 14 + f"{kind}\n\n{CUTTERS[kind]}\n" + DEFAULTS
    done = run("start", "ratchet", "--ask", "--units", "mm", answers=answers)
    assert done.exit_code in (0, 3), done.stderr
    assert load("ratchet.toml").cutters[0].kind == kind


def test_answers_may_stand_in_quotes(bench: Path) -> None:
    """A size, count, angle or choice typed as the file would have it, in quotes, is taken."""
    quoted = ANSWERS.replace("\n20\n", '\n"20"\n').replace("\n2.5\n", "\n'2.5'\n")
    quoted = quoted.replace("\ncounter-clockwise\n", '\n"counter-clockwise"\n')
    done = run("start", "ratchet", "--ask", answers=quoted.replace("\n60\n", '\n"60°"\n'))
    assert done.exit_code == 0, done.stderr
    text = (bench / "ratchet.toml").read_text()
    assert "outside_diameter = 2.5 " in text
    assert teeth_of(load("ratchet.toml").wheel) == 20
    assert run("start", "ratchet", "--ask", answers=ANSWERS).exit_code == 4
    plain = run("start", "ratchet", "--ask", "--out", "plain.toml", answers=ANSWERS)
    assert plain.exit_code == 0
    assert load("plain.toml").wheel == load("ratchet.toml").wheel


def test_questions_tell_limits_and_from_where_it_is_seen(bench: Path) -> None:
    """A corner's upper limit, and who sees a cutter above turn, are told before they are asked."""
    answers = "\n" * 12 + "square\n9\n0.3\n" + DEFAULTS
    asked = run("start", "ratchet", "--ask", "--units", "mm", answers=answers).stderr
    assert "corners of the hole, under half of across_flats" in asked
    assert "of a cutter that stands above the work, seen by the operator" in asked


@pytest.mark.parametrize("kind", starter_kinds())
def test_every_question_is_of_a_real_key(kind: str) -> None:
    """Each kind that can be started can be asked for, and asks for keys that exist."""
    for step in form_of(kind).asked:
        match step:
            case Ask(table, key):
                assert key in kinds.model(table, kind if table == "wheel" else "").model_fields
            case AskSome(table, keys):
                assert set(keys) <= set(kinds.model(table, kind).model_fields)
            case AskKind(table):
                assert table in kinds.KINDS


def test_filling_keeps_what_is_not_asked() -> None:
    """Tables without answers, comments and blank lines stay as they are."""
    text = starter_text("ratchet", "mm")
    assert filled(text, {}) == text
    assert filled(text, {"setup": {"head": '"right"'}}).count("\n") == text.count("\n")


@pytest.mark.parametrize("name", example_names())
def test_example_says_its_command(name: str) -> None:
    """Each example begins with what it is and the command that makes everything of it."""
    assert f"profilegen {name}.toml" in example_bytes(name).decode().split("title =")[0]
