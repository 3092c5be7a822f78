"""One line that TOML refuses, made into the line that was meant.

Owns: the slips of shop notation in one line: numbers, units without quotes, quotes, signs of
assignment, heads of tables. Every repaired line is parsed before it is offered.
Refuses: choosing between two readings (`1,250`), and anything that takes more than one line.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from profilegen.part.values import Value, marked_size, repair_value


@dataclass(frozen=True, slots=True)
class Repair:
    """What is wrong with a line.

    Attributes:
        message: one sentence that says what is wrong.
        corrected: the line to write, one that TOML reads, or empty when nobody can know.
        hint: another way to write it, or empty.
    """

    message: str
    corrected: str = ""
    hint: str = ""


_INVISIBLE = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f\u00a0\u00ad\u2000-\u200f\u2028-\u202f\u3000\ufeff]"
)
_SPACES = re.compile("[\u00a0\u2000-\u200a\u2028\u2029\u202f\u3000\x0b\x0c]")
_ASSIGN = re.compile(
    r"""(\s*)([A-Za-z][\w-]*(?: [A-Za-z][\w-]*)*)\s*(:=|==|=|:)\s*(.*)""", re.ASCII
)
_BARE = re.compile(r"(\s*)([A-Za-z][\w-]*)\s+([\"'\d.+-].*)", re.ASCII)
_HEAD = re.compile(r"(\s*)([\[({<\s]*[\[({<])\s*([\w.-]+)\s*([\])}>\s]*)\s*(#.*)?", re.ASCII)
_HEAD_AND_MORE = re.compile(r"(\s*\[\[?\s*[\w.-]+\s*\]\]?)\s*([^\s#\]].*)", re.ASCII)

_TEXTS = frozenset({"title", "number", "material", "name", "cutter", "drawer"})
"""Keys whose values are texts, so that `R12` is a name and no radius."""


def parses(text: str) -> bool:
    """Tell whether TOML reads a text."""
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return False
    return True


def repair(line: str, lists: frozenset[str]) -> Repair | None:
    """Return what is wrong with a line that TOML refuses, or None when it is not known.

    Args:
        line: the line, without its end.
        lists: the tables that take double brackets.
    """
    clean = _without_invisible(line)
    if clean != line and parses(clean):
        return Repair("an invisible sign stands in this line", clean)
    steps: tuple[Callable[[str], Repair | None], ...] = (
        lambda text: _head(text, lists),
        _assignment,
    )
    return next((found for step in steps if (found := step(clean))), None)


def _without_invisible(line: str) -> str:
    return _INVISIBLE.sub("", _SPACES.sub(" ", line))


def _head(line: str, lists: frozenset[str]) -> Repair | None:
    more = _HEAD_AND_MORE.fullmatch(line)
    if more and "=" in more[2]:
        corrected = f"{more[1]}\n{more[2]}"
        if parses(corrected):
            return Repair("the head of a table stands on a line of its own", corrected)
    match = _HEAD.fullmatch(line)
    if not match:
        return None
    double = match[3] in lists or match[2].count("[") > 1
    head = f"[[{match[3]}]]" if double else f"[{match[3]}]"
    corrected = match[1] + head + (f"  {match[5]}" if match[5] else "")
    if not parses(corrected):
        return None
    return Repair("the brackets round the name of a table do not match", corrected)


def _assignment(line: str) -> Repair | None:
    match = _ASSIGN.fullmatch(line)
    if match:
        indent, key, sign, rest = match.groups()
        return _assigned(indent, key, sign, rest)
    bare = _BARE.fullmatch(line)
    if bare:
        return _assigned(bare[1], bare[2], "", bare[3])
    return None


def _assigned(indent: str, key: str, sign: str, rest: str) -> Repair | None:
    """Repair `key sign rest`, trying every `#` as the start of the comment."""
    name = re.sub(r"\s+", "_", key).lower() if " " in key or "\t" in key else key
    messages = []
    if sign != "=":
        messages.append(f"a key and its value are parted by =, not by {sign or 'a blank'}")
    if name != key:
        messages.append("a key has no blanks")
    for value, comment, fault in _comments(rest):
        found = Value(value) if parses(f"x = {value}") else _repaired(name, value)
        if found is None:
            continue
        corrected = f"{indent}{name} = {found.text}{comment}" if found.text else ""
        if corrected and not parses(corrected):
            continue
        texts = [text for text in (*messages, found.message, fault) if text]
        if texts:
            return Repair("; ".join(texts), corrected, found.hint)
    return None


def _repaired(key: str, value: str) -> Value | None:
    """Repair a value that TOML refuses; a size loses the marks that its key makes needless."""
    found = repair_value(value)
    if key in _TEXTS or (found and not found.text.startswith(("'", '"'))):
        return found
    size = marked_size(value)
    text = "the marks of a drawing (Ø, R, T) are not written: the key says what the size is of"
    return Value(size, text) if size else found


def _comments(rest: str) -> Iterator[tuple[str, str, str]]:
    """Yield (value, comment, fault) for each place where a comment may begin, none last."""
    for match in re.finditer(r"\s*(?:#|(?<=\s)(?://|;))", rest):
        fault = "" if match[0].endswith("#") else "a comment begins with #"
        yield rest[: match.start()].strip(), f"  #{rest[match.end() :]}", fault
    yield rest.strip(), "", ""
