# SPDX-License-Identifier: LGPL-2.1-or-later

"""The settings file: TOML text into Settings and back. Whatever it refuses, it says on which line and what is right.

Its keys are the rows of the records. A length is text with its unit. A bare number is taken as mm where units = "mm"
and refused where units = "in". Nothing in the file is ever executed.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import Any, NamedTuple, TypeVar

from freecad_stacklam.lamination.options.rows import NEEDED, Record, Row, rows_of
from freecad_stacklam.lamination.options.tomllines import Path, key_lines, line_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.ownspecies import OwnSpecies
from freecad_stacklam.lamination.words import say

_R = TypeVar("_R", bound=Record)
#: What stands in an example of a key that must be given.
_EXAMPLES = {"text": '"Pedestal to top"', "length": '"45mm"', "layers": '"3-5"'}
#: Tables that are told apart by a key: two of one would be planned over each other.
_TOLD_APART: dict[type[Record], str] = {
    JointSettings: "name", StackSettings: "form", PressSettings: "name", OwnSpecies: "name",
}  # fmt: skip


class _Reader:
    """Walks a parsed file by the rows; knows the file's name, the lines of its keys and the unit of bare numbers."""

    def __init__(self, name: str, lines: Mapping[Path, int], unit: str, judge: Callable[[Record], None]) -> None:
        self.name, self.lines, self.unit, self.judge = name, lines, unit, judge
        self.notes: list[str] = []

    def refusal(self, path: Path, says: str) -> Refusal:
        line = line_of(self.lines, path)
        key = ".".join(p for p in path[-1:] if isinstance(p, str))
        return Refusal(
            say(
                "{name}, line {part}: {what}{says}",
                name=self.name,
                part=line or 1,
                what=key + ": " if key else "",
                says=says,
            )
        )

    def record(self, record: type[Record], facts: Any, path: Path) -> Any:
        """The record that a table stands for."""
        if not isinstance(facts, dict):
            raise self.refusal(path, 'a table of keys is needed here, as in {key = "value"}.')
        rows = {row.key: row for row in rows_of(record)}
        old = {row.was: row for row in rows.values() if row.was}
        values: dict[str, Any] = {}
        for key, value in facts.items():
            row = rows.get(key) or old.get(key)
            if row is None:
                raise self.refusal((*path, key), self._unknown(key, rows, record))
            if key in old:
                self._old(key, row, facts, (*path, key))
            values[row.name] = self.value(row, value, (*path, key))
        _complete(record, values, path)
        for row in rows.values():
            if row.first is NEEDED and not values.get(row.name):
                example = _EXAMPLES[row.kind.says] if row.kind is not None else "…"
                raise self.refusal(
                    path,
                    say(
                        "this {noun} has no {key}: add one, as in {key} = {example}.",
                        noun=say(record.NOUN),
                        key=row.key,
                        example=example,
                    ),
                )
        try:
            made = record(**values)
            self.judge(made)
            return made
        except Refusal as error:
            raise self.refusal(path, error.sentence) from None

    def _old(self, key: str, row: Row, facts: Mapping[str, Any], path: Path) -> None:
        """Note a key by its earlier name; refused where the new one stands beside it."""
        if row.key in facts:
            raise self.refusal(
                path, say("this is the earlier name of “{key}”, which is given too: keep one of them.", key=row.key)
            )
        line = line_of(self.lines, path) or 1
        self.notes.append(
            say(
                "{name}, line {line}: “{key}” is read as “{new}”, which it is called now.",
                name=self.name,
                line=line,
                key=key,
                new=row.key,
            )
        )

    def _unknown(self, key: str, rows: Mapping[str, Row], record: type[Record]) -> str:
        if key in record.UNREAD:
            return record.UNREAD[key]
        near = get_close_matches(key, rows, 1, 0.5)
        hint = (
            say("did you mean “{near}”?", near=near[0])
            if near
            else say("the keys here are {list}.", list=", ".join(rows))
        )
        return say("there is no such key; {hint}", hint=hint)

    def value(self, row: Row, value: Any, path: Path) -> Any:
        """What an option is given: a value, a record, or a tuple of records."""
        if row.kind is not None:
            try:
                return row.kind.read(value, self.unit)
            except Refusal as error:
                raise self.refusal(path, error.sentence) from None
        assert row.record is not None
        if not row.many:
            return self.record(row.record, value, path)
        if not isinstance(value, list):
            head = f"[[{row.key}]]" if len(path) == 1 else say("a list of tables, {key} = [{{…}}]", key=row.key)
            raise self.refusal(path, say("write {head}, because there can be several.", head=head))
        made = tuple(self.record(row.record, v, (*path, i)) for i, v in enumerate(value))
        if row.record in _TOLD_APART:
            self._refuse_twins(_TOLD_APART[row.record], made, path)
        return made

    def _refuse_twins(self, key: str, made: tuple[Any, ...], path: Path) -> None:
        """Raise Refusal where two tables are of one thing."""
        names = [getattr(one, key) for one in made]
        for i, name in enumerate(names):
            if name in names[:i]:
                first = line_of(self.lines, (*path, names.index(name))) or 1
                what = (
                    say("the {noun} “{name}”", noun=say(made[i].NOUN), name=name)
                    if name
                    else say("a {noun} without {key}", noun=say(made[i].NOUN), key=key)
                )
                raise self.refusal(
                    (*path, i),
                    say("{what} stands twice, first in line {first}: keep one, or rename one.", what=what, first=first),
                )


