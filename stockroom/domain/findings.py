"""What a look through the store finds: what is wrong, how grave it is, and what to do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How grave a finding is, the gravest first: the record or its file is wrong, it may be wrong
    or soon will be, nothing is wrong yet."""

    FAULT = "fault"
    WARNING = "warning"
    NOTE = "note"

    def reaches(self, asked: Severity) -> bool:
        """Whether this is as grave as `asked`, or graver."""
        grades = tuple(Severity)
        return grades.index(self) <= grades.index(asked)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. `subject` names it in a word or two: a code, a place, a part of the file."""

    subject: str
    severity: Severity
    message: str
    remedy: str
    mendable: bool = False
    """Whether it can be put right by making computed things anew, with no loss to the record."""


@dataclass(frozen=True, slots=True)
class Examination:
    """All that was found, the gravest first, and what could not be looked at with the reason."""

    findings: tuple[Finding, ...]
    left_out: tuple[str, ...] = ()

    def at_least(self, asked: Severity) -> tuple[Finding, ...]:
        """The findings as grave as `asked`, or graver."""
        return tuple(one for one in self.findings if one.severity.reaches(asked))

    @property
    def mendable(self) -> tuple[Finding, ...]:
        """What can be put right without a person's judgement."""
        return tuple(one for one in self.findings if one.mendable)


@dataclass(frozen=True, slots=True)
class Mending:
    """What was put right. `backup` is the copy made first; "" when there was nothing to mend."""

    mended: tuple[Finding, ...]
    left: Examination
    backup: str = ""


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The gravest first; within a grade in the order they were found."""
    grades = tuple(Severity)
    return tuple(sorted(findings, key=lambda one: grades.index(one.severity)))


def named(codes: Iterable[str], *, most: int = 5) -> str:
    """Some codes in a row, the others counted: "a, b and 7 more"."""
    every = tuple(codes)
    shown = ", ".join(every[:most])
    return shown if len(every) <= most else f"{shown} and {len(every) - most} more"
