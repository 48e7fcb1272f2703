# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which languages the program speaks, and their catalogues (data/languages, made by tools/languages.py)."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from gettext import GNUTranslations, NullTranslations
from typing import TypeVar

from freecad_stacklam.data import language_file
from freecad_stacklam.lamination.words import DECIMAL_SIGNS, speak, speaking

#: By code (ISO 639-1), each as it calls itself.
LANGUAGES = {"en": "English", "de": "Deutsch", "fr": "français"}
assert LANGUAGES.keys() == DECIMAL_SIGNS.keys()
_T = TypeVar("_T")


@cache
def _catalogue(language: str) -> NullTranslations:
    if language == "en":
        return NullTranslations()
    with language_file(f"{language}.mo").open("rb") as file:
        return GNUTranslations(file)


def nearest(locale: str) -> str:
    """The language for a locale's name such as "de_AT.UTF-8"; English where there is none."""
    language = locale[:2].lower()
    return language if language in LANGUAGES and not locale[2:3].isalpha() else "en"


def speak_language(language: str) -> None:
    """Speak one of LANGUAGES from now on."""
    speak(language, _catalogue(language))


@contextmanager
def language_spoken(language: str) -> Iterator[None]:
    """One of LANGUAGES inside; "" and what a job calls "as FreeCAD" leave the language as it is."""
    if language not in LANGUAGES:
        yield
        return
    with speaking(language, _catalogue(language)):
        yield


def said_in(language: str, work: Callable[[], _T]) -> _T:
    """What a work gives that is done in a language, as by `language_spoken`."""
    with language_spoken(language):
        return work()
