"""Refusals of showing how a figure was reached."""

from __future__ import annotations

from stockroom.domain.packing import Share, TooMuchTaken, read_split
from stockroom.errors import BadInput, NotFound
from stockroom.services import finding, outlook_workings, workings
from stockroom.services.finding import CodeMistyped
from stockroom.services.packages import StandsNowhere
from tests.services.refusals.base import Refusal, closed, nothing, packed

WORKINGS = (
    Refusal(
        "workings.package_working",
        NotFound,
        packed,
        lambda room: workings.package_working(room, "26329A09"),
        ("26329A09",),
    ),
    Refusal(
        "workings.package_working",
        BadInput,
        packed,
        lambda room: workings.package_working(room, "26329A"),
        ("package code", "“26329A”"),
    ),
    Refusal(
        "workings.package_working",
        CodeMistyped,
        packed,
        lambda room: workings.package_working(room, "26329A01Z"),
        ("26329A01Z",),
    ),
    Refusal(
        "workings.draw_working",
        TooMuchTaken,
        packed,
        lambda room: workings.draw_working(room, finding.find_package(room, "26329A02"), 151),
        ("15.0 g", "15.1 g"),
    ),
    Refusal(
        "workings.draw_working",
        StandsNowhere,
        packed,
        lambda room: workings.draw_working(room, finding.find_package(room, "26329A03"), 10),
        ("26329A03", "used"),
    ),
    Refusal(
        "workings.lot_working",
        NotFound,
        nothing,
        lambda room: workings.lot_working(room, "26329A"),
        ("lot", "“26329A”"),
    ),
    Refusal(
        "workings.lot_working",
        BadInput,
        packed,
        lambda room: workings.lot_working(room, "peas!"),
        ("code", "“peas!”"),
    ),
    Refusal(
        "outlook_workings.planned_working",
        NotFound,
        closed,
        lambda room: outlook_workings.planned_working(
            room, "26329A", read_split("1xbarrel:10"), Share(100, 500)
        ),
        ("container", "“barrel”"),
    ),
    Refusal(
        "outlook_workings.planned_working",
        BadInput,
        closed,
        lambda room: outlook_workings.planned_working(
            room, "peas!", read_split("1xjar-475:10"), Share(100, 500)
        ),
        ("code", "“peas!”"),
    ),
)
