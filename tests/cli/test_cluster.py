"""Parts made on the workers of a dask scheduler: a local one of processes, without a dashboard."""

from __future__ import annotations

import builtins
import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import dask.config
import pytest
from distributed import Client, LocalCluster

from profilegen import __version__
from profilegen.cli import cluster as on_cluster
from profilegen.cli import pool
from tests.cli.support import ROOT, files_below, run

FILES = ["take-up-ratchet.toml", "warp-beam-ratchet.toml"]


@pytest.fixture(scope="module")
def local() -> Iterator[LocalCluster]:
    """Two workers, each a process with a keeper that starts it anew when it dies; they find the
    package under test."""
    with (
        pytest.MonkeyPatch.context() as patch,
        dask.config.set({"distributed.scheduler.allowed-failures": 1}),
    ):
        patch.setenv("PYTHONPATH", str(ROOT))
        with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=":0") as local:
            yield local


def test_a_cluster_makes_the_same_bytes(shop: Path, local: LocalCluster) -> None:
    """Workers that see another folder, since they were started in one: the part's drawer too is
    read here. A broken part is told with the others made, and a second run makes nothing."""
    head, tail = (shop / FILES[0]).read_text().split("[[cutter]]", 1)
    cutter = tail.split("\n[", 1)[0]
    (shop / "drawer.toml").write_text(f'units = "mm"\n[[cutter]]{cutter}')
    (shop / "drawn.toml").write_text(head)
    (shop / "bad.toml").write_text("teeth = ")
    files = [FILES[1], "drawn.toml", "bad.toml"]
    there = run("make", *files, "--cluster", local.scheduler_address, "--out", "there")
    assert there.exit_code == run("make", *files).exit_code == 2
    assert files_below(shop / "there") == files_below(shop / "out")
    assert "3 parts in there: 2 made, 0 unchanged, 1 failed" in there.stderr
    again = run("make", *files[:2], "--cluster", "nowhere:1", "--out", "there")
    assert (again.exit_code, "0 made, 2 unchanged, 0 failed" in again.stderr) == (0, True)


def kills_its_worker(order: int) -> int:
    """Work that ends its process, here too; other orders are done."""
    if order == 3:
        os.kill(os.getpid(), signal.SIGKILL if sys.platform != "win32" else signal.SIGTERM)
    return order


def lost(order: int) -> int:
    """What is told of an order whose process died."""
    return -order


def test_an_order_that_no_process_survives_is_told(local: LocalCluster) -> None:
    """After the cluster has tried it on several workers, and this machine by itself; what else
    those workers held is done."""
    address = local.scheduler_address
    found = on_cluster.done_there(address, kills_its_worker, range(8), lost)
    results = {order: future.result() for order, future in found}
    assert results == {order: -3 if order == 3 else order for order in range(8)}


def test_a_worker_killed_half_way(
    shop: Path, local: LocalCluster, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The parts that it held are made all the same."""
    with Client(local) as client:
        process = next(iter(client.run(os.getpid).values()))
    files = [f"wheel-{teeth}.toml" for teeth in range(26, 31)]
    for file in files:
        text = (shop / FILES[0]).read_text().replace("teeth = 30", f"teeth = {file[6:8]}")
        (shop / file).write_text(text)
    killed = list[object]()

    def kept_busy(*words: Any) -> Iterator[Any]:
        for found in pool.kept_busy(*words):
            if not killed:
                killed.append(found)
                os.kill(process, signal.SIGTERM if sys.platform == "win32" else signal.SIGKILL)
            yield found

    monkeypatch.setattr("profilegen.cli.cluster.kept_busy", kept_busy)
    done = run("make", *files, "--cluster", local.scheduler_address)
    assert done.exit_code == 0, done.stderr
    assert killed
    assert f"{len(files)} parts in out: {len(files)} made, 0 unchanged, 0 failed" in done.stderr


def test_a_cluster_that_goes_away_leaves_nothing_undone() -> None:
    """What it has not done is done on this machine, and that is told."""
    with LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=":0", processes=False
    ) as passing:
        found = on_cluster.done_there(passing.scheduler_address, abs, range(40), lost)
        results = [next(found)[0]]
        passing.close()
        results += [order for order, _ in found]
    assert sorted(results) == list(range(40))


@pytest.mark.parametrize(
    ("spoilt", "mended", "told"),
    [
        (
            "import profilegen; profilegen.__version__ = '0.0.1'",
            f"import profilegen; profilegen.__version__ = {__version__!r}",
            f"has profilegen 0.0.1, here is {__version__}",
        ),
        (
            "import sys; sys.modules['profilegen'] = None",
            "import sys; del sys.modules['profilegen']",
            "has no profilegen that can be used",
        ),
    ],
)
def test_a_worker_that_does_not_fit_is_told(
    shop: Path, local: LocalCluster, spoilt: str, mended: str, told: str
) -> None:
    """By its address, the other worker not, and nothing is made."""
    with Client(local) as client:
        client.wait_for_workers(2, timeout=60)
        worker, *_ = client.nthreads()
        client.run(exec, spoilt, workers=[worker])
        done = run("make", FILES[0], "--cluster", local.scheduler_address)
        client.run(exec, mended, workers=[worker])
    assert done.exit_code == 2
    assert " ".join(done.stderr.split()).count("has ") == 1
    assert f"{worker} {told}" in " ".join(done.stderr.split())
    assert f"put profilegen {__version__} there" in done.stderr
    assert not (shop / "out").exists()


@pytest.mark.parametrize("address", ["", "nowhere", "tcp://127.0.0.1:1", "x://y:1", "127.0.0.1:p"])
def test_an_address_where_nothing_answers(
    shop: Path, monkeypatch: pytest.MonkeyPatch, address: str
) -> None:
    """Is told, with what an address looks like."""
    monkeypatch.setattr(on_cluster, "PATIENCE", 0.5)
    done = run("make", FILES[0], "--cluster", address)
    assert done.exit_code == 2, done.stderr
    assert "no dask scheduler answers there" in done.stderr
    assert "tcp://10.0.0.7:8786" in done.stderr


@pytest.mark.parametrize("address", ["", "nowhere", "x://y:1", "127.0.0.1:p"])
def test_what_is_no_address_makes_no_client(
    shop: Path, monkeypatch: pytest.MonkeyPatch, address: str
) -> None:
    """A client of such a one talks of its own end at the end of the process."""
    made: list[object] = []
    monkeypatch.setattr(Client, "__init__", lambda *words, **keys: made.append(words))
    monkeypatch.setattr(Client, "__del__", lambda _: None)
    assert run("make", FILES[0], "--cluster", address).exit_code == 2
    assert not made


def test_without_dask_the_line_that_installs_it_is_told(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing else of the program needs it."""
    real = builtins.__import__

    def without(name: str, *words: Any, **more: Any) -> Any:
        if name == "distributed":
            raise ImportError(name)
        return real(name, *words, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    done = run("make", FILES[0], "--cluster", "tcp://10.0.0.7:8786")
    assert done.exit_code == 2
    assert "pip install 'profilegen[cluster]'" in done.stderr
    assert run("make", FILES[0]).exit_code == 0
