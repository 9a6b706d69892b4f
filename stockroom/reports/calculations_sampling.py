"""How many packages to look at, and what is believed of the others, without a store."""

from __future__ import annotations

from stockroom.domain.belief import (
    BETA_BINOMIAL,
    CENTRAL,
    DEFAULT_PRIOR,
    EQUALLY_LIKELY,
    Belief,
    Others,
    believe,
    others,
    share_sentence,
)
from stockroom.domain.belief_working import CAUTIONS as BELIEF_CAUTIONS
from stockroom.domain.chances import exact_percent, percent_words
from stockroom.domain.hypergeometric import SURE
from stockroom.domain.sampling import (
    FAULT_RATE,
    HYPERGEOMETRIC,
    IMPERFECT_CHECK,
    Sample,
    passing,
)
from stockroom.domain.sampling_working import CAUTIONS as SAMPLE_CAUTIONS
from stockroom.reports.values import (
    COUNT,
    FLAG,
    TEXT,
    Column,
    Data,
    Field,
    Fields,
    Kind,
    Prose,
    Report,
    Table,
    decimal_kind,
    document,
)

_SHARE, _PLAIN = decimal_kind(4), decimal_kind(2)
_OFTEN = Kind(lambda value, _: percent_words(value), str, float, right=True)


def sample_result(found: Sample) -> Report:
    """How many to look at, what that says, and which lots would pass it."""
    return document(
        "Packages to look at",
        (
            Fields(
                (
                    Field("lot", COUNT, found.lot, "lot", " packages"),
                    Field("at_most", COUNT, found.at_most, "soft at most", " of them"),
                    Field("", TEXT, exact_percent(found.confidence), "confidence"),
                    Field("confidence", _SHARE, found.confidence),
                    Field(
                        "accept", COUNT, found.accept, "allowed for",
                        " soft among those looked at",
                    ),
                    Field("", TEXT, exact_percent(found.sensitivity), "the check", _finds(found)),
                    Field("sensitivity", _SHARE, found.sensitivity),
                    Field("inspect", COUNT, found.inspect, "look at", missing="impossible"),
                    Field("impossible", FLAG, found.inspect is None),
                    Field(
                        "detection_probability", _SHARE, found.detection_probability,
                        "chance", _of_what(found),
                    ),
                    Field("sentence", TEXT, found.sentence, "that is"),
                )
            ),
            _passing(found),
            Prose("", SAMPLE_CAUTIONS, "Bear in mind", "- "),
            Prose("", _sample_sources(found)),
        ),
    )  # fmt: skip


def _finds(found: Sample) -> str:
    """What a share of the check is of."""
    return " of soft ones are noticed" + (": none is missed" if found.sensitivity == SURE else "")


def _of_what(found: Sample) -> str:
    """What the chance is the chance of."""
    more = "one or more" if found.accept == 0 else f"more than {found.accept}"
    whole = ", the whole lot looked at" if found.inspect is None else ""
    return f" to notice {more} if {found.refuted_by} were soft{whole}"


def _passing(found: Sample) -> Table | None:
    """How often lots with so many soft pass; nothing where no number is enough."""
    rows = passing(found)
    if not rows:
        return None
    return Table(
        "passes",
        (Column("soft", COUNT, "soft in the lot"), Column("chance", _OFTEN, "chance to pass")),
        rows,
        "How often a lot would pass this check",
    )


def _sample_sources(found: Sample) -> tuple[str, ...]:
    """The sources behind the number."""
    more = FAULT_RATE if found.sensitivity == SURE else IMPERFECT_CHECK
    return (f"{HYPERGEOMETRIC.words}.", f"{more.words}.")


def belief_result(
    checked: int, soft: int, prior: Belief = DEFAULT_PRIOR, remaining: int | None = None
) -> Report:
    """What is believed after a look. Raises as `believe` and `others`."""
    after = believe(checked, soft, prior)
    low, high = after.interval()
    left = None if remaining is None else others(after, remaining)
    central = exact_percent(CENTRAL)
    return document(
        "Belief about soft packages",
        (
            Fields(
                (
                    Field("checked", COUNT, checked, "looked at", " packages"),
                    Field("soft", COUNT, soft, "soft", " of them"),
                    Field("", TEXT, _numbers(prior), "prior", ", as if so many soft and sound had"
                          " been seen before"),
                    Field("", TEXT, _numbers(after), "after the look"),
                    Field("mean", _OFTEN, after.mean, "share soft", " expected"),
                    Field("low", _OFTEN, low, "between"),
                    Field("high", _OFTEN, high, "and", f", with {central} belief"),
                    Field("upper_95", _OFTEN, after.upper(), "at most", f", with {central} belief"),
                    *_others(left),
                    Field("sentence", TEXT, _said(after, left), "that is"),
                )
            ),
            Data("prior", [float(prior.soft), float(prior.sound)]),
            Data("posterior", [float(after.soft), float(after.sound)]),
            Prose("", BELIEF_CAUTIONS, "Bear in mind", "- "),
            Prose("", _belief_sources(prior)),
        ),
    )  # fmt: skip


def _others(left: Others | None) -> tuple[Field, ...]:
    """What is believed of packages not looked at; nothing where their number was not said."""
    none_soft = None if left is None else left.none_soft
    expected = None if left is None else left.expected
    most = None if left is None else left.most_soft()
    return (
        Field("remaining", COUNT, left and left.remaining, "not looked at", " packages"),
        Field("expected_soft_in_remaining", _PLAIN, expected, "soft of them", " expected"),
        Field("p_none_soft_in_remaining", _OFTEN, none_soft, "none of them", " is the chance"),
        Field(
            "most_soft_95", COUNT, most, "not more than",
            f" of them, with {exact_percent(CENTRAL)} belief",
        ),
    )  # fmt: skip


def _said(after: Belief, left: Others | None) -> str:
    """The belief in a sentence."""
    return share_sentence(after) if left is None else left.sentence


def _numbers(belief: Belief) -> str:
    """The two numbers of a belief."""
    return f"Beta({float(belief.soft):.10g}, {float(belief.sound):.10g})"


def _belief_sources(prior: Belief) -> tuple[str, ...]:
    """The sources behind the belief."""
    usual = (f"Prior {EQUALLY_LIKELY.words}.",) if prior == DEFAULT_PRIOR else ()
    return (f"{BETA_BINOMIAL.words}.", *usual)
