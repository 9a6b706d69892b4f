"""Values of a parsed JSON-LD file: nodes, their types and fields, and plain text out of them.

Field and type names are schema.org's, bare, after the prefix "schema:", or with the vocabulary's
address before them. Text may hold HTML entities and tags: entities are turned into their signs
once, tags are dropped, and those that end a line end one here.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Iterator
from typing import cast

Node = dict[str, object]

PREFIXES = ("", "schema:", "https://schema.org/", "http://schema.org/")
DEEPEST = 40
"""Levels of a file that are followed: engineering judgement."""

_LINE_ENDS = re.compile(r"<(?:br|/p|/li|/div|/h[1-6]|/tr)\b[^<>]*>", re.IGNORECASE)
_TAGS = re.compile(r"<!--.*?-->|</?[a-zA-Z][^<>]*>", re.DOTALL)


def as_node(value: object) -> Node | None:
    """A JSON object; None for anything else."""
    return cast("Node", value) if isinstance(value, dict) else None


def as_array(value: object) -> list[object] | None:
    """A JSON array; None for anything else."""
    return cast("list[object]", value) if isinstance(value, list) else None


def as_list(value: object) -> list[object]:
    """A JSON array; anything else but null as the only one of its kind."""
    if value is None:
        return []
    return cast("list[object]", value) if isinstance(value, list) else [value]


def field(node: Node, name: str) -> object:
    """The value of a field, however its name is written; None when it is not there."""
    for prefix in PREFIXES:
        if prefix + name in node:
            return node[prefix + name]
    return None


def bare(name: str) -> str:
    """A name without its prefix or address."""
    for prefix in PREFIXES[1:]:
        if name.startswith(prefix):
            return name[len(prefix) :]
    return name


def types_of(node: Node) -> frozenset[str]:
    """The bare names of a node's types."""
    return frozenset(bare(one) for one in as_list(node.get("@type")) if isinstance(one, str))


def nodes_of_type(value: object, wanted: str) -> Iterator[Node]:
    """Every node of a type in the order of the file; not those inside another of that type."""
    waiting: list[tuple[object, int]] = [(value, 0)]
    while waiting:
        one, depth = waiting.pop()
        node = as_node(one)
        if node is not None and wanted in types_of(node):
            yield node
        elif depth < DEEPEST:
            inside = (as_array(one) or []) if node is None else list(node.values())
            waiting.extend((each, depth + 1) for each in reversed(inside))


def text_of(value: object) -> str:
    """A value as one line of plain text: a string, a number, or a node's value, text or name."""
    return " ".join(lines_of(value))


def lines_of(value: object, depth: int = 0) -> list[str]:
    """The same line by line, without empty ones."""
    if isinstance(value, str):
        folded = (" ".join(line.split()) for line in plain_text(value).splitlines())
        return [line for line in folded if line]
    if isinstance(value, bool) or value is None or depth > DEEPEST:
        return []
    if isinstance(value, int | float):
        return [f"{value:g}" if isinstance(value, float) else str(value)]
    node = as_node(value)
    if node is None:
        several = as_list(value)
        return lines_of(several[0], depth + 1) if several else []
    for name in ("text", "name", "description", "url"):
        found = lines_of(field(node, name), depth + 1)
        if found:
            return found
    return lines_of(node.get("@value"), depth + 1) or lines_of(node.get("@id"), depth + 1)


def plain_text(text: str) -> str:
    """Text without tags and control characters, and with its entities as signs."""
    spelled = html.unescape(_TAGS.sub("", _LINE_ENDS.sub("\n", text)))
    return "".join(map(_kept, spelled)) if not spelled.isprintable() else spelled


def _kept(sign: str) -> str:
    """A sign as it may be kept: half of a pair cannot be stored, a control steers a terminal."""
    kind = unicodedata.category(sign)
    if kind == "Cs":
        return "\N{REPLACEMENT CHARACTER}"
    return " " if kind == "Cc" and sign != "\n" else sign


def as_json_text(text: str) -> str:
    """Plain text as a field may hold it: escaped only where it would be read as something else."""
    return text if plain_text(text) == text else html.escape(text, quote=False)
