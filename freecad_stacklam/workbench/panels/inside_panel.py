# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the panels for pins and for voids share: one stack, a preview in the 3D view, OK in one undo step."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.picking import show_alone
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.recorded import options_of, run
from freecad_stacklam.workbench.scene import ghost

QtWidgets = widgets()


class InsidePanel(Panel):
    """Makes what lies inside a stack, or edits `obj` when it is given. `noun` names it in undo steps."""

    patience = 400
    noun = ""

    def __init__(self, title: str, icon: str, stack: StackObject, obj: Any) -> None:
        super().__init__(f"{title}: {name_of_stack(stack)}", icon)
        self.stack = stack
        self.obj = obj
        self._found: StackPlan | None = None
        self._build()
        self.finish()

    # What a panel gives.
    def _build(self) -> None:
        raise NotImplementedError

    def asked(self) -> Any:
        """The values as they stand, as their record. Raises Refusal."""
        raise NotImplementedError

    def trial(self, asked: Any) -> StackPlan:
        """The stack with these. Raises Refusal."""
        raise NotImplementedError

    def tell_figures(self, plan: StackPlan) -> None:
        """Show what the plan says, and preview it."""
        raise NotImplementedError

    def work(self) -> tuple[str, str]:
        """The functions of the api that make and that change the object."""
        raise NotImplementedError

    # What all do alike.
    def show_figures(self) -> None:
        """See Panel."""
        with busy():
            self._found = self.trial(self.asked())
        self.tell_figures(self._found)

    def clear_figures(self) -> None:
        """See Panel."""
        self._found = None
        ghost.clear()

    def make(self) -> None:
        """Make or change it, in one undo step."""
        asked = self.asked()
        make, change = self.work()
        document, name, made = self.stack.Document, name_of_stack(self.stack), change.removeprefix("change_")
        ghost.clear()
        with busy():
            if self.obj is None:
                with one_undo_step(document, f"{self.noun} {name}"):
                    self.obj = run(made, make, self.stack, **options_of(asked))
            else:
                with one_undo_step(document, translate("StackLam", "Change {}").format(self.obj.Label)):
                    run(made, change, self.obj, **options_of(asked))
        show_alone(self.obj)

    def close(self) -> None:
        """The preview goes with the panel."""
        ghost.clear()
        super().close()
