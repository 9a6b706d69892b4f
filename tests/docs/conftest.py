"""Pages that are run: `pytest tests/docs --update-guide` writes their answers anew."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """The switch that writes the guide's answers as they are now."""
    parser.addoption(
        "--update-guide",
        action="store_true",
        default=False,
        help="write the answers in docs/guide.md as the commands give them now",
    )