def _complete(record: type[Record], values: dict[str, Any], path: Path) -> None:
    """What two kinds of tables say by what they leave out, or by naming it at all."""
    if record is Board:
        if not values.get("name"):
            values["name"] = f"Board {int(path[-1]) + 1}"
        # As many as wanted, where they can be bought.
        values.setdefault("count", 0 if values.get("for_sale") else 1)
    elif record is ShopSettings:
        values["given"] = tuple(values)


class _Given(_Reader):
    """The same for options that stand in no file: a refusal names the option alone."""

    def refusal(self, path: Path, says: str) -> Refusal:
        key = ".".join(str(part) for part in path)
        return Refusal(f"{key}: {says}" if key else f"{says[:1].upper()}{says[1:]}")


def record_given(record: type[_R], options: Mapping[str, Any], unit: str = "mm") -> _R:
    """The record that options stand for, by their names in a settings file. unit: that of bare numbers. Raises Refusal
    that names the option."""
    made: _R = _Given("", {}, unit, lambda _: None).record(record, dict(options), ())
    return made


class Read(NamedTuple):
    """What a settings file holds, and what its maker is told about it."""

    settings: Settings
    notes: tuple[str, ...]


def read_settings(text: str, name: str = "settings") -> Settings:
    """Settings from the text of a TOML file called `name`. Raises Refusal: "name, line 7: …"."""
    return read_with_notes(text, name).settings


def read_with_notes(text: str, name: str = "settings", judge: Callable[[Record], None] = lambda _: None) -> Read:
    """As read_settings, with a note for each key that bears the name of an earlier release. judge: raises Refusal for a
    record that cannot be for a reason that is known outside, which is then said with its line."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        facts = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax(str(error), text, name) from None
    except ValueError as error:
        # Python reads no figure of more digits than its limit allows (sys.set_int_max_str_digits).
        long = re.search(r"\d{4000}", text.replace("_", ""))
        if long is None:
            raise _syntax(str(error), text, name) from None
        line = text.replace("_", "").count("\n", 0, long.start()) + 1
        raise Refusal(
            say(
                "{name}, line {line}: a number of thousands of digits is no size: give a shorter one.",
                name=name,
                line=line,
            )
        ) from None
    except RecursionError:
        raise Refusal(
            say("{name}, line 1: brackets are nested too deep: write the file as the README shows.", name=name)
        ) from None
    reader = _Reader(name, key_lines(text), "mm" if facts.get("units", "mm") == "mm" else "", judge)
    try:
        return Read(reader.record(Settings, facts, ()), tuple(reader.notes))
    except Refusal as refusal:
        refusal.sentence = refusal.told(str(facts.get("units", "mm")))
        raise


def _syntax(message: str, text: str, name: str) -> Refusal:
    found = re.search(r"\(at line (\d+)", message)
    line = int(found[1]) if found else text.count("\n") + 1
    what = re.sub(r"\s*\(at .*", "", message.splitlines()[0]).rstrip(".")
    return Refusal(
        say(
            '{name}, line {line}: this is not TOML ({what}): write key = "value", with text in quotes.',
            name=name,
            line=line,
            what=what,
        )
    )


def facts_of(record: Record) -> dict[str, Any]:
    """A record as the table of a settings file: what was asked for, without what is left out."""
    given = record.given if isinstance(record, ShopSettings) else None
    values = {row: getattr(record, row.name) for row in rows_of(type(record))}
    if given is not None:
        values = {row: value for row, value in values.items() if row.name in given}
    return {
        row.key: _written(row, value)
        for row, value in values.items()
        if not (value == row.first and value in (None, "", ()))
    }


def _written(row: Row, value: Any) -> Any:
    if row.kind is not None:
        return row.kind.write(value)
    return [facts_of(part) for part in value] if row.many else facts_of(value)
