<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS><TS version="1.1">
<context>
    <name>StackLam</name>
    <message>
        <location filename="commands.py" line="247"/>
        <source>Bill of wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bill.py" line="47"/>
        <source>The bill is in the document. Do you want it as a CSV file too?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="70"/>
        <source>Slice form into layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="90"/>
        <source>Add mortise and tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="92"/>
        <source>Join two or more stacks by a floating tenon along an axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="110"/>
        <source>Set pins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="114"/>
        <source>Pin the layers of the selected stack, so that none can slip or be laid the wrong way round</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="126"/>
        <source>Hollow the layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="130"/>
        <source>Cut voids into the inner layers of the selected stack, to save weight and wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="262"/>
        <source>Board rack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="152"/>
        <source>List the boards on hand and those you can buy, in a spreadsheet of the document</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="52"/>
        <source>Cut the boards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="166"/>
        <source>Plan how the staves of all layers are cut from the boards of the rack, and what must be bought</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="259"/>
        <source>Carving guide</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="180"/>
        <source>Depth holes, offsets, section templates and glue lines: what guides the carving down to the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="190"/>
        <source>Plan the glue-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="205"/>
        <source>Check the stacks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="179"/>
        <source>Finished piece</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="226"/>
        <source>Layer drawings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="237"/>
        <source>Full-size templates of every layer, overviews and lists, as a PDF to print</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="251"/>
        <source>Write the bill of wood into a spreadsheet of the document, and on request into a CSV file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="261"/>
        <source>Open the example</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="commands.py" line="262"/>
        <source>Open a plant stand to try the workbench on, as a new document of your own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="example.py" line="21"/>
        <source>The example {} is missing: install the workbench again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="axisfield.py" line="20"/>
        <source>z, upright</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="axisfield.py" line="23"/>
        <source>as picked</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="axisfield.py" line="40"/>
        <source>Use selected face or edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="axisfield.py" line="44"/>
        <source>Pick a flat or round face, or a straight or circular edge, in the 3D view first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="axisfield.py" line="70"/>
        <source>Direction </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="board_picture.py" line="55"/>
        <source>Look closer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="board_picture.py" line="39"/>
        <source>The boards in a window of their own, with pieces, knots, saw cuts and their order</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="board_picture.py" line="56"/>
        <source>Look closer, at all {} pages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="board_picture.py" line="79"/>
        <source>Boards as they are cut</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="fields.py" line="183"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; cannot be worked out: write a length.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="fields.py" line="232"/>
        <source>FreeCAD gave no field to type in: save your work and start FreeCAD again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="panel.py" line="23"/>
        <source>What this panel works on is gone from the document: press Cancel, and start again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="panel.py" line="179"/>
        <source>Another panel is open: finish it with OK or Cancel first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picked_planes.py" line="33"/>
        <source>Templates at planes of your own: pick a flat face, then press Add</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picked_planes.py" line="34"/>
        <source>Add selected face</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="80"/>
        <source>Remove</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="82"/>
        <source>Nothing is selected: pick the form you want to slice, in the 3D view or in the tree.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="85"/>
        <source>{} things are selected: pick one form, and slice the others after it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="122"/>
        <source>A joint needs two stacks: slice both forms first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="128"/>
        <source>A joint needs two stacks and {} is selected: pick all that it joins.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="144"/>
        <source>There is no stack yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="146"/>
        <source>{} stacks are selected: pick one, or a layer of it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="153"/>
        <source>That cannot be measured: pick a face, an edge or a vertex of the model.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="164"/>
        <source>Pick {} in the 3D view first, then press the button.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="181"/>
        <source>That gives no direction: pick a flat or round face, or a straight or circular edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="picking.py" line="202"/>
        <source>That gives no point: pick a vertex, a circular edge, or a face for its centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="36"/>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="quantityfields.py" line="137"/>
        <source>give {} to {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="quantityfields.py" line="139"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; cannot be {}: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="quantityfields.py" line="158"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; is no whole number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rowfields.py" line="189"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d;: &#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; are no {}numbers: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="20"/>
        <source>equal layers from the bottom</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="21"/>
        <source>where they save most wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="22"/>
        <source>as few as can be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="34"/>
        <source>1-1/16 in; 3/4 in; &#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="36"/>
        <source>27 mm; 19 mm; &#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="39"/>
        <source>Other planed thicknesses at hand: layers are then laid where they need least wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="44"/>
        <source>With several thicknesses, equal layers are never the choice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="48"/>
        <source>20 in3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="51"/>
        <source>Wood that one more glue line must save to be worth its work; empty: any saving is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="54"/>
        <source>Glue lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="56"/>
        <source>Laid</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="thickness_fields.py" line="57"/>
        <source>A line must save</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="98"/>
        <source>Add</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="98"/>
        <source>Another kind of clamp</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="102"/>
        <source>Take the chosen clamps off the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="106"/>
        <source>Load CSV&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="108"/>
        <source>Clamps from a file, besides those in the table; of one name the file&apos;s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="112"/>
        <source>Save CSV&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="114"/>
        <source>The table as a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="118"/>
        <source>Keep as mine</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="120"/>
        <source>Offer these clamps in every new document</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="124"/>
        <source>Take mine</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="126"/>
        <source>The clamps that were kept, in place of those in the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="173"/>
        <source>Clamps, row {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="208"/>
        <source>Choose the clamps to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="224"/>
        <source>{} of the file&apos;s clamps are in the table.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="234"/>
        <source>The clamps were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="240"/>
        <source>These clamps were kept: every new glue-up begins with them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="247"/>
        <source>No clamps were kept yet: list yours, then press Keep as mine.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="264"/>
        <source>Clamps from a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="clamp_table.py" line="270"/>
        <source>Clamps to a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="48"/>
        <source>by the wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="55"/>
        <source>not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="61"/>
        <source>Before you begin</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="66"/>
        <source>At {}: open {}, pressed within {}, in clamps {}, cured after {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="244"/>
        <source>Glue-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="85"/>
        <source>There is nothing to glue yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="168"/>
        <source>What it takes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="34"/>
        <source>Verdict</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="106"/>
        <source>Set-ups</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="140"/>
        <source>Glue</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="116"/>
        <source>Clamps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="118"/>
        <source>As your can says</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="135"/>
        <source>Its figures are common practice: what stands on your own can says more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="141"/>
        <source>Kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="168"/>
        <source>{}, near the body</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="174"/>
        <source>Room</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="177"/>
        <source>How long each move takes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="178"/>
        <source>Cauls and refacing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="199"/>
        <source>ok: every set-up holds its limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="200"/>
        <source>stop: {} of {} set-ups break a limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="203"/>
        <source>stop: not everything could be planned</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="204"/>
        <source>stop: wait before glue is opened</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="205"/>
        <source>{}, with {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="glueup_panel.py" line="215"/>
        <source>{}: {} to see to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="70"/>
        <source>Step through the glue-up: what is not glued yet stands apart. Nothing is moved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="103"/>
        <source>Slide to see the layers come together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="152"/>
        <source>Nothing is glued yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="155"/>
        <source>Set-up {} of {}, wait {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="198"/>
        <source>ok: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="set_up_list.py" line="199"/>
        <source>stop: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="36"/>
        <source>StackLam: Python packages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="54"/>
        <source>Copy the line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="55"/>
        <source>Install</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="57"/>
        <source>Install from a folder of wheels&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="61"/>
        <source>Without a network: choose the folder that holds the packages&apos; .whl files</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="62"/>
        <source>Close</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="67"/>
        <source>Or by hand, in a terminal, and then start FreeCAD again:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="91"/>
        <source>All packages are there now: StackLam is ready.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="93"/>
        <source>Close the documents that hold stacks and open them again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="95"/>
        <source>The packages were installed: start FreeCAD again to use them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="100"/>
        <source>FreeCAD&apos;s own Python was not found: use the line below.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="127"/>
        <source>Folder that holds the wheels</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="140"/>
        <source>Installing into {} &#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="window.py" line="150"/>
        <source>{} does not start.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="34"/>
        <source>those that shops keep</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="37"/>
        <source>Your bits, as in 35 mm; 1-3/8 in; 25 mm spade. They are kept for all joints</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="41"/>
        <source>How far your drill press feeds; 0: nothing is said about it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="44"/>
        <source>At the bench</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="47"/>
        <source>Bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="bench_box.py" line="48"/>
        <source>Drill stroke (0: any)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="41"/>
        <source>from the top</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="42"/>
        <source>from the underside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="43"/>
        <source>from both</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="46"/>
        <source>right and left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="47"/>
        <source>above and below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="54"/>
        <source>twist bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="58"/>
        <source>forstner bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="68"/>
        <source>There is nothing to carve yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="60"/>
        <source>What it gives</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="117"/>
        <source>Measure it: from the bit&apos;s rim, or its full width, to the tip</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="121"/>
        <source>Depth holes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="125"/>
        <source>Length of its point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="139"/>
        <source>The sides that gauges are held against the piece from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="143"/>
        <source>Offsets and section templates</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="147"/>
        <source>Other planes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="148"/>
        <source>Gauges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="159"/>
        <source> litres an hour</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="160"/>
        <source>not measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="166"/>
        <source>Wood that you carve away in an hour, measured on a piece of yours; no rate is assumed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="167"/>
        <source>Draw the glue lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="174"/>
        <source>On the finished forms; they stay in step when you change the stacking axis or the stock</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="176"/>
        <source>Your work</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="176"/>
        <source>You carve</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="197"/>
        <source>Measure the length of the bit&apos;s point, from its rim to its tip, and give it here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="224"/>
        <source>none are asked for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="230"/>
        <source>no rate is given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="carving_panel.py" line="231"/>
        <source>about {:.1f} hours</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="35"/>
        <source>Check</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="36"/>
        <source>Figure</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="37"/>
        <source>Limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="38"/>
        <source>What it says</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="39"/>
        <source>By which rule</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="40"/>
        <source>Place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="48"/>
        <source>&#xe2;&#x8a;&#x95; show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="49"/>
        <source>Double click or press Enter: the 3D view goes to the place and marks it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="52"/>
        <source>select</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="53"/>
        <source>Double click or press Enter: what it names is selected and seen in the 3D view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="60"/>
        <source>&#xe2;&#x9c;&#x93; ok</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="61"/>
        <source>! caution</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="62"/>
        <source>&#xe2;&#x9c;&#x95; stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="137"/>
        <source>Check again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="140"/>
        <source>Look deeper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="144"/>
        <source>Make what takes longer: the deep check of strength, a year in the room</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="146"/>
        <source>Finished piece&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="148"/>
        <source>Say how the piece is used, and what else is asked of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="check_table.py" line="185"/>
        <source>Checks of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="43"/>
        <source>whichever costs less</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="55"/>
        <source>There is nothing to cut yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="107"/>
        <source>Staves</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="123"/>
        <source>Boards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="86"/>
        <source>To buy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="87"/>
        <source>Yield</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="88"/>
        <source>Cost</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="89"/>
        <source>How good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="90"/>
        <source>Found by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="93"/>
        <source>Look longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="95"/>
        <source>Look longer for a cheaper plan, then for how good any can be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slow_look.py" line="56"/>
        <source>Stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="99"/>
        <source>Keep the best plan found so far</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="106"/>
        <source>Saw</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="142"/>
        <source>{} for {} layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="143"/>
        <source>{} from the rack, {} to buy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="23"/>
        <source>nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="145"/>
        <source>{:.0f} % of the boards becomes staves</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="190"/>
        <source>Looking for how good a plan can be at all &#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="241"/>
        <source>There is no plan to keep: mend what the panel says first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="cutboards_panel.py" line="242"/>
        <source>Cutting plan</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawing_outputs.py" line="61"/>
        <source>Bench page</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawing_outputs.py" line="73"/>
        <source>The bench page was written to {}: open it in a browser, on a phone too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawing_outputs.py" line="79"/>
        <source>Folder for SVG and DXF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawing_outputs.py" line="98"/>
        <source>{} sheets were written to {} as SVG.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawing_outputs.py" line="108"/>
        <source>Pages of the layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="46"/>
        <source>same paper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="74"/>
        <source>There is nothing to draw yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="95"/>
        <source>Sheets</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="97"/>
        <source>Title</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="98"/>
        <source>Drawn by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="99"/>
        <source>Paper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="100"/>
        <source>Templates on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="101"/>
        <source>Lengths in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="104"/>
        <source>PDF file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="125"/>
        <source>Paper for the lists and overviews</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="132"/>
        <source>Paper for the full-size templates: the same, a larger one, or a roll such as &#xe2;&#x80;&#x9c;roll 610mm&#xe2;&#x80;&#x9d;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="139"/>
        <source>millimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="139"/>
        <source>inches and fractions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="141"/>
        <source>How lengths are written; the templates are full size either way</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="145"/>
        <source>to 1/{} in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="147"/>
        <source>Inches are written to the nearest of these</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="149"/>
        <source>Other unit in brackets</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="159"/>
        <source>The kinds of sheets that the book holds; contents and cautions are always there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="176"/>
        <source>Write PDF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="179"/>
        <source>Open it in the viewer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="184"/>
        <source>SVG and DXF&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="185"/>
        <source>Every sheet as SVG, layers and templates as DXF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="189"/>
        <source>Print&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="190"/>
        <source>Print true size, or open the PDF to print it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="194"/>
        <source>Pages to edit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="195"/>
        <source>A TechDraw page for each layer, to dimension as you like</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="199"/>
        <source>Bench page&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="200"/>
        <source>The glue-up with its clocks, in one file for a phone or tablet without a network</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="211"/>
        <source>Previous</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="212"/>
        <source>Next</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="278"/>
        <source>Print at 100 %, &#xe2;&#x80;&#x9c;actual size&#xe2;&#x80;&#x9d;, and measure the 100 mm square before you cut.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="287"/>
        <source>Page {} of {}: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="299"/>
        <source>Say where the PDF should go: give a file name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="311"/>
        <source>{} pages were written to {}. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="326"/>
        <source>The PDF is open in your viewer: print it from there at &#xe2;&#x80;&#x9c;actual size&#xe2;&#x80;&#x9d;, 100 %. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="333"/>
        <source>{} pages went to the printer. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="347"/>
        <source>{} sheets as SVG and {} outlines as DXF were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="348"/>
        <source> {} drawings from before lie there too: see whether they still hold.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="370"/>
        <source>{} pages were added to the tree: double-click one to edit and dimension it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="373"/>
        <source>Every layer has its page already: you find them in the tree.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="drawings.py" line="383"/>
        <source>Title and paper of the drawings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="36"/>
        <source>Hollow layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="52"/>
        <source>Voids</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="53"/>
        <source>Wood saved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="54"/>
        <source>Least wall</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="55"/>
        <source>Glue area left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="52"/>
        <source>Air</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="83"/>
        <source>at least {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="88"/>
        <source>{:.0f} % or more; least between layers {} and {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="93"/>
        <source>all of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="96"/>
        <source>{} closed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="hollow_panel.py" line="99"/>
        <source>vented to the underside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="146"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; has no stack: give it one in its properties, or delete it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="inside_panel.py" line="30"/>
        <source>{} of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="inside_panel.py" line="80"/>
        <source>Change {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="58"/>
        <source>proud and wedged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="184"/>
        <source>Mortise and tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="75"/>
        <source>Two of the stacks have the same name: give each a label of its own first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="140"/>
        <source>{} of the point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="143"/>
        <source>Use selected vertex, circle or face</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="147"/>
        <source>The direction in which the tenon runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="150"/>
        <source>Where it runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="152"/>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="153"/>
        <source>Through x</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="157"/>
        <source>Axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="165"/>
        <source>Side of the mortise, or its diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="166"/>
        <source>Second side of the mortise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="167"/>
        <source>Relief of my own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="172"/>
        <source>Otherwise each end-grain wall is cut back as far as the movement calls for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="175"/>
        <source>Cut back from each end-grain wall of the mortise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="179"/>
        <source>as the first piece</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="181"/>
        <source>The wood of the tenon; its grain runs along its length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="187"/>
        <source>Side or diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="188"/>
        <source>Second side</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="192"/>
        <source>Wood of the tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="220"/>
        <source>Relief</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="207"/>
        <source>Tenon held by {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="208"/>
        <source>through</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="212"/>
        <source>Depth in {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="217"/>
        <source>Tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="63"/>
        <source>Least wood left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="219"/>
        <source>Nearest at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="221"/>
        <source>Wedges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="222"/>
        <source>Boring</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="255"/>
        <source>The joint has no name: give it one, it is printed on the drawings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="315"/>
        <source>Add joint {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="320"/>
        <source>Change joint {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_panel.py" line="348"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; has lost one of its stacks: delete it, and join the stacks again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="17"/>
        <source>rectangular</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="18"/>
        <source>in diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="28"/>
        <source>{} {}, {} long</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="53"/>
        <source>stop</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="53"/>
        <source>ok</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="joint_words.py" line="56"/>
        <source>caution</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="62"/>
        <source>Pins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="56"/>
        <source>Set by hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="64"/>
        <source>Laid wrongly</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="68"/>
        <source>By glue line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="86"/>
        <source> and {} in waste wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="93"/>
        <source>{}, between layers {} and {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="105"/>
        <source>at least {} off; layer {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="pins_panel.py" line="110"/>
        <source>every outline shows it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="91"/>
        <source>Board rack of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="207"/>
        <source>Choose the boards to copy: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="217"/>
        <source>Choose the boards to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="263"/>
        <source>{} boards were read. Do they replace those in the table?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="279"/>
        <source>Nothing was written. {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="285"/>
        <source>{} rows were written to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="294"/>
        <source>Boards of the rack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="333"/>
        <source>{} cannot be read ({}): check that you may open it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="337"/>
        <source>{} is not plain text in UTF-8: save it as CSV (UTF-8).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="345"/>
        <source>Boards from a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="rack_editor.py" line="354"/>
        <source>Boards to a file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="299"/>
        <source>Slice {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="62"/>
        <source>Layers of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="96"/>
        <source>The solid to slice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="102"/>
        <source>What stands on its drawings and in the bill; left out: the label of the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="105"/>
        <source>Thickness of the boards as they leave the planer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="121"/>
        <source>The wood of this stack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="125"/>
        <source>Form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="126"/>
        <source>Name of the piece</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="127"/>
        <source>Stock thickness</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="128"/>
        <source>Others at hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="129"/>
        <source>As planed, from layer 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="131"/>
        <source>Wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="139"/>
        <source>Layer 1 at the other end</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="143"/>
        <source>Lay-up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="144"/>
        <source>Stacking axis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="162"/>
        <source>Waste tabs for clamps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="170"/>
        <source>Layers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="171"/>
        <source>Stack height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="172"/>
        <source>Wood in the blanks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="173"/>
        <source>Finished form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="174"/>
        <source>To carve away</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="210"/>
        <source>Another piece is called &#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d;: give this one a name of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="256"/>
        <source>{}, the lowest {} as planed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="262"/>
        <source>{} above the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="265"/>
        <source>as high as the form</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="271"/>
        <source>{}, {:.0f} % of the wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="286"/>
        <source>{} already has a stack, {}: OK makes one more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="305"/>
        <source>Change layers of {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slice_panel.py" line="327"/>
        <source>The form of &#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; is gone: delete the stack, or give it a form in its properties.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="24"/>
        <source>worst place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="25"/>
        <source>where the load hurts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="26"/>
        <source>use over the surface</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="32"/>
        <source>See-through: nothing is told there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="45"/>
        <source>with tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="46"/>
        <source>without tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="47"/>
        <source>With or without tenon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="48"/>
        <source>The worst place was looked for with the mortises empty, too</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="deep_picture.py" line="49"/>
        <source>Show on the form:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="54"/>
        <source>Loads of your own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="72"/>
        <source>Loads of your own, besides those of its kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="78"/>
        <source>Add load</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="78"/>
        <source>Another load of your own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="82"/>
        <source>Take the chosen loads off the table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="139"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; is impossible here: {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="149"/>
        <source>Loads, row {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="166"/>
        <source>this load has no name: write one, such as two children.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="174"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; is no place: write three sizes, parted by semicolons, as in 0; 120; 450.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="load_table.py" line="197"/>
        <source>Choose the loads to remove: click their rows first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="23"/>
        <source>own months</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="24"/>
        <source>Temperature</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="25"/>
        <source>Humidity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="28"/>
        <source>Of the room where it will stand, as a room thermometer shows it by day</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="29"/>
        <source>Relative humidity of that room, as a hygrometer shows it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="45"/>
        <source>Bundled climates are invented; your own months begin with those chosen last</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="48"/>
        <source>Temperature and humidity of your own months</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="103"/>
        <source>&#xe2;&#x80;&#x9c;{}&#xe2;&#x80;&#x9d; is impossible here: give {} to {}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="month_table.py" line="105"/>
        <source>Climate, {}, {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="36"/>
        <source>Does it stand and hold?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="37"/>
        <source>What does a year do?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="38"/>
        <source>Finish and abrasives</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="39"/>
        <source>Make a quote</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="40"/>
        <source>Is the allowance enough?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="43"/>
        <source>Use and loads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="44"/>
        <source>Room and wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="45"/>
        <source>Finish and sanding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="46"/>
        <source>Your rates</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="47"/>
        <source>What the work takes of the allowance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="51"/>
        <source>What to mind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="63"/>
        <source>There is no piece yet: slice a form into layers first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="84"/>
        <source>What is found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="86"/>
        <source>It weighs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="101"/>
        <source>Climate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="147"/>
        <source>{} more stand in the checks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="piece_panel.py" line="152"/>
        <source>All is well</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="section.py" line="27"/>
        <source>Show or hide: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="section.py" line="32"/>
        <source>Settings: {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slow_look.py" line="54"/>
        <source>Looking deeper</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slow_look.py" line="55"/>
        <source>Getting ready</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="slow_look.py" line="114"/>
        <source>Stopping after this step; what is finished is kept</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="marks.py" line="68"/>
        <source>{} of wood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="marks.py" line="70"/>
        <source>breaks out {}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <location filename="viewproviders.py" line="101"/>
        <source>Change {}&#xe2;&#x80;&#xa6;</source>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
