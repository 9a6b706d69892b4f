"""One calculation asked at the command line: its JSON, and its working beside it."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.conftest import Cli


def answer(cli: Cli, line: str) -> Any:
    """The JSON of one calculation; none of them opens a store."""
    found = cli("calc", *line.split(), "--json").json
    assert not cli.path.exists()
    return found


def working_of(cli: Cli, line: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """The page with the working in small letters, after all that every working has to be.

    It fits 80 columns, adds nothing but itself to the JSON, and each constant in it has a source
    and a standing; a person's own reading has neither.
    """
    monkeypatch.setenv("COLUMNS", "80")
    page = cli("calc", *line.split(), "--working")
    assert all(len(one) <= 80 for one in page.lines)
    plain, data = answer(cli, line), answer(cli, f"{line} --working")
    (working,) = data.pop("workings")
    assert data == plain
    assert working["steps"] and working["sources"]
    assert all(one["standing"] for one in working["sources"])
    for step in working["steps"]:
        for given in step["inputs"]:
            assert given["source"] is None or given["standing"]
    return " ".join(page.out.split()).lower()
