# SPDX-License-Identifier: LGPL-2.1-or-later

"""One option is one row, written once, at the field of its record.

From the rows come the settings file's keys, the properties of document objects, the rows of panels and the README's
table. What behaves in its own way says so (`by_hand`) and is written out where it is used; a row is no language.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields, replace
from functools import cache
from typing import Any, ClassVar

from freecad_stacklam.lamination.options.kinds import Kind, shown
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: First value of an option that must be given.
NEEDED: Any = MISSING


@dataclass(frozen=True)
class Row:
    """An option: the field of its record, its key in the settings file, what it holds, and its first value (NEEDED:
    it has none; None: it may be left out).

    caption and tip: in a panel; the tip is also the property's text and the README's. group and property: in a
    document object. by_hand: why no property holds it as it is, "" where one does.
    was: the key of an earlier release, which files may still hold. nothing: what 0 means in a panel, in a word or two.
    A row with a `record` is a table of options of its own, or `many` of them, and has no kind.
    """

    name: str
    key: str
    kind: Kind | None
    first: Any
    caption: str
    tip: str
    group: str = ""
    property: str = ""
    by_hand: str = ""
    record: type[Record] | None = None
    many: bool = False
    was: str = ""
    nothing: str = ""

    def check(self, value: Any, who: str) -> None:
        """Raises Refusal when the option cannot have this value. who: whose it is, for the sentence."""
        if value is self.first or (type(value) is type(self.first) and value == self.first):
            return
        if self.kind is not None:
            fault = self.kind.fault(value)
        else:
            parts = value if self.many else (value,)
            fits = isinstance(parts, tuple) and all(isinstance(p, self.record or ()) for p in parts)
            fault = (
                ""
                if fits
                else say(
                    "give {what}{record}",
                    what=say("tuples of ") if self.many else "",
                    record=getattr(self.record, "__name__", ""),
                )
            )
        if fault:
            unit = self.kind.unit if self.kind is not None else ""
            raise Refusal(
                say(
                    "“{caption}” of {who} cannot be {value}: {fault}.",
                    caption=self.caption,
                    who=who,
                    value=shown(value, unit),
                    fault=fault,
                )
            )


def option(
    first: Any,
    kind: Kind,
    caption: str,
    tip: str,
    *,
    group: str = "",
    key: str = "",
    property: str = "",
    by_hand: str = "",
    was: str = "",
    nothing: str = "",
) -> Any:
    """The field of one option. key and property: where they are not those that follow from the field's name."""
    return _field(Row("", key, kind, first, caption, tip, group, property, by_hand, was=was, nothing=nothing))


def table(record: type[Record], caption: str, tip: str, *, first: Any = None, key: str = "") -> Any:
    """The field of a table of options; None where it is not given, unless `first` says otherwise."""
    return _field(Row("", key, None, first, caption, tip, by_hand="a table of its own", record=record))


def tables(record: type[Record], caption: str, tip: str, *, key: str = "") -> Any:
    """The field of several tables of options; there may be none."""
    return _field(Row("", key, None, (), caption, tip, by_hand="tables of their own", record=record, many=True))


def _field(row: Row) -> Any:
    if row.first is NEEDED:
        return field(metadata={"row": row})
    return field(default=row.first, metadata={"row": row})


def rows_of(record: type[Record]) -> tuple[Row, ...]:
    """The options of a record, in the order of its fields."""
    known: Any = record  # mypy holds a class with a dataclass's __hash__ for unhashable
    found: tuple[Row, ...] = _rows(known)
    return found


@cache
def _rows(record: Any) -> tuple[Row, ...]:
    made = []
    for f in fields(record):
        row = f.metadata.get("row")
        if row is not None:
            camel = "".join(word.capitalize() for word in f.name.split("_"))
            held = "" if row.by_hand else row.property or camel
            made.append(replace(row, name=f.name, key=row.key or f.name, property=held))
    return tuple(made)


class Record:
    """Base of the records of settings: frozen dataclasses that refuse what cannot be when they are made."""

    #: What such a record is called.
    NOUN: ClassVar[str] = "table"
    #: Keys that no room reads yet → what is said to who gives them.
    UNREAD: ClassVar[Mapping[str, str]] = {}

    def who(self) -> str:
        """Whose options these are, in a sentence."""
        raise NotImplementedError

    def __post_init__(self) -> None:
        for row in rows_of(type(self)):
            row.check(getattr(self, row.name), self.who())
        self.check()

    def check(self) -> None:
        """What no row can say by itself: how options must fit each other. Raises Refusal."""
