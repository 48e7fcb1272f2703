# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every tolerance the computation uses, by name, in mm unless said.

The order matters: GRID < PLANE_SNAP < ARC_SAG < FIT_TOLERANCE < GUARD. What a coarser step loses, the guard gives back.
"""

#: Deflection asked of the tessellator. The error found is up to 1.94 times this, so it is no bound by itself.
MESH_DEFLECTION = 0.1
#: Wood added beyond the allowance everywhere, because the mesh is not the exact form.
GUARD = 0.2
#: Heights this near a glue line are moved onto it, so a flat step on a glue line does not widen its neighbour. It is
#: more than the rounding of 32-bit files (0.00003 mm at half a metre), and a micrometre that nobody can saw; it is also
#: the one part of a form that a blank may lack.
PLANE_SNAP = 0.001
#: A mortise that would enter a layer by less than this, mm, does not.
LEAST_CUT = 0.01
#: Integer grid on which outline segments are paired into loops.
GRID = 1e-4
#: Largest distance between a blank's outline and the lines and arcs fitted to it.
FIT_TOLERANCE = 0.1
#: Largest distance between an arc and the polyline it is sampled into.
ARC_SAG = 0.005
#: Vertices nearer than this are one vertex.
WELD = 1e-5
#: An uncovered volume up to this (mm³) counts as none: it is below what the proof's arithmetic resolves.
UNCOVERED_VOLUME = 0.01
#: More layers than this is a slip of the keyboard, not a piece of furniture.
MOST_LAYERS = 1000
