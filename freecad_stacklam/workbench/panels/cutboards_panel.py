# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel for the cutting plan: saw and staves in, a quick plan at once, a better one on request, OK keeps it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from time import monotonic
from typing import Any

from freecad_stacklam.docobjects.base.family import shop_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.cutting import cost_text, gap_text
from freecad_stacklam.docobjects.reading.whole import unboarded_plan
from freecad_stacklam.docobjects.reading.wood import boards_for, found_longer, key_of, wood_settings
from freecad_stacklam.lamination.boards.boardplan import plan_boards
from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.tolerances import SAVING
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.board_picture import BoardPicture
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import figure, group, side_by_side
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step, sentence_of, tell
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.recorded import options_of, run

QtWidgets = widgets()
#: Least width of the bar of progress beside its buttons, pixels.
LEAST_BAR = 40
#: Time between two looks at the buttons while a better plan is sought, s.
BREATH = 0.03
#: What is shown for the words of an option.
WORDS = {"first_cut": {"better": QT_TRANSLATE_NOOP("StackLam", "whichever costs less")}}
MOST_LINES = 4


class CutBoardsPanel(Panel):
    """Plans the cutting of all stacks of a document from its rack."""

    patience = 500

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Cut the boards"), "StackLam_CutBoards")
        self.document = document
        if not stacks_in(document):
            raise Refusal(translate("StackLam", "There is nothing to cut yet: slice a form into layers first."))
        self._wood = wood_settings(document)
        self._shop = self._wood.shop if shop_in(document) is not None else preferences.shop()
        if not self._wood.boards:
            raise Refusal(
                translate(
                    "StackLam",
                    "There are no boards on the rack: open the board rack and put yours there, or boards to buy.",
                )
            )
        with busy():
            self.job = unboarded_plan(document)
        self.stacks = self.job.stacks
        job = job_in(document)
        self.units = str(job.Units) if job is not None else preferences.units()
        self._better: dict[str, BoardsPlan] = {}
        self.plan: BoardsPlan | None = None
        self._running = self._stop = self._leave = False
        self._build()
        self.finish()

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        start = self._shop
        # What is not asked here: the glue-up says how much glue they take, the joints what the drill press does.
        self.fields = RowFields(start, without=("glue_spread", "drill_stroke"), words=WORDS)
        self.figures = {name: figure(name) for name in ("staves", "boards", "buy", "yield", "cost", "best", "method")}
        takes, _ = group(
            translate("StackLam", "What it takes"),
            [
                (translate("StackLam", "Staves"), self.figures["staves"]),
                (translate("StackLam", "Boards"), self.figures["boards"]),
                (translate("StackLam", "To buy"), self.figures["buy"]),
                (translate("StackLam", "Yield"), self.figures["yield"]),
                (translate("StackLam", "Cost"), self.figures["cost"]),
                (translate("StackLam", "How good"), self.figures["best"]),
                (translate("StackLam", "Found by"), self.figures["method"]),
            ],
        )
        self.better = QtWidgets.QPushButton(translate("StackLam", "Look longer"))
        self.better.setObjectName("planBetter")
        self.better.setToolTip(translate("StackLam", "Look longer for a cheaper plan, then for how good any can be"))
        self.better.clicked.connect(self.plan_better)
        self.stop = QtWidgets.QPushButton(translate("StackLam", "Stop"))
        self.stop.setObjectName("stopPlanning")
        self.stop.setToolTip(translate("StackLam", "Keep the best plan found so far"))
        self.stop.setEnabled(False)
        self.stop.clicked.connect(self._halt)
        self.progress = QtWidgets.QProgressBar()
        self.progress.setObjectName("planProgress")
        self.progress.setRange(0, 100)
        self.progress.setMinimumWidth(LEAST_BAR)
        self.progress.setVisible(False)  # empty, it looks like a field to type into
        saw, _ = group(translate("StackLam", "Saw"), self.fields.of_group("Saw"))
        staves, _ = group(translate("StackLam", "Staves"), self.fields.of_group("Staves"))
        self.body.addWidget(takes)
        self.body.addWidget(side_by_side(self.progress, self.better, self.stop))
        self.body.addWidget(self.sentence)
        self.picture = BoardPicture()
        self.body.addWidget(self.picture)
        self.inputs = (saw, staves)
        for box in self.inputs:
            self.body.addWidget(box)
        self.watch(*self.fields)
        shop = shop_in(self.document)
        if shop is not None:
            self.edits(shop, {}, self.fields)

    def settings(self) -> Settings:
        """The boards, and the shop as the panel has it. Raises Refusal when a value cannot be."""
        shop = replace(self._shop, **self.fields.values())
        return replace(self._wood, shop=shop)

    # --- what they say -----------------------------------------------------------------------------------------------
    def show_figures(self) -> None:
        """See Panel."""
        settings = self.settings()
        key = key_of(self.stacks, settings)
        with busy():
            self.plan = self._better.get(key) or boards_for(self.document, self.stacks, settings)
            self._show(self.plan)
            self.picture.show_plan(replace(self.job, boards=self.plan), self.units)

    def _show(self, plan: BoardsPlan) -> None:
        on_hand = sum(b.on_hand for b in plan.plan)
        buy = Counter(
            f"{b.board.rsplit(' #', 1)[0]}, "
            + " × ".join(format_length(size, self.units) for size in (b.thickness, b.width, b.length))
            for b in plan.plan if not b.on_hand
        )  # fmt: skip
        layers = {(s.stack, s.layer) for s in plan.staves if s.stack}
        texts = {
            "staves": translate("StackLam", "{} for {} layers").format(sum(s.copies for s in plan.staves), len(layers)),
            "boards": translate("StackLam", "{} from the rack, {} to buy").format(on_hand, len(plan.plan) - on_hand),
            "buy": "\n".join(f"{count} × {what}" for what, count in buy.items()) or translate("StackLam", "nothing"),
            "yield": translate("StackLam", "{:.0f} % of the boards becomes staves").format(100 * plan.yield_)
            if plan.yield_
            else "–",
            "cost": shown_decimals(cost_text(plan)),
            "best": shown_decimals(gap_text(plan)),
            "method": plan.method,
        }
        for name, text in texts.items():
            self.figures[name].setText(text)

    def clear_figures(self) -> None:
        """See Panel."""
        self.plan = None
        for label in self.figures.values():
            label.setText("–")
        self.picture.clear()

    def remark(self) -> str:
        """What is short, and where seams could not be kept clear."""
        if self.plan is None:
            return ""
        seams = [f"{c.stack} {c.layer}: {c.says}" for c in self.plan.seam_conflicts]
        left = len(seams) - MOST_LINES
        more = [translate("StackLam", "… and {} more seams.").format(left) if left > 0 else ""]
        return "\n".join(filter(None, [*self.plan.short, *self.plan.notes, *seams[:MOST_LINES], *more]))

    # --- planning better ---------------------------------------------------------------------------------------------
    def _halt(self, *_: Any) -> None:
        self._stop = True

    def plan_better(self, *_: Any) -> None:
        """Look for a better plan while the buttons stay alive; the last good plan is kept whatever happens."""
        if self._running or not self.refresh() or self.plan is None:
            return
        settings, held = self.settings(), self.plan
        self._run(True)
        try:
            found = plan_boards(
                self.stacks, settings, rounds=LOOK_LONGER, progress=self._progress, cancelled=_look(self._asked_to_stop)
            )
            if found.objective < held.objective * (1 - SAVING) or not held.plan:
                held = found
            elif held.method != found.method:
                held = replace(held, method=f"{held.method}; nothing cheaper was found in {LOOK_LONGER} rounds")
            if not self._stop:
                self.progress.setRange(0, 0)
                self.sentence.setText(translate("StackLam", "Looking for how good a plan can be at all …"))
                bound = plan_boards(self.stacks, settings, lp_bound=True, cancelled=_look(self._asked_to_stop))
                if bound.bound_lp is not None:
                    held = replace(held, bound_lp=bound.bound_lp, least_boards=bound.least_boards)
        except Refusal as refusal:
            tell(sentence_of(refusal))
        finally:
            if self.__dict__:  # the panel may have been taken away meanwhile
                self._run(False)
        if not self.__dict__:
            return
        self._better[key_of(self.stacks, settings)] = held
        self.refresh()
        if self._leave:
            QtCore.QTimer.singleShot(0, self.reject)

    def _asked_to_stop(self) -> bool:
        return bool(self.__dict__.get("_stop", True))

    def _progress(self, part: float) -> None:
        if self.__dict__:
            self.progress.setValue(round(100 * part))

    def _run(self, running: bool) -> None:
        self._running, self._stop = running, False
        self.better.setEnabled(not running)
        self.stop.setEnabled(running)
        self.progress.setVisible(running)
        for box in self.inputs:
            box.setEnabled(not running)
        self.progress.setRange(0, 100)
        self.progress.setValue(0 if running else 100)

    # --- OK ----------------------------------------------------------------------------------------------------------
    def accept(self) -> bool:
        """OK; while a better plan is sought it waits."""
        if self._running:
            self._stop = True
            return False
        return super().accept()

    def reject(self) -> bool:
        """Cancel; a search is ended first."""
        if self._running:
            self._stop = self._leave = True
            return False
        return super().reject()

    def make(self) -> None:
        """Keep the plan in the document, in one undo step."""
        settings, plan = self.settings(), self.plan
        if plan is None:
            raise Refusal(translate("StackLam", "There is no plan to keep: mend what the panel says first."))
        with busy(), one_undo_step(self.document, translate("StackLam", "Cutting plan")):
            if settings.shop != self._wood.shop:
                run("shop", "shop", self.document, **options_of(settings.shop))
            longer = key_of(self.stacks, settings) in self._better
            if longer:
                found_longer(self.stacks, settings, plan)
            run("cutting", "cut_boards_longer" if longer else "cut_boards", self.document)
        preferences.remember(**preferences.of_shop(settings.shop))


def _look(stopped: Callable[[], bool]) -> Callable[[], bool]:
    """Asks whether to stop, and lets the window live meanwhile, though not more often than needed."""
    last = monotonic()

    def ask() -> bool:
        nonlocal last
        if monotonic() - last > BREATH:
            QtWidgets.QApplication.processEvents()
            last = monotonic()
        return stopped()

    return ask
