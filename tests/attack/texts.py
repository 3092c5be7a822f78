"""Part files as texts: a dictionary written as TOML, and good texts spoilt byte by byte."""

from __future__ import annotations

import datetime
import json
import math
import random
from typing import Any

from profilegen.cli.templates import example_bytes, example_names
from tests.attack.dictionaries import part_of
from tests.part.samples import TEXT

SNIPPETS = (
    *(sign.encode() for sign in "\"'[]{}=,.#\n\r\\\0\f°“\u2028\u202e\ufeff;:/"),
    *(b"\xb0", b"\xff\xfe", b'"""', b"'''", b"[[", b"]]", b"nan", b"inf", b"1e999", b"9" * 400),
    *(b"[cutter]\n", b"[[cutter]]\n", b"[wheel]\n", b"a.b.c=1\n", b"{a=1}", b"[]", b" deg", b" in"),
    *(
        b"1,250",
        b"1979-05-27",
        b"0x_1",
        b"+0.02 -0",
        b"\x1b[2J",
        b"[" * 300,
        b"{a=" * 300,
        b"x" * 9000,
    ),
)


def text_of(rng: random.Random) -> bytes:
    """A part file: a good one or a random part, spoilt in one to eight places."""
    data = rng.choice(_good_ones()) if rng.random() < 0.6 else toml(part_of(rng))
    return spoilt(rng, data, SNIPPETS)


def _good_ones() -> list[bytes]:
    return [TEXT.encode(), *(example_bytes(name) for name in example_names())]


def spoilt(rng: random.Random, data: bytes, snippets: tuple[bytes, ...]) -> bytes:
    """A file with bytes taken out, put in, doubled, swapped or cut off."""
    for _ in range(rng.randint(1, 8)):
        place, length = rng.randint(0, len(data)), rng.choice((0, 1, 3, 20, 200))
        match rng.randrange(6):
            case 0:
                data = data[:place] + data[place + length :]
            case 1:
                data = data[:place] + data[place : place + length] * 2 + data[place + length :]
            case 2:
                lines = data.split(b"\n")
                rng.shuffle(lines)
                data = b"\n".join(lines) if rng.random() < 0.2 else data
            case 3:
                data = data[:place] + bytes([rng.randrange(256)]) + data[place + 1 :]
            case 4:
                data = data[:place] if rng.random() < 0.1 else data
            case _:
                data = data[:place] + rng.choice(snippets) + data[place + length :]
    return data


def toml(part: dict[str, Any]) -> bytes:
    """A dictionary as a TOML file, whatever is in it; what TOML cannot say becomes a text."""
    lines = [f"{json.dumps(str(key))} = {_value(value)}" for key, value in part.items()]
    return ("\n".join(lines) + "\n").encode("utf-8", "replace")


def _value(value: Any) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case int() if value.bit_length() < 2000:
            return str(value)
        case float():
            return repr(value) if math.isfinite(value) else str(value)
        case dict():
            inner = ", ".join(
                f"{json.dumps(str(key))} = {_value(one)}" for key, one in value.items()
            )
            return f"{{{inner}}}"
        case list() | tuple():
            return f"[{', '.join(map(_value, value))}]"
        case datetime.date():
            return value.isoformat()
        case _:
            return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007F")
