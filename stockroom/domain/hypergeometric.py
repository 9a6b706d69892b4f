"""Packages picked at random from a lot and not put back: how likely it is that all seems well.

Of `lot` packages `soft` are soft; `opened` are looked at, and a soft one among them is noticed
with the chance `sensitivity`. The lot passes when at most `accept` are noticed:

    P(passes) = sum of C(soft, k) x C(lot - soft, opened - k) / C(lot, opened) x missed(k)

where missed(k) is 1 up to `accept` and 0 above it for a sure check, and (1 - sensitivity)^k for
one that misses some (hypergeometric distribution, from its definition; with an imperfect check
Cameron and Baldock, Preventive Veterinary Medicine 34:1-17, 1998, secondary copy).

Whether a chance is at most a limit is answered exactly, also where the two are equal. The sum in
whole numbers of many thousand digits is the last resort: first it is closed in between two
bounds that hold for certain, and only where the limit lies between them is it done in full. The
bounds add up weights relative to the largest one, in whole multiples of 2^-160, one row rounded
down and one up; what is left out at the ends is at most the last weight for each term left out,
because the weights only fall away from the largest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import comb

_BITS = 160
_ONE = 1 << _BITS
SURE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Draw:
    """A random pick from a lot. The numbers have to fit: 0 <= soft, opened <= lot.

    Only a sure check (`sensitivity` 1) can go with an `accept` above 0.
    """

    lot: int
    soft: int
    opened: int
    accept: int = 0
    sensitivity: Fraction = SURE

    def passes(self) -> Fraction:
        """The chance that at most `accept` are noticed, exactly; slow for tens of thousands."""
        if self.sensitivity == SURE:
            return chance_at_most(self.lot, self.soft, self.opened, self.accept)
        return chance_missed(self.lot, self.soft, self.opened, self.sensitivity)

    def passes_at_most(self, limit: Fraction) -> bool:
        """Whether the chance to pass is at most `limit`, exactly: equal is enough."""
        low, high = self.bounds()
        if high <= limit:
            return True
        return low <= limit and self.passes() <= limit

    def bounds(self) -> tuple[Fraction, Fraction]:
        """Two numbers with the chance to pass between them, closer than 1e-30."""
        if self.sensitivity == SURE and self.soft - self.accept > self.lot - self.opened:
            return Fraction(0), Fraction(0)
        weights = _Weights.around_the_largest(self.lot, self.soft, self.opened)
        if self.sensitivity == SURE:
            low, high = weights.up_to(self.accept)
        else:
            low, high = weights.missed(1 - self.sensitivity)
        least, most = weights.total()
        return Fraction(low, most), min(Fraction(high, least), Fraction(1))

    def passed(self) -> float:
        """The chance that at most `accept` are noticed, to 30 decimals; quick for any lot."""
        low, high = self.bounds()
        return float((low + high) / 2)

    def noticed(self) -> float:
        """The chance that more than `accept` are noticed, as near as a float can be."""
        low, high = self.bounds()
        return float(1 - (low + high) / 2)


@dataclass(frozen=True, slots=True)
class _Weights:
    """Weights of k = first, first + 1, ... soft among those opened; the largest is `_ONE`."""

    first: int
    low: tuple[int, ...]
    high: tuple[int, ...]
    below: int
    """No less than all weights before the first together."""
    above: int
    """No less than all weights after the last together."""

    @classmethod
    def around_the_largest(cls, lot: int, soft: int, opened: int) -> _Weights:
        """Every weight that still counts, from the largest outwards."""
        least, most = max(0, soft + opened - lot), min(soft, opened)
        largest = min(max((soft + 1) * (opened + 1) // (lot + 2), least), most)
        rest = lot - soft - opened
        up = tuple(
            _falling(
                ((soft - k) * (opened - k), (k + 1) * (rest + k + 1)) for k in range(largest, most)
            )
        )
        down = tuple(
            _falling(
                (k * (rest + k), (soft - k + 1) * (opened - k + 1))
                for k in range(largest, least, -1)
            )
        )[::-1]
        rows = (*down, (_ONE, _ONE), *up)
        first = largest - len(down)
        return cls(
            first,
            tuple(low for low, _ in rows),
            tuple(high for _, high in rows),
            (first - least) * rows[0][1],
            (most - largest - len(up)) * rows[-1][1],
        )

    def total(self) -> tuple[int, int]:
        """Bounds of the sum of all weights."""
        return sum(self.low), sum(self.high) + self.below + self.above

    def up_to(self, accept: int) -> tuple[int, int]:
        """Bounds of the sum of the weights up to k = `accept`."""
        count = max(accept - self.first + 1, 0)
        above = self.above if count > len(self.low) else 0
        return sum(self.low[:count]), sum(self.high[:count]) + self.below + above

    def missed(self, each: Fraction) -> tuple[int, int]:
        """Bounds of the sum of the weights times `each` to the power of k."""
        low = high = 0
        for less, more in zip(reversed(self.low), reversed(self.high), strict=True):
            low = low * each.numerator // each.denominator + less
            high = _up(high * each.numerator, each.denominator) + more
        least, most = power_bounds(each, self.first)
        return low * least >> _BITS, _up(high * most, _ONE) + self.below + self.above


def _falling(ratios: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Bounds of the weights that follow the largest, until they count no more."""
    low = high = _ONE
    for above, under in ratios:
        low, high = low * above // under, _up(high * above, under)
        yield low, high
        if low == 0:
            return


