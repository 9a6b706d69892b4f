"""The trace that lets any result show its working.

A formula that wants to be shown takes a `Trace` and writes each step into it while it computes.
The step is written from one template, so the formula in words and the formula in figures cannot
drift apart, and each step hands back a `Given` that later steps take as an input: the chain from
a result to its constants, their sources and their standing is kept without extra book-keeping.

    trace = Trace("Gas in the package")
    volume = Given("volume as closed", "1500 mL")
    dry, density = Given("dry food", "150.0 g"), Given("solid density", "1.5 g/mL")
    solids = trace.step("solids", "{dry} / {density}", "100 mL", dry=dry, density=density)
    trace.step("gas", "{volume} - {solids}", "1400 mL", volume=volume, solids=solids)
    working = trace.finish()

Values are already text here (with their unit): turning a number into text is the caller's choice
of digits, and the trace never computes. Setting a `Working` out on paper or screen is the work
of `stockroom.reports`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum


class Standing(StrEnum):
    """How far a figure can be trusted; goes with every constant, onto the screen too."""

    PUBLISHED = "published"
    """The figure stands in the named publication."""
    FROM_MEMORY = "from memory, confirm before showing to users"
    """Believed right, not checked against the document: a default at most, never a limit."""
    COMMON_PRACTICE = "common practice, no source"
    """Widely done; no authoritative publication known."""
    COMPUTED = "computed"
    """Follows from the formulas and constants of this program."""
    ENGINEERING_JUDGEMENT = "engineering judgement"
    """A choice, drawn toward the anchors named beside it; can be changed in the settings."""

    @property
    def words(self) -> str:
        """The standing as a person reads it on the screen."""
        return "from memory, not confirmed" if self is Standing.FROM_MEMORY else self.value

    @property
    def may_be_a_limit(self) -> bool:
        """Whether a figure of this standing may be shown as a limit; from memory may not."""
        return self is not Standing.FROM_MEMORY


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from: a publication, or a plain statement that there is none."""

    key: str
    citation: str
    standing: Standing

    @property
    def words(self) -> str:
        """Citation and standing in one line."""
        return f"{self.citation} ({self.standing.words})"


@dataclass(frozen=True, slots=True)
class Given:
    """One input of a step: a reading, a constant or the result of an earlier step."""

    name: str
    value_text: str
    """The value with its unit, as shown."""
    source: Source | None = None
    """None for the person's own readings and for results of earlier steps."""
    standing: Standing | None = None
    """The standing of this one value, where it differs from its source's."""

    @property
    def stands_as(self) -> Standing | None:
        """The value's own standing, else its source's; None for the person's own reading."""
        if self.standing is not None:
            return self.standing
        return self.source.standing if self.source is not None else None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a computation, in words and in figures."""

    title: str
    formula: str
    """The formula with the names of its inputs; empty where a value is only looked up."""
    figures: str
    """The same formula with the values of its inputs."""
    result: str
    sources: tuple[Source, ...]
    """Every source behind this step, each once, in the order met."""
    inputs: tuple[Given, ...]


@dataclass(frozen=True, slots=True)
class Working:
    """How a result was reached: its steps in order, and what to bear in mind."""

    title: str
    steps: tuple[Step, ...]
    cautions: tuple[str, ...]
    conclusion: str = ""
    """What it comes to, as the figure is shown elsewhere; "" where nothing is concluded."""

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every source behind the result, each once, in the order met."""
        return _each_once(source for step in self.steps for source in step.sources)


class Trace:
    """Collects the working while a result is computed; `finish` freezes it."""

    __slots__ = ("_cautions", "_conclusion", "_steps", "_title")

    def __init__(self, title: str) -> None:
        self._title = title
        self._conclusion = ""
        self._steps: list[Step] = []
        self._cautions: list[str] = []

    def step(
        self,
        title: str,
        template: str,
        result: str,
        *,
        sources: tuple[Source, ...] = (),
        **inputs: Given,
    ) -> Given:
        """Write one step and return its result, ready to be the input of another.

        `template` names its inputs in braces; it is filled once with their names and once with
        their values. `sources` are those of the formula itself; those of the inputs are added.
        Raises KeyError when the template names an input that was not given.
        """
        givens = tuple(inputs.values())
        formula = template.format_map({name: given.name for name, given in inputs.items()})
        figures = template.format_map({name: given.value_text for name, given in inputs.items()})
        behind = (*sources, *(given.source for given in givens if given.source is not None))
        self._steps.append(Step(title, formula, figures, result, _each_once(behind), givens))
        return Given(title, result, standing=Standing.COMPUTED)

    def total(self, title: str, parts: Sequence[Given], result: str) -> Given:
        """Write a sum and return it."""
        return self.step(
            title,
            " + ".join(f"{{part_{place}}}" for place in range(len(parts))),
            result,
            sources=(),
            **{f"part_{place}": part for place, part in enumerate(parts)},
        )

    def note(self, title: str, result: str, *inputs: Given, source: Source | None = None) -> Given:
        """Write a step without a formula: inputs listed, or a value looked up in a table."""
        behind = [given.source for given in inputs if given.source is not None]
        if source is not None:
            behind.insert(0, source)
        self._steps.append(Step(title, "", "", result, _each_once(behind), inputs))
        return Given(title, result, source)

    def caution(self, text: str) -> None:
        """Add a caution to stand beside the result; the same text is kept once."""
        if text not in self._cautions:
            self._cautions.append(text)

    def conclude(self, text: str) -> None:
        """Say what it all comes to, in the words the figure is shown in elsewhere."""
        self._conclusion = text

    def include(self, working: Working) -> None:
        """Take over the steps and cautions of a finished working."""
        self._steps.extend(working.steps)
        for text in working.cautions:
            self.caution(text)

    def finish(self) -> Working:
        """The working so far, frozen."""
        return Working(self._title, tuple(self._steps), tuple(self._cautions), self._conclusion)


def _each_once(sources: Iterable[Source]) -> tuple[Source, ...]:
    """The sources without repeats, in the order first met."""
    return tuple(dict.fromkeys(sources))
