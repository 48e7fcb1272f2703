# SPDX-License-Identifier: LGPL-2.1-or-later

"""Words that a person sees in FreeCAD, in the person's own language where there is a translation of them.

The context is always "StackLam". What collects texts knows `translate` and QT_TRANSLATE_NOOP by name: the one
translates where it stands, the other marks a text that is translated where it is shown.
"""

from __future__ import annotations


def translate(context: str, text: str) -> str:
    """The text in the language that FreeCAD runs in; itself where there is no translation."""
    import FreeCAD  # here: what only marks texts is read without FreeCAD too

    return str(FreeCAD.Qt.translate(context, text))


def QT_TRANSLATE_NOOP(_: str, text: str) -> str:
    """The text itself: it is translated where it is shown."""
    return text
