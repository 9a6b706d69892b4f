"""Fonts for labels: the one that comes along, and others of this machine for other scripts.

Noto Sans (SIL Open Font License 1.1) has the Latin, Greek and Cyrillic scripts. A text it lacks a
letter for is printed in the first other font that has them all: one that was named, one of a font
package installed beside this program, or one of the system's. Fonts that may not be embedded, by
their own word (OS/2 table, fsType bit 1: OpenType specification, published), are passed over.
"""

from __future__ import annotations

import os
import sys
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any, cast

from stockroom.domain.labels.fitting import ELLIPSIS
from stockroom.errors import BadInput

BUNDLED_FILE = "NotoSans[wdth,wght].ttf"
_SUFFIXES = (".ttf", ".otf", ".ttc")
MOST_FILES = 2_000
"""Font files of a system that are looked into: engineering judgement."""
_MAY_NOT_BE_EMBEDDED = 0x0002
_STYLED = ("bold", "italic", "oblique", "light", "thin", "black", "mono", "serif", "condensed")
_PACKAGES = ("fontpkg_*/files", "noto_cjk_*")
"""Where font packages from the package index keep their files."""


@dataclass(frozen=True, slots=True)
class Font:
    """A font file and the characters it has."""

    path: Path
    covered: frozenset[int]

    def has(self, text: str) -> bool:
        """Whether every character of a text can be printed in it, the ellipsis too."""
        return all(ord(sign) in self.covered for sign in text + ELLIPSIS)


class Fonts:
    """The fonts there are, looked into only as far as they are needed."""

    def __init__(self, named: Path | None = None, folders: Sequence[Path] | None = None) -> None:
        """`named` is a font file the person named; `folders` replace the system's own.

        Raises BadInput for a named file that is no font.
        """
        self.bundled = _bundled()
        self._named = None if named is None else _named_font(named)
        self._folders = _font_folders() if folders is None else tuple(folders)

    def for_text(self, text: str) -> Font | None:
        """The first font that has the whole text, or None."""
        if self.bundled.has(text):
            return self.bundled
        if self._named is not None and self._named.has(text):
            return self._named
        return next((font for font in self._others() if font.has(text)), None)

    def without_signs(self, text: str) -> str:
        """The text without pictures and other signs that stand for no letter and no font has."""
        kept = "".join(sign for sign in text if not _is_picture(sign) or self.for_text(sign))
        return " ".join(kept.split())

    def _others(self) -> Iterator[Font]:
        for path in _font_files(self._folders):
            font = _read_font(path)
            if font is not None:
                yield font


def needs_shaping(text: str) -> bool:
    """Whether letters of a text join, stack or run from right to left, so that they are shaped."""
    return any(
        unicodedata.bidirectional(sign) in ("R", "AL", "AN")
        or unicodedata.category(sign) in ("Mn", "Mc")
        for sign in text
    )


def _is_picture(sign: str) -> bool:
    """Whether a character is a picture, a modifier of one, or stands for nothing readable."""
    return unicodedata.category(sign) in ("So", "Sk", "Cf", "Co", "Cn") or sign in "\ufe0e\ufe0f"


def _bundled() -> Font:
    """The font that comes along."""
    package = find_spec("fontpkg_noto_sans")
    folders = () if package is None else package.submodule_search_locations or ()
    font = next((_read_font(Path(folder) / "files" / BUNDLED_FILE) for folder in folders), None)
    if font is None:
        raise RuntimeError("the font package fontpkg-noto-sans is not whole")
    return font


def _named_font(path: Path) -> Font:
    font = _read_font(path)
    if font is None:
        raise BadInput("font", str(path), "the path of a TrueType or OpenType font file")
    return font


@cache
def _read_font(path: Path) -> Font | None:
    """A font file's characters; None for one that cannot be read, drawn or embedded."""
    from fontTools.ttLib import TTFont, TTLibError  # pyright: ignore[reportMissingTypeStubs]

    try:
        with path.open("rb") as file, TTFont(file, fontNumber=0, lazy=True) as opened:
            tables = cast(Any, opened)
            letters = cast("dict[int, str] | None", tables.getBestCmap())
            drawn = "glyf" in tables or "CFF " in tables
            embedded = not int(tables["OS/2"].fsType) & _MAY_NOT_BE_EMBEDDED
    except (TTLibError, OSError, KeyError, ValueError, AssertionError):
        return None
    return Font(path, frozenset(letters)) if letters and drawn and embedded else None


def _font_folders() -> tuple[Path, ...]:
    """Where fonts are found: font packages first, then the system's usual folders."""
    home = Path.home()
    if sys.platform == "darwin":
        usual = [home / "Library/Fonts", Path("/Library/Fonts"), Path("/System/Library/Fonts")]
    elif sys.platform == "win32":
        usual = [Path(os.environ.get("WINDIR", "C:/Windows")) / "Fonts"]
    else:
        shared = os.environ.get("XDG_DATA_DIRS") or "/usr/local/share:/usr/share"
        usual = [home / ".local/share/fonts", home / ".fonts"]
        usual += [Path(one) / "fonts" for one in shared.split(":") if one]
    return (*_package_folders(), *usual)


def _package_folders() -> tuple[Path, ...]:
    """Folders of font packages installed beside the one that comes along."""
    beside = _bundled().path.parents[2]
    return tuple(folder for pattern in _PACKAGES for folder in sorted(beside.glob(pattern)))


@lru_cache(maxsize=8)
def _font_files(folders: tuple[Path, ...]) -> tuple[Path, ...]:
    """The font files of the folders, plain upright ones first."""
    found: list[Path] = []
    for folder in folders:
        files = sorted(one for one in folder.rglob("*") if one.suffix.casefold() in _SUFFIXES)
        found += sorted(files, key=_rank)
    return tuple(found[:MOST_FILES])


def _rank(path: Path) -> int:
    """How far a font file's name is from plain upright type."""
    name = path.stem.casefold()
    return sum(style in name.replace("sansserif", "") for style in _STYLED)
