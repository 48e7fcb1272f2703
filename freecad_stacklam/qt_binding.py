# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one file that chooses the Qt binding.

FreeCAD offers its own Qt under the name PySide (PySide2 up to 1.0, PySide6 from 1.1), and only that one may be loaded
beside it. In plain Python whichever binding is installed will do for writing files.
"""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal


def _load() -> tuple[str, Any, Any]:
    missing = []
    for name in ("PySide", "PySide6", "PySide2"):
        try:
            return name, import_module(f"{name}.QtCore"), import_module(f"{name}.QtGui")
        except ImportError as error:
            missing.append(f"{name}: {error}")
    raise Refusal(
        "Drawings are written with Qt and no Qt for Python was found: run this inside FreeCAD or install PySide6 "
        f"({'; '.join(missing)})."
    )


BINDING, QtCore, QtGui = _load()


def widgets() -> Any:
    """The module that holds the widgets. Needs a screen only when widgets are made, but not all servers have it."""
    if BINDING == "PySide":  # FreeCAD's QtGui holds them too
        return QtGui
    return import_module(f"{BINDING}.QtWidgets")


def print_support() -> Any:
    """The module that talks to printers, or None: not every FreeCAD brings it."""
    real = str(getattr(QtCore.QObject, "__module__", "")).partition(".")[0]  # PySide2 or PySide6 behind FreeCAD's alias
    for name in (real, BINDING):
        try:
            return import_module(f"{name}.QtPrintSupport")
        except (ImportError, ValueError):
            continue
    return None


_made: list[Any] = []  # keeps the application alive


def gui_application() -> Any:
    """The running application, or a new one without a window, so that fonts can be used."""
    running = QtCore.QCoreApplication.instance()
    if running is not None and running.inherits("QGuiApplication"):  # FreeCAD's own may come in a plainer wrapper
        return running
    if running is not None:
        raise Refusal(
            "FreeCAD runs without its window here and cannot letter a drawing: use python3 -m freecad_stacklam, "
            "or open FreeCAD."
        )
    arguments = ["stacklam"]
    if sys.platform.startswith("linux"):
        arguments += ["-platform", "offscreen"]  # no screen is needed, and a server has none
    _made.append(QtGui.QGuiApplication(arguments))
    return _made[-1]
