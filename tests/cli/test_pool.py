"""Work on all cores: results in order, and processes that die."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

from profilegen.cli.cores import MANY
from profilegen.cli.pool import PER_WORKER, as_done, done_by_many
from profilegen.cli.templates import example_bytes
from tests.cli.support import real, run
from tests.cli.terminal import Terminal

DEADLY = (3, 4, 11)


def work(order: int) -> tuple[int, int]:
    """The order and the process that did it; some orders kill theirs."""
    if order in DEADLY:
        os._exit(9)
    time.sleep(0.02)
    return order, os.getpid()


def lost(order: int) -> tuple[int, int]:
    """What is told of an order whose process died."""
    return -order, 0


def test_after_a_death_the_others_go_on_together(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each deadly order is lost by itself, order is kept, and the rest share new processes rather
    than have one each: two a pool, and at most three pools come as far as behind the last."""
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    found = list(done_by_many(work, range(40), lost))
    assert [order for order, _ in found] == [-n if n in DEADLY else n for n in range(40)]
    after = [process for order, process in found if order > max(DEADLY)]
    assert len(set(after)) <= 6


def held_up(order: int) -> int:
    """Order 0 waits until the file that its process finds by the environment is there."""
    while order == 0 and not Path(os.environ["GO_ON"]).exists():
        time.sleep(0.01)
    return order


def test_results_come_as_they_are_done_and_few_orders_are_out(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """An order that takes long holds up none behind it, and however many there are, only a few are
    taken ahead of the work: what is in memory does not grow with their count."""
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    monkeypatch.setenv("GO_ON", str(tmp_path / "go"))
    taken, done, ahead = 0, list[int](), list[int]()

    def orders() -> Iterator[int]:
        nonlocal taken
        for taken in range(1, 61):
            yield taken - 1

    for order, future in as_done(held_up, orders(), lambda order: -order):
        done.append(future.result())
        assert done[-1] == order
        ahead.append(taken - len(done))
        if len(done) == 50:
            assert 0 not in done
            (tmp_path / "go").touch()
    assert sorted(done) == list(range(60))
    assert max(ahead) < PER_WORKER * 2


def test_no_bar_without_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    """Where no terminal shows it, a bar prints nothing, not even its label."""
    assert len(list(done_by_many(work, range(2), lost, "trying"))) == 2
    assert capsys.readouterr() == ("", "")


def big_drawer(folder: Path, size: int) -> None:
    """The example part without cutters of its own, beside a drawer of so many."""
    text = example_bytes("take-up-ratchet").decode().replace('cutter = "single-point 60"\n', "")
    head, tail = text.split("[[cutter]]", 1)
    bare = head + tail[tail.index("\n[setup]") :]
    (folder / "take-up-ratchet.toml").write_text(bare, encoding="utf-8")
    rows = [
        f'[[cutter]]\nname = "{n}"\nkind = "vee"\nincluded_angle = {40 + n / 10}\ntip_radius = 0\n'
        for n in range(size)
    ]
    (folder / "drawer.toml").write_text('units = "mm"\n' + "".join(rows), encoding="utf-8")


@pytest.mark.skipif(sys.platform == "win32", reason="has no pseudo-terminals")
def test_a_big_drawer_has_a_bar_at_a_terminal_alone(shop: Path) -> None:
    """It shows how far the cutters are tried; in a file or under --quiet there is no trace."""
    big_drawer(shop, MANY + 1)
    at = Terminal("check", "take-up-ratchet.toml", folder=shop)
    at.wait_for("trying cutters")
    assert at.ends() in (0, 3)
    quiet = Terminal("check", "-q", "take-up-ratchet.toml", folder=shop)
    assert quiet.ends() in (0, 3)
    assert "trying" not in quiet.shown
    assert b"trying" not in real("check", "take-up-ratchet.toml").stderr


@pytest.mark.parametrize("command", ["check", "make", "stops", "cutters"])
def test_every_command_that_tries_a_drawer_shares_it_out(
    shop: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    """With the same words over its bar; a drawer of few is tried in this process."""
    shared: list[tuple[int, str]] = []

    def counted(
        work: Callable[[Any], Any], cutters: Sequence[Any], lost: object, words: str
    ) -> Iterable[Any]:
        shared.append((len(cutters), words))
        return map(work, cutters)

    monkeypatch.setattr("profilegen.cli.pool.done_by_many", counted)
    monkeypatch.setattr("profilegen.cli.cores.MANY", 2)
    for size, wanted in ((2, set()), (3, {(3, "trying cutters")})):
        big_drawer(shop, size)
        assert run(command, "take-up-ratchet.toml").exit_code in (0, 3)
        assert set(shared) == wanted


def fails(order: int) -> int:
    """Work with a fault of its own."""
    return 1 // (order - 2)


def test_a_fault_of_the_work_is_no_death() -> None:
    """It comes through as it is."""
    results = done_by_many(fails, range(4), lambda order: order)
    assert (next(results), next(results)) == (-1, -1)
    with pytest.raises(ZeroDivisionError):
        next(results)
