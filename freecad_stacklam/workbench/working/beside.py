# SPDX-License-Identifier: LGPL-2.1-or-later

"""Work beside the window, in a thread: while it goes on the window paints, and hears what is typed.

`Answers` is for figures that follow the typing: the last ones stay on show, greyed, until the newest are there.
`waited` is for what a command cannot go on without: FreeCAD's progress bar is up, no other command can be begun, and
Esc gives the work up.

What runs here touches no widget, and no document that could change meanwhile: records in, records out.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from threading import Thread
from typing import Any, Generic, TypeVar

from freecad_stacklam.qt_binding import QtCore
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.working.progress import Progress

#: How often the window asks whether the work is done, ms.
ASKED_EVERY = 20
#: Seconds within which a work needs no progress bar, and within which figures need not be greyed.
BLINK, TWINKLE = 0.15, 0.05
_T = TypeVar("_T")


class Work(Thread, Generic[_T]):
    """A work in a thread of its own, and its answer or what it raised."""

    def __init__(self, work: Callable[[], _T]) -> None:
        super().__init__(daemon=True)
        self._work = work
        self._answer: _T | None = None
        self._raised: BaseException | None = None

    def run(self) -> None:
        """Called by Thread."""
        try:
            self._answer = self._work()
        except BaseException as error:
            self._raised = error

    def answer(self) -> _T:
        """What came of it, once it is done; what it raised is raised."""
        if self._raised is not None:
            raise self._raised
        return self._answer  # type: ignore[return-value]


#: The works that somebody waits for; tests wait for them too.
_going: list[Work[Any]] = []


def at_work() -> bool:
    """Whether any work is going on whose answer somebody waits for."""
    return bool(_going)


def waited(work: Callable[[], _T], what: str) -> _T:
    """What a work gives, made beside the window, which is kept from beginning anything else. what: said at the progress
    bar. Raises what the work raises, and a Refusal where the maker stops it: the work then goes on unheard to its
    end."""
    thread = Work(work)
    _going.append(thread)
    thread.start()
    thread.join(BLINK)
    try:
        if thread.is_alive():
            _turn_until_done(thread, what)
    finally:
        _going.remove(thread)
    return thread.answer()


def _turn_until_done(thread: Work[Any], what: str) -> None:
    loop, ask = QtCore.QEventLoop(), QtCore.QTimer()
    with Progress(what) as progress:
        stopped: list[BaseException] = []
        asking: list[bool] = []

        def asked() -> None:
            if asking:  # FreeCAD asks whether Esc was meant
                return
            asking.append(True)
            try:
                progress.on()
            except BaseException as error:  # raised below, and not in a slot of Qt's
                stopped.append(error)
            asking.clear()
            if stopped or not thread.is_alive():
                loop.quit()

        ask.timeout.connect(asked)
        ask.start(ASKED_EVERY)
        loop.exec_() if hasattr(loop, "exec_") else loop.exec()  # PySide6 has done with that name
        ask.stop()
    if stopped:
        raise stopped[0]
    thread.join()


class Answers(Generic[_T]):
    """The answer to the newest question, worked out beside the window.

    `ready` is called in the window's thread when there is one; it asks the same question again, and gets the answer.
    A question that came meanwhile takes the place of any that is still waiting; one work goes on at a time.
    """

    def __init__(self, ready: Callable[[], Any], owner: Any = None) -> None:
        """owner: the widget that asks; when it goes nobody asks any more."""
        self._ready: Callable[[], Any] | None = ready
        self._asked: tuple[Hashable, Callable[[], _T]] | None = None
        self._doing: tuple[Hashable, Work[_T]] | None = None
        self._done: tuple[Hashable, Work[_T]] | None = None
        self._look = QtCore.QTimer()
        self._look.setInterval(ASKED_EVERY)
        self._look.timeout.connect(self._looked)
        if owner is not None:
            owner.destroyed.connect(self.forget)

    def ask(self, key: Hashable, work: Callable[[], _T]) -> _T | None:
        """The answer to the question `key`; None as long as it is being worked out, and `ready` is called then. Raises
        what the work raised."""
        if self._done is not None and self._done[0] == key:
            self._asked = None
            return self._done[1].answer()
        if self._doing is None or self._doing[0] != key:
            self._asked = key, work
            self._begin()
            if self._doing is not None and self._doing[0] == key:
                self._doing[1].join(TWINKLE)
                if not self._doing[1].is_alive():
                    return self._take().answer()
        else:
            self._asked = None
        return None

    def _begin(self) -> None:
        if self._doing is not None or self._asked is None:
            return
        key, work = self._asked
        self._asked, self._doing = None, (key, Work(work))
        _going.append(self._doing[1])
        self._doing[1].start()
        self._look.start()

    def _looked(self) -> None:
        if self._doing is None or self._doing[1].is_alive():
            return
        self._take()
        if self._asked is not None:
            self._begin()
        elif self._ready is not None:
            self._ready()

    def _take(self) -> Work[_T]:
        assert self._doing is not None
        self._look.stop()
        _going.remove(self._doing[1])
        self._done, self._doing = self._doing, None
        return self._done[1]

    @property
    def at_work(self) -> bool:
        """Whether an answer is being worked out."""
        return self._doing is not None

    def settle(self, what: str = "") -> None:
        """Wait for the newest answer; FreeCAD's progress bar is up meanwhile. Raises a Refusal where the maker stops
        the waiting."""
        while self._doing is not None:
            work = self._doing[1]
            waited(work.join, what or translate("StackLam", "Working out the figures"))
            self._looked()

    def forget(self, *_: Any) -> None:
        """Nobody asks any more: what is being worked out is not told."""
        self._ready, self._asked, self._done = None, None, None
        self._look.stop()
        if self._doing is not None:
            _going.remove(self._doing[1])
            self._doing = None
