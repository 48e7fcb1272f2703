# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every tolerance, by name: one meaning, one name, one value. In mm unless said.

Each says what it is for and why it is as large as it is. A function whose answer hangs on one takes it as an argument
whose first value is the named one. The order matters: ROUNDING < WELD < GRID < PLANE_SNAP < ARC_SAG < FIT_TOLERANCE <
GUARD. What a coarser step loses, the guard gives back.

What a maker may choose (cover, stagger, least sizes of parts) is no tolerance and stands with its rule.
"""

# --- Arithmetic: what must be allowed because numbers have only so many digits ----------------------------------------

#: Lengths that differ by less than this differ by arithmetic alone: sums of a few metres keep 1e-9 mm, and nobody can
#: measure a nanometre. Whether a stave fits a board, a bit a mortise, a cut reaches a face, two cuts meet.
ROUNDING = 1e-6
#: A number that should be whole is taken as whole within this, of one: 3.0000002 boards are 3 boards.
WHOLE = 1e-6
#: Areas smaller than this, mm², are what an overlay of polygons leaves by rounding, and no wood: a nanometre along a
#: metre.
NO_AREA = 1e-6
#: Lengths are divided by no less than this, so that a point divides by no 0.
TINY = 1e-12
#: The same for products of two lengths, mm²: the shortest edge that survives welding has a square of 1e-10.
TINY_SQUARE = 1e-30
#: A vector shorter than this gives no direction.
NO_DIRECTION = 1e-9
#: Numbers of a frame smaller than this are 0: what a turn by 90° leaves where a 0 belongs.
FRAME_ROUNDING = 1e-13
#: Turns smaller than this, radians, are no turn: what an arc tangent leaves between two edges of one line.
TURN_ROUNDING = 1e-9
#: No arc is sampled in steps smaller than this, radians: 60 000 points are a circle for any purpose.
LEAST_TURN = 1e-4
#: A question is asked this far beside its place where the very place could meet a vertex or run along an edge: far
#: above the rounding of coordinates, far below what can be measured.
ASIDE = 1e-6
#: The proof moves a height that meets a vertex by this. It is less than ASIDE, because the proof judges to PROOF_DIGITS
#: on walls that may be nearly level.
PROOF_ASIDE = 1e-9

# --- The form and its mesh --------------------------------------------------------------------------------------------

#: Deflection asked of the tessellator. The error found is up to 1.94 times this, so it is no bound by itself.
MESH_DEFLECTION = 0.1
#: Wood added beyond the allowance everywhere, because the mesh is not the exact form.
GUARD = 0.2
#: A form larger than this is meshed, and guarded, in proportion to its size: a tenth of a millimetre on three metres is
#: finer than anybody saws, and the kernel was seen to take minutes over it.
LARGE_FORM = 1000.0
#: Vertices nearer than this are one vertex: the rounding of 32-bit files is 0.00003 mm at half a metre.
WELD = 1e-5
#: Vertices further apart than this are never welded: far below the guard, far above the rounding of 32-bit files.
WELD_LIMIT = 0.01
#: Distances at which welding is tried in turn, until the mesh is closed.
WELDS = (0.0, WELD, 0.001, WELD_LIMIT)
#: A mesh that encloses less than this part of its extent cubed encloses nothing: 1 mm³ in a form of a metre.
NO_VOLUME = 1e-9
#: An edge that passes through a triangle by less than this part of its length touches it, and does not cross.
TOUCHING = 1e-9
#: A triangle flatter than this (twice its area over its longest side squared) has no plane to pass through.
FLAT_TRIANGLE = 1e-6

# --- Heights ----------------------------------------------------------------------------------------------------------

#: Heights this near a glue line are moved onto it, so a flat step on a glue line does not widen its neighbour. It is
#: more than the rounding of 32-bit files (0.00003 mm at half a metre), and a micrometre that nobody can saw; it is also
#: the one part of a form that a blank may lack.
PLANE_SNAP = 0.001
#: Heights nearer than this are one height: a hundredth, the last digit of a caliper. It is more than twice PLANE_SNAP,
#: so that of two planes that are told apart neither catches a vertex of the other.
SAME_HEIGHT = 0.01
#: A mortise that would enter a layer by less than this does not: as SAME_HEIGHT, and named by itself because it decides
#: what is cut.
LEAST_CUT = 0.01
#: A stack is shifted by no more than this above its spare height. It is less than ROUNDING, because the shifts tried
#: are rounded to 1e-6, and one rounded up would call for a layer more.
SHIFT_ROUNDING = 1e-9
#: The proof cuts a layer this part of its thickness inside its glue lines.
JUST_INSIDE = 0.002
#: A direction that lies along the stacking axis to within this cosine is parallel to it: 0.02°, a tenth of a millimetre
#: on a tenon of 300 mm.
PARALLEL = 6e-8
#: A direction that rises by less than this part of its length is level: a micrometre in a metre.
LEVEL = 1e-6

# --- Outlines ---------------------------------------------------------------------------------------------------------

#: Integer grid on which outline segments are paired into loops.
GRID = 1e-4
#: Largest distance between an arc and the polyline it is sampled into.
ARC_SAG = 0.005
#: The most by which the chords of a corner rounded at 10 mm in 24 steps fall short of its circle:
#: 10 · (1 − cos(90° / 48)) = 0.0054, rounded up.
CORNER_SAG = 0.006
#: Largest distance between a blank's outline and the lines and arcs fitted to it.
FIT_TOLERANCE = 0.1
#: What is only searched, compared or measured, and never drawn or cut, may leave its outline by this: half of
#: FIT_TOLERANCE.
COARSE = 0.05
#: Details smaller than this part of an outline's size are left out where it is compared with itself.
DETAIL = 0.001

# --- The proof --------------------------------------------------------------------------------------------------------

#: How near the proof samples the drawn arcs: finer than they are drawn, so that it does not repeat their error.
PROOF_SAG = 0.001
#: Decimals of a millimetre to which the proof cuts its plain sections: ten times finer than GRID, which it judges.
PROOF_DIGITS = 5
#: Slivers of a section outside the blank up to this, mm², are rounding along a wall that the form touches: through a
#: layer of 100 mm they are as much as UNCOVERED_VOLUME.
PROOF_SLIVER = 1e-4
#: The least wood under a step face is searched to this and given as much short again, which pays for the chords of the
#: outlines and for shadows that were thinned: a fifth of what is printed.
WOOD_TOLERANCE = 0.02
#: An uncovered volume up to this (mm³) counts as none: it is below what the proof's arithmetic resolves.
UNCOVERED_VOLUME = 0.01

# --- Joints, pins and holes -------------------------------------------------------------------------------------------
# Least distances are searched to a tolerance. There are three, because the searches differ in what they may cost; each
# errs to the safe side or far below the tenth of a millimetre that is printed.

#: Least wood over a joint: one body against the whole surface.
COVER_TOLERANCE = 0.001
#: Least wood over a pin: hundreds of bodies; given so much short that it is never overstated.
PIN_COVER_TOLERANCE = 0.02
#: The lowest tip of a depth hole: thousands of places; never too low.
TIP_TOLERANCE = 0.01
#: A section of a mortise that stands out of the form by less than this, mm², does not: the chords of a round section
#: leave so much where it touches the surface.
BREAKOUT_AREA = 0.001
#: A tenon that was moved by less than this, mm, or turned by less than twice this, radians, was not moved by hand:
#: FreeCAD's placements keep about 1e-9 of a metre.
STILL = 1e-7
#: Shares are printed in whole percent: half of one more than a limit is not more.
HALF_PERCENT = 0.005
#: Pins on the rim of a region are placed this far inside it, so that they are in it by the arithmetic too.
INSIDE_RIM = 0.001
#: A bit this near to a hole's diameter, mm, bores it: 10.5 mm for 10.4.
SAME_BIT = 0.15
#: Wood left beyond the tip of a stopped pin hole, mm: what a drill stop slips.
WHOLE_FLOOR = 1.0

# --- Boards and staves ------------------------------------------------------------------------------------------------

#: Thicknesses nearer than this are one thickness: the last digit of a caliper.
SAME_THICKNESS = 0.01
#: Widths nearer than this are one width where staves are ripped together: less than the jointing of one edge takes off.
SAME_WIDTH = 0.5
#: Staves nearer than this are glued to each other, and the line between them is a seam: a gap that glue fills.
SEAM_TOUCH = 0.05
#: Staves reach this far beyond the outline's chords, because an arc bulges over them by ARC_SAG.
STAVE_OVER = 0.02
#: The judge of a cutting plan judges places on a board to this: a hundred times ROUNDING, because it reads plans whose
#: figures were rounded to 1e-6 and summed.
JUDGED = 1e-4
#: The judge takes staves this near to each other as leaving no slit between them.
SLIT = 0.001
#: The judge takes areas that differ by less than this part as one area.
SAME_AREA = 0.001
#: A plan must be cheaper by this part, or by this much in the maker's money or in m³, to be better: 1 mm³ of wood.
SAVING = 1e-9
#: A board that costs nothing is reckoned at this, so that worth can be divided by cost.
NO_COST = 1e-9
#: Worths in a knapsack that differ by less than this differ by arithmetic. It is less than SAVING, because a bound is
#: the sum of many.
NO_WORTH = 1e-12
#: The same for worths of 1 on average in single precision (24 bits), of which some tens are summed.
NO_GAIN = 1e-5
#: A pattern must gain this part of a board's cost to be taken into the linear programme.
LP_GAIN = 1e-7
#: After a fifth of its time the bound may stop this near (part of it) to what more rounds could find.
LP_CLOSE = 0.002
#: Widths of band-saw blades nearer than this are one: 6.4 mm is what a quarter inch is sold as.
SAME_BLADE = 0.05

# --- Sections ---------------------------------------------------------------------------------------------------------

#: A plan is thinned to this part of its size before its edge is drawn in: a load's lever errs by no more, and a shell
#: with a thousand corners takes seconds otherwise.
ROUGH_PLAN = 1e-3

# --- The deep check of strength ---------------------------------------------------------------------------------------

#: A load is solved when what is left of it is this part of it: a reading has then four right digits.
SOLVED = 1e-5
#: The same where an index is told: of a thin bowl and of a mushroom it then has four right digits (measured).
COMPARED = 1e-3
#: The same of an influence map that only ranks loads, the worst of which is then solved itself.
RANKED = 1e-2
#: The whole hold sideways of a floor on which feet slide, as a part of a brick's stiffness: 10 N/mm under cells of
#: 9 mm, where a slender leg of 400 mm has 135 N/mm (3 E I / L³): it changes little, and keeps a piece in its place.
SIDEWAYS = 1e-4
#: Keeps a straight-line fit from tilting where its cells lie in one row, as part of their weight: a thousandth moves no
#: other fit by more than it.
FIT_STIFFENER = 0.001
#: A finite step of a stress, as part of it, of which the slope of an index is taken: half of a double's digits.
SLOPE_STEP = 1e-6
#: Heights of cells that differ by less than this are one height, mm: what a division of a layer leaves.
SAME_CELL = 1e-6
#: Another program's answer counts when the floor answers all of the load but this part: it prints seven digits, and its
#: faulty answers were out by all of it.
BALANCED = 1e-3

# --- What is drawn and told -------------------------------------------------------------------------------------------

#: Points nearer than this to the line through their neighbours are not drawn: finer than any pen.
DRAWN_TOLERANCE = 0.02
#: An edge within this of another is not drawn beside it.
SAME_LINE = 0.01
#: Neighbouring arcs whose centres and radii differ by no more than this are one arc: as much as an arc may leave its
#: chords, so that it is sampled no worse.
SAME_ARC = 0.005
#: Lengths are printed to a tenth of a millimetre: what is less than half of that is not worth a word.
HALF_SHOWN = 0.05
#: Faces whose radii differ by more than this have a step on the glue line.
FORM_STEP = 0.05

#: Diffusion through faces that stand for none, mm² a day: in a year it lets through a millionth of what wood does.
NO_DIFFUSION = 1e-9

# --- No tolerance, but a bound ----------------------------------------------------------------------------------------

#: More layers than this in one stack are not planned: a plan takes up to 60 ms a layer, and nobody lays so many one by
#: one. Veneers of 0.6 mm stack 240 mm high.
MOST_LAYERS = 400

#: An axis that leans by less than this, degrees, is told as upright or level: nobody lays a layer by a finer angle.
NEAR_UPRIGHT = 10.0

#: Share of a form's volume that bodies may seem to share by rounding before they are taken to overlap.
COUNTED_TWICE = 1e-5
