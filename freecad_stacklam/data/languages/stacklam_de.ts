<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE">
<context>
    <name>StackLam</name>
    <message>
        <source>Bill of wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bill is in the document. Do you want it as a CSV file too?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slice form into layers</source>
        <extracomment>The packages without which it cannot work.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slice the selected form into layers that can be cut from your boards. With a stack selected, change it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add mortise and tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Join two or more stacks by a floating tenon along an axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set pins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pin the layers of the selected stack, so that none can slip or be laid the wrong way round</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hollow the layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut voids into the inner layers of the selected stack, to save weight and wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Board rack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List the boards on hand and those you can buy, in a spreadsheet of the document</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut the boards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan how the staves of all layers are cut from the boards of the rack, and what must be bought</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Carving guide</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth holes, offsets, section templates and glue lines: what guides the carving down to the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plan the glue-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Which layers are glued at once, in which order, with the clamps, the glue and the hands at hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check the stacks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show what the checks say: does the form lie inside its blanks, is there enough wood round the joints</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finished piece</source>
        <extracomment>Sentences shown, at most: the rest is in the checks.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Say how the piece will be used and where: does it stand and hold, what does a year do to it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Layer drawings</source>
        <extracomment>Dots per inch of a page in the panel, and the most dots along its longer side.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Full-size templates of every layer, overviews and lists, as a PDF to print</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write the bill of wood into a spreadsheet of the document, and on request into a CSV file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open the example</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open a plant stand to try the workbench on, as a new document of your own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The example {} is missing: install the workbench again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>z, upright</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as picked</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Use selected face or edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pick a flat or round face, or a straight or circular edge, in the 3D view first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Direction </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look closer</source>
        <extracomment>Dots per inch of the large picture and of the small one.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The boards in a window of their own, with pieces, knots, saw cuts and their order</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look closer, at all {} pages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boards as they are cut</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” cannot be worked out: write a length.</source>
        <extracomment>144 in³ in mm³. Room between a box and its rows, pixels: left, above, right, below. Milliseconds of quiet before the figures follow what is typed. Most decimals of a field in inches, enough for a fit and for sixteenths; and the fewest, FreeCAD&apos;s own. Least width of a field, and of one of two side by side, pixels: a panel is then no wider than FreeCAD&apos;s own at first. Most width that a button or a tick asks for, pixels. Least width of a line for a text: beside a long caption its words could not be read, and it goes below. The field&apos;s own value, kept beside the one that FreeCAD rounds; and why there is none, a sentence.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>FreeCAD gave no field to type in: save your work and start FreeCAD again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What this panel works on is gone from the document: press Cancel, and start again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Another panel is open: finish it with OK or Cancel first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Templates at planes of your own: pick a flat face, then press Add</source>
        <extracomment>Least width of the short one of two buttons, pixels.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add selected face</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Remove</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is selected: pick the form you want to slice, in the 3D view or in the tree.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} things are selected: pick one form, and slice the others after it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A joint needs two stacks: slice both forms first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A joint needs two stacks and {} is selected: pick all that it joins.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no stack yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} stacks are selected: pick one, or a layer of it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>That cannot be measured: pick a face, an edge or a vertex of the model.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pick {} in the 3D view first, then press the button.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>That gives no direction: pick a flat or round face, or a straight or circular edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>That gives no point: pick a vertex, a circular edge, or a face for its centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <extracomment>How a line looks whose text was refused: the sentence may stand out of sight. The units of figures that are lines wherever they are asked. Unit inside → unit shown and its worth, metric and in inches. From how many seconds on a time is told in minutes, and from how many in hours. Significant digits of a shown figure.
