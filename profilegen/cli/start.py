"""`start`: a part file to begin with, and a picture of what its keys mean.

Owns the ways to begin: a starter, answers to questions, a shipped example, the schema for editors.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.options import (
    command,
    command_again,
    command_typed,
    file_names,
    force_option,
)
from profilegen.cli.saying import say, say_written, talk
from profilegen.cli.writing import Outgoing, refuse_what_stands, write_all
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cli.asking import Answered
    from profilegen.part.part import Part
    from profilegen.units import Unit


@command(
    "profilegen start ratchet --units in --out beam.toml",
    "profilegen start ratchet --units mm --out cloth.toml",
)
@click.argument("kind", metavar="[KIND]", required=False)
@click.option("--ask", is_flag=True, help="Ask for one value at a time, then write the file.")
@click.option(
    "--units", type=click.Choice(["mm", "in"]), help="Unit of the part file; mm when left out."
)
@click.option(
    "--out",
    metavar="FILE",
    shell_complete=file_names,
    help="Part file to write; KIND.toml when left out.",
)
@click.option("--list", "listed", is_flag=True, help="List what can be started, and the examples.")
@click.option("--example", metavar="NAME", help="Write the shipped example part of this name.")
@click.option(
    "--schema",
    is_flag=True,
    help="Print the JSON Schema, for editors: of drawer, of dividing, or of part files.",
)
@force_option
@click.pass_context
def start(
    ctx: click.Context,
    kind: str | None,
    ask: bool,
    units: str | None,
    out: str | None,
    listed: bool,
    example: str | None,
    schema: bool,
    force: bool,
) -> int:
    """Write a starter part file of this KIND, and beside it a picture of every key.

    KIND is one that --list shows, such as ratchet. With --ask each value is asked for, with its
    meaning, limits and default; the answers may also come from a pipe. The first line of what is
    written leads editors to a JSON Schema, which is written beside it.
    """
    if schema:
        return _print_schema(kind)
    if listed:
        return _print_list()
    if example is not None:
        return _write_example(ctx, example, out, force)
    if kind == "dividing":
        return _write_dividing(ctx, out, force)
    if kind == "drawer":
        return _write_drawer(ctx, units or "mm", Path(out or "drawer.toml"), force)
    name = _known_kind(kind)
    target = Path(out or f"{name}.toml")
    _check_name(target)
    if ask:
        return _write_asked(ctx, name, cast("Unit | None", units), target, force)
    from profilegen.cli.templates import starter_text

    text = _renamed(starter_text(name, units or "mm"), name, target)
    _write(ctx, text, _loaded(text, target), target, force)
    return 0


def _known_kind(kind: str | None) -> str:
    """The kind to start.

    Raises:
        InputError: it is not known, or none is given.
    """
    from profilegen.cli.templates import example_names, starter_kinds

    known = starter_kinds()
    if kind in known:
        return kind
    hint = "profilegen start --list shows what can be started"
    if kind is None:
        raise InputError(
            Problem("start", "which kind is not said", allowed=", ".join(known), hint=hint)
        )
    if kind.removesuffix(".toml") in example_names():
        hint = f"this is an example: profilegen start --example {kind.removesuffix('.toml')}"
    text = "there is no such kind to start"
    raise InputError(Problem("start", text, kind[:60], ", ".join(known), hint))


def _check_name(target: Path) -> None:
    if target.suffix.lower() != ".toml":
        text = "a part file has a name that ends in .toml"
        raise InputError(Problem("--out", text, str(target), hint=f"--out {target}.toml"))


def _print_schema(kind: str | None) -> int:
    from profilegen.cli.schemas import schema_bytes

    to_stdout(schema_bytes(kind if kind in ("drawer", "dividing") else "part"))
    return 0


def _write_out(
    ctx: click.Context,
    files: Sequence[Outgoing],
    sort: str,
    force: bool,
    ours: frozenset[Path] = frozenset(),
) -> None:
    """Write what was started, over `ours` unasked; beside each TOML file, unlisted, the schema that
    its first line leads to."""
    from profilegen.cli.schemas import led_to_schema, schema_file

    started = [
        replace(file, data=led_to_schema(file.data.decode(), sort).encode())
        if file.path.suffix.lower() == ".toml"
        else file
        for file in files
    ]
    schema = schema_file(files[0].path.parent, sort)
    ours |= {schema.path}
    written = write_all((*started, schema), force=force, again=command_again(ctx), ours=ours)
    say_written(written)


def _print_list() -> int:
    from profilegen.cli.templates import example_bytes, example_names, starter_kinds, title_of
    from profilegen.part.kinds import form_module

    lines = ["To start from, with profilegen start KIND:"]
    lines += [f"  {kind:<20}  {form_module(kind).FORM.line}" for kind in starter_kinds()]
    lines.append("  drawer                a file of cutters in trade sizes, metric or inch")
    lines.append("  dividing              an example of each kind of dividing hardware")
    lines += ["", "Examples, with profilegen start --example NAME:"]
    for name in example_names():
        lines.append(f"  {name:<20}  {title_of(example_bytes(name).decode())}")
    to_stdout("\n".join(lines) + "\n")
    return 0


def _write_drawer(ctx: click.Context, units: str, target: Path, force: bool) -> int:
    """Write a drawer of cutters in trade sizes."""
    from profilegen.cli.templates import drawer_bytes

    _check_name(target)
    words = "cutters in trade sizes: keep yours, measure them, change the numbers"
    text = _renamed(drawer_bytes(units).decode(), "drawer", target, "--drawer ")
    file = Outgoing(target, text.encode(), "keep", words)
    _write_out(ctx, (file,), "drawer", force)
    if target.name == "drawer.toml":
        talk("next: parts beside it that have no [[cutter]] of their own use it")
    else:
        talk(f'next: name it above all tables of a part file, drawer = "{target.name}"')
    return 0


def _write_dividing(ctx: click.Context, out: str | None, force: bool) -> int:
    """Write an example of each kind of dividing hardware, into the folder that `--out` names."""
    from profilegen.cli.templates import dividing_files

    files = [
        Outgoing(Path(out or ".") / name, data, "keep", "dividing hardware: change the numbers")
        for name, data in dividing_files()
    ]
    _write_out(ctx, files, "dividing", force)
    talk('next: name one of them above all tables of the part file, dividing = "worm.toml"')
    return 0


def _write_example(ctx: click.Context, name: str, out: str | None, force: bool) -> int:
    from profilegen.cli.templates import example_bytes, example_names

    stem, known = name.removesuffix(".toml"), example_names()
    if stem not in known:
        text = "there is no such example"
        raise InputError(Problem("--example", text, name[:60], ", ".join(known)))
    target = Path(out or f"{stem}.toml")
    _check_name(target)
    text = _renamed(example_bytes(stem).decode(), stem, target)
    file = Outgoing(target, text.encode(), "keep", "the part file: change it as you like")
    _write_out(ctx, (file,), "part", force)
    _say_next(target)
    return 0


def _write_asked(
    ctx: click.Context, kind: str, unit: Unit | None, target: Path, force: bool
) -> int:
    """Ask, show what was solved, write; return 3 when the answers make no wheel.

    However it ends before that, the answers so far are kept.
    """
    from profilegen.cli.asking import ask_all, begun
    from profilegen.cli.templates import starter_text
    from profilegen.cli.unfinished import forget, is_unfinished, keep, kept_for

    ours = frozenset({target} if is_unfinished(target) else ())
    paths = (target, target.with_suffix(".svg"))
    refuse_what_stands(paths, force=force, again=command_again(ctx), ours=ours)

    def text_of(unit: Unit) -> str:
        return _renamed(starter_text(kind, unit), kind, target)

    sheet = begun(text_of, unit, kept_for(target), target.parent)
    try:
        ask_all(kind, sheet)
        refused = _write_solved(ctx, sheet, target, force, ours)
    except BaseException:
        keep(sheet.so_far(), target, command_typed(ctx))
        raise
    forget(target)
    return 3 if refused else 0


def _write_solved(
    ctx: click.Context, sheet: Answered, target: Path, force: bool, ours: frozenset[Path]
) -> bool:
    """Show what the answers make, write it, over `ours` unasked; whether that is refused."""
    from profilegen.cli.filling import commented
    from profilegen.cli.opening import solved
    from profilegen.cli.samples import samples_for
    from profilegen.topics.check_text import check_text, refused_text

    part = _loaded(sheet.whole(), target)
    say("")
    job = None
    try:
        job = solved(part)
        shown = check_text(job)
    except CannotMakeError as error:
        shown = refused_text(part, error.findings)
    say(shown)
    text = sheet.whole(samples_for(job, commented(sheet.text), sheet.tables()))
    _write(ctx, text, part, target, force, ours)
    refused = job is None or job.is_refused
    if refused:
        say("this cannot be made as asked: change the keys that the findings name")
    return refused


def _renamed(text: str, name: str, target: Path, before: str = "") -> str:
    """A shipped file that calls itself, and its picture, by the names they get; itself only behind
    `before`."""
    from shlex import quote

    text = text.replace(f"{before}{name}.toml", f"{before}{quote(target.name)}")
    return text.replace(f"{name}.svg", target.with_suffix(".svg").name)


def _loaded(text: str, target: Path) -> Part:
    from profilegen.part.load import loads

    return loads(text, target)


def _write(
    ctx: click.Context,
    text: str,
    part: Part,
    target: Path,
    force: bool,
    ours: frozenset[Path] = frozenset(),
) -> None:
    """Write the part file and, beside it, the picture of its keys; over `ours` unasked."""
    from profilegen.cli.producing import key_picture

    files = [Outgoing(target, text.encode(), "keep", "the part file: change the numbers")]
    picture = key_picture(part)
    if picture is not None:
        words = "every key at the dimension it sets"
        files.append(Outgoing(target.with_suffix(".svg"), picture, "look at", words))
    _write_out(ctx, files, "part", force, ours)
    _say_next(target)


def _say_next(target: Path) -> None:
    from shlex import quote

    name = quote(str(target))
    talk("next:")
    talk(f"  profilegen check {name}   sizes, and what to look out for")
    talk(f"  profilegen {name}   everything: DXF, template, setup sheet")
