"""Every way to end: exit codes, words on stderr, and never a traceback."""

from __future__ import annotations

import errno
import io
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from profilegen.cli import check
from profilegen.cli.ending import READER_GONE, STOPPED, exit_code, to_stdout
from profilegen.cli.stopping import hold_off
from profilegen.errors import OutputError
from tests.cli.support import environment, real, run
from tests.cli.terminal import Terminal

AS_A_USER = """
import signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
from profilegen.cli import main
main(sys.argv[1:])
"""


def boom(*_: object) -> None:
    """An internal fault."""
    raise RuntimeError("the spring is broken\nand more")


def test_internal_fault_is_one_line(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An unforeseen fault is one line that names it and how to see more, exit code 1."""
    monkeypatch.setattr(check, "opened", boom)
    done = run("check", "take-up-ratchet.toml")
    assert done.exit_code == 1
    assert done.stderr.count("\n") == 1
    assert "RuntimeError: the spring is broken" in done.stderr
    assert "PROFILEGEN_TRACEBACK=1" in done.stderr


def test_traceback_on_request(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With PROFILEGEN_TRACEBACK=1 the traceback is shown too."""
    monkeypatch.setattr(check, "opened", boom)
    monkeypatch.setenv("PROFILEGEN_TRACEBACK", "1")
    assert "Traceback" in run("check", "take-up-ratchet.toml").stderr


def test_ctrl_c_in_the_middle(shop: Path) -> None:
    """Ctrl-C ends with 130, a word, no traceback, and no file."""
    process = subprocess.Popen(
        [sys.executable, "-c", AS_A_USER, "start", "ratchet", "--ask"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment(),
    )
    if process.stdin is None or process.stderr is None:
        raise AssertionError("no pipes")
    process.stdin.write(b"mm\n")
    process.stdin.flush()
    while (line := process.stderr.readline()) and b"title" not in line:
        continue
    process.send_signal(signal.SIGINT)
    _, talk = process.communicate(timeout=60)
    assert process.returncode == STOPPED
    assert b"stopped" in talk
    assert b"Traceback" not in talk
    assert not (shop / "ratchet.toml").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="has no pseudo-terminals")
@pytest.mark.parametrize("wait", [0.0, 0.3])
def test_ctrl_c_with_many_parts(shop: Path, wait: float) -> None:
    """Ctrl-C at a terminal, which every worker process gets too, shows no traceback of any."""
    source = (shop / "take-up-ratchet.toml").read_bytes()
    files = [f"wheel-{number}.toml" for number in range(8)]
    for file in files:
        (shop / file).write_bytes(source)
    at = Terminal("make", *files, folder=shop)
    at.wait_for("making")
    time.sleep(wait)
    at.press("\x03")
    assert at.ends() == STOPPED
    assert "stopped" in at.shown
    assert "Traceback" not in at.shown
    assert not (shop / "out").exists()


def test_reader_that_goes_away(shop: Path) -> None:
    """When what reads stdout closes it, the program ends quietly."""
    process = subprocess.Popen(
        [sys.executable, "-m", "profilegen", "words"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment(),
    )
    if process.stdout is None or process.stderr is None:
        raise AssertionError("no pipes")
    process.stdout.close()
    talk = process.stderr.read()
    process.stderr.close()
    assert process.wait(timeout=60) == READER_GONE
    assert talk == b""


class Full(io.StringIO):
    """A standard output without room."""

    def write(self, text: str) -> int:
        """Refuse as a full disk does."""
        raise OSError(errno.ENOSPC, "No space left on device")


def test_full_standard_output(monkeypatch: pytest.MonkeyPatch) -> None:
    """A standard output that takes no more is an output fault."""
    monkeypatch.setattr(sys, "stdout", Full())
    with pytest.raises(OutputError, match="no space left on device"):
        to_stdout("data")


def test_closed_standard_output(monkeypatch: pytest.MonkeyPatch) -> None:
    """A process without a standard output says so."""
    monkeypatch.setattr(sys, "stdout", None)
    with pytest.raises(OutputError, match="it is closed"):
        to_stdout("data")


def test_codes_of_a_run() -> None:
    """A number returned is the exit code; anything else is 0."""
    assert [exit_code(lambda: 3), exit_code(lambda: None), exit_code(lambda: "text")] == [3, 0, 0]


def test_a_poor_terminal_stops_nothing(shop: Path) -> None:
    """A stdout that knows ASCII only shows codes for signs it lacks, and JSON stays UTF-8."""
    title = "Wheel Ø 38 \N{WRENCH}"
    text = (shop / "take-up-ratchet.toml").read_text().replace("Cloth take-up ratchet", title)
    (shop / "signs.toml").write_text(text, encoding="utf-8")
    env = {**environment(), "PYTHONIOENCODING": "ascii"}
    words = [sys.executable, "-m", "profilegen", "check", "signs.toml"]
    plain = subprocess.run(words, capture_output=True, env=env, check=False)
    assert (plain.returncode, b"\\xd8 38 \\U0001f527" in plain.stdout) == (0, True)
    dumped = subprocess.run([*words, "--json"], capture_output=True, env=env, check=False)
    assert title in dumped.stdout.decode("utf-8")


def test_usage_errors_are_input_errors() -> None:
    """An unknown option and a missing file name are exit code 2."""
    assert real("check", "--jsno", "x.toml").returncode == 2
    assert run("check").exit_code == 2
    assert run("make").exit_code == 2
    assert run("dxf", "x.toml", "--dxf-version", "R9").exit_code == 2


def test_a_request_to_end_is_like_ctrl_c(shop: Path) -> None:
    """SIGTERM in the middle of a run ends with 143, a word, and no file."""
    code = (
        "import os, signal, profilegen.cli.batch as batch\n"
        "batch.make_one = lambda *_: os.kill(os.getpid(), signal.SIGTERM)\n"
        "from profilegen.cli import main\n"
        "main(['make', 'take-up-ratchet.toml'])\n"
    )
    done = real(code=code)
    assert (done.returncode, done.stdout) == (143, b"")
    assert done.stderr.strip() == b"stopped; no half-written file is left"
    assert not (shop / "out").exists()


INTERRUPTED = """
import os, signal, sys
from pathlib import Path
real, left = Path.unlink, [int(sys.argv[1])]
def unlink(path, *words, **more):
    real(path, *words, **more)
    left[0] -= 1
    if left[0] == 0:
        os.kill(os.getpid(), getattr(signal, sys.argv[2]))
Path.unlink = unlink
from profilegen.cli import main
main(["make", *sys.argv[3:]])
"""
"""A make that is asked to stop right after one of its clean-ups, counted from 1."""

PARTS = ("take-up-ratchet", "warp-beam-ratchet")


@pytest.mark.parametrize("request_", ["SIGINT", "SIGTERM"])
def test_a_stop_in_the_last_clean_up_is_not_told_as_stopped(shop: Path, request_: str) -> None:
    """The journal's removal is the last step: all files stand there, and just that is told."""
    done = real("1", request_, "take-up-ratchet.toml", code=INTERRUPTED)
    assert done.returncode == 0, done.stderr
    assert b"stopped" not in done.stderr
    assert b"take-up-ratchet-sheet.pdf" in done.stderr
    assert (shop / "out" / PARTS[0] / ".profilegen.json").is_file()


@pytest.mark.parametrize(("request_", "code"), [("SIGINT", 130), ("SIGTERM", 143)])
def test_a_stop_between_two_parts_tells_what_is_made(shop: Path, request_: str, code: int) -> None:
    """The first is finished and told, the second is not begun; also where the tests themselves were
    started in the background."""
    hears = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    words = ("1", request_, *(f"{name}.toml" for name in PARTS))
    done = real(*words, code=f"{hears}\n{INTERRUPTED}")
    assert done.returncode == code, done.stderr
    assert b"take-up-ratchet-sheet.pdf" in done.stderr
    assert b"1 of 2 parts made in out before the stop\n" in done.stderr
    assert [path.name for path in (shop / "out").iterdir()] == [PARTS[0]]


def test_a_run_in_the_background_stays_deaf_to_ctrl_c(shop: Path) -> None:
    """A shell starts what runs in the background deaf to Ctrl-C, which is not for it."""
    code = f"import signal; signal.signal(signal.SIGINT, signal.SIG_IGN)\n{INTERRUPTED}"
    done = real("1", "SIGINT", *(f"{name}.toml" for name in PARTS), code=code)
    assert done.returncode == 0, done.stderr
    assert sorted(path.name for path in (shop / "out").iterdir()) == sorted(PARTS)


def test_after_a_run_signals_are_heard_as_before() -> None:
    """Whatever the run left held off."""
    before = [signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)]
    assert exit_code(hold_off) == 0
    assert [signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)] == before