----------
Largest whole number and largest figure where a row has no bound. An area is typed in cm² or in², a volume in cm³ or in³: how many mm² and mm³ these are, and the places shown.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give {} to {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” cannot be {}: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” is no whole number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}”: “{}” are no {}numbers: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>equal layers from the bottom</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>where they save most wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as few as can be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1-1/16 in; 3/4 in; …</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>27 mm; 19 mm; …</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Other planed thicknesses at hand: layers are then laid where they need least wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>With several thicknesses, equal layers are never the choice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>20 in3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood that one more glue line must save to be worth its work; empty: any saving is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Glue lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Laid</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A line must save</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add</source>
        <extracomment>Columns as they stand in the panel, what is changed most in front, and their widths, pixels. Air beside a figure, pixels. Rows in sight.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Another kind of clamp</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the chosen clamps off the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Load CSV…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clamps from a file, besides those in the table; of one name the file&apos;s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save CSV…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The table as a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keep as mine</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Offer these clamps in every new document</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take mine</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The clamps that were kept, in place of those in the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clamps, row {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the clamps to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} of the file&apos;s clamps are in the table.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The clamps were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>These clamps were kept: every new glue-up begins with them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No clamps were kept yet: list yours, then press Keep as mine.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clamps from a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clamps to a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>by the wood</source>
        <extracomment>Options of the glue that are not as its kind has them: what is shown where they are left out.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not known</source>
        <extracomment>The same of the room.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Before you begin</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>At {}: open {}, pressed within {}, in clamps {}, cured after {}</source>
        <extracomment>What the table&apos;s times are measured at, °C.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Glue-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing to glue yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What it takes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set-ups</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Glue</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clamps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As your can says</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its figures are common practice: what stands on your own can says more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}, near the body</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Room</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How long each move takes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cauls and refacing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ok: every set-up holds its limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop: {} of {} set-ups break a limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop: not everything could be planned</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop: wait before glue is opened</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}, with {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}: {} to see to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Step through the glue-up: what is not glued yet stands apart. Nothing is moved</source>
        <extracomment>Height of the list, and least width, pixels: three set-ups are in sight. Thickness of a drawn pad, mm.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slide to see the layers come together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing is glued yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set-up {} of {}, wait {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ok: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>StackLam: Python packages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy the line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Install from a folder of wheels…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Without a network: choose the folder that holds the packages&apos; .whl files</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Close</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Or by hand, in a terminal, and then start FreeCAD again:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All packages are there now: StackLam is ready.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Close the documents that hold stacks and open them again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The packages were installed: start FreeCAD again to use them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>FreeCAD&apos;s own Python was not found: use the line below.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Folder that holds the wheels</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Installing into {} …</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} does not start.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>those that shops keep</source>
        <extracomment>Options of a joint that are about the bench.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Your bits, as in 35 mm; 1-3/8 in; 25 mm spade. They are kept for all joints</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How far your drill press feeds; 0: nothing is said about it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>At the bench</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Drill stroke (0: any)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from the top</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from the underside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from both</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>right and left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>above and below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>twist bit</source>
        <extracomment>Options that the panel asks in a way of its own. What is shown for the words of an option.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>forstner bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing to carve yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What it gives</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Holes from the rough surface that stop short of the finished one, as a gauge for carving</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure it: from the bit&apos;s rim, or its full width, to the tip</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth holes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length of its point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sides that gauges are held against the piece from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Offsets and section templates</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Other planes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Gauges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> litres an hour</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood that you carve away in an hour, measured on a piece of yours; no rate is assumed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Draw the glue lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On the finished forms; they stay in step when you change the stacking axis or the stock</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Your work</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>You carve</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measure the length of the bit&apos;s point, from its rim to its tip, and give it here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none are asked for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no rate is given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>about {:.1f} hours</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Try the bit and its stop in waste first: every hole must end short of the finished surface.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Figure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What it says</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>By which rule</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>⊕ show</source>
        <extracomment>The column that takes what room is left; the most of the main window&apos;s height that the table opens with. What a row can show in the 3D view, and how it is said: a place, or only the stack or joint that it names.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Double click or press Enter: the 3D view goes to the place and marks it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>select</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Double click or press Enter: what it names is selected and seen in the 3D view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>✓ ok</source>
        <extracomment>Whose mark in the 3D view it is, and how much of the model is seen round it. The verdict is read as a word with a mark before it; no colour is needed.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>! caution</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>✕ stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Check again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look deeper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Make what takes longer: the deep check of strength, a year in the room</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finished piece…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Say how the piece is used, and what else is asked of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Checks of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>whichever costs less</source>
        <extracomment>Least width of the bar of progress beside its buttons, pixels. Time between two looks at the buttons while a better plan is sought, s. What is shown for the words of an option.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing to cut yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There are no boards on the rack: open the board rack and put yours there, or boards to buy.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Staves</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To buy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Yield</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cost</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Found by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Look longer for a cheaper plan, then for how good any can be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keep the best plan found so far</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Saw</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} for {} layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} from the rack, {} to buy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{:.0f} % of the boards becomes staves</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looking for how good a plan can be at all …</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no plan to keep: mend what the panel says first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cutting plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bench page</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bench page was written to {}: open it in a browser, on a phone too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Folder for SVG and DXF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} sheets were written to {} as SVG.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pages of the layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>same paper</source>
        <extracomment>Templates are tiled over the paper of the other sheets.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is nothing to draw yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sheets</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Title</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Drawn by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Templates on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lengths in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PDF file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paper for the lists and overviews</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paper for the full-size templates: the same, a larger one, or a roll such as “roll 610mm”</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>millimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>inches and fractions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How lengths are written; the templates are full size either way</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to 1/{} in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Inches are written to the nearest of these</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Other unit in brackets</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The kinds of sheets that the book holds; contents and cautions are always there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write PDF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open it in the viewer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>SVG and DXF…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Every sheet as SVG, layers and templates as DXF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Print…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Print true size, or open the PDF to print it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pages to edit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A TechDraw page for each layer, to dimension as you like</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bench page…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The glue-up with its clocks, in one file for a phone or tablet without a network</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Previous</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Next</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Print at 100 %, “actual size”, and measure the 100 mm square before you cut.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Page {} of {}: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Say where the PDF should go: give a file name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} pages were written to {}. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The PDF is open in your viewer: print it from there at “actual size”, 100 %. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} pages went to the printer. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} sheets as SVG and {} outlines as DXF were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> {} drawings from before lie there too: see whether they still hold.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} pages were added to the tree: double-click one to edit and dimension it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Every layer has its page already: you find them in the tree.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Title and paper of the drawings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hollow layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Voids</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood saved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Least wall</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Glue area left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Air</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at least {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{:.0f} % or more; least between layers {} and {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} closed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>vented to the underside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” has no stack: give it one in its properties, or delete it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>proud and wedged</source>
        <extracomment>Options that the panel asks in a way of its own, and what is shown for the words of another.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mortise and tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two of the stacks have the same name: give each a label of its own first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} of the point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Use selected vertex, circle or face</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The direction in which the tenon runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where it runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Through x</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Side of the mortise, or its diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Second side of the mortise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Relief of my own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Otherwise each end-grain wall is cut back as far as the movement calls for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cut back from each end-grain wall of the mortise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as the first piece</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wood of the tenon; its grain runs along its length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Side or diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Second side</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood of the tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Relief</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tenon held by {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>through</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Depth in {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Least wood left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nearest at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wedges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boring</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The joint has no name: give it one, it is printed on the drawings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add joint {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change joint {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” has lost one of its stacks: delete it, and join the stacks again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>rectangular</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} {}, {} long</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ok</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>caution</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The mortise breaks out of the finished surface by {}: make it smaller or shallower, or move it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pins set by hand, a line each: glue line (the number of the layer below it); x; y from the axis. A glue line with any gets no others.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set by hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Laid wrongly</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>By glue line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> and {} in waste wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}, between layers {} and {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at least {} off; layer {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>every outline shows it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Board rack of {}</source>
        <extracomment>Heads as a maker reads them, and widths in pixels.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A size without a unit is in the unit of its column; 45 mm, 4.5 cm, 1-3/4 in and 8 ft can be typed too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the boards to copy: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the boards to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} boards were read. Do they replace those in the table?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing was written. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} rows were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boards of the rack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} cannot be read ({}): check that you may open it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} is not plain text in UTF-8: save it as CSV (UTF-8).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boards from a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Boards to a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slice {}</source>
        <extracomment>Options that the panel asks in a way of its own. A waste tab as it is read: not to be translated.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Layers of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The solid to slice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What stands on its drawings and in the bill; left out: the label of the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thickness of the boards as they leave the planer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thicknesses measured on your own boards, from layer 1 up: they win over the stock thickness for as many layers as you list</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The wood of this stack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name of the piece</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stock thickness</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Others at hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As planed, from layer 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Layer 1 at the other end</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lay-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stacking axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One waste tab in each line, left on the blanks of its layers for the pads of clamps and sawn off after gluing. direction: where it points, from RIGHT, to the left seen from above; out: how far beyond the widest of its blanks; further, where needed: aside 10 mm; fillet 16 mm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Waste tabs for clamps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stack height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wood in the blanks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finished form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To carve away</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Another piece is called “{}”: give this one a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}, the lowest {} as planed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} above the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as high as the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{}, {:.0f} % of the wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} already has a stack, {}: OK makes one more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change layers of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The form is not proven to lie inside the blanks of {}: do not cut. Check the stacks tells where it stands out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The form of “{}” is gone: delete the stack, or give it a form in its properties.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>worst place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>where the load hurts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>use over the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>See-through: nothing is told there.</source>
        <extracomment>Of the model that is not coloured.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>with tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>without tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>With or without tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The worst place was looked for with the mortises empty, too</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show on the form:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Loads of your own</source>
        <extracomment>Columns, what is changed most in front, and their least widths, pixels. Columns of figures, with their unit inside. The unit in the head of a column. Rows in sight.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Loads of your own, besides those of its kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add load</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Another load of your own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take the chosen loads off the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” is impossible here: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Loads, row {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this load has no name: write one, such as two children.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” is no place: write three sizes, parted by semicolons, as in 0; 120; 450.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the loads to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>own months</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Temperature</source>
        <extracomment>Columns, with their unit inside, and the least and the most that can be.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Humidity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the room where it will stand, as a room thermometer shows it by day</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Relative humidity of that room, as a hygrometer shows it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bundled climates are invented; your own months begin with those chosen last</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Temperature and humidity of your own months</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>“{}” is impossible here: give {} to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Climate, {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Does it stand and hold?</source>
        <extracomment>What is asked, in the words of its check box.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What does a year do?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finish and abrasives</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Make a quote</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Is the allowance enough?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Use and loads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Room and wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Finish and sanding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Your rates</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the work takes of the allowance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What to mind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no piece yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It weighs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Climate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} more stand in the checks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All is well</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show or hide: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looking deeper</source>
        <extracomment>How often the window asks how far the work is, ms.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Getting ready</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stopping after this step; what is finished is kept</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{} of wood</source>
        <extracomment>Kind of object → the property that holds its least cover. What a change of which property moves or words a mark.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>breaks out {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change {}…</source>
        <extracomment>Percent: enough to see the form inside the stepped block.</extracomment>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
