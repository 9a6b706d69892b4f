"""An action carried out: its sentence, and what it made."""

from __future__ import annotations

from stockroom.reports.parts import caution_data
from stockroom.reports.values import (
    COUNT,
    TEXT,
    WORDS,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    document,
)
from stockroom.services.results import Done


def done_report(done: Done) -> Report:
    """The sentence for people; for programs also the codes and the number of what was made."""
    return document(
        "",
        (
            Prose("", (sentence(done.words),)),
            Fields(
                (
                    Field("done", TEXT, done.words),
                    Field("codes", WORDS, done.codes),
                    Field("made", COUNT, done.made_id or None),
                )
            ),
            Data("cautions", caution_data(done.cautions)),
        ),
    )


def sentence(words: str) -> str:
    """The journal's words as a sentence."""
    return f"{words[:1].upper()}{words[1:]}."
