# SPDX-License-Identifier: LGPL-2.1-or-later

"""Toolbar and menu in groups, keys, and what a right click offers on what is picked.

Separators, keys and context menus are asked for as FreeCAD's own workbenches do (FreeCAD wiki, "Workbench creation" and
"Viewprovider")."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def click_with_the_right(desk):
    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.qt_binding import widgets
    from freecad_stacklam.workbench import commands

    QtWidgets = widgets()
    told = {}
    desk.open_workbench()
    bar = next(b for b in desk.window.findChildren(QtWidgets.QToolBar) if b.objectName() == "StackLam")
    told["bar"] = ["|" if a.isSeparator() else a.text().replace("&", "") for a in bar.actions()]
    menus = [m for m in desk.window.menuBar().findChildren(QtWidgets.QMenu) if m.title().replace("&", "") == "StackLam"]
    lines = list(menus[0].actions())
    (more,) = [a.menu() for a in lines if a.menu()]
    told["more"] = [more.title().replace("&", ""), *(a.text().replace("&", "") for a in more.actions())]
    lines = [a for a in lines if not a.menu()]
    told["menu"] = ["|" if a.isSeparator() else a.text().replace("&", "") for a in lines]
    told["keys"] = [a.shortcut().toString() for a in lines if not a.isSeparator()]
    known = [a.shortcut().toString() for a in desk.window.findChildren(QtGui.QAction if hasattr(QtGui, "QAction")
             else QtWidgets.QAction)]  # fmt: skip
    told["twice"] = sorted({k for k in told["keys"] if known.count(k) > 1})

    told["opened"] = []
    for name in ("LowSeat", "Vessel", "LeaningTable", ""):
        desk.command(f"StackLam_Example{name}")
        document = FreeCAD.ActiveDocument
        told["opened"].append([document.Label, [o.Label for o in document.Objects]])
    desk.slice_in_panel()
    stack = next(o for o in document.Objects if commands.kind_of(o) == "stack")
    tree = next(t for t in desk.window.findChildren(QtWidgets.QTreeWidget) if t.isVisible() and t.topLevelItemCount())

    def offered(label):
        """The lines of the menu that a right click on a row of the tree opens."""
        desk.settle()
        item = tree.findItems(label, QtCore.Qt.MatchExactly | QtCore.Qt.MatchRecursive, 0)[0]
        tree.scrollToItem(item)
        place = tree.visualItemRect(item).center()
        found = []

        def read():
            open_menu = QtWidgets.QApplication.activePopupWidget()
            if open_menu is not None:
                found.extend(a.text().replace("&", "") for a in open_menu.actions() if not a.isSeparator())
                desk.picture(f"menu-{label.split()[0].lower()}", open_menu)
                open_menu.close()

        QtCore.QTimer.singleShot(800, read)
        event = QtGui.QContextMenuEvent(QtGui.QContextMenuEvent.Mouse, place, tree.viewport().mapToGlobal(place))
        QtWidgets.QApplication.sendEvent(tree.viewport(), event)
        desk.settle()
        return found

    FreeCADGui.Selection.clearSelection()
    desk.select(stack)
    told["stack"] = offered(stack.Label)
    FreeCADGui.Selection.clearSelection()
    desk.select(document.Pedestal)
    told["form"] = offered("Pedestal")

    def offered_in_view():
        """The lines of the menu that a right click beside the model opens in the 3D view."""
        found = []
        area = desk.window.findChild(QtWidgets.QMdiArea).activeSubWindow()
        views = [w for w in area.findChildren(QtWidgets.QWidget) if type(w).__name__.endswith("GLWidget")]
        target = views[0] if views else area.findChild(QtWidgets.QGraphicsView).viewport()
        spot = QtCore.QPointF(12, 12)

        def read():
            open_menu = QtWidgets.QApplication.activePopupWidget()
            if open_menu is not None:
                found.extend(a.text().replace("&", "") for a in open_menu.actions() if not a.isSeparator())
                desk.picture("menu-view", open_menu)
                open_menu.close()

        QtCore.QTimer.singleShot(1500, read)
        for kind, held in ((QtCore.QEvent.MouseButtonPress, QtCore.Qt.RightButton),
                           (QtCore.QEvent.MouseButtonRelease, QtCore.Qt.NoButton)):  # fmt: skip
            event = QtGui.QMouseEvent(
                kind, spot, target.mapToGlobal(spot.toPoint()), QtCore.Qt.RightButton, held, QtCore.Qt.NoModifier
            )
            QtWidgets.QApplication.sendEvent(target, event)
            desk._breathe(0.1)
        desk.wait_until(lambda: found, 10, "the menu of the 3D view")
        return found

    desk.select(stack)
    told["view"] = offered_in_view()

    def pixels(path, ground):
        """A small icon as it looks on a ground: 16 × 16 × (red, green, blue)."""
        from freecad_stacklam.qt_binding import QtCore, QtGui

        image = QtGui.QImage(16, 16, QtGui.QImage.Format_RGB32)
        image.fill(QtGui.QColor(ground))
        painter = QtGui.QPainter(image)
        QtGui.QIcon(path).paint(painter, QtCore.QRect(0, 0, 16, 16))
        painter.end()
        return [QtGui.QColor(image.pixel(x, y)).getRgb()[:3] for y in range(16) for x in range(16)]

    from freecad_stacklam.workbench.fields.panel import ICONS

    told["icons"] = {
        ground: {path.stem: pixels(str(path), ground) for path in sorted(ICONS.glob("*.svg"))}
        for ground in ("#efefef", "#2b2b2b")
    }
    return told


def _apart(one: list[list[int]], other: list[list[int]], grey: bool) -> float:
    """Mean difference of two pictures, of 255; in grey by the weights of ITU-R BT.601."""
    weights = (0.299, 0.587, 0.114)
    if grey:
        shade = [[sum(w * c for w, c in zip(weights, p)) for p in picture] for picture in (one, other)]
        return sum(abs(a - b) for a, b in zip(*shade)) / len(one)
    return sum(abs(a - b) for p, q in zip(one, other) for a, b in zip(p, q)) / (3 * len(one))


def test_commands_stand_in_groups_and_where_the_maker_clicks(tmp_path: Path) -> None:
    told = keep(freecad(click_with_the_right, tmp_path, timeout=240)).result
    assert told["bar"] == told["menu"]
    assert told["bar"].count("|") == 3
    assert told["bar"][:5] == [
        "Slice form into layers", "Add mortise and tenon", "Set pins", "Hollow the layers", "|",
    ]  # fmt: skip
    assert len(told["keys"]) == len(set(told["keys"])) == len(told["bar"]) - 3
    assert all(key.startswith("Y, ") for key in told["keys"])
    assert told["twice"] == []
    assert told["keys"][0] == "Y, S"
    assert told["more"] == ["More examples", "Low seat", "Vessel", "Leaning table"]
    assert told["opened"] == [
        ["Low seat", ["Seat", "Back leg", "Left leg", "Right leg"]],
        ["Vessel", ["Vessel"]], ["Leaning table", ["Base", "Top"]],
        ["Plant stand", ["Pedestal", "Top"]],
    ]  # fmt: skip
    label = next(line for line in told["stack"] if line.startswith("Change "))
    assert label.endswith("…")
    assert {"Slice form into layers", "Set pins", "Check the stacks", "Layer drawings"} <= set(told["stack"])
    assert "Slice form into layers" in told["form"]
    assert "Set pins" not in told["form"]
    assert {"Slice form into layers", "Set pins", "Check the stacks", "Layer drawings"} <= set(told["view"])
    # What these replaced came to 25 and 29 where they were mixed up (slicing and set-up, drawings and bill),
    # and to 26 where one was hardly seen on dark.
    for ground, icons in told["icons"].items():
        plain = [[int(ground[i : i + 2], 16) for i in (1, 3, 5)]] * 256
        for one, other in combinations(icons, 2):
            for grey in (False, True):
                apart = _apart(icons[one], icons[other], grey)
                assert apart > 29, f"{one} and {other} look alike at 16 px on {ground}: {apart:.1f}"
        for name, icon in icons.items():
            assert _apart(icon, plain, True) > 28, f"{name} is hardly seen at 16 px on {ground}"
