"""Every finding, refusal and phrase that the source makes, read off its syntax trees."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import profilegen

PACKAGE = Path(profilegen.__file__).parent

REFUSALS = {"Refusal"} | {
    node.name
    for path in PACKAGE.rglob("*.py")
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    if isinstance(node, ast.ClassDef)
    and any(getattr(base, "id", "") == "Refusal" for base in node.bases)
}
"""The class of refusals and those made of it."""

FACTS_AND_CASE: dict[str, tuple[int | None, int | None]] = {
    "Finding": (6, 7),
    "bounded": (5, 7),
    "with_passing": (None, None),
    "Phrase": (1, None),
    **dict.fromkeys(REFUSALS, (None, None)),
}
"""What makes a finding or a phrase -> in which place it takes facts and case, where not by name."""

LATER = frozenset({"with_passing"})
"""Makers whose caller adds the facts."""

Scope = dict[str, list[ast.expr]]


@dataclass(frozen=True)
class Made:
    """One call that makes a finding, a refusal or a phrase.

    Attributes:
        place: module and line.
        maker: what is called.
        codes: every code, or name of a phrase, that it can make.
        cases: every case; None where the source does not show them.
        facts: the names of its facts; None where the source does not show them.
    """

    place: str
    maker: str
    codes: frozenset[str]
    cases: frozenset[str] | None
    facts: frozenset[str] | None


def made(*rooms: str) -> Iterator[Made]:
    """Every such call in some rooms, or in the whole package."""
    for folder in [PACKAGE / room for room in rooms] or [PACKAGE]:
        for path in sorted(folder.rglob("*.py")):
            yield from made_in(path, path.relative_to(PACKAGE).as_posix())


def made_in(path: Path, name: str) -> Iterator[Made]:
    """Every such call in one file, which is told by a name."""
    yield from _in(ast.parse(path.read_text(encoding="utf-8")), name, {})


def _in(node: ast.AST, module: str, scope: Scope) -> Iterator[Made]:
    if isinstance(node, ast.FunctionDef):
        scope = _assigned(node)
    if isinstance(node, ast.Call):
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        if name in FACTS_AND_CASE and node.args:
            codes = _texts(node.args[0], scope)
            if codes:
                yield _made(node, name, codes, module, scope)
    for child in ast.iter_child_nodes(node):
        yield from _in(child, module, scope)


def _made(node: ast.Call, name: str, codes: frozenset[str], module: str, scope: Scope) -> Made:
    facts_at, case_at = FACTS_AND_CASE[name]
    facts, case = _argument(node, "facts", facts_at), _argument(node, "case", case_at)
    return Made(
        f"{module}:{node.lineno}",
        name,
        codes,
        frozenset({""}) if case is None else _texts(case, scope),
        None if name in LATER else frozenset() if facts is None else _keys(facts, scope),
    )


def _argument(node: ast.Call, name: str, place: int | None) -> ast.expr | None:
    named = [keyword.value for keyword in node.keywords if keyword.arg == name]
    if named:
        return named[0]
    return node.args[place] if place is not None and len(node.args) > place else None


def _assigned(function: ast.FunctionDef) -> Scope:
    """Every value that a name of a function gets."""
    scope: Scope = {}
    for node in ast.walk(function):
        if isinstance(node, ast.Assign):
            for target in node.targets:
                for name, value in _pairs(target, node.value):
                    scope.setdefault(name, []).append(value)
        elif isinstance(node, ast.AnnAssign) and node.value is not None:
            scope.setdefault(getattr(node.target, "id", ""), []).append(node.value)
    return scope


def _pairs(target: ast.expr, value: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(target, ast.Name):
        yield target.id, value
    elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
        for one, its in zip(target.elts, value.elts, strict=True):
            yield from _pairs(one, its)


def _texts(node: ast.expr, scope: Scope) -> frozenset[str] | None:
    """Every text that an expression can be; None where the source does not show it."""
    if isinstance(node, ast.Constant):
        return frozenset({node.value}) if isinstance(node.value, str) else None
    if isinstance(node, ast.IfExp):
        return _all([_texts(node.body, scope), _texts(node.orelse, scope)])
    if isinstance(node, ast.Name) and node.id in scope:
        return _all([_texts(value, scope) for value in scope[node.id]])
    return None


def _keys(node: ast.expr, scope: Scope) -> frozenset[str] | None:
    """The keys that a dictionary has for sure; None where the source does not show them."""
    if isinstance(node, ast.Dict):
        every = [
            _keys(value, scope) if key is None else _texts(key, scope)
            for key, value in zip(node.keys, node.values, strict=True)
        ]
        return _all(every)
    if isinstance(node, ast.Name) and node.id in scope:
        found = [_keys(value, scope) for value in scope[node.id]]
        known = [keys for keys in found if keys is not None]
        return frozenset.intersection(*known) if len(known) == len(found) else None
    return None


def _all(parts: list[frozenset[str] | None]) -> frozenset[str] | None:
    known = [part for part in parts if part is not None]
    return frozenset().union(*known) if len(known) == len(parts) else None
