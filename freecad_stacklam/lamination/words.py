# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sentences in the language that is spoken: English as it stands in the code, or a catalogue's.

    say("The tenon of {joint} is {length} long.", joint=joint.name, length=format_length(180.0, units))
    say_many("{count} layer", "{count} layers", len(layers))

The English sentence is the key, a sentence or a heading at a time, never a piece of one: other languages put words in
another order. Figures are written with the decimal sign of the language, those that come as text (`format_length` and
its kin) by whoever writes them: `figure`. What the program itself reads again (keys, kinds, verdicts, files for other
programs) is never said by these functions.

One language is spoken at a time, by the whole program, as with gettext; `languages.py` brings the catalogues.
"""

from __future__ import annotations

import string
from collections.abc import Iterator
from contextlib import contextmanager
from gettext import NullTranslations
from typing import Any

#: The languages that there are, and their decimal signs (CLDR's symbols of numbers).
DECIMAL_SIGNS = {"en": ".", "de": ",", "fr": ","}


class _Spoken:
    language = "en"
    catalogue = NullTranslations()


def spoken() -> str:
    """The language that is spoken: "en", "de" or "fr". Plans and books that are kept are kept by it too."""
    return _Spoken.language


def speak(language: str, catalogue: NullTranslations | None = None) -> None:
    """Speak a language from now on. catalogue: its sentences; English needs none. Raises ValueError for a language
    that has no decimal sign here."""
    if language not in DECIMAL_SIGNS:
        raise ValueError(f"no language is called {language!r}: the languages are {', '.join(DECIMAL_SIGNS)}")
    _Spoken.language, _Spoken.catalogue = language, catalogue or NullTranslations()


@contextmanager
def speaking(language: str, catalogue: NullTranslations | None = None) -> Iterator[None]:
    """A language inside, and the one before it again after."""
    before = _Spoken.language, _Spoken.catalogue
    speak(language, catalogue)
    try:
        yield
    finally:
        _Spoken.language, _Spoken.catalogue = before


def figure(text: str) -> str:
    """A number that was written with a decimal point, with the decimal sign of the language: "44,5 mm"."""
    sign = DECIMAL_SIGNS[_Spoken.language]
    return text if sign == "." else text.replace(".", sign)


class _Formatter(string.Formatter):
    """Like str.format, with the decimal sign of the language in numbers."""

    def format_field(self, value: Any, format_spec: str) -> str:
        text = str(super().format_field(value, format_spec))
        return figure(text) if isinstance(value, (int, float)) else text


_FORMATTER = _Formatter()


def say(text: str, /, **parts: Any) -> str:
    """A sentence or a heading in the language that is spoken, with `parts` in its {places}."""
    # Catalogues keep their own head under the empty text.
    return _FORMATTER.vformat(_Spoken.catalogue.gettext(text), (), parts) if text else ""


def say_many(one: str, many: str, count: int, /, **parts: Any) -> str:
    """A sentence that hangs on a number of things, in the form that the language has for that number; {count} is it."""
    return _FORMATTER.vformat(_Spoken.catalogue.ngettext(one, many, count), (), {"count": count, **parts})


def say_of(context: str, text: str, /, **parts: Any) -> str:
    """A word that other languages tell apart by what it is said of: say_of("of glue", "open")."""
    return _FORMATTER.vformat(_Spoken.catalogue.pgettext(context, text), (), parts)


def mark(text: str) -> str:
    """The text itself: a sentence of a table, which is said where it is used. What collects sentences finds it here."""
    return text
