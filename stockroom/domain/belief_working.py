"""How a belief about packages nobody has looked at is reached, step by step."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.belief import (
    BETA_BINOMIAL,
    CENTRAL,
    DEFAULT_PRIOR,
    EQUALLY_LIKELY,
    EXACT_UP_TO,
    NOT_A_GUARANTEE,
    Belief,
    Others,
    believe,
    others,
)
from stockroom.domain.chances import exact_percent, exact_words
from stockroom.domain.working import Given, Standing, Trace, Working

CAUTIONS = (
    f"{NOT_A_GUARANTEE} It rests on the prior as well as on what was seen.",
    "It holds for packages looked at without knowing how they are; looking only at suspicious ones"
    " makes it too dark.",
    "It says how many may be soft, not that a food is safe: follow local codes and licensed"
    " guidance.",
)

OTHER_PRIORS = (
    Belief(Fraction(1, 2), Fraction(1, 2)),
    Belief(Fraction(1), Fraction(19)),
)
"""Shown beside the prior used: one of half the weight, and one of one soft in twenty."""


def belief_working(
    checked: int, soft: int, prior: Belief = DEFAULT_PRIOR, remaining: int | None = None
) -> Working:
    """The derivation of a belief; refuses what `believe` and `others` refuse."""
    after = believe(checked, soft, prior)
    trace = Trace("Belief about soft packages")
    a, b = _after(trace, checked, soft, prior, after)
    trace.step(
        "share expected to be soft",
        "{a} / ({a} + {b})",
        exact_words(after.mean),
        sources=(BETA_BINOMIAL,),
        a=a,
        b=b,
    )
    low, high = after.interval()
    trace.note(
        f"central {exact_percent(CENTRAL)} interval",
        f"{low:.4f} to {high:.4f}",
        Given("left out on either side", exact_percent((1 - CENTRAL) / 2)),
        Given(f"not exceeded, with {exact_percent(CENTRAL)} belief", f"{after.upper():.4f}"),
        source=BETA_BINOMIAL,
    )
    if remaining is not None:
        _others(trace, others(after, remaining), a, b)
    _what_would_change_it(trace, checked, soft, after, prior)
    for text in CAUTIONS:
        trace.caution(text)
    return trace.finish()


def _after(
    trace: Trace, checked: int, soft: int, prior: Belief, after: Belief
) -> tuple[Given, Given]:
    """The two numbers of the belief after the look."""
    source = EQUALLY_LIKELY if prior == DEFAULT_PRIOR else None
    found = Given("found soft", str(soft))
    return (
        trace.step(
            "soft counted with the prior", "{prior} + {found}", _plain(after.soft),
            sources=(BETA_BINOMIAL,),
            prior=Given("prior, soft", _plain(prior.soft), source), found=found,
        ),
        trace.step(
            "sound counted with the prior", "{prior} + {checked} - {found}", _plain(after.sound),
            sources=(BETA_BINOMIAL,),
            prior=Given("prior, sound", _plain(prior.sound), source),
            checked=Given("looked at", str(checked)), found=found,
        ),
    )  # fmt: skip


def _others(trace: Trace, found: Others, a: Given, b: Given) -> None:
    """What the belief says of packages not looked at."""
    left = Given("not looked at", str(found.remaining))
    trace.step(
        "soft ones expected among them",
        "{left} x {a} / ({a} + {b})",
        exact_words(found.expected),
        sources=(BETA_BINOMIAL,),
        left=left, a=a, b=b,
    )  # fmt: skip
    exact = found.remaining <= EXACT_UP_TO
    trace.step(
        "chance that none of them is soft",
        "B({a}, {b} + {left}) / B({a}, {b})",
        exact_words(found.none_soft) if exact else f"{float(found.none_soft):.6f}",
        sources=(BETA_BINOMIAL,),
        left=left, a=a, b=b,
    )  # fmt: skip
    most = found.most_soft()
    trace.note(
        f"not exceeded, with {exact_percent(CENTRAL)} belief",
        f"{most} soft",
        Given(
            f"chance of at most {most}",
            f"{float(found.up_to(most)):.6f}",
            standing=Standing.COMPUTED,
        ),
        source=BETA_BINOMIAL,
    )


def _what_would_change_it(
    trace: Trace, checked: int, soft: int, after: Belief, prior: Belief
) -> None:
    """The share expected after one look more, and with other priors."""
    one = after.soft + after.sound + 1
    trace.note(
        "what would change it",
        f"share expected now {float(after.mean):.4f}",
        Given("after one more, sound", f"{float(after.soft / one):.4f}"),
        Given("after one more, soft", f"{float((after.soft + 1) / one):.4f}"),
        *(
            Given(
                f"with the prior {_plain(other.soft)},{_plain(other.sound)}",
                f"{float(believe(checked, soft, other).mean):.4f}",
            )
            for other in OTHER_PRIORS
            if other != prior
        ),
        source=BETA_BINOMIAL,
    )


def _plain(number: Fraction) -> str:
    """A count, with decimals only where it has some."""
    return f"{float(number):.10g}"
