# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lets What's This, and F1 in a panel of ours, open our own pages.

FreeCAD hands the text of What's This to its window as a clicked link, and then asks the network's wiki or its help
addon for a page of that name; F1 opens the contents of the same. Both come by the main window first, where ours are
taken out and all else goes on as it was.
"""

from __future__ import annotations

from typing import Any

import FreeCADGui

from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.help.pages import CONTENTS, page_of

QtWidgets = widgets()


class _Listener(QtCore.QObject):
    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Called by Qt for what comes to FreeCAD's window."""
        kind = event.type()
        if kind == QtCore.QEvent.WhatsThisClicked:
            return bool(_open(page_of(event.href())))
        if (
            kind == QtCore.QEvent.ShortcutOverride
            and event.key() == QtCore.Qt.Key_F1
            and event.modifiers() == QtCore.Qt.NoModifier
        ):
            page = page_at(QtWidgets.QApplication.focusWidget())
            if page:  # the key itself is lost on its way up, in the host's task view
                event.accept()  # else the window's own F1 comes next
                QtCore.QTimer.singleShot(0, lambda: _open(page))
                return True
        return False


def page_at(widget: Any) -> str:
    """The page of the panel or window that a widget lies in; "" where that is none of ours."""
    if widget is None:
        return ""
    # Not by asking each for its parent: the binding ties the two, and lets a panel's fields go with the parent's shell.
    around = [w for w in QtWidgets.QApplication.allWidgets() if w is widget or w.isAncestorOf(widget)]
    found = [page for page in (page_of(w.objectName()) for w in around) if page]
    return next((page for page in found if page != CONTENTS), found[0] if found else "")


@says_no_plainly
def _open(page: str) -> bool:
    if not page:
        return False
    from freecad_stacklam.workbench.help.window import show_help

    show_help(page)
    return True


_listeners: list[_Listener] = []


def listen() -> None:
    """Begin to listen, once."""
    if not _listeners:
        _listeners.append(_Listener())
        FreeCADGui.getMainWindow().installEventFilter(_listeners[0])


def listen_to(window: Any) -> None:
    """Answer F1 in a window of its own too, where a command opened one; anything else is left alone."""
    if _listeners and isinstance(window, QtWidgets.QWidget):
        window.installEventFilter(_listeners[0])
