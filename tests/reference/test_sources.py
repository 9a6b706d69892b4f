"""Every figure names a source, every source a standing, and nothing is named in vain."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from stockroom.domain.working import Standing
from stockroom.reference import tables
from stockroom.reference.sources import source_of, sources, standing_of
from stockroom.reference.tables import (
    ReferenceDamaged,
    exact,
    read_table,
    whole,
    whole_or_none,
    yes,
)

DATA = Path(tables.__file__).parent / "data"
# The list foods.csv is built from; its figures name their source there.
WITHOUT_SOURCE_COLUMN = {"food_selection", "sources"}
NAMES = sorted(path.stem for path in DATA.glob("*.csv"))


def rows_of(name: str) -> list[dict[str, str]]:
    """A table read without the loader under test."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("name", [one for one in NAMES if one not in WITHOUT_SOURCE_COLUMN])
def test_every_row_of_every_table_names_a_source_there_is(name: str) -> None:
    rows = rows_of(name)
    assert rows
    for row in rows:
        assert row["source"] in sources(), row
        assert row.get("anchor", "") in (*sources(), ""), row
        assert Standing(row.get("standing", Standing.PUBLISHED)), row


def test_every_source_in_the_table_is_used() -> None:
    used = {
        cell
        for name in NAMES
        if name not in WITHOUT_SOURCE_COLUMN
        for row in rows_of(name)
        for cell in (row["source"], row.get("anchor", ""))
    }
    unused = {row["key"] for row in rows_of("sources")} - used
    # Formulas of the food checks, named in their docstring rather than in a row.
    assert unused <= {"energy-general"}


def test_rows_do_not_claim_more_than_their_source() -> None:
    # A row from memory, or a choice of ours, never comes out as published.
    for name in NAMES:
        if name in WITHOUT_SOURCE_COLUMN:
            continue
        for row in rows_of(name):
            if row.get("standing") == Standing.PUBLISHED:
                assert sources()[row["source"]].standing is Standing.PUBLISHED, row


def test_sources_have_a_citation_and_plain_keys() -> None:
    for key, source in sources().items():
        assert key == source.key
        assert source.citation.strip()
        assert key == key.lower()
        assert " " not in key


def test_every_table_is_read_whole() -> None:
    for name in NAMES:
        assert [dict(row) for row in read_table(name)] == rows_of(name)


def test_a_missing_table_is_damage_not_a_crash() -> None:
    with pytest.raises(ReferenceDamaged, match="no_such_table cannot be used: the file is missing"):
        read_table("no_such_table")


@pytest.mark.parametrize(
    ("text", "said"),
    [("a,b\n", "no rows"), ("", "no rows"), ("a,b\n1,2\n3\n", "line 3 has 1 cells")],
)
def test_a_torn_table_is_damage(text: str, said: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def torn(package: str, resource: str) -> bytes:
        return text.encode()

    monkeypatch.setattr(tables.pkgutil, "get_data", torn)
    with pytest.raises(ReferenceDamaged, match=said):
        read_table("torn")


def test_cells_are_read_exactly_or_refused() -> None:
    row = {"n": "12", "none": "", "d": "0.47", "yes": "yes", "bad": "-1.x"}
    assert whole("t", row, "n") == 12
    assert whole_or_none("t", row, "none") is None
    assert exact("t", row, "d") * 100 == 47
    assert yes("t", row, "yes") is True
    for read in (whole, exact, yes):
        with pytest.raises(ReferenceDamaged):
            read("t", row, "bad")
    with pytest.raises(ReferenceDamaged):
        whole("t", row, "none")


def test_an_unknown_source_or_standing_is_damage() -> None:
    row = {"source": "nobody", "standing": "hearsay"}
    with pytest.raises(ReferenceDamaged, match="no source “nobody”"):
        source_of("t", row)
    with pytest.raises(ReferenceDamaged, match="“hearsay” is not a standing"):
        standing_of("t", row)
