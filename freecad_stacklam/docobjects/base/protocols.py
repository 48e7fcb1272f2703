# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the rest of the code asks of FreeCAD's documents and of each kind of our objects.

FreeCAD has no types to import: these say which members are relied on, so that a wrong name is found before it is run.
Lengths and the like are quantities, whose `Value` is in mm, mm², mm³ or degrees.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol


class Quantity(Protocol):
    """A figure with a unit."""

    @property
    def Value(self) -> float:
        """In FreeCAD's own units: mm and degrees."""


class Vector(Protocol):
    """A point or a direction, mm."""

    x: float
    y: float
    z: float


class Document(Protocol):
    """A document of FreeCAD."""

    Name: str
    Label: str
    FileName: str
    Objects: list[Any]
    Importing: bool
    Restoring: bool
    Transacting: bool

    def addObject(self, kind: str, name: str) -> Any: ...
    def removeObject(self, name: str) -> None: ...
    def getObject(self, name: str) -> Any: ...
    def recompute(self) -> Any: ...
    def openTransaction(self, name: str) -> None: ...
    def commitTransaction(self) -> None: ...
    def abortTransaction(self) -> None: ...
    def saveAs(self, path: str) -> None: ...


class DocumentObject(Protocol):
    """Any object of a document."""

    Name: str
    Label: str
    Proxy: Any
    Shape: Any
    Placement: Any
    ViewObject: Any
    State: list[str]
    InList: list[Any]
    OutList: list[Any]
    PropertiesList: list[str]
    ExpressionEngine: list[tuple[str, str]]
    Visibility: bool
    SchemaVersion: int

    @property
    def ID(self) -> int: ...
    @property
    def Document(self) -> Document: ...
    def recompute(self) -> Any: ...
    def evalExpression(self, expression: str) -> Any: ...
    def touch(self) -> None: ...
    def purgeTouched(self) -> None: ...
    def setEditorMode(self, name: str, modes: list[str]) -> None: ...
    def hasExtension(self, name: str) -> bool: ...
    def getParentGeoFeatureGroup(self) -> Any: ...
    def addProperty(self, kind: str, name: str, *rest: Any) -> Any: ...


class StackObject(DocumentObject, Protocol):
    """A form and how it is piled up; stack.Stack."""

    Form: Any
    FormPath: str
    Solid: str
    Piece: str
    Stock: Any
    MoreStock: Sequence[str]
    Pick: str
    PlanedThicknesses: Sequence[str]
    ForcedPlanes: Sequence[str]
    ForbiddenZones: Sequence[str]
    WasteTabs: Sequence[str]
    Axis: Any
    AxisFollows: str
    AxisFrom: Any
    AxisAgainst: bool
    Species: str
    Grain: Any
    LayerCount: int
    Layers: list[LayerObject]
    Insides: list[Any]
    Verdict: str


class LayerObject(DocumentObject, Protocol):
    """One layer of a stack; layer.Layer."""

    Stack: StackObject | None
    Joints: list[JointObject]
    Hollow: HollowObject | None
    Pins: PinsObject | None
    Number: int


class JointObject(DocumentObject, Protocol):
    """A mortise and floating tenon; joint.Joint."""

    Stacks: list[StackObject]
    Embed: Sequence[str]
    Suppressed: bool
    Through: Any
    Anchor: Any
    Axis: Any
    Section: str
    Species: str
    Size: Any
    Width: Any
    Turn: Any
    OwnRelief: bool
    Relief: Any
    Placed: Any
    Verdict: str


class InsideObject(DocumentObject, Protocol):
    """What lies inside one stack: its hollow or its pins."""

    Stack: StackObject | None
    Joints: list[JointObject]
    Suppressed: bool
    Verdict: str


class HollowObject(InsideObject, Protocol):
    """The voids of a stack; hollow.Hollow."""

    VoidCount: int


class PinsObject(InsideObject, Protocol):
    """The pins of a stack; pins.Pins."""

    Hollow: HollowObject | None
    Waste: bool
    At: Sequence[str]
    PinCount: int


class ShopObject(DocumentObject, Protocol):
    """How boards are sawn; shop.Shop."""

    Given: Sequence[str]
    Rest: str


class JobObject(DocumentObject, Protocol):
    """Title and paper; job.Job."""

    Title: str
    Author: str
    Date: str
    Units: str
    Paper: str
    PaperFull: str
    Woods: Sequence[str]


class CuttingObject(DocumentObject, Protocol):
    """The cutting plan; cutting.Cutting."""

    Kept: str
    KeptFor: str
    ShownFor: str
    Picture: str


class CarvingObject(DocumentObject, Protocol):
    """The carving guide; carvingguide.Carving."""

    Suppressed: bool
    DepthHoles: Sequence[str]
    Planes: Sequence[str]
    OwnPoint: bool
    PointLength: Any
    ShownFor: str


class GlueUpObject(DocumentObject, Protocol):
    """The glue, the room and the plan of the glue-up; glueup.GlueUp."""

    Suppressed: bool
    Clamps: Any
    Zeros: Sequence[str]
    SetUps: list[GlueSetObject]
    SetUpCount: int
    Verdict: str
    ShownFor: str


class GlueSetObject(DocumentObject, Protocol):
    """One set-up of the glue-up; glueset.GlueSet."""

    Label2: str
    Joins: str
    GlueUp: GlueUpObject | None
    Number: int
    Kind: str
    Stack: str
    Stacks: Sequence[str]
    JointName: str
    First: int
    Last: int
    Layers: list[LayerObject]
    Joint: JointObject | None
    ShownFor: str


class PieceObject(DocumentObject, Protocol):
    """How the finished piece is used, and what is found about it; piece.Piece."""

    Suppressed: bool
    Zeros: Sequence[str]
    Loads: Sequence[str]
    Months: Sequence[str]
    Looked: str
    Verdict: str
    ShownFor: str


class GlueLinesObject(DocumentObject, Protocol):
    """Lines drawn for a stack; gluelines.GlueLines."""

    Stack: StackObject | None
    Shows: str
    Layer: int
