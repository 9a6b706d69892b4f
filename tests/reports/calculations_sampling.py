"""Numbers to look at and beliefs for reports, computed by the domain from round figures."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.belief import Belief
from stockroom.domain.belief_working import belief_working
from stockroom.domain.sampling import sample_size
from stockroom.domain.sampling_working import sample_working
from stockroom.reports.calculations_sampling import belief_result, sample_result
from stockroom.reports.values import Report
from stockroom.reports.workings import with_working

CONFIDENCE = Fraction(95, 100)
LEANING = Belief(Fraction(1, 2), Fraction(19))


def reports() -> dict[str, Report]:
    """Every report of sampling, some with their working."""
    return {
        "sample": with_working(
            sample_result(sample_size(20, 2, CONFIDENCE)), sample_working(20, 2, CONFIDENCE)
        ),
        "sample accepting": sample_result(sample_size(100, 3, CONFIDENCE, accept=1)),
        "sample impossible": with_working(
            sample_result(sample_size(20, 1, CONFIDENCE, sensitivity=Fraction(60, 100))),
            sample_working(20, 1, CONFIDENCE, sensitivity=Fraction(60, 100)),
        ),
        "belief": with_working(
            belief_result(5, 0, remaining=15), belief_working(5, 0, remaining=15)
        ),
        "belief of a share": belief_result(12, 1, LEANING),
    }
