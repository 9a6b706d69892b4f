"""Lengths of time as recipes write them (ISO 8601 durations), and in words.

The form is that of ISO 8601-1:2019, 5.5.2 (from memory): P, then years, months, weeks and days,
then T with hours, minutes and seconds; the smallest part may have a decimal comma or point.
Years and months have no fixed length, so a duration that names any is not read.
"""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.quantities import nearest_whole

_NUMBER = r"[0-9]{1,9}(?:[.,][0-9]{1,9})?"
_DURATION = re.compile(
    rf"P(?=[0-9T])(?:({_NUMBER})W)?(?:({_NUMBER})D)?"
    rf"(?:T(?=[0-9])(?:({_NUMBER})H)?(?:({_NUMBER})M)?(?:({_NUMBER})S)?)?",
    re.ASCII | re.IGNORECASE,
)
_SECONDS = (604_800, 86_400, 3_600, 60, 1)


def read_duration(text: str) -> Fraction | None:
    """Seconds of a duration such as "PT1H15M"; None for anything else.

    Only the smallest part that is given may have decimals.
    """
    found = _DURATION.fullmatch(text.strip())
    if found is None:
        return None
    given = [one for one in found.groups() if one is not None]
    if any("." in one or "," in one for one in given[:-1]):
        return None
    parts = zip(found.groups(), _SECONDS, strict=True)
    return sum((_exact(one) * size for one, size in parts if one is not None), Fraction(0))


def _exact(digits: str) -> Fraction:
    return Fraction(digits.replace(",", "."))


def duration_words(seconds: Fraction) -> str:
    """A length of time in words, to the minute: "1 hour 15 minutes"; below a minute in seconds."""
    minutes = nearest_whole(seconds / 60)
    if seconds < 60:
        return _counted(nearest_whole(seconds), "second")
    days, rest = divmod(minutes, 1440)
    hours, left = divmod(rest, 60)
    parts = ((days, "day"), (hours, "hour"), (left, "minute"))
    return " ".join(_counted(count, word) for count, word in parts if count)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
