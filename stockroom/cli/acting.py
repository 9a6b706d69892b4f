"""What follows an action: its sentence on standard output, its cautions beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockroom.cli import diagnostics, output

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stockroom.domain.working import Working
    from stockroom.services.results import Done


def finish(done: Done, form: str | None = None, *workings: Working) -> None:
    """Say what was done. Cautions go to standard error, or into the JSON.

    `workings` go into the JSON; text shows them later, by `show_workings`.
    """
    from stockroom.reports.done import done_report

    report = done_report(done)
    if workings and form == "json":
        from stockroom.reports.workings import with_working

        report = with_working(report, *workings)
    output.show(report, form)
    if form != "json":
        diagnostics.bear_in_mind(done.cautions)


def show_workings(workings: Sequence[Working]) -> None:
    """Write how figures were reached, below what was done."""
    if workings:
        from stockroom.reports.values import document
        from stockroom.reports.workings import working_blocks

        blocks = [block for one in workings for block in working_blocks(one)]
        output.write("\n")
        output.show(document("", blocks))


def finish_all(done: Sequence[Done], form: str | None = None) -> None:
    """Say what several actions of one command did; in JSON as one answer."""
    from stockroom.services.results import Done

    cautions = tuple(dict.fromkeys(one for each in done for one in each.cautions))
    if form == "json" and done:
        words = "; ".join(each.words for each in done)
        codes = tuple(dict.fromkeys(code for each in done for code in each.codes))
        finish(Done(words, cautions, codes), form)
        return
    for each in done:
        finish(Done(each.words))
    diagnostics.bear_in_mind(cautions)
