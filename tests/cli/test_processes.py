"""The command as a process: pipes, terminals, signals, and what it loads."""

from __future__ import annotations

import json
import os
import pty
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.cli.conftest import Cli
from tests.world import TODAY

CTRL_C = b"\x03"
PYTHON = (sys.executable, "-W", "error", "-m", "stockroom")


def run(*words: str, **more: object) -> subprocess.CompletedProcess[bytes]:
    """A command of its own, with its streams kept."""
    return subprocess.run(  # type: ignore[call-overload]
        [*PYTHON, *words], capture_output=True, timeout=60, check=False, **more
    )


@pytest.fixture
def many(stocked: Cli) -> Cli:
    """More packages than a pipe holds at once."""
    for _ in range(20):
        stocked("run", "new")
        stocked("run", "load", "1", "Peas, green, frozen, boiled", "9000")
        stocked("run", "dry", "1", "3000")
        code = stocked("run", "close", "--json").json["codes"][0]
        stocked("pack", code, "--into", "60xpouch-1500-foil:10", "--json")
    return stocked


def test_a_reader_that_stops_early_is_no_trouble(many: Cli) -> None:
    assert len(many("find").out) > 100_000
    for form in ("", "--json", "--csv"):
        command = f"{' '.join(PYTHON)} find {form} | head -n 2; echo ${{PIPESTATUS[0]}}"
        found = subprocess.run(
            ["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False
        )
        assert found.stderr == ""
        assert found.stdout.splitlines()[-1] == "0"
        assert len(found.stdout.splitlines()) == 3


def test_help_to_a_reader_that_stops_early_is_no_trouble() -> None:
    read, write = os.pipe()
    os.close(read)
    try:
        for words in (("--help",), ("--version",), ("calc", "code", "26329A"), ("pack", "--help")):
            found = subprocess.run(
                [*PYTHON, *words], stdout=write, stderr=subprocess.PIPE, timeout=60, check=False
            )
            assert (found.returncode, found.stderr) == (0, b""), words
    finally:
        os.close(write)


def test_an_answer_that_cannot_be_written_is_said(stocked: Cli) -> None:
    if not Path("/dev/full").exists():
        return
    with open("/dev/full", "w", encoding="utf-8") as full:
        found = subprocess.run(
            [*PYTHON, "find"], stdout=full, stderr=subprocess.PIPE, timeout=60, check=False
        )
    assert found.returncode == 3
    said = found.stderr.decode().splitlines()
    assert said[0] == "The answer could not be written: No space left on device."
    assert len(said) == 2


def test_closed_streams_are_no_trouble(stocked: Cli) -> None:
    for closing in (">&-", "2>&-", ">&- 2>&-", "<&-"):
        for words, code in (("find", 0), ("show nothing", 2)):
            command = f"{' '.join(PYTHON)} {words} {closing}"
            found = subprocess.run(
                ["bash", "-c", command], capture_output=True, timeout=60, check=False
            )
            assert found.returncode == code, (command, found.stderr)
            assert b"Traceback" not in found.stderr + found.stdout


def test_a_terminal_without_every_sign_gets_its_code(stocked: Cli) -> None:
    stocked("place", "add", "棚")
    environment = {**os.environ, "PYTHONIOENCODING": "latin-1", "PYTHONUTF8": "0"}
    shown = run("place", "list", env=environment)
    assert (shown.returncode, shown.stderr) == (0, b"")
    assert b"\n\\u68da " in shown.stdout and b"\xb0C" not in shown.stdout
    written = run("place", "list", "--json", env=environment)
    assert json.loads(written.stdout.decode("ascii"))[-1]["path"] == "棚"
    refused = run("show", "nothing", env=environment)
    assert refused.returncode == 2
    assert b"code: \\u201cnothing\\u201d cannot be read." in refused.stderr


def test_bytes_that_are_no_text_are_refused() -> None:
    found = run("find", b"caf\xe9")  # type: ignore[arg-type]
    assert found.returncode == 2
    assert "cannot be read." in found.stderr.decode()


def test_an_interrupt_ends_with_130(nowhere: Cli, tmp_path: Path) -> None:
    """Ctrl-C at the question: nothing is made."""
    answer, code = on_a_terminal(["init"], [(b"Units", CTRL_C)])
    assert code == 130
    assert b"Traceback" not in answer
    assert not nowhere.path.exists()


def test_a_stockroom_is_started_on_a_terminal(nowhere: Cli) -> None:
    talk = [
        (b"Units, metric or us [metric]: ", b"us\n"),
        (b"How many people eat from it [2]: ", b"\n"),
    ]
    answer, code = on_a_terminal(["init"], talk)
    assert code == 0, answer
    assert b"Started a stockroom at" in answer
    assert nowhere("household", "--json").json["units"] == "us"


def test_a_list_fits_the_terminal(stocked: Cli) -> None:
    environment = {**os.environ, "COLUMNS": "60", "NO_COLOR": "1", "TERM": "dumb"}
    answer, code = on_a_terminal(["find"], [], env=environment)
    assert code == 0
    lines = answer.decode().replace("\r", "").splitlines()
    assert all(len(line) <= 60 for line in lines) and len(lines) == 5
    assert "\x1b" not in answer.decode()


def test_nothing_is_coloured_on_a_terminal(stocked: Cli) -> None:
    for words in (["round"], ["--help"], ["show", "26329A01"], ["check", "26329A01", "soft"]):
        answer, code = on_a_terminal(words, [], env={**os.environ, "TERM": "xterm-256color"})
        assert code == 0
        assert b"\x1b" not in answer


def test_the_screens_need_a_terminal(stocked: Cli) -> None:
    found = run(stdin=subprocess.DEVNULL)
    assert (found.returncode, found.stdout) == (3, b"")
    assert found.stderr.decode().splitlines()[0] == (
        "The screens need a terminal, and this is not one."
    )


HEAVY = (
    "textual", "rich", "fpdf", "highspy", "scipy", "numpy", "pandas", "segno", "icalendar",
)  # fmt: skip
STORE = ("sqlite3", "sqlite_utils", "stockroom.store", "stockroom.services.session")


@pytest.mark.parametrize(
    ("line", "none_of"),
    [
        ("--help", (*HEAVY, "sqlite_utils")),
        ("--version", (*HEAVY, *STORE)),
        ("calc water --wet 1000 --dry 155 --json", (*HEAVY, *STORE)),
        ("calc code 26329A072", (*HEAVY, *STORE)),
        ("calc moisture --wet 1000 --dry 155 --water-fraction 0.85", (*HEAVY, *STORE)),
        ("calc plateau --weights 160,155,155 --working", (*HEAVY, *STORE)),
        ("calc absorber --volume-ml 2000 --dry 180", (*HEAVY, *STORE)),
        (
            "calc keep --food-class fruit --package jar --dry 150 --volume-ml 1900 --absorber 500"
            " --temp-c 21 --working",
            (*HEAVY, *STORE),
        ),
        ("calc temperature --life-years 6 --temp-c 26", (*HEAVY, *STORE)),
        ("calc mkt --readings 20:2,2:4", (*HEAVY, *STORE)),
        ("calc life-used --life-years 10 --stays 20:3", (*HEAVY, *STORE)),
        (
            "calc sample --lot 20 --at-most 2 --confidence 95% --sensitivity .9 --working",
            (*HEAVY, *STORE),
        ),
        ("calc belief --checked 5 --soft 0 --remaining 15 --working", (*HEAVY, *STORE)),
        (
            "calc leak --volume-l 40 --from-mbar 0.3 --to-mbar 0.6 --seconds 600 --working",
            (*HEAVY, *STORE),
        ),
        ("upkeep faults", (*HEAVY, *STORE)),
        ("upkeep list", (*HEAVY, "sqlite_utils")),
        ("whatif 26329A01", (*HEAVY, "sqlite_utils")),
        ("find", (*HEAVY, "sqlite_utils")),
        ("round", (*HEAVY, "sqlite_utils")),
        ("show 26329A01 --working", (*HEAVY, "sqlite_utils")),
        ("move 26329A01 loft", (*HEAVY, "sqlite_utils")),
        ("undo", (*HEAVY, "sqlite_utils")),
        ("nonsense", (*HEAVY, *STORE)),
    ],
)
def test_a_command_loads_no_more_than_it_needs(
    stocked: Cli, line: str, none_of: tuple[str, ...]
) -> None:
    probe = (
        "import sys\n"
        "from stockroom.cli.main import main\n"
        f"main({line.split()!r})\n"
        f"print(' '.join(one for one in {none_of!r} if one in sys.modules), file=sys.stderr)\n"
    )
    found = subprocess.run(
        [sys.executable, "-c", probe], capture_output=True, text=True, timeout=60, check=True
    )
    assert found.stderr.splitlines()[-1] == ""


def test_the_demo_is_built_and_its_place_is_printed(nowhere: Cli, tmp_path: Path) -> None:
    found = run("demo", stdin=subprocess.DEVNULL)
    assert found.returncode == 0, found.stderr
    path = tmp_path / "xdg_cache_home" / "stockroom" / "demo.db"
    place, opening = found.stdout.decode().splitlines()
    assert place == f"The demo store is at {path}."
    words = opening.removeprefix("Open it with: stockroom ").split()
    assert words == ["--store", str(path), "--today", "2026-11-25"]
    assert found.stderr.decode() == "Building the demo store; this takes a few seconds.\n"
    assert not nowhere.path.exists()
    listed = run(*words, "find", "--csv")
    assert listed.returncode == 0 and len(listed.stdout.splitlines()) > 100
    # A second time it is a fresh copy.
    run(*words, "discard", listed.stdout.decode().splitlines()[1].split(",")[0], "--why", "torn")
    assert run(*words, "find", "--csv").stdout != listed.stdout
    assert run("demo", stdin=subprocess.DEVNULL).returncode == 0
    assert run(*words, "find", "--csv").stdout == listed.stdout


def on_a_terminal(
    words: list[str], talk: list[tuple[bytes, bytes]], env: dict[str, str] | None = None
) -> tuple[bytes, int]:
    """Run a command on a terminal of its own: each prompt waited for, then answered."""
    main_end, their_end = pty.openpty()
    process = subprocess.Popen(
        [*PYTHON, "--today", TODAY.isoformat(), *words],
        stdin=their_end, stdout=their_end, stderr=their_end, env=env or dict(os.environ),
        start_new_session=True, close_fds=True, preexec_fn=_own_terminal,
    )  # fmt: skip
    os.close(their_end)
    heard = b""
    waiting, silent = list(talk), 0
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        if waiting and waiting[0][0] in heard:
            os.write(main_end, waiting.pop(0)[1])
        ready, _, _ = select.select([main_end], [], [], 0.05)
        if ready:
            try:
                heard += os.read(main_end, 65_536)
            except OSError:  # the terminal's other end is closed
                break
        elif process.poll() is not None:
            break
        elif not waiting and talk and silent >= 20 and b"Interrupted" not in heard:
            # One pressed in the instant before the question is read is not heard: again.
            os.write(main_end, talk[-1][1])
            silent = 0
        silent = 0 if ready else silent + 1
    else:
        process.send_signal(signal.SIGKILL)
    os.close(main_end)
    return heard, process.wait(10)


def _own_terminal() -> None:
    """Make standard input the process's own terminal, so that Ctrl-C reaches it."""
    import fcntl
    import termios

    # A test run in the background may have been told to ignore it.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
