"""`python -m tests.attack`: run cases for a time or a count, and tell what they find."""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence

from tests.attack.sorts import SORTS, Found, case_of

SHARE = {"dictionary": 60, "text": 60, "drawing": 60, "make": 6, "kill": 1}
"""Cases of each sort in one round."""

MOST_SHOWN = 3
"""Cases of one kind of fault that are named."""


def main(words: Sequence[str] | None = None) -> int:
    """Run the attack; 0 when nothing was found, 1 when something was."""
    asked = _asked(words)
    counts: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    end = time.monotonic() + asked.seconds if asked.seconds else float("inf")
    for sort, number in _cases(asked):
        if time.monotonic() > end:
            break
        counts[sort] += 1
        found = case_of(sort, asked.seed, number)
        if found is not None:
            kinds[found.kind] += 1
            _tell(found, sort, asked.seed, number, kinds[found.kind])
    _say(f"seed {asked.seed}: {', '.join(f'{n} {sort}' for sort, n in counts.items())}")
    _say("".join(f"{count} x {kind}\n" for kind, count in kinds.most_common()) or "no fault\n")
    return 1 if kinds else 0


def _asked(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.attack", description=__doc__)
    parser.add_argument("--seconds", type=float, help="how long; until stopped when left out")
    parser.add_argument("--rounds", type=int, help="rounds of all sorts, instead of a time")
    parser.add_argument("--seed", type=int, default=1, help="same seed, same cases")
    parser.add_argument("--sort", choices=list(SORTS), help="this sort of cases only")
    parser.add_argument("--from", type=int, default=0, dest="first", help="the first round")
    parser.add_argument("--case", type=int, help="this case of the sort only")
    return parser.parse_args(words)


def _cases(asked: argparse.Namespace) -> Iterator[tuple[str, int]]:
    """Sort and number of each case, in order."""
    if asked.case is not None:
        yield asked.sort or "dictionary", asked.case
        return
    share = {asked.sort: 1} if asked.sort else SHARE
    place = asked.first
    while asked.rounds is None or place < asked.first + asked.rounds:
        for sort, count in share.items():
            yield from ((sort, place * count + k) for k in range(count))
        place += 1


def _tell(found: Found, sort: str, seed: int, number: int, count: int) -> None:
    if count == 1:
        _say(found.text)
    if count <= MOST_SHOWN:
        _say(f"{found.kind}: python -m tests.attack --seed {seed} --sort {sort} --case {number}\n")


def _say(text: str) -> None:
    sys.stdout.write(text.encode("ascii", "backslashreplace").decode() + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    raise SystemExit(main())
