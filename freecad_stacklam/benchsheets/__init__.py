"""What is drawn for the bench: sheets of lines, arcs and texts in mm. No FreeCAD, no Qt, no files."""
