"""Where the store lives and who is acting, from the environment."""

from __future__ import annotations

import getpass
import os
from pathlib import Path

STORE_VARIABLE = "STOCKROOM_STORE"
WHO_VARIABLE = "STOCKROOM_WHO"
DEBUG_VARIABLE = "STOCKROOM_DEBUG"


def default_store_path() -> Path:
    """The store named by STOCKROOM_STORE, or the one in the platform's user data folder."""
    named = os.environ.get(STORE_VARIABLE, "").strip()
    if named:
        return Path(named).expanduser()
    from platformdirs import user_data_path

    return user_data_path("stockroom", appauthor=False) / "stockroom.db"


def demo_store_path() -> Path:
    """Where the demo's fresh copy is built: the user's cache folder."""
    from platformdirs import user_cache_path

    return user_cache_path("stockroom", appauthor=False) / "demo.db"


def log_path() -> Path:
    """Where the details of a defect are written: the user's log folder."""
    from platformdirs import user_log_path

    return user_log_path("stockroom", appauthor=False) / "stockroom.log"


def actor_name() -> str:
    """Who the journal says did it: STOCKROOM_WHO, or the login name, or "someone"."""
    named = os.environ.get(WHO_VARIABLE, "").strip()
    if named:
        return named
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "someone"


def debugging() -> bool:
    """Whether defects show their traceback."""
    return os.environ.get(DEBUG_VARIABLE, "") not in ("", "0")
