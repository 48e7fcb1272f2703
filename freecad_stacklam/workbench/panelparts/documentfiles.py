# SPDX-License-Identifier: LGPL-2.1-or-later

"""Files beside a document: where they go, what they are called, and tables in CSV."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.names import file_name
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import widgets

QtWidgets = widgets()
translate = FreeCAD.Qt.translate


def folder_of(document: Document) -> Path:
    """Where files of this document go: beside it, or at home while it was never saved."""
    return Path(document.FileName).parent if document.FileName else Path.home()


def file_stem(document: Document) -> str:
    """A name for files of this document."""
    return file_name(document.Label, also=" ")


def read_text(path: Path) -> str:
    """The text of a file. Raises Refusal when it cannot be read."""
    try:
        return path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise Refusal(
            translate("StackLam", "{} cannot be read ({}): check that you may open it.").format(path, error.strerror)
        ) from None
    except UnicodeDecodeError:
        raise Refusal(
            translate("StackLam", "{} is not plain text in UTF-8: save it as CSV (UTF-8).").format(path.name)
        ) from None


def ask_open(parent: Any, title: str, folder: Path) -> str:
    """Which CSV file to read; empty for none."""
    return str(QtWidgets.QFileDialog.getOpenFileName(parent, title, str(folder), "CSV (*.csv)")[0])


def ask_save(parent: Any, title: str, path: Path) -> str:
    """Where the CSV file goes; empty for nowhere."""
    chosen = str(QtWidgets.QFileDialog.getSaveFileName(parent, title, str(path), "CSV (*.csv)")[0])
    return chosen if not chosen or chosen.lower().endswith(".csv") else chosen + ".csv"
