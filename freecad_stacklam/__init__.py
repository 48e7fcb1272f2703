"""StackLam: sculpted furniture by stacked lamination, planned inside FreeCAD."""

__version__ = "0.1.0"
