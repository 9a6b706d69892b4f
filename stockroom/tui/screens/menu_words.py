"""A menu as rows and sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from stockroom.domain.cooking import FreshNeed
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.menu.plans import Account, DayAccount
from stockroom.domain.menu_records import PLANNING_FIGURES, MenuDish, MenuPage
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.services.menu_solver import Progress
from stockroom.tui.screens.cook_lines import fresh_text
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import counted

COLUMNS = (
    Column("Dish", 20, weight=1, look="main"),
    Column("For", 3, align="right"),
    Column("kcal", 6, align="right"),
    Column("Protein", 7, align="right", priority=2),
    Column("Water", 8, align="right", priority=1),
    Column("State", 7, look="tone"),
)
NO_MENU = "No menu is kept. Press s to plan some days from what is on the shelves."
READING = "Reading the menu …"
SEARCHING = "Searching for a menu …"
DISHES_A_DAY = 1_000
"""More than a day has; tells the rows of the days apart."""

_TONES: dict[str, Tone] = {"cooked": "quiet", "not now": "bad", "locked": "good", "": ""}


def menu_rows(page: MenuPage) -> list[Row]:
    """A row for each day, with its dishes below."""
    found: list[Row] = []
    accounts = {day.on: day for day in page.account.days}
    days = sorted({*accounts, *(dish.on for dish in page.dishes)})
    for day in days:
        found.append(_day_row(day, accounts.get(day)))
        found += [
            _dish_row(dish_key(day, place), dish) for place, dish in enumerate(page.on(day), 1)
        ]
    return found


def dish_key(day: date, place: int) -> int:
    """The key of the row of a day (place 0) or of its dishes (from 1)."""
    return day.toordinal() * DISHES_A_DAY + place


def dish_at(page: MenuPage, key: int | None) -> MenuDish | None:
    """The dish of a row; None for the row of a day."""
    if key is None or key % DISHES_A_DAY == 0:
        return None
    dishes = page.on(date.fromordinal(key // DISHES_A_DAY))
    place = key % DISHES_A_DAY - 1
    return dishes[place] if place < len(dishes) else None


def _day_row(day: date, account: DayAccount | None) -> Row:
    """The day with what all its dishes give."""
    named = f"{day:%a} {day.day} {day:%b}"
    if account is None:
        return Row(dish_key(day, 0), (named, "", "", "", "", ""), "quiet")
    percent = account.kcal * 100 // max(account.need_kcal, 1)
    cells = (
        f"{named} · {percent} % need",
        "",
        f"{account.kcal}",
        f"{account.protein_dg / 10:.0f} g",
        f"{account.water_ml} mL",
        "",
    )
    return Row(dish_key(day, 0), cells, "quiet")


def _dish_row(key: int, dish: MenuDish) -> Row:
    """A dish below its day."""
    cells = (
        f"  {dish.name}",
        str(dish.people),
        "–" if dish.kcal is None else str(dish.kcal),
        "–" if dish.protein_dg is None else f"{dish.protein_dg / 10:.0f} g",
        "–" if dish.water_ml is None else f"{dish.water_ml} mL",
        dish.mark,
    )
    return Row(key, cells, _TONES[dish.mark])


def heading_text(page: MenuPage | None) -> str:
    """Which days the menu is for, and whether it is kept."""
    if page is None:
        return "Menu"
    kept = "kept" if page.kept else "not kept yet: k keeps it"
    first, last = page.first_day, page.last_day
    return f"Menu · {first.day} {first:%b} to {last.day} {last:%b %Y} · {kept}"


def standing_lines(page: MenuPage | None) -> list[str]:
    """How good it is, and the first of what does not fit; the account has all of it."""
    if page is None:
        return []
    lines = [page.proven]
    lines += [f"{line} e plans with wishes eased." for line in _first(page.give_up)]
    lines += _first(page.stale)
    return lines


def _first(sentences: Sequence[str]) -> list[str]:
    """The first of some sentences with its sign, and how many more the account has."""
    more = f" (and {len(sentences) - 1} more: a)" if len(sentences) > 1 else ""
    return [f"! {sentence}{more}" for sentence in sentences[:1]]


def about_lines(dish: MenuDish | None) -> list[str]:
    """What there is to say of the dish under the cursor."""
    if dish is None:
        return []
    people = counted(dish.people, "person", "people")
    lines = [f"{dish.name}, {dish.occasion}, for {people}"]
    if dish.why_not:
        lines.append(f"! {dish.why_not}.")
    return lines


def search_text(progress: Progress) -> str:
    """How far the search is."""
    value = "no menu yet" if progress.value is None else f"value {progress.value}"
    bound = "" if progress.bound is None else f", at most {progress.bound}"
    gap = progress.gap_millionths
    known = "" if gap is None else f", gap {gap / 10_000:.1f} %"
    return f"Searching {progress.seconds:.0f} s: {value}{bound}{known}. Esc keeps the best found."


def shopping_lines(needs: Sequence[FreshNeed]) -> list[str]:
    """What to buy or to have in the kitchen, an item a line."""
    if not needs:
        return ["Nothing is needed beside what is on the shelves."]
    return [fresh_text(need) for need in needs]


def account_lines(page: MenuPage, units: UnitSystem) -> list[str]:
    """The whole account, with a line between its parts."""
    parts = [
        [page.proven],
        [*page.stale],
        _give_up(page),
        list(_saved(page.account, units)),
        list(_packages(page, units)),
        [f"{each.name}: {each.why}." for each in page.account.excluded],
        [each.words if each.on is None else f"{each.on}: {each.words}" for each in page.findings],
        [PLANNING_FIGURES],
    ]
    titles = ("", "Changed", "Not everything wished for fits", "Saved from waste", "Packages")
    titles += ("Dishes left out", "To know", "")
    lines: list[str] = []
    for title, part in zip(titles, parts, strict=True):
        if part:
            lines += ["", *([title] if title else []), *part] if lines else part
    return lines


def _give_up(page: MenuPage) -> list[str]:
    """The wishes it does not keep, and how they would have to be."""
    lines = list(page.give_up)
    if page.options:
        lines.append(f"It fits with {' '.join(page.options)}")
    return lines


def _saved(account: Account, units: UnitSystem) -> Iterator[str]:
    """What is used that would have been wasted, and what is not."""
    for each in account.at_risk:
        if each.used_dg:
            rest = f", {show_weight(each.unused_dg, units)} left" if each.unused_dg else ""
            used = show_weight(each.used_dg, units)
            yield f"{each.code} {each.food_name}: {used} as fresh{rest}, due {each.due}"
    if account.at_risk:
        yield f"Due by best-by ({QUALITY_NOT_SAFETY}) or by being open."
    if account.unsaved_dg:
        yield f"Due and not used: {show_weight(account.unsaved_dg, units)} as fresh."
    if account.left_open_dg:
        yield f"Left in open packages: {show_weight(account.left_open_dg, units)} as fresh."
    yield f"Water in all: {account.water_ml} mL, to rehydrate and to cook in."


def _packages(page: MenuPage, units: UnitSystem) -> Iterator[str]:
    """What comes out of which package."""
    for each in page.packages:
        amount = "all" if each.finishes else show_weight(each.fresh_dg, units)
        place = f", {each.place}" if each.place else ""
        yield f"{each.code} {each.food}: {amount}{place}"
