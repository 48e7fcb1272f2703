# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the first commands need is loaded once the workbench is open, so that none of them begins with a wait: what
knows no FreeCAD in a thread beside the window, the rest in the window's own, one room at a time."""

from __future__ import annotations

from importlib import import_module
from threading import Thread

from freecad_stacklam.packages.host import Host, own_python
from freecad_stacklam.packages.looking import faults
from freecad_stacklam.packages.needs import PLANNING
from freecad_stacklam.qt_binding import QtCore

_OURS = "freecad_stacklam"
#: What is loaded beside the window, and what in its own thread afterwards; each a step.
BESIDE = (
    "numpy", "shapely", f"{_OURS}.lamination.layers.stack", f"{_OURS}.lamination.job.assembly",
    f"{_OURS}.lamination.gluing.glueup", f"{_OURS}.benchsheets.book.whole",
)  # fmt: skip
HERE = (
    "Part", f"{_OURS}.docobjects.forms.form", f"{_OURS}.docobjects.forms.meshaside",
    f"{_OURS}.docobjects.forms.plancache", f"{_OURS}.docobjects.reading.steps",
    f"{_OURS}.docobjects.reading.whole", f"{_OURS}.docobjects.making.matching", f"{_OURS}.sheetwriters.pdf",
    f"{_OURS}.api", f"{_OURS}.workbench.fields.rowfields", f"{_OURS}.workbench.panels.slice_panel",
    f"{_OURS}.workbench.panels.check_table", f"{_OURS}.workbench.panels.drawings",
)  # fmt: skip
#: Between two steps, and two looks whether the thread is done, ms.
PAUSE = 30
_begun: list[Thread] = []
_loaded: list[bool] = []
#: FreeCAD's own Python, in which solids are meshed beside the window.
_python: list[str] = []


def begin(host: Host) -> None:
    """Begin to load, once; nothing where a package is missing, for that is told elsewhere."""
    if _begun or faults(PLANNING):
        return
    _begun.append(Thread(target=_load_beside, args=(host,), daemon=True))
    _begun[0].start()
    QtCore.QTimer.singleShot(PAUSE, lambda: _load_next(list(HERE)))


def is_done() -> bool:
    """Whether all is loaded."""
    return bool(_loaded)


def _load_beside(host: Host) -> None:
    for name in BESIDE:
        import_module(name)
    _python[:] = filter(None, [own_python(host)])


def _load_next(left: list[str]) -> None:
    if not _begun[0].is_alive():
        module = import_module(left.pop(0))
        if module.__name__.endswith(".meshaside"):
            module.python[:] = _python
    if not left:
        _loaded.append(True)
    else:
        QtCore.QTimer.singleShot(PAUSE, lambda: _load_next(left))