def test_ctrl_c_while_starting(shop: Path) -> None:
    """Ctrl-C while the program is imported shows no traceback."""
    code = (
        "import sys\n"
        "class Stop:\n"
        "    def find_spec(self, name, *_):\n"
        "        if name == 'profilegen.cli.program': raise KeyboardInterrupt\n"
        "sys.meta_path.insert(0, Stop())\n"
        "from profilegen.cli import main\n"
        "main(['--help'])\n"
    )
    done = real(code=code)
    assert (done.returncode, done.stderr) == (130, b"")


@pytest.mark.parametrize("sign", ["\x1b", "\x07", "\x9b", "\u202e", "\u200b"])
def test_nothing_steers_the_terminal(shop: Path, sign: str) -> None:
    """Control characters, turns of direction and signs of no width are written out wherever a name
    or a text of a file is told."""
    (shop / f"a{sign}[2Jb.toml").write_text("teeth = ")
    for words in (("check", f"a{sign}[2Jb.toml"), ("make", f"a{sign}[2Jb.toml"), (f"x{sign}y",)):
        done = run(*words)
        assert done.exit_code == 2
        assert sign not in done.output
        assert ascii(sign)[1:-1] in done.output
    alone = real("check", f"a{sign}[2Jb.toml").stderr.decode()
    assert sign not in alone
    assert ascii(sign)[1:-1] in alone


def test_no_standard_input_is_an_input_fault(shop: Path) -> None:
    """`trial` and `start --ask` without a standard input say which answer is wanted, exit code 2;
    with a full standard error too."""
    for words in ("trial take-up-ratchet.toml", "start ratchet --ask"):
        for talk in ("told.txt", "/dev/full"):
            line = f"exec {sys.executable} -m profilegen {words} <&- 2>{talk}"
            done = subprocess.run(["sh", "-c", line], env=environment(), check=False)
            assert done.returncode == 2
        told = (shop / "told.txt").read_text()
        assert "the answers ended before" in told
        assert "Traceback" not in told


def test_a_full_standard_error_stops_nothing(shop: Path) -> None:
    """Where nothing more can be said the files are written all the same."""
    line = f"exec {sys.executable} -m profilegen take-up-ratchet.toml 2>/dev/full"
    done = subprocess.run(["sh", "-c", line], env=environment(), check=False)
    assert done.returncode == 0
    assert (shop / "out" / "take-up-ratchet" / "take-up-ratchet.dxf").is_file()
