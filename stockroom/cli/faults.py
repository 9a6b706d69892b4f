"""The log of defects: where the details of a fault of our own go."""

from __future__ import annotations

import os
import traceback
from pathlib import Path

from stockroom.clock import SystemClock
from stockroom.config import log_path


def write_log(error: BaseException) -> Path | None:
    """Append an error's traceback to the log; None when that cannot be done."""
    path = log_path()
    details = "".join(traceback.format_exception(error))
    clock = SystemClock()
    text = f"{clock.now():%Y-%m-%d %H:%M:%S} UTC\n{details}\n"
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        # The record's own words may stand in a traceback, so the log is for its owner only.
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
        with open(handle, "a", encoding="utf-8", errors="backslashreplace") as log:
            log.write(text)
    except OSError:
        return None
    return path
