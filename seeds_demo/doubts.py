"""What became of doubtful packages: data/decisions.csv and data/repackings.csv."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows
from stockroom.domain.packing import read_split
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services.deciding import carry_out
from stockroom.services.repacking import repack_packages
from stockroom.services.session import Stockroom


def doubt_steps() -> Iterator[Step]:
    """Each decision, then what was packed anew on the same day."""
    for row in read_rows("decisions"):
        yield Step(day_of(row, "day"), Part.DECIDING, row["who"], partial(_decide, row))
    for row in read_rows("repackings"):
        yield Step(day_of(row, "day"), Part.DECIDING, row["who"], partial(_repack, row))


def _decide(row: Row, room: Stockroom) -> None:
    """Answers stand as "feel=moist signs=none", in the order they were given."""
    answers = dict(answer.split("=") for answer in row["answers"].split())
    carry_out(
        room,
        row["package"],
        {Question(question): answer for question, answer in answers.items()},
        outcome=Outcome(row["outcome"]),
        place=row["place"] or None,
        sisters_too=row["sisters"] == "too",
        note=row["note"],
    )


def _repack(row: Row, room: Stockroom) -> None:
    splits = [read_split(row["into"])]
    repack_packages(room, row["packages"].split(), splits, place=row["place"], note=row["note"])
