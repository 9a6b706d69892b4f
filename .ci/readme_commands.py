"""Run the README's two commands as they stand, each in a fresh copy of the committed tree.

The first installs and opens the demo: it gets a terminal, must show the Round and must leave when
q is pressed. The second installs and passes the checks and tests: it must exit 0.
"""

from __future__ import annotations

import os
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO_DEADLINE_S = 900
SHOWN = b"Round"


def commands() -> list[str]:
    """The two lines of the README's first shell block."""
    block = re.search(r"```sh\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.S)
    if block is None:
        raise SystemExit("README.md has no ```sh block")
    lines = [line.strip() for line in block[1].splitlines() if line.strip()]
    lines = [line for line in lines if not line.startswith("#")]
    if len(lines) != 2:
        raise SystemExit(f"README.md's first shell block has {len(lines)} commands, not two")
    return lines


def fresh_copy(into: Path) -> Path:
    """The tracked files, without anything a working folder may have beside them."""
    names = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True
    ).stdout.split(b"\0")
    for name in (os.fsdecode(one) for one in names if one):
        target = into / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(ROOT / name, target)
    return into


def run_demo(command: str, folder: Path) -> None:
    """Run the command on a terminal until the Round shows; then press q and expect exit 0."""
    home = folder / "home"
    home.mkdir()
    keep = {name: os.environ[name] for name in os.environ if name.startswith(("PIP_", "UV_"))}
    environment = {"PATH": os.environ["PATH"], "TERM": "xterm-256color", "HOME": str(home), **keep}
    pid, master = pty.fork()
    if pid == 0:
        os.chdir(folder)
        os.execvpe("bash", ["bash", "-c", command], environment)
    seen = b""
    deadline = time.monotonic() + DEMO_DEADLINE_S
    pressed = False
    while time.monotonic() < deadline:
        ready, _, _ = select.select([master], [], [], 1.0)
        if ready:
            try:
                seen += os.read(master, 65536)
            except OSError:
                break
        elif SHOWN in seen and b"\x1b[?1049h" in seen and not pressed:
            os.write(master, b"q")
            pressed = True
    _, status = os.waitpid(pid, 0)
    code = os.waitstatus_to_exitcode(status)
    if not pressed or code != 0:
        sys.stdout.write(seen[-4000:].decode("utf-8", "replace"))
        raise SystemExit(f"the demo command showed the Round: {pressed}; exit code {code}")
    print("the demo opened on a terminal and closed when q was pressed", flush=True)


def main() -> None:
    """Both commands, the demo first."""
    demo, tests = commands()
    with tempfile.TemporaryDirectory() as folder:
        print(f"$ {demo}", flush=True)
        run_demo(demo, fresh_copy(Path(folder)))
    with tempfile.TemporaryDirectory() as folder:
        print(f"$ {tests}", flush=True)
        copy = fresh_copy(Path(folder))
        done = subprocess.run(["bash", "-c", tests], cwd=copy, stdin=subprocess.DEVNULL)
    raise SystemExit(done.returncode)


if __name__ == "__main__":
    main()
