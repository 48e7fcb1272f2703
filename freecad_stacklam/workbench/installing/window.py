# SPDX-License-Identifier: LGPL-2.1-or-later

"""The window that says which package is missing, where and why, and installs it at the press of a button.

It stays out of the way: nothing waits for it, and it can be closed and asked for again.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import FreeCADGui

from freecad_stacklam.packages.host import environment_for, own_python, package_folder, pip_of
from freecad_stacklam.packages.looking import Matter, faults, forget
from freecad_stacklam.packages.missing import installable, sentence_for
from freecad_stacklam.packages.needs import PLANNING, Need
from freecad_stacklam.packages.pipline import SOME_PIP, pip_line, to_copy, why_not
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.installing.standins import stand_back
from freecad_stacklam.workbench.installing.thisfreecad import read_package_folder, this_freecad

QtWidgets = widgets()
_open: list[PackagesWindow] = []  # keeps the window alive, and there is one at most


class PackagesWindow(QtWidgets.QDialog):  # type: ignore[name-defined]
    """Sentence, button, a button for a folder of wheels, and the line to copy."""

    def __init__(self, needs: tuple[Need, ...], done: str) -> None:
        super().__init__(FreeCADGui.getMainWindow())
        self.setObjectName("StackLam_Packages")
        self.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        self.setWindowTitle(translate("StackLam", "StackLam: Python packages"))
        self.needs = needs
        host = this_freecad()
        self.folder = package_folder(host)
        self.python = own_python(host)
        self.pip = pip_of(self.python) if self.python else SOME_PIP
        self.process: Any = None
        self._lay_out()
        self.look_again(done)

    def _lay_out(self) -> None:
        self.sentence = QtWidgets.QLabel()
        self.sentence.setObjectName("StackLam_PackagesSentence")
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
        self.line = QtWidgets.QLineEdit()
        self.line.setObjectName("StackLam_PackagesLine")
        self.line.setReadOnly(True)
        self.copy = _button("Copy", translate("StackLam", "Copy the line"), self._copy)
        self.install = _button("Install", translate("StackLam", "Install"), lambda *_: self.begin(None))
        self.offline = _button(
            "Wheels", translate("StackLam", "Install from a folder of wheels…"), self._ask_for_wheels
        )
        self.offline.setToolTip(
            translate("StackLam", "Without a network: choose the folder that holds the packages' .whl files")
        )
        self.shut = _button("Close", translate("StackLam", "Close"), self.close)
        self.working = QtWidgets.QProgressBar()
        self.working.setRange(0, 0)
        self.by_hand = QtWidgets.QLabel(
            translate("StackLam", "Or by hand, in a terminal, and then start FreeCAD again:")
        )
        self.by_hand.setWordWrap(True)
        row = QtWidgets.QHBoxLayout()
        row.addWidget(self.line)
        row.addWidget(self.copy)
        buttons = QtWidgets.QHBoxLayout()
        for one in (self.install, self.offline, self.shut):
            buttons.addWidget(one)
        layout = QtWidgets.QVBoxLayout(self)
        layout.addWidget(self.sentence)
        layout.addWidget(self.working)
        layout.addLayout(buttons)
        layout.addWidget(self.by_hand)
        layout.addLayout(row)
        self.setMinimumWidth(560)

    def look_again(self, before: str = "") -> None:
        """Say what is the matter now, after a sentence of what was done or went wrong before."""
        read_package_folder()
        forget(self.needs)
        found = faults(self.needs)
        wanted = installable(found)
        if not found:
            said = translate("StackLam", "All packages are there now: StackLam is ready.")
            if stand_back():
                said += " " + translate("StackLam", "Close the documents that hold stacks and open them again.")
        elif self._is_in_use(found):
            said = translate("StackLam", "The packages were installed: start FreeCAD again to use them.")
            wanted = ()
        else:
            said = " ".join(filter(None, (before, sentence_for(found, self.folder))))
            if not self.python and wanted:
                said += " " + translate("StackLam", "FreeCAD's own Python was not found: use the line below.")
        self.sentence.setText(said)
        self.line.setText(to_copy(pip_line(self.pip, self.folder, wanted)) if wanted else "")
        self.line.setCursorPosition(0)
        for one in (self.line, self.copy, self.by_hand):
            one.setVisible(bool(wanted))
        for one in (self.install, self.offline):
            one.setVisible(bool(wanted and self.python))
        self._working(False)
        self.adjustSize()

    def _is_in_use(self, found: Any) -> bool:
        """Whether pip has done its work, and FreeCAD still holds older packages than those."""
        return self._installed() and all(fault.matter is Matter.TOO_OLD for fault in found)

    def _installed(self) -> bool:
        return self.process is not None and self.process.exitCode() == 0

    def _working(self, yes: Any) -> None:
        self.working.setVisible(bool(yes))
        for one in (self.install, self.offline):
            one.setEnabled(not yes)

    def _copy(self, *_: Any) -> None:
        QtWidgets.QApplication.clipboard().setText(self.line.text())

    def _ask_for_wheels(self, *_: Any) -> None:
        title = translate("StackLam", "Folder that holds the wheels")
        chosen = QtWidgets.QFileDialog.getExistingDirectory(self, title)
        if chosen:
            self.begin(Path(str(chosen)))

    def begin(self, wheels: Path | None) -> None:
        """Install what is missing, from the network or from a folder of wheels; FreeCAD stays free meanwhile."""
        wanted = installable(faults(self.needs))
        program, *arguments = pip_line(self.pip, self.folder, wanted, wheels)
        self.process = QtCore.QProcess(self)
        self.process.setProcessChannelMode(QtCore.QProcess.MergedChannels)
        self.process.setProcessEnvironment(_environment(program))
        self.process.finished.connect(self._ended)
        self.process.errorOccurred.connect(self._did_not_start)
        self.sentence.setText(translate("StackLam", "Installing into {} …").format(self.folder))
        self._working(True)
        self.process.start(program, arguments)

    def _ended(self, *_: Any) -> None:
        output = bytes(self.process.readAll().data()).decode(errors="replace")
        self.look_again("" if self._installed() else why_not(output, self.python))

    def _did_not_start(self, error: Any) -> None:
        if error == QtCore.QProcess.FailedToStart:
            self.look_again(translate("StackLam", "{} does not start.").format(self.python))

    def closeEvent(self, event: Any) -> None:
        """Qt calls this: the window is gone, and pip with it."""
        if self.process is not None and self.process.state() != QtCore.QProcess.NotRunning:
            self.process.finished.disconnect(self._ended)
            self.process.kill()
            self.process.waitForFinished(1000)
        if self in _open:
            _open.remove(self)
        super().closeEvent(event)


def _button(name: str, text: str, action: Any) -> Any:
    made = QtWidgets.QPushButton(text)
    made.setObjectName(f"StackLam_Packages{name}")
    made.setAutoDefault(False)
    made.clicked.connect(action)
    return made


def _environment(python: str) -> Any:
    """The variables that this Python runs with."""
    there = QtCore.QProcessEnvironment.systemEnvironment()
    ours = {str(key): str(there.value(key)) for key in there.keys()}  # noqa: SIM118 - no dictionary
    made = QtCore.QProcessEnvironment()
    for key, value in environment_for(python, ours).items():
        made.insert(key, value)
    return made


def show_window(needs: tuple[Need, ...], done: str = "") -> None:
    """Say what is missing of these packages, with the button that installs it, after what was done without them."""
    for old in list(_open):
        old.close()
    window = PackagesWindow(needs, done)
    _open.append(window)
    window.show()
    window.raise_()


def look_at_opening() -> None:
    """Called when the workbench is opened: where it cannot plan, say so once FreeCAD's window stands."""
    read_package_folder()
    if faults(PLANNING):
        QtCore.QTimer.singleShot(0, lambda: show_window(PLANNING))
