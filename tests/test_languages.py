# SPDX-License-Identifier: LGPL-2.1-or-later

"""The catalogues are whole, in step with the code, and what is compiled is what stands in them.

Plural forms and decimal signs are held against CLDR, as Babel brings it.
"""

from __future__ import annotations

import ast
import string
import sys
from collections.abc import Iterator
from functools import cache
from gettext import GNUTranslations
from pathlib import Path
from xml.etree import ElementTree

import pytest
from babel import Locale
from babel.messages.catalog import Catalog, Message
from babel.messages.plurals import get_plural
from babel.numbers import format_decimal

from freecad_stacklam.data import language_file
from freecad_stacklam.lamination.words import figure, say, say_many
from freecad_stacklam.languages import LANGUAGES, language_spoken, nearest

CHECKOUT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(CHECKOUT / "tools"))

from languages import OTHERS, collected, written  # noqa: E402


@cache
def _collected() -> Catalog:
    return collected()


def _texts(message: Message) -> tuple[str, ...]:
    return message.id if isinstance(message.id, tuple) else (message.id,)


def _told(message: Message) -> tuple[str, ...]:
    return message.string if isinstance(message.string, tuple) else (message.string,)


def _parts(text: str) -> set[str]:
    return {f"{name}:{spec}{turned or ''}" for _, name, spec, turned in string.Formatter().parse(text) if name}


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_is_translated_with_its_parts(language: str) -> None:
    there = written(language)
    missing, strayed = [], []
    for message in _collected():
        if not message.id:
            continue
        found = there.get(_texts(message)[0], message.context)
        if found is None or not all(_told(found)):
            missing.append(_texts(message)[0])
        elif any(_parts(told) != _parts(_texts(message)[-1]) for told in _told(found)[-1:]):
            strayed.append(_texts(message)[0])
    assert not missing, f"{len(missing)} texts have no {language}: run tools/languages.py; the first: {missing[:3]}"
    assert not strayed, f"these do not keep their {{parts}} in {language}: {strayed[:5]}"


@pytest.mark.parametrize("language", OTHERS)
def test_what_is_compiled_is_what_is_written(language: str) -> None:
    with language_file(f"{language}.mo").open("rb") as file:
        compiled = GNUTranslations(file)
    for message in written(language):
        if not message.id or not all(_told(message)):
            continue
        first = _texts(message)[0]
        if message.context:
            assert compiled.pgettext(message.context, first) == _told(message)[0], first
        elif len(_texts(message)) > 1:
            assert [compiled.ngettext(*_texts(message), n) for n in (1, 5)] == [_told(message)[i] for i in (0, -1)]
        else:
            assert compiled.gettext(first) == _told(message)[0], first


@pytest.mark.parametrize("language", OTHERS)
def test_plurals_and_decimal_signs_are_those_of_cldr(language: str) -> None:
    with language_spoken(language):
        assert figure("44.5") == format_decimal(44.5, locale=language)
        assert say("{part:.2f}", part=1.25) == format_decimal(1.25, locale=language)
    assert written(language).num_plurals == get_plural(language).num_plurals
    with language_file(f"{language}.mo").open("rb") as file:
        compiled = GNUTranslations(file)
    rule, forms = Locale(language).plural_form, ("one", *(["many"] if language == "fr" else []), "other")
    for count in (0, 1, 2, 5, 21, 1_000_000):
        assert compiled.plural(count) == forms.index(rule(count)), count


def test_a_locale_finds_its_language() -> None:
    assert [nearest(name) for name in ("de", "de_AT", "fr-CA", "fr_FR.UTF-8", "en_GB", "pt-BR", "fil", "")] == [
        "de", "de", "fr", "fr", "en", "en", "en", "en",
    ]  # fmt: skip
    with language_spoken("as FreeCAD"):
        assert say_many("{count} layer", "{count} layers", 2) == "2 layers"


# --- the window ---------------------------------------------------------------------------------------------------


@cache
def _trees() -> list[tuple[Path, ast.Module]]:
    """The files that speak to the window, read once."""
    texts = {p: p.read_text(encoding="utf-8") for p in sorted((CHECKOUT / "freecad_stacklam").rglob("*.py"))}
    return [(p, ast.parse(t)) for p, t in texts.items() if "translate(" in t or "QT_TRANSLATE_NOOP(" in t]


def _calls(name: str) -> Iterator[tuple[Path, ast.Call]]:
    for path, tree in _trees():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name:
                yield path, node


@cache
def _window_texts() -> set[str]:
    found = set()
    for name in ("translate", "QT_TRANSLATE_NOOP"):
        for _, call in _calls(name):
            if isinstance(call.args[1], ast.Constant):
                found.add(str(call.args[1].value))
    return found


def test_what_is_translated_in_the_window_can_be_collected() -> None:
    """lupdate sees literals only; a name may stand there for a text that was marked."""
    for path, call in _calls("translate"):
        text = call.args[1]
        assert isinstance(text, (ast.Constant, ast.Name, ast.Attribute, ast.Subscript)), (
            f"{path}:{text.lineno}: the text of translate must be a literal, or the name of a marked one"
        )


@pytest.mark.parametrize("language", [code for code in LANGUAGES if code != "en"])
def test_every_word_of_the_window_is_translated(language: str) -> None:
    tree = ElementTree.parse(language_file(f"stacklam_{language}.ts"))
    told = {}
    for message in tree.iter("message"):
        translation = message.find("translation")
        assert translation is not None
        told[message.findtext("source") or ""] = (translation.text or "", translation.get("type"))
    missing = [text for text in sorted(_window_texts()) if text and (told.get(text) or ("", ""))[0] == ""]
    assert not missing, f"{len(missing)} texts have no {language}: run tools/languages.py; the first: {missing[:3]}"
    strayed = [t for t in sorted(_window_texts()) if t and _parts(t) != _parts(told[t][0])]
    assert not strayed, f"these do not keep their {{}} in {language}: {strayed[:5]}"
