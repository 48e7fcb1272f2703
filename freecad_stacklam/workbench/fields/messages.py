# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one place where the workbench speaks up: one plain sentence, nothing half made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.packages.missing import PackagesMissing
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.fields import inches_are_shown
from freecad_stacklam.workbench.installing.window import show_window

QtWidgets = widgets()
TITLE = "StackLam"


def tell(sentence: str) -> None:
    """Say one sentence to the maker, in a box and in the report view."""
    FreeCAD.Console.PrintWarning(f"{TITLE}: {sentence}\n")
    QtWidgets.QMessageBox.information(FreeCADGui.getMainWindow(), TITLE, sentence)


def sentence_of(refusal: Refusal) -> str:
    """What a refusal says, in the units that are shown."""
    return refusal.told("in" if inches_are_shown() else "mm")


def tell_refusal(refusal: Refusal) -> None:
    """Say what was refused; where installing packages would mend it, with the button that does."""
    if isinstance(refusal, PackagesMissing):
        FreeCAD.Console.PrintWarning(f"{TITLE}: {sentence_of(refusal)}\n")
        show_window(refusal.needs, refusal.done)
    else:
        tell(sentence_of(refusal))


def says_no_plainly(action: Callable[..., Any]) -> Callable[..., Any]:
    """Turn a Refusal of a command into its sentence."""

    @wraps(action)
    def wrapped(*args: Any, **named: Any) -> Any:
        try:
            return action(*args, **named)
        except Refusal as refusal:
            tell_refusal(refusal)
            return None

    return wrapped


@contextmanager
def told() -> Iterator[None]:
    """A Refusal inside is told to the maker, and ends there."""
    try:
        yield
    except Refusal as refusal:
        tell_refusal(refusal)


#: What else belongs into the next undo step: what was done with a panel's fields while it was open.
_besides: list[Callable[[], None]] = []


@contextmanager
def besides(action: Callable[[], None]) -> Iterator[None]:
    """The undo steps that are made inside begin with this too."""
    _besides.append(action)
    try:
        yield
    finally:
        _besides.remove(action)


@contextmanager
def one_undo_step(document: Document, name: str) -> Iterator[None]:
    """All that happens inside is one step for undo; if it fails, none of it has happened."""
    document.openTransaction(name)
    try:
        for action in _besides:
            action()
        yield
    except BaseException:
        document.abortTransaction()
        raise
    document.commitTransaction()


@contextmanager
def busy() -> Iterator[None]:
    """The hour-glass while something takes longer than a blink."""
    QtWidgets.QApplication.setOverrideCursor(QtGui.QCursor(QtCore.Qt.WaitCursor))
    try:
        yield
    finally:
        QtWidgets.QApplication.restoreOverrideCursor()
