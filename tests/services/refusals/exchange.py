"""Refusals of taking the record out and lists in."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from stockroom.domain.conditions import Condition
from stockroom.errors import BadInput, NotFound
from stockroom.services import exporting, list_importing, written_files
from stockroom.services.list_importing import ListEmpty, ListHasProblems
from stockroom.services.session import Stockroom
from tests.services.cases_exchange import LIST, WISHES, with_cellar
from tests.services.refusals.base import Refusal, nothing

_HEAD = "food,dry,water,container,sealed on\n"


def _refusal(service: str, error: Any, text: str, facts: tuple[str, ...], **more: Any) -> Refusal:
    act = getattr(list_importing, service)

    def call(room: Stockroom) -> object:
        return act(room, text, replace(WISHES, **more))

    return Refusal(f"list_importing.{service}", error, with_cellar, call, facts)


EXCHANGE = (
    Refusal(
        "exporting.one_table",
        NotFound,
        nothing,
        lambda room: exporting.one_table(room, "packages"),
        ("table", "“packages”", "package"),
    ),
    Refusal(
        "written_files.folder_of",
        BadInput,
        nothing,
        lambda room: written_files.folder_of(" "),
        ("folder", "the path"),
    ),
    Refusal(
        "written_files.folder_of",
        written_files.FileUnwritable,
        nothing,
        lambda room: written_files.folder_of(str(room.path)),
        ("it is a file",),
    ),
    *(
        refusal
        for service in ("look_at_list", "take_list")
        for refusal in (
            _refusal(service, BadInput, "peas\n62\n", ("headings", "food and dry weight")),
            _refusal(service, BadInput, "", ("headings",)),
            _refusal(service, BadInput, "food,dry\nx,1\n", ("column of dates", "sealed_on")),
            _refusal(service, BadInput, LIST, ("settling or sound",), condition=Condition.HELD),
            _refusal(
                service,
                BadInput,
                f"{_HEAD}peas,62,200,jar-950,03/04/2026\n",
                ("dates", "“03/04/2026”", "--dates dmy", "neither"),
            ),
            _refusal(service, ListEmpty, _HEAD, ("larder.csv", "no packages")),
        )
    ),
    _refusal(
        "take_list",
        ListHasProblems,
        f"{_HEAD}peas,62,200,jar-950,tomorrow\npeas,x,200,jar-950,2026-01-01\n",
        ("2 things", "line 2", "“tomorrow”", "Nothing was taken"),
    ),
    _refusal(
        "take_list", ListHasProblems, LIST, ("stands in the way", "no place"), add_places=False
    ),
)
