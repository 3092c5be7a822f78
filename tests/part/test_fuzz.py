"""Random bytes and spoilt files: nothing but an input error ever comes out."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.errors import InputError
from profilegen.part.decoding import decode
from profilegen.part.load import loads
from profilegen.part.part import Part
from tests.part.samples import TEXT, take_up
from tests.parts import teeth_of

GOOD = TEXT.encode()
SNIPPETS = [
    *(sign.encode() for sign in "\"'[]{}=,.#\n\r\\\0\f°“\u2028\u202e\ufeff"),
    *(b"\xb0", b"\xff\xfe", b'"""', b"'''", b"[[", b"nan", b"inf", b"1e999", b"-0", b"9" * 400),
    *(
        b"[cutter]\n",
        b"[wheel]\n",
        b"a.b.c=1",
        b"{a=1}",
        b"[]",
        b" deg",
        b" in",
        b"1,250",
        b"1979-05-27",
    ),
]


def _read(data: bytes) -> None:
    with contextlib.suppress(InputError), _told_well():
        assert teeth_of(loads(decode(data, "fuzz.toml"), Path("fuzz.toml")).wheel) >= 2


@contextlib.contextmanager
def _told_well() -> Iterator[None]:
    """Check that an input error on its way out has something to say."""
    try:
        yield
    except InputError as error:
        told = [bool(problem.where and problem.message) for problem in error.problems]
        if not told or not all(told) or "\0" in str(error):
            raise AssertionError(repr(error.problems)) from error
        raise


@given(st.binary(max_size=300))
def test_random_bytes_give_input_errors(data: bytes) -> None:
    """Noise is refused in words."""
    _read(data)


@given(st.text(max_size=200))
def test_random_text_gives_input_errors(text: str) -> None:
    """Any text is refused in words."""
    _read(text.encode("utf-8", "surrogatepass"))


@given(
    st.lists(
        st.tuples(st.integers(0, len(GOOD)), st.integers(0, 20), st.sampled_from(SNIPPETS)),
        min_size=1,
        max_size=8,
    )
)
@settings(max_examples=300)
def test_a_spoilt_file_gives_a_part_or_input_errors(cuts: list[tuple[int, int, bytes]]) -> None:
    """Bytes taken out of a good file and others put in never end in another error."""
    data = GOOD
    for place, length, snippet in cuts:
        data = data[:place] + snippet + data[place + length :]
    _read(data)


VALUES: st.SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12) | st.dates(),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3)
    ),
    max_leaves=6,
)
PATHS = [(key,) for key in take_up()] + [
    (table, key) for table in ("wheel", "bore") for key in take_up()[table]
]


@given(st.sampled_from(PATHS), VALUES)
@settings(max_examples=300)
def test_any_value_of_any_key_gives_a_part_or_input_errors(
    path: tuple[str, ...], value: Any
) -> None:
    """A value of any type at any key is taken or told."""
    mapping = take_up()
    table = mapping
    for key in path[:-1]:
        table = table[key]
    table[path[-1]] = value
    with contextlib.suppress(InputError), _told_well():
        assert Part.from_dict(mapping)
