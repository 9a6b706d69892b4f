"""What a person says for any command: which store, which day, who; and opening the store."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from stockroom.cli.errors import StoreUnreachable
from stockroom.clock import Clock, SystemClock
from stockroom.config import actor_name, default_store_path
from stockroom.errors import BadInput

if TYPE_CHECKING:
    from stockroom.services.session import Stockroom


@dataclass(slots=True)
class Wishes:
    """What was said beside the command itself; filled while the command line is read."""

    store: str | None = None
    today: date | None = None
    who: str | None = None

    @property
    def clock(self) -> Clock:
        """The machine's clock, on the day that was asked for."""
        return SystemClock(self.today)

    @property
    def path(self) -> Path:
        """The store's file. Raises BadInput for a name no file can have."""
        return default_store_path() if self.store is None else readable_path(self.store)

    @property
    def actor(self) -> str:
        """Whose name the journal gets. Raises BadInput."""
        from stockroom.services.names import clean_name

        return clean_name(actor_name() if self.who is None else self.who, "name")

    @contextmanager
    def room(self) -> Generator[Stockroom]:
        """The store, open for the length of a block. Raises a StoreTrouble.

        Best-by dates that were computed with other figures are brought up to date first.
        """
        from stockroom.cli.freshness import bring_up_to_date

        with self.room_as_it_is() as room:
            bring_up_to_date(room)
            yield room

    @contextmanager
    def room_as_it_is(self) -> Generator[Stockroom]:
        """The same for the screens, which bring best-by dates up to date before one's eyes."""
        from stockroom.services.session import open_stockroom

        path, actor = self.path, self.actor
        with reachable(path):
            room = open_stockroom(path, clock=self.clock, actor=actor)
        try:
            yield room
        finally:
            room.close()


def readable_path(typed: str, what: str = "store") -> Path:
    """A typed path with its leading ~ put in full. Raises BadInput."""
    if not typed.strip() or "\0" in typed:
        raise BadInput(what, typed.replace("\0", " "), "the path of a file")
    path = Path(typed)
    try:
        return path.expanduser()
    except RuntimeError:
        # There is no such user, so the ~ is part of the name.
        return path


@contextmanager
def reachable(path: Path) -> Generator[None]:
    """Turn the system's trouble with a path into a sentence: StoreUnreachable."""
    try:
        yield
    except OSError as error:
        raise StoreUnreachable(str(path), error.strerror or str(error)) from error
