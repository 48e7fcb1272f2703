# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sentences in the language that is spoken: English as it stands in the code, or a catalogue's.

    say("The tenon of {joint} is {length} long.", joint=joint.name, length=format_length(180.0, units))
    say_many("{count} layer", "{count} layers", len(layers))

The English sentence is the key, a sentence or a heading at a time, never a piece of one: other languages put words in
another order. Figures are written with the decimal sign of the language, those that come as text (`format_length` and
its kin) by whoever writes them: `figure`. What the program itself reads again (keys, kinds, verdicts, files for other
programs) is never said by these functions.

One language is spoken at a time, by the whole program, as with gettext, but for a work that speaks another inside
`speaking`; `languages.py` brings the catalogues.
"""

from __future__ import annotations

import string
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from gettext import NullTranslations
from typing import Any, NamedTuple

#: The languages that there are, and their decimal signs (CLDR's symbols of numbers).
DECIMAL_SIGNS = {"en": ".", "de": ",", "fr": ","}


#: Quotation marks before and after (CLDR's delimiters, from memory).
_QUOTES = {"en": ("“", "”"), "de": ("„", "“"), "fr": ("«\u00a0", "\u00a0»")}


class _Voice(NamedTuple):
    language: str
    catalogue: NullTranslations


class _Program:
    """The voice of the whole program; a part of the work may have another inside `speaking`, in its own thread."""

    voice = _Voice("en", NullTranslations())


_inside: ContextVar[_Voice | None] = ContextVar("voice", default=None)


def _voice() -> _Voice:
    return _inside.get() or _Program.voice


def _of(language: str, catalogue: NullTranslations | None) -> _Voice:
    if language not in DECIMAL_SIGNS:
        raise ValueError(f"no language is called {language!r}: the languages are {', '.join(DECIMAL_SIGNS)}")
    return _Voice(language, catalogue or NullTranslations())


def spoken() -> str:
    """The language that is spoken: "en", "de" or "fr". Plans and books that are kept are kept by it too."""
    return _voice().language


def speak(language: str, catalogue: NullTranslations | None = None) -> None:
    """Speak a language from now on. catalogue: its sentences; English needs none. Raises ValueError for a language
    that has no decimal sign here."""
    _Program.voice = _of(language, catalogue)


@contextmanager
def speaking(language: str, catalogue: NullTranslations | None = None) -> Iterator[None]:
    """A language inside, in this thread, and the one before it again after. Raises ValueError as `speak`."""
    token = _inside.set(_of(language, catalogue))
    try:
        yield
    finally:
        _inside.reset(token)


def figure(text: str) -> str:
    """A number that was written with a decimal point, with the decimal sign of the language: "44,5 mm"."""
    sign = DECIMAL_SIGNS[spoken()]
    return text if sign == "." else text.replace(".", sign)


def quoted(text: str) -> str:
    """A name or a value between the quotation marks of the language."""
    before, after = _QUOTES[spoken()]
    return f"{before}{text}{after}"


def apart() -> str:
    """What stands between two figures: a comma, or a semicolon where the comma is the decimal sign."""
    return ", " if DECIMAL_SIGNS[spoken()] == "." else "; "


class _Formatter(string.Formatter):
    """Like str.format, with the decimal sign of the language in numbers."""

    def format_field(self, value: Any, format_spec: str) -> str:
        text = str(super().format_field(value, format_spec))
        return figure(text) if isinstance(value, (int, float)) else text


_FORMATTER = _Formatter()


def say(text: str, /, **parts: Any) -> str:
    """A sentence or a heading in the language that is spoken, with `parts` in its {places}; without any, braces are
    braces."""
    told = _voice().catalogue.gettext(text) if text else ""  # catalogues keep their own head under the empty text
    return _FORMATTER.vformat(told, (), parts) if parts else told


def say_many(one: str, many: str, count: int, /, **parts: Any) -> str:
    """A sentence that hangs on a number of things, in the form that the language has for that number; {count} is it."""
    return _FORMATTER.vformat(_voice().catalogue.ngettext(one, many, count), (), {"count": count, **parts})


def say_of(context: str, text: str, /, **parts: Any) -> str:
    """A word that other languages tell apart by what it is said of: say_of("of glue", "open")."""
    return _FORMATTER.vformat(_voice().catalogue.pgettext(context, text), (), parts)


def mark(text: str) -> str:
    """The text itself: a sentence of a table, which is said where it is used. What collects sentences finds it here."""
    return text
