"""Files a person asks for: never over another file unasked, and whole or not at all."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from stockroom.errors import BadInput, Refused, StockroomError
from stockroom.services.session import Stockroom

_HEAD_BYTES = 4096
"""How much of a file is looked at to tell what it is."""

_BESIDE_THE_STORE = ("", "-wal", "-shm", "-journal")
"""What SQLite keeps under the store's name."""


class FileInTheWay(Refused):
    """There is a file of another kind where one was to be written."""

    def __init__(self, path: str, kind: str) -> None:
        """`kind` is what would be written, such as "calendar"."""
        super().__init__(
            f"There is already a file {path} that is no {kind} of stockroom's; it was left as it"
            " is.",
            "Name another file, or have this one replaced with --force.",
        )
        self.path = path


class StoreInTheWay(Refused):
    """The store's own file was named: nothing may replace it."""

    def __init__(self, path: str) -> None:
        super().__init__(f"The file {path} is the store itself.", "Name another file.")


class FileUnwritable(StockroomError):
    """A file cannot be written where it was to go."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The file {path} could not be written: {why}.",
            "Check the folder, its permissions and the space left, or name another file.",
        )


def path_of(typed: str, what: str = "file") -> Path:
    """The path a person typed, with its leading ~ put in full. Raises BadInput."""
    if not typed.strip() or "\0" in typed:
        raise BadInput(what, typed.replace("\0", " "), "the path of a file")
    path = Path(typed.strip())
    try:
        return path.expanduser()
    except RuntimeError:
        # There is no such user, so the ~ is part of the name.
        return path


def folder_of(typed: str) -> Path:
    """The folder a person typed, made when it is missing. Raises BadInput, FileUnwritable."""
    path = path_of(typed, "folder")
    try:
        path.mkdir(exist_ok=True)
    except FileExistsError as error:
        raise FileUnwritable(str(path), "it is a file, and a folder is needed") from error
    except (OSError, ValueError) as error:
        raise FileUnwritable(str(path), _why(error)) from error
    return path


def check_target(
    room: Stockroom,
    path: Path,
    kind: str,
    *,
    is_ours: Callable[[bytes], bool],
    replace: bool = False,
) -> None:
    """Refuse to write where something else is; `is_ours` knows an earlier file by its beginning.

    An empty file may be written over, and with `replace` any other but the store. Raises
    FileInTheWay, StoreInTheWay, FileUnwritable.
    """
    try:
        if path.is_dir():
            raise FileUnwritable(str(path), "it is a folder")
        if _is_store(room, path):
            raise StoreInTheWay(str(path))
        # Pipes and devices are written to as they are; asking one for its content would wait.
        if replace or not path.is_file():
            return
        with path.open("rb") as file:
            head = file.read(_HEAD_BYTES)
    except (OSError, ValueError) as error:
        raise FileUnwritable(str(path), _why(error)) from error
    if head and not is_ours(head):
        raise FileInTheWay(str(path), kind)


def _is_store(room: Stockroom, path: Path) -> bool:
    """Whether a path leads to the store, or to what SQLite keeps beside it."""
    store = room.path.resolve()
    beside = [store.with_name(store.name + end) for end in _BESIDE_THE_STORE]
    if path.resolve() in beside:
        return True
    return path.exists() and any(one.exists() and path.samefile(one) for one in beside)


def write_file(path: Path, content: bytes) -> None:
    """Write a file whole: what was there stays until all of it is written. Raises FileUnwritable.

    A file that is replaced keeps its permissions, and a link goes on pointing where it did.
    """
    try:
        target = path.resolve()
        if target.exists() and not target.is_file():
            target.write_bytes(content)
        else:
            _replace(target, content)
    except (OSError, ValueError) as error:
        raise FileUnwritable(str(path), _why(error)) from error


def _replace(target: Path, content: bytes) -> None:
    """Write beside the target, then put it in its place in one step."""
    if target.exists() and not os.access(target, os.W_OK):
        # Its folder would let it be replaced all the same.
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with beside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, beside)
        beside.replace(target)
    except BaseException:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        raise


def _why(error: Exception) -> str:
    """What the system says of it, without a full stop."""
    said = getattr(error, "strerror", None) or str(error)
    return str(said).rstrip(".")
