"""Household settings: a key and a text value."""

from __future__ import annotations

from stockroom.store.connection import Store


def read_settings(store: Store) -> dict[str, str]:
    """Every stored setting."""
    return {str(key): str(value) for key, value in store.query("SELECT key, value FROM setting")}


def save_setting(store: Store, key: str, value: str) -> None:
    """Set one, inside `write()`."""
    store.run(
        "INSERT INTO setting (key, value) VALUES (?, ?)"
        " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        (key, value),
    )


def remove_setting(store: Store, key: str) -> None:
    """Forget one, inside `write()`; one that is not there stays so."""
    store.run("DELETE FROM setting WHERE key = ?", (key,))