def _up(number: int, divisor: int) -> int:
    """A quotient rounded up."""
    return -(-number // divisor)


def power_bounds(base: Fraction, exponent: int) -> tuple[int, int]:
    """Bounds of a power of a share from 0 to 1, in multiples of 2^-160."""
    low = high = _ONE
    for bit in f"{exponent:b}":
        low, high = low * low >> _BITS, _up(high * high, _ONE)
        if bit == "1":
            low = low * base.numerator // base.denominator
            high = _up(high * base.numerator, base.denominator)
    return low, high


def power_at_most(base: Fraction, exponent: int, limit: Fraction) -> bool:
    """Whether a power of a share from 0 to 1 is at most `limit`, exactly."""
    low, high = power_bounds(base, exponent)
    if Fraction(high, _ONE) <= limit:
        return True
    return Fraction(low, _ONE) <= limit and base**exponent <= limit


def chance_of(lot: int, soft: int, opened: int, found: int) -> Fraction:
    """The chance that exactly `found` of those opened are soft."""
    if not max(0, soft + opened - lot) <= found <= min(soft, opened):
        return Fraction(0)
    fewer, more = sorted((soft, opened))
    return Fraction(comb(more, found) * comb(lot - more, fewer - found), comb(lot, fewer))


def chance_at_most(lot: int, soft: int, opened: int, found: int) -> Fraction:
    """The chance that `found` or fewer of those opened are soft."""
    ways = (count for k, count in _ways(lot, soft, opened) if k <= found)
    return Fraction(sum(ways), comb(lot, min(soft, opened)))


def chance_missed(lot: int, soft: int, opened: int, sensitivity: Fraction) -> Fraction:
    """The chance that no soft one is noticed, by a check that notices `sensitivity` of them."""
    each, fewer = 1 - sensitivity, min(soft, opened)
    slips, parts = each.numerator, each.denominator
    ways = sum(count * slips**k * parts ** (fewer - k) for k, count in _ways(lot, soft, opened))
    return Fraction(ways, comb(lot, fewer) * parts**fewer)


def _ways(lot: int, soft: int, opened: int) -> Iterator[tuple[int, int]]:
    """Each k from the least with the number of ways to find k soft, over C(lot, the smaller).

    Which of the two numbers is drawn from which makes no difference, so the smaller one is.
    """
    fewer, more = sorted((soft, opened))
    k = max(0, soft + opened - lot)
    count = comb(more, k) * comb(lot - more, fewer - k)
    while k <= fewer:
        yield k, count
        count = count * (more - k) * (fewer - k) // ((k + 1) * (lot - more - fewer + k + 1))
        k += 1
