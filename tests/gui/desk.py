# SPDX-License-Identifier: LGPL-2.1-or-later

"""Runs inside FreeCAD: takes a test's steps, gives them a `Desk` to work at, writes the answer, and leaves.

Loaded by the macro that drive.py starts FreeCAD with. FreeCAD exits 0 whatever happened, so all news goes through the
answer file, and the process ends at once without asking about unsaved documents.
"""

from __future__ import annotations

import json
import os
import runpy
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from pathlib import Path
from typing import Any

import FreeCAD
import FreeCADGui
from PySide import QtCore, QtGui  # FreeCAD's own alias; QtGui holds the widgets too

#: Seconds that the window gets to be painted for a picture: long where pictures are kept to be looked at (shots.py).
EXPOSURE = 0.5 if os.environ.get("STACKLAM_SHOTS") else 0.02


class Heart:
    """How long the window was silent: a timer beats every 20 ms while FreeCAD hears its events, whoever lets it hear
    them, a progress bar too. Counted are only the times when the desk is at something, not those of a test's own lines.

    `longest`: the longest silence of each step by the clock. `worked`: the most that FreeCAD worked within one, by its
    processor time, which is what a silence would last if nothing else ran on the machine. Seconds.
    """

    BEAT = 20

    def __init__(self) -> None:
        self.longest: dict[str, float] = {}
        self.worked: dict[str, float] = {}
        self._doing: list[str] = []
        self._last = self._now()
        self._timer = QtCore.QTimer()
        self._timer.timeout.connect(self._beat)
        self._timer.start(self.BEAT)

    def _now(self) -> tuple[float, float]:
        return time.monotonic(), time.process_time()

    def _beat(self) -> None:
        now = self._now()
        if self._doing:
            silent, worked = (late - soon for late, soon in zip(now, self._last))
            for step in self._doing:
                self.longest[step] = max(self.longest.get(step, 0.0), silent)
                self.worked[step] = max(self.worked.get(step, 0.0), min(silent, worked))
        self._last = now

    @contextmanager
    def at(self, step: str) -> Iterator[None]:
        """What the desk is at, as long as it is; what it does on the way is told besides."""
        if not self._doing:
            self._last = self._now()
        self._doing.append(step)
        try:
            yield
            QtGui.QApplication.processEvents()  # a silence ends where the window hears again
            self._beat()
        finally:
            self._doing.pop()


def _heard(action: Callable[..., Any]) -> Callable[..., Any]:
    """An action of the desk by whose name, and first word, silences are told."""

    @wraps(action)
    def wrapped(desk: Desk, *args: Any, **named: Any) -> Any:
        first = next((str(a) for a in args if isinstance(a, str)), "")
        with desk.heart.at(f"{action.__name__} {first}".strip()):
            return action(desk, *args, **named)

    return wrapped


