"""Every action of the screen in view, in the command palette, written from its bindings."""

from __future__ import annotations

from functools import partial

from textual.binding import ActiveBinding
from textual.command import DiscoveryHit, Hit, Hits, Provider

from stockroom.tui.plaintext import clean, plain


class KeyCommands(Provider):
    """Offers the actions that have a key now, by name."""

    def _actions(self) -> list[ActiveBinding]:
        """Each action once, without the palette itself."""
        from stockroom.tui.help import PALETTE_ACTION, is_listed

        found: dict[str, ActiveBinding] = {}
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if is_listed(binding) and active.enabled and binding.action != PALETTE_ACTION:
                found.setdefault(binding.action, active)
        return list(found.values())

    def _run(self, active: ActiveBinding) -> partial[object]:
        """Does what the key would do."""
        return partial(self.app.run_action, active.binding.action, active.node)

    async def discover(self) -> Hits:
        """All actions, before anything is typed."""
        for active in self._actions():
            name = clean(active.binding.description)
            yield DiscoveryHit(plain(name), self._run(active), name, active.tooltip or None)

    async def search(self, query: str) -> Hits:
        """The actions whose name matches what was typed."""
        matcher = self.matcher(query)
        for active in self._actions():
            name = clean(active.binding.description)
            score = matcher.match(name)
            if score > 0:
                shown = matcher.highlight(name)
                yield Hit(score, shown, self._run(active), name, active.tooltip or None)
