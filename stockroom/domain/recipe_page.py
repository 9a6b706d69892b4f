"""JSON-LD out of the text of a file: the file itself, or the scripts of an HTML page."""

from __future__ import annotations

import json
from dataclasses import dataclass
from html.parser import HTMLParser
from typing import cast

SCRIPT_TYPE = "application/ld+json"


@dataclass(frozen=True, slots=True)
class PageData:
    """The values that could be read, and why others could not."""

    values: tuple[object, ...]
    troubles: tuple[str, ...]


def read_page(text: str) -> PageData:
    """The JSON-LD values of a file. An HTML page may hold several; a broken one stops no other."""
    if text.lstrip("\ufeff \t\r\n")[:1] in ("{", "["):
        found = [(text.lstrip("\ufeff"), "the file")]
    else:
        scripts = _scripts(text)
        found = [(one, f"script {place}") for place, one in enumerate(scripts, start=1)]
    values: list[object] = []
    troubles: list[str] = []
    for source, name in found:
        try:
            # Line breaks inside strings are wrong, and common in pages.
            values.append(cast("object", json.loads(source, strict=False)))
        except (ValueError, RecursionError) as error:
            troubles.append(f"{name} is no JSON: {_why(error)}")
    return PageData(tuple(values), tuple(troubles))


def _why(error: Exception) -> str:
    """Where reading stopped."""
    if isinstance(error, json.JSONDecodeError):
        return f"line {error.lineno}, column {error.colno}"
    return "it is nested too deep" if isinstance(error, RecursionError) else "a number is too long"


class _Scripts(HTMLParser):
    """Gathers the content of the scripts that hold JSON-LD."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.found: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A script begins."""
        kind = (dict(attrs).get("type") or "").partition(";")[0].strip().lower()
        self._inside = tag == "script" and kind == SCRIPT_TYPE
        if self._inside:
            self.found.append("")

    def handle_endtag(self, tag: str) -> None:
        """A script ends."""
        self._inside = False

    def handle_data(self, data: str) -> None:
        """What stands in a script."""
        if self._inside:
            self.found[-1] += data


def _scripts(text: str) -> tuple[str, ...]:
    """The JSON-LD scripts of a page, without the comment marks some put round them."""
    parser = _Scripts()
    parser.feed(text)
    parser.close()
    marks = ("<!--", "//<![CDATA[", "<![CDATA[", "/*<![CDATA[*/")
    return tuple(_without(one.strip(), marks) for one in parser.found if one.strip())


def _without(text: str, marks: tuple[str, ...]) -> str:
    """The text without a mark at its beginning and its like at the end."""
    for mark in marks:
        if text.startswith(mark):
            inside = text.removeprefix(mark).strip()
            for end in ("-->", "//]]>", "/*]]>*/", "]]>"):
                inside = inside.removesuffix(end).strip()
            return inside
    return text
