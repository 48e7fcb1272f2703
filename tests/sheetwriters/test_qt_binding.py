# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one place that chooses Qt."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.freecad


def run(checkout: Path, code: str) -> str:
    result = subprocess.run([sys.executable, "-c", code], cwd=checkout, capture_output=True, text=True, timeout=60)
    assert result.returncode == 0, result.stderr
    return result.stdout.strip()


def test_freecads_own_qt_is_taken() -> None:
    from freecad_stacklam import qt_binding

    assert qt_binding.BINDING == "PySide"
    assert qt_binding.gui_application().inherits("QGuiApplication")
    assert qt_binding.QtCore.QCoreApplication.instance().inherits("QGuiApplication")


def test_without_qt_one_sentence_says_what_to_do(checkout: Path) -> None:
    said = run(
        checkout,
        "import sys\n"
        "for name in ('PySide', 'PySide2', 'PySide6'): sys.modules[name] = None\n"
        "from freecad_stacklam.lamination.refusal import Refusal\n"
        "try:\n    import freecad_stacklam.qt_binding\n"
        "except Refusal as refusal: print(refusal)\n",
    )
    assert "no Qt for Python was found" in said
    assert len(said.splitlines()) == 1


def test_an_application_without_fonts_is_refused(checkout: Path) -> None:
    said = run(
        checkout,
        "from freecad_stacklam.qt_binding import QtCore, gui_application\n"
        "from freecad_stacklam.lamination.refusal import Refusal\n"
        "app = QtCore.QCoreApplication(['x'])\n"
        "try:\n    gui_application()\n"
        "except Refusal as refusal: print(refusal)\n",
    )
    assert "python3 -m freecad_stacklam" in said


def test_a_drawing_needs_no_screen(checkout: Path) -> None:
    said = run(
        checkout,
        "import os\n"
        "os.environ.pop('DISPLAY', None); os.environ.pop('WAYLAND_DISPLAY', None)\n"
        "from freecad_stacklam.sheetwriters.png import sheet_image\n"
        "from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text\n"
        "image = sheet_image(Sheet('bill', 'x', (100.0, 100.0), (Text((5.0, 5.0), 'HHHH', 20.0),)))\n"
        "print(image.width(), any(image.pixelColor(x, 340).lightness() < 128 for x in range(20, 300)))\n",
    )
    assert said == "394 True"
