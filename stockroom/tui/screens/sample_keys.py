"""The keys and the colours of the sample."""

from __future__ import annotations

from textual.binding import Binding

from stockroom.tui.screens.findings import decide_binding, finding_bindings
from stockroom.tui.screens.working_key import working_binding


def sample_binding(id: str, tooltip: str) -> Binding:
    """The key that opens a sample, the same on every screen; capital, as s records a soft one."""
    return Binding("S", "sample", "Sample", show=False, id=id, tooltip=tooltip)


def _key(key: str, action: str, name: str, tooltip: str, *, show: bool = False) -> Binding:
    """A key of the sample."""
    plain_action = action.split("(")[0].replace("_", "-")
    return Binding(key, action, name, show=show, id=f"sample-{plain_action}", tooltip=tooltip)


BINDINGS = (
    *finding_bindings(show=True),
    decide_binding("What becomes of the package found at fault.", show=True),
    _key("a", "all", "All", "Show every package of it, or only those picked.", show=True),
    working_binding("sample", "How the number and the belief were reached.", show=False),
    _key("minus", "fewer", "Fewer soft", "One soft package less that you could live with."),
    _key("plus,equals_sign", "more", "More soft", "One more that you could live with."),
    _key("p", "sure", "How sure", "Be 80, 90, 95 or 99 % sure."),
    _key("h", "how", "How looked", "By opening, through glass, by a squeeze, at a glance."),
    _key("t", "since", "Looks since", "Set the day from which looks count."),
    _key("exclamation_mark", "cautions", "Cautions", "What to bear in mind with a sample."),
    _key("escape", "back", "Back", "Back to the page before.", show=True),
)

CSS = """
SampleScreen {
    .heading { height: 1; padding: 0 1; background: $surface; text-style: bold; }
    .heading { text-wrap: nowrap; text-overflow: ellipsis; }
    #do { height: auto; padding: 0 1; background: $surface; }
    #do.-good { color: $success; }
    #do.-doubt { color: $warning; }
    #do.-bad { color: $error; text-style: bold; }
    #settings { height: auto; padding: 0 1; background: $surface; }
    #below { height: auto; max-height: 7; padding: 0 1; background: $surface; }
    #below { scrollbar-size-vertical: 1; }
    #which { color: $primary; }
    #how { color: $foreground-muted; }
    &.narrow #below { max-height: 6; }
    &.narrow #how { display: none; }
    #said { height: auto; max-height: 2; padding: 0 1; background: $surface; }
    #said.-good { color: $success; }
    #said.-bad { color: $warning; }
}
"""
