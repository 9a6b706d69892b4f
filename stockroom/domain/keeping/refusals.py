"""What the keeping model will not compute, each with one sentence and what to do."""

from __future__ import annotations

from datetime import date

from stockroom.domain.keeping.interface import CannotProject


class TooWarm(CannotProject):
    """Hotter than any life law here may be stretched."""

    def __init__(self, temperature_c: float, limit_c: float, from_day: date | None = None) -> None:
        """`from_day` is the first day of the stay that is too warm, where there is one."""
        since = f" from {from_day.isoformat()} on" if from_day is not None else ""
        super().__init__(
            f"{temperature_c:.1f} °C{since} is too warm: no life is given above {limit_c:g} °C.",
            "Check the temperature; food kept that warm is best used at once or looked at.",
        )
        self.temperature_c = temperature_c
        self.limit_c = limit_c
        self.from_day = from_day


class ImpossibleFigure(CannotProject):
    """A reading that cannot be: negative, not a number or out of its range."""

    def __init__(self, what: str, shown: str, allowed: str) -> None:
        """`what` names the figure, `shown` is its value, `allowed` what may stand there."""
        super().__init__(
            f"{what[:1].upper()}{what[1:]} cannot be {shown}.", f"It has to be {allowed}."
        )
        self.what = what
        self.shown = shown
        self.allowed = allowed


class BeforeSealing(CannotProject):
    """Something happened to a package before it was sealed: one of the two dates is wrong."""

    def __init__(self, what: str, on_day: date, sealed_on: date) -> None:
        """`what` is the event as a participle: "opened", "dried again", "leaking"."""
        super().__init__(
            f"{what[:1].upper()}{what[1:]} on {on_day.isoformat()}, before it was sealed on"
            f" {sealed_on.isoformat()}.",
            "Correct one of the two dates.",
        )
        self.what = what
        self.on_day = on_day
        self.sealed_on = sealed_on
