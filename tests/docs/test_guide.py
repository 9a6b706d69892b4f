"""docs/guide.md does what it says: its examples are run in order and their answers compared."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.docs.console import Shell, replayed
from tests.docs.pages import GUIDE


@pytest.fixture
def shell(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shell:
    """A shell in a folder of the test's own."""
    return Shell(tmp_path, monkeypatch)


def test_every_answer_in_the_guide_is_what_the_commands_say(
    shell: Shell, request: pytest.FixtureRequest
) -> None:
    page = GUIDE.read_text(encoding="utf-8")
    now = replayed(page, shell)
    assert str(shell.folder) not in now
    if request.config.getoption("--update-guide", default=False):
        GUIDE.write_text(now, encoding="utf-8")
    else:
        assert page.splitlines() == now.splitlines()
