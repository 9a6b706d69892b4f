"""The damage equation of oxygen and time solved by bisection: slow, plain, and independent."""

from __future__ import annotations


def quality_days(
    free: float, air: float, left: float, reserve: float, ingress: float, dry: float, tau: float
) -> float:
    """Days until time and oxygen together have used up the life, between `air` and `free`.

    Solves t/free + min((left + max(0, ingress t - reserve))/dry, t u)/tau = 1 by bisection, with
    u = tau (1/air - 1/free) so that air alone gives `air`.
    """
    if air >= free:
        return free
    fastest = tau * (1 / air - 1 / free)

    def used(days: float) -> float:
        taken_up = (left + max(0.0, ingress * days - reserve)) / dry
        return days / free + min(taken_up, fastest * days) / tau

    low, high = air, free
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if used(middle) < 1 else (low, middle)
    return high
