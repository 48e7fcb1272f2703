# SPDX-License-Identifier: LGPL-2.1-or-later

"""The window's language is FreeCAD's; the computation and the sheets speak it too, unless the maker wants another."""

from __future__ import annotations

import FreeCADGui

from freecad_stacklam.data import language_file
from freecad_stacklam.languages import nearest, speak_language
from freecad_stacklam.workbench.fields import preferences


def host_language() -> str:
    """The language that FreeCAD's window speaks, of those that there are here."""
    # FreeCAD calls a language by its English name, and knows the locale of each.
    locale = FreeCADGui.supportedLocales().get(FreeCADGui.getLocale(), "en")
    return nearest(locale)


def speak_as_asked() -> None:
    """Let computation and sheets speak the maker's choice, or as the window does."""
    speak_language(preferences.sheet_language() or host_language())


def bring_translations() -> None:
    """Tell FreeCAD where the window's words lie in other languages, and speak."""
    FreeCADGui.addLanguagePath(str(language_file("").resolve()))
    FreeCADGui.updateLocale()
    speak_as_asked()
