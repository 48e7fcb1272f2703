# SPDX-License-Identifier: LGPL-2.1-or-later

"""A record as one line of text, and back: how a list of records is held where only texts can be, such as in a property
of a document object.

The line is the inline table of the settings file (TOML 1.0), without the options that have their first values:
{name = "two children", down = "500 N"}.
"""

from __future__ import annotations

import tomllib
from typing import Any, TypeVar

from freecad_stacklam.lamination.options.rows import NEEDED, Record, rows_of
from freecad_stacklam.lamination.options.tomllines import toml_value
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

_R = TypeVar("_R", bound=Record)


def record_line(one: Record) -> str:
    """The line of a record. Its tables of options, if it has any, are not written."""
    facts: dict[str, Any] = {}
    for row in rows_of(type(one)):
        value = getattr(one, row.name)
        if row.kind is not None and value != row.first:
            facts[row.key] = row.kind.write(value)
    return toml_value(facts)


def record_from(text: str, record: type[_R]) -> _R:
    """The record that a line stands for; bare lengths are mm. Raises Refusal that begins with the line."""
    try:
        facts = tomllib.loads(f"it = {text.strip()}")["it"]
    except tomllib.TOMLDecodeError:
        facts = None
    if not isinstance(facts, dict):
        raise Refusal(
            say(
                "“{text}” is no {noun}: write its options in braces, as in {record}.",
                text=text,
                noun=say(record.NOUN),
                record=_example(record),
            )
        )
    rows = {row.key: row for row in rows_of(record) if row.kind is not None}
    values: dict[str, Any] = {}
    for key, value in facts.items():
        row = rows.get(key)
        if row is None or row.kind is None:
            raise Refusal(
                say(
                    "“{text}”: a {noun} has no “{key}”; it has {list}.",
                    text=text,
                    noun=say(record.NOUN),
                    key=key,
                    list=", ".join(rows),
                )
            )
        try:
            values[row.name] = row.kind.read(value, "mm")
        except Refusal as refusal:
            raise Refusal(f"“{text}”: {key}: {refusal.sentence}") from None
    missing = next((row.key for row in rows.values() if row.first is NEEDED and row.name not in values), "")
    if missing:
        raise Refusal(
            say("“{text}”: this {noun} has no {missing}: add one.", text=text, noun=say(record.NOUN), missing=missing)
        )
    return record(**values)


def _example(record: type[Record]) -> str:
    needed = next((row.key for row in rows_of(record) if row.first is NEEDED), rows_of(record)[0].key)
    return f'{{{needed} = "…"}}'
