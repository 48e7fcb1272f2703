# SPDX-License-Identifier: LGPL-2.1-or-later

"""On which line of a TOML text each key stands, so that a refusal can point there. tomllib does not tell."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

#: A key's way from the top: names, and numbers for the tables of an array.
Path = tuple[str | int, ...]

_PART = r"(?:[A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')"
_DOTTED = rf"{_PART}(?:\s*\.\s*{_PART})*"
_HEADER = re.compile(rf"\s*(\[\[?)\s*({_DOTTED})\s*\]\]?")
_KEY = re.compile(rf"\s*({_DOTTED})\s*=")
# What must be stepped over as a whole: comments, and strings of all four kinds.
_SKIP = re.compile(r'#[^\n]*|"""(?:\\.|[^\\])*?"""|\'\'\'.*?\'\'\'|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'', re.DOTALL)


def _names(dotted: str) -> list[str]:
    return [part.strip("\"'") for part in re.findall(_PART, dotted)]


def key_lines(text: str) -> dict[Path, int]:
    """Line, from 1, of every table header and key. `text` must be valid TOML. Keys in {…} stand with their table."""
    found: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    table: Path = ()
    at, line, depth, fresh = 0, 1, 0, True
    while at < len(text):
        if fresh and depth == 0:
            fresh = False
            header, key = _HEADER.match(text, at), _KEY.match(text, at)
            if header:
                line += text.count("\n", at, header.start(1))
                table = _table(_names(header[2]), header[1] == "[[", counts)
                found.setdefault(table, line)
                at = header.end()
                continue
            if key:
                line += text.count("\n", at, key.start(1))
                names = _names(key[1])
                for i in range(len(names)):
                    found.setdefault((*table, *names[: i + 1]), line)
                at = key.end()
                continue
        skipped = _SKIP.match(text, at)
        if skipped:
            line += skipped[0].count("\n")
            at = skipped.end()
            continue
        sign = text[at]
        if sign in "[{":
            depth += 1
        elif sign in "]}":
            depth -= 1
        elif sign == "\n":
            line += 1
            fresh = True
        at += 1
    return found


def _table(names: list[str], is_array: bool, counts: dict[Path, int]) -> Path:
    """The path of a header: the last table so far of every array on the way, a new one for [[…]]."""
    path: Path = ()
    for i, name in enumerate(names):
        path = (*path, name)
        if is_array and i == len(names) - 1:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def line_of(lines: Mapping[Path, int], path: Path) -> int | None:
    """The line of a key, or of the nearest table that holds it."""
    while path:
        if path in lines:
            return lines[path]
        path = path[:-1]
    return None


def toml_text(text: str) -> str:
    """A TOML basic string."""
    escapes = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return '"' + "".join(escapes.get(c, c if c >= " " and c != "\x7f" else f"\\u{ord(c):04x}") for c in text) + '"'


def toml_value(value: Any) -> str:
    """A plain value as TOML: text, yes or no, numbers, lists and inline tables."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return toml_text(value)
    if isinstance(value, Mapping):
        keys = (key if re.fullmatch("[A-Za-z0-9_-]+", key) else toml_text(key) for key in value)
        return "{" + ", ".join(f"{key} = {toml_value(v)}" for key, v in zip(keys, value.values())) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(toml_value(v) for v in value) + "]"
    return repr(value)
