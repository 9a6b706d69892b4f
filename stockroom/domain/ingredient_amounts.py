"""The amount at the beginning of an ingredient line: numbers, fractions, ranges, a few words.

Amounts are exact. Of a range the larger end is taken and said so: no cook runs short of what was
bought for the larger. A comma before exactly three digits could mean thousands and is not read.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from fractions import Fraction

NUMBER = (
    r"(?:[0-9]{1,7} [0-9]{1,4}/[0-9]{1,4}|[0-9]{1,7}/[0-9]{1,4}"
    r"|[0-9]{1,7}[.,][0-9]{1,9}|[.,][0-9]{1,9}|[0-9]{1,9})"
)
"""A number as cooks write it: 2, 1.5, 1,5, 1/2, 1 1/2."""

_FIRST = re.compile(
    rf"(?P<low>{NUMBER})(?![0-9/])(?:(?P<joint> ?- ?| to | or | and | & )(?P<high>{NUMBER}))?"
    r"(?![0-9/])",
    re.ASCII | re.IGNORECASE,
)
_TIMES = re.compile(rf" ?[x\u00d7] ?(?P<each>{NUMBER})(?![0-9/])", re.ASCII | re.IGNORECASE)
_VULGAR = re.compile("(?P<before>[0-9] ?)?(?P<sign>[\u00bc-\u00be\u2150-\u215e\u2189])")
_WORDS = {
    "half a": Fraction(1, 2), "half an": Fraction(1, 2), "a half": Fraction(1, 2),
    "a quarter of a": Fraction(1, 4), "a couple of": Fraction(2), "a dozen": Fraction(12),
    "a": Fraction(1), "an": Fraction(1), "one": Fraction(1), "two": Fraction(2),
    "three": Fraction(3), "four": Fraction(4), "five": Fraction(5), "six": Fraction(6),
    "seven": Fraction(7), "eight": Fraction(8), "nine": Fraction(9), "ten": Fraction(10),
    "twelve": Fraction(12),
}  # fmt: skip
_WORD = re.compile(
    rf"(?:{'|'.join(sorted(_WORDS, key=len, reverse=True))})(?= )", re.ASCII | re.IGNORECASE
)
_SOME = re.compile(r"(?:a few|a little|a bit of|some|several)(?= )", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Amount:
    """What stands at the beginning: the amount, what is to be said of it, and the rest.

    `said` keeps "a few" and the like, which give no amount.
    """

    amount: Fraction | None
    rest: str
    remark: str = ""
    said: str = ""


def with_plain_signs(text: str) -> str:
    """The text with ½ as 1/2, every dash between numbers as a hyphen, and single spaces."""
    spelled = _VULGAR.sub(_spelled, text.replace("\u2044", "/"))
    return " ".join(re.sub("[\u2010-\u2015\u2212]", "-", spelled).split())


def _spelled(found: re.Match[str]) -> str:
    digits = unicodedata.normalize("NFKC", found["sign"]).replace("\u2044", "/")
    return f"{(found['before'] or '').strip()} {digits}".lstrip()


def exact(digits: str) -> Fraction | None:
    """A number of `NUMBER`; None for a division by nothing or a comma that may mean thousands."""
    if re.fullmatch(r"[0-9]+,[0-9]{3}", digits) and not digits.startswith("0"):
        return None
    whole, _, part = digits.rpartition(" ")
    try:
        value = Fraction(part.replace(",", ".") if part[0] not in ",." else f"0.{part[1:]}")
    except ZeroDivisionError:
        return None
    return value + int(whole or 0)


def read_amount(text: str) -> Amount:
    """The amount at the beginning of a line that went through `with_plain_signs`."""
    found = _FIRST.match(text)
    if found:
        return _times(_number(found, text))
    some = _SOME.match(text)
    if some:
        return Amount(None, text[some.end() :].lstrip(), said=some[0])
    word = _WORD.match(text)
    if word:
        return Amount(_WORDS[word[0].casefold()], text[word.end() :].lstrip())
    return Amount(None, text)


def _number(found: re.Match[str], text: str) -> Amount:
    """A number, a mixed number such as 1-1/2, or the larger end of a range."""
    rest = text[found.end() :].lstrip()
    low = exact(found["low"])
    if found["high"] is None:
        return Amount(low, rest, "" if low is not None else _unclear(found["low"]))
    high = exact(found["high"])
    if low is None or high is None:
        return Amount(None, rest, _unclear(found["low"] if low is None else found["high"]))
    if "/" in found["high"] and " " not in found["high"] and high < 1 and low.denominator == 1:
        return Amount(low + high, rest)
    if found["joint"].strip() in ("and", "&"):
        return Amount(low, text[found.end("low") :].lstrip())
    return Amount(max(low, high), rest, f"of {found[0]} the larger is taken")


def _unclear(digits: str) -> str:
    if "," in digits:
        return f"{digits} can be read two ways: write it without the comma or with a point"
    return f"{digits} is no number"


def _times(first: Amount) -> Amount:
    """What "2 x 400 g" comes to."""
    found = _TIMES.match(f" {first.rest}") if first.amount is not None else None
    if found is None or first.amount is None:
        return first
    each = exact(found["each"])
    rest = first.rest[found.end() - 1 :].lstrip()
    if each is None:
        return replace(first, amount=None, rest=rest, remark=_unclear(found["each"]))
    return replace(first, amount=first.amount * each, rest=rest)


WRITTEN_PARTS = (2, 3, 4, 8)
"""Parts of a whole that are written as such; others are written in decimals."""


def written_number(amount: Fraction) -> str:
    """An amount to the thousandth that `exact` reads back to it: "2", "1 1/2", "0.35"."""
    ones, part = divmod(amount, 1)
    if part.denominator in WRITTEN_PARTS and part:
        return f"{ones} {part}" if ones else str(part)
    thousandths = int(amount * 1000)
    return f"{thousandths // 1000}.{thousandths % 1000:03d}".rstrip("0").rstrip(".")
