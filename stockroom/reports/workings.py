"""The working of a result set out: each step in words and in figures, with its sources."""

from __future__ import annotations

from stockroom.domain.working import Given, Source, Step, Working
from stockroom.reports.values import TEXT, Block, Data, Field, Fields, Json, Prose, Report, document
from stockroom.services.results import WorkingPage

_INDENT = "   "


def working_report(page: WorkingPage) -> Report:
    """How the figures of a package, a lot or a run were reached."""
    blocks: list[Block] = [Fields((Field("code", TEXT, page.code),))]
    for working in page.workings:
        blocks.extend(working_blocks(working))
    blocks.append(Data("workings", [_working_data(working) for working in page.workings]))
    return document(f"Working of {page.code}", blocks)


def with_working(report: Report, *workings: Working) -> Report:
    """A report with the derivation of its figures after it."""
    derived = [block for working in workings for block in working_blocks(working)]
    data = Data("workings", [_working_data(working) for working in workings])
    return Report((*report.blocks, *derived, data), report.title, report.table)


def working_blocks(working: Working) -> tuple[Block, ...]:
    """One working for text: what it comes to, numbered steps, what to bear in mind, sources."""
    sources = working.sources
    steps = tuple(
        _step(number, step, sources) for number, step in enumerate(working.steps, start=1)
    )
    numbered = tuple(f"[{number}] {one.words}" for number, one in enumerate(sources, start=1))
    return (
        Prose("", (f"{working.title}: {working.conclusion}".removesuffix(": "),)),
        *steps,
        Prose("", working.cautions, f"Bear in mind with {_lower(working.title)}", "- "),
        Prose("", numbered, f"Sources of {_lower(working.title)}"),
    )


def _step(number: int, step: Step, sources: tuple[Source, ...]) -> Prose:
    """One step: its result, the formula in words and in figures, and what went in."""
    if step.formula:
        lines = [f"= {step.formula}", f"= {step.figures}"]
        given = [one for one in step.inputs if one.stands_as is not None and one.source is not None]
    else:
        lines = []
        given = list(step.inputs)
    lines.extend(_given(one, sources) for one in given)
    marks = "".join(f" [{sources.index(one) + 1}]" for one in step.sources)
    title = f"{number}. {step.title}: {step.result}{marks}"
    return Prose("", tuple(lines), title, _INDENT) if lines else Prose("", (title,))


def _given(one: Given, sources: tuple[Source, ...]) -> str:
    """One input with its value, its standing and the number of its source."""
    mark = f" [{sources.index(one.source) + 1}]" if one.source is not None else ""
    standing = f" ({one.stands_as.words})" if one.stands_as is not None else ""
    return f"{one.name}: {one.value_text}{standing}{mark}"


def _lower(title: str) -> str:
    """A title inside a sentence."""
    return title[:1].lower() + title[1:]


def _working_data(working: Working) -> Json:
    """A working for JSON."""
    return {
        "title": working.title,
        "conclusion": working.conclusion,
        "steps": [_step_data(step) for step in working.steps],
        "cautions": list(working.cautions),
        "sources": [_source_data(source) for source in working.sources],
    }


def _step_data(step: Step) -> Json:
    """A step for JSON."""
    return {
        "title": step.title,
        "formula": step.formula,
        "figures": step.figures,
        "result": step.result,
        "inputs": [
            {
                "name": one.name,
                "value": one.value_text,
                "standing": None if one.stands_as is None else one.stands_as.words,
                "source": None if one.source is None else one.source.citation,
            }
            for one in step.inputs
        ],
        "sources": [source.citation for source in step.sources],
    }


def _source_data(source: Source) -> Json:
    """A source for JSON."""
    return {"key": source.key, "citation": source.citation, "standing": source.standing.words}
