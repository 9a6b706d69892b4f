"""Every report as text at several widths, kept beside the tests.

python -m tests.reports.golden     writes the pages anew; read the difference
"""

from __future__ import annotations

from pathlib import Path

from stockroom.reports.as_text import as_text
from tests.reports.samples import METRIC, reports

PAGES = Path(__file__).parent / "pages"
WIDTHS = (60, 80, 120, None)


def page(name: str) -> str:
    """One report at every width."""
    report = reports()[name]
    return "\n".join(
        f"== {width or 'no'} cells ==\n{as_text(report, METRIC, width)}" for width in WIDTHS
    )


def path_of(name: str) -> Path:
    """Where a report's page is kept."""
    return PAGES / f"{name.replace(' ', '_')}.txt"


if __name__ == "__main__":
    PAGES.mkdir(exist_ok=True)
    for kept in PAGES.glob("*.txt"):
        kept.unlink()
    for every in reports():
        path_of(every).write_text(page(every), encoding="utf-8")
