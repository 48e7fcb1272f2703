# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sentences in the language that is spoken. Plural forms and decimal signs: CLDR (English and German say the plural of
nought, French the singular; both write a decimal comma)."""

from __future__ import annotations

from gettext import NullTranslations
from threading import Thread

import pytest

from freecad_stacklam.lamination.words import (
    apart,
    figure,
    mark,
    quoted,
    say,
    say_many,
    say_of,
    speak,
    speaking,
    spoken,
)


class _Catalogue(NullTranslations):
    def gettext(self, message: str) -> str:
        return {"The tenon of {joint} is {length:.1f} long.": "{length:.1f} lang ist der Zapfen von {joint}."}.get(
            message, message
        )

    def ngettext(self, one: str, many: str, n: int) -> str:
        return "{count} Lage" if n == 1 else "{count} Lagen"

    def pgettext(self, context: str, message: str) -> str:
        return {("of glue", "open"): "offen"}.get((context, message), message)


def test_english_stands_as_it_is() -> None:
    assert say("The tenon of {joint} is {length:.1f} long.", joint="Leg {1}", length=44.5) == (
        "The tenon of Leg {1} is 44.5 long."
    )
    assert say("{one} in braces") == "{one} in braces"
    assert say_many("{count} layer", "{count} layers", 1) == "1 layer"
    assert say_many("{count} layer of {name}", "{count} layers of {name}", 2, name="Top") == "2 layers of Top"
    assert say_of("of glue", "open") == mark("open") == "open"


def test_a_catalogue_may_put_the_parts_in_another_order_and_writes_its_decimal_sign() -> None:
    with speaking("de", _Catalogue()):
        assert spoken() == "de"
        assert say("The tenon of {joint} is {length:.1f} long.", joint="Bein 1.2", length=44.5) == (
            "44,5 lang ist der Zapfen von Bein 1.2."
        )
        assert say_many("{count} layer", "{count} layers", 3) == "3 Lagen"
        assert say_of("of glue", "open") == "offen"
        assert figure("44.5 mm") == "44,5 mm"
        assert quoted("Top") == "„Top“"
        assert apart().join(("1,5", "2")) == "1,5; 2"
        assert say("No such sentence.") == "No such sentence."
        assert say("") == ""
    assert spoken() == "en"
    assert figure("44.5 mm") == "44.5 mm"


def test_another_thread_goes_on_in_the_language_of_the_program() -> None:
    heard: list[str] = []
    with speaking("de", _Catalogue()):
        beside = Thread(target=lambda: heard.append(spoken()))
        beside.start()
        beside.join()
    assert heard == ["en"]


def test_a_language_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="the languages are en, de, fr"):
        speak("xx")
    assert spoken() == "en"