class Desk:
    """What a test's steps can ask of the running FreeCAD. Times in seconds."""

    def __init__(self, pictures: str) -> None:
        self.folder = Path(pictures)
        self.pictures: dict[str, str] = {}
        self.boxes: list[str] = []  # text of every message box that came up
        self.answer = ""  # text of the button to press in the next boxes; "" takes the box's default button
        self.on_dialog: Callable[[Any], None] | None = None  # takes any other modal dialog; None closes it
        self._tired: set[int] = set()
        self.heart = Heart()
        self._watch = QtCore.QTimer()
        self._watch.timeout.connect(self._mind_dialogs)
        self._watch.start(20)
        # FreeCAD puts its window back to a size of its own while it starts.
        self.wait_until(lambda: self.window.isVisible(), what="the main window")
        self._breathe(0.3)
        self.window.setGeometry(0, 0, 1500, 950)
        self._breathe(0.1)

    # --- waiting ---------------------------------------------------------------------------------------------------
    def _breathe(self, seconds: float = 0.02) -> None:
        """Let FreeCAD do what is due: the events at hand, and those they make in turn; for `seconds` at least."""
        end = time.monotonic() + seconds
        rounds = 0
        while rounds < 4 or time.monotonic() < end:
            QtGui.QApplication.processEvents()
            rounds += 1
            time.sleep(0.002)

    @_heard
    def settle(self, seconds: float = 60.0) -> None:
        """Let FreeCAD work until every panel has acted on what was typed; fails after `seconds`.

        A panel acts once the typing has paused, and works its figures out beside the window. That pause is cut short
        here, that work is waited for; a panel that does not watch a field is
        not made to act, and its figures stay as they were.
        """
        self._breathe()
        end = time.monotonic() + seconds
        patience: dict[int, int] = {}
        while (waiting := [pause for pause in self._pauses() if pause.isActive()]) or self._at_work():
            assert time.monotonic() < end, f"waited {seconds:g} s in vain for a panel to act on what was typed"
            if not waiting:
                self._let_work()
            for pause in waiting:
                first = patience.setdefault(id(pause), pause.interval())
                pause.start(0)
                self._breathe()
                if not pause.isActive():
                    pause.setInterval(first)

    def _let_work(self, seconds: float = 60.0) -> None:
        """Breathe, and until nothing is worked out beside the window."""
        self._breathe()
        end = time.monotonic() + seconds
        while self._at_work():
            assert time.monotonic() < end, f"waited {seconds:g} s in vain for what is worked out beside the window"
            self._breathe()

    def _at_work(self) -> bool:
        """Whether the workbench works anything out beside the window."""
        beside = sys.modules.get("freecad_stacklam.workbench.working.beside")
        return beside is not None and bool(beside.at_work())

    def _pauses(self) -> list[Any]:
        """The timers by which our panels wait for the typing to pause."""
        ours = [w for w in self._widgets(QtGui.QWidget) if w.objectName().startswith("StackLam_")]
        return [pause for widget in ours for pause in widget.findChildren(QtCore.QTimer, "typingPause")]

    @_heard
    def wait_until(self, true: Callable[[], Any], seconds: float = 60.0, what: str = "") -> Any:
        """Let FreeCAD work until `true()` holds and return its value; fails after `seconds`."""
        end = time.monotonic() + seconds
        while True:
            QtGui.QApplication.processEvents()
            value = true()
            if value:
                return value
            if time.monotonic() > end:
                raise AssertionError(f"waited {seconds:g} s in vain for {what or true}")
            time.sleep(0.01)

    # --- the window ------------------------------------------------------------------------------------------------
    @property
    def window(self) -> Any:
        """FreeCAD's main window."""
        return FreeCADGui.getMainWindow()

    @_heard
    def open_workbench(self, name: str = "StackLamWorkbench") -> Any:
        """Switch to a workbench and return it."""
        FreeCADGui.activateWorkbench(name)
        self.wait_until(lambda: FreeCADGui.activeWorkbench().name() == name, what=f"the workbench {name}")
        self._breathe()
        return FreeCADGui.activeWorkbench()

    @_heard
    def select(self, thing: Any, *subnames: str) -> None:
        """Select one object, or faces and edges of it, and nothing else."""
        FreeCADGui.Selection.clearSelection()
        for sub in subnames or ("",):
            FreeCADGui.Selection.addSelection(thing.Document.Name, thing.Name, sub)
        self._breathe()

    @_heard
    def command(self, name: str) -> None:
        """Run a command by name, as its button would; fails if FreeCAD has greyed it out or does not know it."""
        assert name in FreeCADGui.listCommands(), f"FreeCAD has no command {name}"
        assert self.is_active(name), f"{name} is greyed out"
        FreeCADGui.runCommand(name)
        self._let_work()

    def is_active(self, name: str) -> bool:
        """Whether a command could be pressed now."""
        return bool(FreeCADGui.Command.get(name).isActive())

    # --- task panels -----------------------------------------------------------------------------------------------
    def panel_open(self) -> bool:
        """Whether a task panel is up."""
        return bool(FreeCADGui.Control.activeDialog())

    def panel(self) -> Any:
        """The widget that holds the task panel, buttons and all."""
        docks = ("Tasks", "Task View", "Combo View", "Model", "Std_TaskView", "Std_ComboView")
        boxes = [w for w in self._widgets(QtGui.QDialogButtonBox) if w.isVisible() and self.window.isAncestorOf(w)]
        assert boxes, "no task panel is open"
        # Not by asking each for its parent: the binding ties the two, and lets a panel's fields go with the parent's shell.
        holders = [w for w in self._widgets(QtGui.QWidget) if w.objectName() in docks and w.isAncestorOf(boxes[0])]
        return holders[0] if holders else self.window

    def _widgets(self, kind: Any, inside: Any = None) -> list[Any]:
        """All widgets of a kind. Not by findChildren of the window: the binding ties what that finds to the window for
        good, and later hands out a dead one for a new widget at the same place in memory."""
        found = []
        for widget in QtGui.QApplication.allWidgets():
            try:
                if isinstance(widget, kind) and (inside is None or inside.isAncestorOf(widget)):
                    found.append(widget)
            except RuntimeError:  # such a dead one, tied by another addon
                continue
        return found

    def named(self, name: str) -> list[Any]:
        """The visible widgets with this objectName, wherever; also those in windows of their own."""
        return [w for w in self._widgets(QtGui.QWidget) if w.objectName() == name and w.isVisible()]

    def widget(self, name: str, inside: Any = None) -> Any:
        """The one widget with this objectName, in the main window or inside another widget."""
        found = [w for w in self._widgets(QtGui.QWidget, inside) if w.objectName() == name]
        assert len(found) == 1, f"{len(found)} widgets are called {name}, not one"
        return found[0]

    @_heard
    def type_into(self, name: str, text: str) -> Any:
        """Type a text into a line edit or the editor of a spin or combo box, by objectName, and press Tab."""
        widget = self.widget(name)
        edit = widget if isinstance(widget, QtGui.QLineEdit) else widget.findChildren(QtGui.QLineEdit)[0]
        self._focus(edit)
        edit.selectAll()
        for letter in text:
            self._key(edit, 0, letter)
        self._key(edit, QtCore.Qt.Key_Tab, "\t")
        self._breathe()
        return widget

    def _focus(self, edit: Any) -> None:
        """Give a line the keyboard, as a click would. In a window that is not the active one Qt only notes the wish:
        the line is then never left either, and what acts on that (what was typed is written anew) does not happen."""
        window = edit.window()
        if not window.isActiveWindow():
            window.activateWindow()
            self._breathe(0.1)
        if not window.isActiveWindow():  # no window manager hands out the focus here
            QtGui.QApplication.setActiveWindow(window)
        edit.setFocus()
        self._breathe()

    def _key(self, widget: Any, key: Any, text: str) -> None:
        for kind in (QtCore.QEvent.KeyPress, QtCore.QEvent.KeyRelease):
            QtGui.QApplication.sendEvent(widget, QtGui.QKeyEvent(kind, int(key), QtCore.Qt.NoModifier, text))

    def said(self, panel: str) -> str:
        """What a panel says, by its command's name: its sentence, and above it what was done."""
        names = (f"{panel}Result", f"{panel}Sentence")
        labels = [w for name in names for w in self._widgets(QtGui.QLabel) if w.objectName() == name]
        return " ".join(label.text() for label in labels if label.text())

    def button(self, text: str, inside: Any = None) -> Any:
        """The visible button with this text (accelerator marks, and how many in brackets, do not count)."""
        buttons = [b for b in self._widgets(QtGui.QAbstractButton, inside or self.window) if b.isVisible()]
        # It may be in two lines, and have how many in brackets.
        fitting = [b for b in buttons if f"{' '.join(b.text().replace('&', '').split())} (".startswith(f"{text} (")]
        assert fitting, f"no button “{text}”; there are {sorted({b.text() for b in buttons} - {''})}"
        return fitting[0]

    @_heard
    def press(self, text: str, inside: Any = None) -> None:
        """Press the visible button with this text."""
        button = self.button(text, inside)
        assert button.isEnabled(), f"the button “{text}” is greyed out"
        button.click()
        self._let_work()

    @_heard
    def press_ok(self) -> None:
        """Press OK in the open task panel."""
        self.press("OK", self.panel())

    @_heard
    def press_cancel(self) -> None:
        """Press Cancel in the open task panel."""
        self.press("Cancel", self.panel())

    def says_at_ok(self) -> str:
        """What OK says instead of doing anything; the panel stays open."""
        before = [len(FreeCAD.ActiveDocument.Objects), len(self.boxes)]
        self.press_ok()
        assert self.panel_open(), "OK closed the panel"
        assert [len(FreeCAD.ActiveDocument.Objects), len(self.boxes) - 1] == before, "OK did something"
        return self.boxes.pop()

    def slice_example(self, allowance: str = "") -> None:
        """Slice both forms of the example, the pedestal in layers of 45 mm and the top in layers of 27 mm, by the line
        that OK in the panel runs. Where the panel itself is meant: `slice_in_panel`."""
        from freecad_stacklam import api
        from freecad_stacklam.workbench.fields.picking import show_alone

        more = {"allowance": allowance} if allowance else {}
        for name, stock in (("Pedestal", "45 mm"), ("Top", "27 mm")):
            show_alone(api.slice_form(FreeCAD.ActiveDocument.getObject(name), stock=[stock], **more))
        self.settle()

    def slice_in_panel(self) -> None:
        """The same typed into the panel, whose OK leaves the tree in front."""
        for name, stock in (("Pedestal", "45 mm"), ("Top", "27 mm")):
            self.select(FreeCAD.ActiveDocument.getObject(name))
            self.command("StackLam_SliceForm")
            self.type_into("stock", stock)
            self.settle()
            self.press_ok()

    # --- pictures --------------------------------------------------------------------------------------------------
    def picture(self, name: str, widget: Any = None) -> str:
        """Save the main window as it shows on the screen (3D view, panels, dialogs over it), or one widget, as NAME.png
        and return the path."""
        self.settle()
        if widget is not None:
            return self._keep(name, lambda path: widget.grab().save(path))
        self._tidy()
        self._breathe(EXPOSURE)
        at = self.window.frameGeometry()
        # A grab of the window itself would leave the 3D view blank.
        screen = QtGui.QApplication.primaryScreen()
        return self._keep(name, lambda path: screen.grabWindow(0, at.x(), at.y(), at.width(), at.height()).save(path))

    def _tidy(self) -> None:
        """A window as a maker has it: no consoles, and a tree and panel wide enough to read."""
        for dock in self.window.findChildren(QtGui.QDockWidget):
            if dock.objectName() in ("Report view", "Python console", "Selection view"):
                dock.hide()
        if self.window.width() < 1400:
            self.window.setGeometry(0, 0, 1500, 950)
        self._breathe()
        left = [
            dock
            for dock in self.window.findChildren(QtGui.QDockWidget)
            if dock.isVisible() and self.window.dockWidgetArea(dock) in (QtCore.Qt.LeftDockWidgetArea,)
        ]
        if left:
            self.window.resizeDocks(left, [430] * len(left), QtCore.Qt.Horizontal)

    def screen(self, name: str) -> str:
        """Save the whole screen, with menus and dialogs that lie over the window."""
        self._breathe(EXPOSURE)
        return self._keep(name, lambda path: QtGui.QApplication.primaryScreen().grabWindow(0).save(path))

    def view(self, name: str, width: int = 1200, height: int = 900, fit: bool = True) -> str:
        """Save the 3D view, seen from the isometric corner unless `fit` is off."""
        view = FreeCADGui.activeDocument().activeView()
        if fit:
            view.viewIsometric()
            FreeCADGui.SendMsgToActiveView("ViewFit")
        self._breathe(EXPOSURE)
        return self._keep(name, lambda path: view.saveImage(path, width, height, "White"))

    def _keep(self, name: str, save: Callable[[str], Any]) -> str:
        path = str(self.folder / f"{name}.png")
        save(path)
        assert os.path.getsize(path) > 0, f"the picture {name} is empty"
        self.pictures[name] = path
        return path

    # --- dialogs that would hold everything up ---------------------------------------------------------------------
    def _mind_dialogs(self) -> None:
        dialog = QtGui.QApplication.activeModalWidget()
        if dialog is None or id(dialog) in self._tired or isinstance(dialog, QtGui.QProgressDialog):
            return
        self._tired.add(id(dialog))
        dialog.destroyed.connect(lambda *_: self._tired.discard(id(dialog)))
        if isinstance(dialog, QtGui.QMessageBox):
            self.boxes.append(dialog.text())
            for button in dialog.buttons():
                if self.answer and button.text().replace("&", "") == self.answer:
                    button.click()
                    return
            (dialog.defaultButton() or dialog.buttons()[0]).click()
        elif self.on_dialog is not None:
            self.on_dialog(dialog)
        else:
            self.boxes.append(dialog.windowTitle())
            dialog.close()


def begin(job: str) -> None:
    """Called by the start macro: wait until FreeCAD's window stands, then run the steps."""
    QtCore.QTimer.singleShot(300, lambda: _work(json.loads(Path(job).read_text(encoding="utf-8"))))


def _work(job: dict[str, Any]) -> None:
    told: dict[str, Any] = {"result": {}, "error": "", "pictures": {}}
    desk = Desk(job["pictures"])
    try:
        steps = runpy.run_path(job["steps"])[job["function"]]
        told["result"] = steps(desk, **job["arguments"]) or {}
    except BaseException:
        told["error"] = traceback.format_exc()
    told["pictures"] = desk.pictures
    told["result"].setdefault("boxes", desk.boxes)
    told["result"].setdefault("version", FreeCAD.Version()[:3])
    try:
        text = json.dumps(told)
    except TypeError as problem:
        text = json.dumps({"result": {}, "error": f"the answer is not JSON: {problem}", "pictures": {}})
    aside = Path(job["answer"] + ".part")
    aside.write_text(text, encoding="utf-8")
    aside.rename(job["answer"])
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(0)
