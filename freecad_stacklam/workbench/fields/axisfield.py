# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fields for a direction: an axis by its letter, in the model or in a form's own x, y and z, or one that was picked
in the 3D view; and what it turns with.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.docobjects.forms.directions import from_own, into_own
from freecad_stacklam.docobjects.reading.stacks import followed
from freecad_stacklam.lamination.options.kinds import AXES
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.fields import choice, figure
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.picking import picked_direction
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.recorded import run

QtWidgets = widgets()
PICKED = "picked"
#: What stands before the letter of an axis of the form's own.
OWN = "own "
CHOICES = (
    (QT_TRANSLATE_NOOP("StackLam", "z, upright"), "z"),
    ("x", "x"),
    ("y", "y"),
    (QT_TRANSLATE_NOOP("StackLam", "as picked"), PICKED),
)
OWN_CHOICES = (
    (QT_TRANSLATE_NOOP("StackLam", "z of the form"), OWN + "z"),
    (QT_TRANSLATE_NOOP("StackLam", "x of the form"), OWN + "x"),
    (QT_TRANSLATE_NOOP("StackLam", "y of the form"), OWN + "y"),
)
Direction = tuple[float, float, float]
#: An object, and a face or edge of it; its own x, y and z where that is "".
Followed = tuple[Any, str]


class AxisField:
    """A choice of axes, a button that takes the direction of what is selected, and a line that shows it.

    name: objectName of the choice; its button is called pickName and its line nameText. on_pick: called when a
    direction was taken.
    """

    def __init__(self, name: str, start: Direction, tip: str, on_pick: Callable[[], Any]) -> None:
        self._direction = start
        self._on_pick = on_pick
        self._source = ""
        known = next((letter for letter, axis in AXES.items() if axis == start), PICKED)
        self.choice = choice(
            name, [(translate("StackLam", text), axis) for text, axis in self._choices()], self._first(known), tip
        )
        self.button = QtWidgets.QPushButton(translate("StackLam", "Use selected face or edge"))
        self.button.setObjectName("pick" + name[0].upper() + name[1:])
        self.button.setToolTip(
            translate("StackLam", "Pick a flat or round face, or a straight or circular edge, in the 3D view first")
        )
        self.button.clicked.connect(self._take)
        self.text = figure(f"{name}Text")
        self.choice.currentIndexChanged.connect(lambda *_: self._show())
        self._show()

    def _choices(self) -> list[tuple[str, str]]:
        return list(CHOICES)

    def _first(self, known: str) -> str:
        return known

    def lines(self, caption: str) -> list[tuple[str, Any]]:
        """Caption and field of its rows, for `group`."""
        return [(caption, self.choice), ("", self.button), ("", self.text)]

    def direction(self) -> Direction:
        """The direction that is chosen, in the model."""
        chosen = self.choice.currentData()
        return self._direction if chosen == PICKED else AXES[chosen]

    @says_no_plainly
    def _take(self, *_: Any) -> None:
        self._direction, self._source, link = picked_direction()
        self._took(link)
        self.choice.setCurrentIndex(self.choice.findData(PICKED))
        self._show()
        self._on_pick()

    def _took(self, link: Followed | None) -> None:
        """What the direction was taken from."""

    def _show(self) -> None:
        self.text.setVisible(self.choice.currentData() == PICKED)
        self.text.setText(
            (f"{self._source}: " if self._source else translate("StackLam", "Direction ")) + written(self._direction)
        )


class FollowingAxis(AxisField):
    """The same for the axis of a stack, which may turn with its form, or with a face or edge.

    source, path: the form, as the selection gave it; stack: the one that is changed.
    """

    def __init__(
        self,
        start: Direction,
        tip: str,
        on_pick: Callable[[], Any],
        form: tuple[Any, str],
        stack: StackObject | None = None,
    ) -> None:
        self._form = form
        self._link = None if stack is None else followed(stack)
        self._started = start
        super().__init__("axis", start, tip, on_pick)
        if self._link is not None and self._link[1]:
            self._source = f"{self._link[1].rpartition('.')[2]} of {self._link[0].Label}"
            self._show()

    def _choices(self) -> list[tuple[str, str]]:
        z, x, y, picked = CHOICES
        return [z, x, y, *OWN_CHOICES, picked]

    def _first(self, known: str) -> str:
        if self._link is None:
            return known
        if self._link[1]:
            return PICKED
        own = into_own(*self._form, self._started)
        return next((OWN + letter for letter, axis in AXES.items() if axis == own), PICKED)

    def direction(self) -> Direction:
        """See AxisField."""
        chosen = self.choice.currentData()
        return from_own(*self._form, AXES[chosen[-1]]) if chosen.startswith(OWN) else super().direction()

    def follow(self, stack: StackObject) -> None:
        """Let a stack's axis follow what was chosen here, by a line that is recorded."""
        wanted, now = self._wanted(), followed(stack)
        if _named(wanted) != _named(now):
            run("stack", "follow", stack, *(() if wanted is None else wanted if wanted[1] else wanted[:1]))

    def _wanted(self) -> Followed | None:
        chosen = self.choice.currentData()
        if chosen.startswith(OWN):
            return self._form[0], ""
        return self._link if chosen == PICKED else None

    def _took(self, link: Followed | None) -> None:
        self._link = link

    def _show(self) -> None:
        wanted = self._wanted()
        if wanted is None:
            text = translate("StackLam", "Stays so in the model, however the form is turned: {}")
        elif not wanted[1]:
            text = translate("StackLam", "Turns with the form; now {}")
        else:
            text = translate("StackLam", "Follows {source}; now {direction}").format(
                source=self._source, direction=written(self.direction())
            )
        self.text.setText(text.format(written(self.direction())))


def written(direction: Direction) -> str:
    """A direction as a maker reads it: three figures, none of them longer than four digits."""
    return ", ".join(f"{round(part, 3) + 0.0:.3f}".rstrip("0").rstrip(".") for part in direction)


def _named(link: Followed | None) -> tuple[str, str] | None:
    return None if link is None else (link[0].Name, link[1])
