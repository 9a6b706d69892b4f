"""The plain parts of a windowed table: columns, the cache, the cursor's place, the count."""

from __future__ import annotations

from array import array

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.tui.widgets.columns import GAP_CELLS, Column, lay_out
from stockroom.tui.widgets.window_rows import RowCache, landing_row
from stockroom.tui.widgets.window_state import ListState
from tests.tui.fakes import COLUMNS, FakeSource

pytestmark = pytest.mark.painted
"""Which rows are read depends on what is painted."""

WIDTHS = st.builds(
    Column,
    st.just("x"),
    st.integers(1, 30),
    weight=st.integers(0, 3),
    priority=st.integers(0, 3),
)


def titles(room_cells: int) -> list[str]:
    """The headings left at a width."""
    return [placed.column.title for placed in lay_out(COLUMNS, room_cells)]


def test_the_highest_priority_number_drops_out_first() -> None:
    assert titles(76) == ["Code", "Food", "Dry", "State", "Place", "Best by"]
    assert titles(60) == ["Code", "Food", "Dry", "State", "Best by"]
    assert titles(50) == ["Code", "Food", "Dry", "State"]


def test_spare_cells_go_by_weight() -> None:
    wide = {placed.column.title: placed.width for placed in lay_out(COLUMNS, 119)}
    narrow = {placed.column.title: placed.width for placed in lay_out(COLUMNS, 69)}
    assert wide["Food"] - narrow["Food"] == 30
    assert wide["Place"] - narrow["Place"] == 20
    assert wide["Code"] == narrow["Code"] == 9


@given(st.lists(WIDTHS, min_size=1, max_size=6), st.integers(20, 120))
def test_columns_never_overlap_and_use_the_room(columns: list[Column], room_cells: int) -> None:
    placed = lay_out(columns, room_cells)
    end = -GAP_CELLS
    for one in placed:
        assert one.left == end + GAP_CELLS
        assert one.width >= 1
        end = one.left + one.width
    assert end <= room_cells
    assert {one.index for one in placed} >= {
        index for index, column in enumerate(columns) if column.priority == 0
    }
    if any(one.column.weight for one in placed):
        assert end == room_cells


def test_the_cache_reads_what_is_missing_and_forgets_what_is_far() -> None:
    source = FakeSource(range(1, 1001))
    cache = RowCache(margin_rows=5)
    cache.read(source, source.order, 100, 20)
    assert source.asked_rows == [tuple(range(96, 126))]
    cache.read(source, source.order, 103, 20)
    assert source.asked_rows[1] == (126, 127, 128)
    assert len(cache) == 30
    assert 98 not in cache
    assert 128 in cache


def test_a_key_that_is_gone_is_asked_for_once() -> None:
    source = FakeSource(range(1, 11))
    cache = RowCache()
    cache.read(source, array("q", [1, 99]), 0, 2)
    cache.read(source, array("q", [1, 99]), 0, 2)
    assert source.asked_rows == [(1, 99)]
    assert cache.get(99) is None


@pytest.mark.parametrize(
    ("before", "row", "after", "lands"),
    [
        ([1, 2, 3, 4], 2, [1, 2, 3, 4], 2),
        ([1, 2, 3, 4], 2, [3, 1, 2, 4], 0),  # another order: stays on its key
        ([1, 2, 3, 4], 2, [1, 2, 4], 2),  # gone: the row that took its place
        ([1, 2, 3, 4], 3, [1, 2, 3], 2),  # the last is gone: the one above
        ([1, 2, 3, 4, 5], 2, [1, 4, 5], 1),  # others gone as well
        ([1, 2, 3], 1, [7, 8], 0),  # nothing left of the old list
        ([1, 2], 1, [], 0),
        ([], 0, [4, 5], 0),
    ],
)
def test_where_the_cursor_lands(before: list[int], row: int, after: list[int], lands: int) -> None:
    assert landing_row(before, row, after) == lands


@given(
    st.lists(st.integers(0, 40), unique=True, min_size=1),
    st.lists(st.integers(0, 40), unique=True, min_size=1),
    st.data(),
)
def test_the_cursor_is_always_on_a_row(
    before: list[int], after: list[int], data: st.DataObject
) -> None:
    row = data.draw(st.integers(0, len(before) - 1))
    lands = landing_row(before, row, after)
    assert 0 <= lands < len(after)
    if before[row] in after:
        assert after[lands] == before[row]


def test_the_count_says_what_is_marked_and_what_is_hidden() -> None:
    state = ListState()
    assert state.count_text == "…"
    state.begin([1, 2, 3])
    assert state.count_text == "1 of …"
    state.take(range(1, 100_001))
    state.go_to(2)
    assert state.count_text == "3 of 100,000"
    state.toggle_mark()
    state.go_to(5)
    state.toggle_mark()
    assert state.count_text == "6 of 100,000 · 2 marked"
    state.take([1, 2, 3])
    assert state.count_text == "3 of 3 · 2 marked (1 not shown)"
    assert state.chosen == (3, 6)
    state.unmark()
    assert state.chosen == (3,)
    state.take([])
    assert state.count_text == "none"
    assert state.chosen == ()
