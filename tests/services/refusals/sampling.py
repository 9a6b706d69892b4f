"""Refusals of sampling."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.sample_page import Wish
from stockroom.domain.sampling import ImpossibleSample
from stockroom.errors import BadInput, NotFound
from stockroom.services import sampling
from tests.services.refusals.base import Refusal, packed

SAMPLING = (
    Refusal(
        "sampling.sample_of",
        sampling.NothingToSample,
        packed,
        lambda room: sampling.sample_of(room, "loft"),
        ("loft has no sealed package",),
    ),
    Refusal(
        "sampling.sample_of",
        NotFound,
        packed,
        lambda room: sampling.sample_of(room, "26330A"),
        ("lot", "26330A"),
    ),
    Refusal(
        "sampling.sample_of",
        BadInput,
        packed,
        lambda room: sampling.sample_of(room, " "),
        ("place",),
    ),
    Refusal(
        "sampling.sample_of",
        ImpossibleSample,
        packed,
        lambda room: sampling.sample_of(room, "26329A", Wish(confidence=Fraction(1))),
        ("confidence",),
    ),
)
