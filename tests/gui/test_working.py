# SPDX-License-Identifier: LGPL-2.1-or-later

"""Long work in the real window: it paints and hears meanwhile, and Esc takes everything back."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad

pytestmark = pytest.mark.gui


def work_long(desk):
    import threading
    import time

    import FreeCAD
    from PySide import QtCore, QtGui

    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.workbench.working.beside import Answers, at_work, waited
    from freecad_stacklam.workbench.working.steps import undone_by_escape

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Work")

    def press_escape():
        focus = QtGui.QApplication.focusWidget() or desk.window
        for kind in (QtCore.QEvent.KeyPress, QtCore.QEvent.KeyRelease):
            event = QtGui.QKeyEvent(kind, int(QtCore.Qt.Key_Escape), QtCore.Qt.NoModifier, "")
            QtGui.QApplication.sendEvent(focus, event)

    def outcome(action):
        try:
            return action()
        except Refusal as refusal:
            return refusal.sentence

    # What is waited for is done in another thread, and what it refuses is refused here.
    def elsewhere():
        time.sleep(1.2)
        return threading.current_thread() is threading.main_thread()

    def refused():
        time.sleep(0.3)
        raise Refusal("There is no wood.")

    with desk.heart.at("waits"):
        told["in_the_window's_thread"] = waited(elsewhere, "Sleeping")
    told["silence"] = desk.heart.worked["waits"]
    told["refused"] = outcome(lambda: waited(refused, "Sleeping"))

    # Escape gives it up, if it was meant.
    desk.answer = "No"
    QtCore.QTimer.singleShot(300, press_escape)
    told["not_meant"] = outcome(lambda: waited(elsewhere, "Sleeping"))
    desk.answer = "Yes"
    QtCore.QTimer.singleShot(300, press_escape)
    told["given_up"] = outcome(lambda: waited(lambda: time.sleep(1.5), "Sleeping"))
    told["at_work_after"] = at_work()

    # Steps on a document: all of them are one step for undo, and Escape takes them all back.
    def make(count, escape_at=-1):
        with undone_by_escape(document, "Many", count) as on:
            for i in range(count):
                document.addObject("App::FeaturePython", "Thing")
                if i == escape_at:
                    press_escape()
                on()
        return len(document.Objects)

    with desk.heart.at("makes"):
        told["made"] = outcome(lambda: make(5))
    told["undo"] = document.UndoCount
    document.undo()
    told["undone"] = len(document.Objects)
    told["stopped"] = outcome(lambda: make(5, escape_at=2))
    told["left"] = [len(document.Objects), document.UndoCount]

    # The newest question counts, and one that nobody asks any more is not told.
    heard = []
    answers = Answers(lambda: heard.append(answers.ask(asked[-1], work(asked[-1]))))
    asked, begun = [], []

    def work(number):
        def slowly():
            begun.append(number)
            time.sleep(0.25)
            return 10 * number

        return slowly

    for number in (1, 2, 3):
        asked.append(number)
        told.setdefault("at_once", []).append(answers.ask(number, work(number)))
    desk.settle()
    told["heard"], told["begun"] = list(heard), list(begun)
    told["again"] = answers.ask(3, work(3))
    told["quick"] = answers.ask(7, lambda: 70)
    asked.append(8)
    answers.ask(8, work(8))
    answers.settle()
    told["settled"] = heard[-1]
    answers.ask(9, work(9))
    answers.forget()
    desk.settle()
    told["forgotten"] = [len(heard), at_work()]
    return told


def test_long_work_lets_the_window_hear(tmp_path: Path) -> None:
    told = freecad(work_long, tmp_path).result
    assert told["in_the_window's_thread"] is False
    assert told["silence"] < 1.5  # a busy machine may hold it up; the work itself takes longer
    assert told["refused"] == "There is no wood."
    assert told["not_meant"] is False
    assert told["given_up"] == told["stopped"] == "Stopped: nothing was changed."
    assert not told["at_work_after"]
    assert (told["made"], told["undo"], told["undone"]) == (5, 1, 0)
    assert told["left"] == [0, 0]
    assert told["at_once"] == [None, None, None]
    assert told["heard"] == [30]
    assert told["begun"] == [1, 3]  # the second was overtaken
    assert (told["again"], told["quick"], told["settled"]) == (30, 70, 80)
    assert told["forgotten"] == [2, False]
