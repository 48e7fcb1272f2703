<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE">
<context>
    <name>StackLam</name>
    <message>
        <source>Planning</source>
        <translation>Planen</translation>
    </message>
    <message>
        <source>Bill of wood</source>
        <translation>Holzliste</translation>
    </message>
    <message>
        <source>The bill is in the document. Do you want it as a CSV file too?</source>
        <translation>Die Holzliste steht im Dokument. Soll sie auch als CSV-Datei geschrieben werden?</translation>
    </message>
    <message>
        <source>Slice form into layers</source>
        <extracomment>The packages without which it cannot work. FreeCAD's own word for a command that may be pressed while a panel is open, or empty.</extracomment>
        <translation>Form in Schichten teilen</translation>
    </message>
    <message>
        <source>Slice the selected form into layers that can be cut from your boards. With a stack selected, change it.</source>
        <translation>Teilt die gewählte Form in Schichten, die sich aus Ihren Brettern schneiden lassen. Ist ein Block gewählt, wird er geändert.</translation>
    </message>
    <message>
        <source>Add mortise and tenon</source>
        <translation>Zapfenverbindung einfügen</translation>
    </message>
    <message>
        <source>Join two or more stacks by a floating tenon along an axis</source>
        <translation>Verbindet zwei oder mehr Blöcke durch einen losen Zapfen entlang einer Achse</translation>
    </message>
    <message>
        <source>Set pins</source>
        <translation>Dübel setzen</translation>
    </message>
    <message>
        <source>Pin the layers of the selected stack, so that none can slip or be laid the wrong way round</source>
        <translation>Verdübelt die Schichten des gewählten Blocks, damit keine verrutschen oder falsch herum liegen kann</translation>
    </message>
    <message>
        <source>Hollow the layers</source>
        <translation>Schichten aushöhlen</translation>
    </message>
    <message>
        <source>Cut voids into the inner layers of the selected stack, to save weight and wood</source>
        <translation>Schneidet Hohlräume in die inneren Schichten des gewählten Blocks, um Gewicht und Holz zu sparen</translation>
    </message>
    <message>
        <source>Board rack</source>
        <translation>Holzlager</translation>
    </message>
    <message>
        <source>List the boards on hand and those you can buy, in a spreadsheet of the document</source>
        <translation>Ihre Bretter und die, die Sie kaufen können, in einer Tabelle des Dokuments</translation>
    </message>
    <message>
        <source>Cut the boards</source>
        <translation>Bretter zuschneiden</translation>
    </message>
    <message>
        <source>Plan how the staves of all layers are cut from the boards of the rack, and what must be bought</source>
        <translation>Plant, wie die Lamellen aller Schichten aus den Brettern des Lagers geschnitten werden und was zu kaufen ist</translation>
    </message>
    <message>
        <source>Carving guide</source>
        <translation>Schnitzhilfe</translation>
    </message>
    <message>
        <source>Depth holes, offsets, section templates and glue lines: what guides the carving down to the form</source>
        <translation>Tiefenbohrungen, Maßtabellen, Querschnittschablonen und Leimfugen: was beim Ausformen leitet</translation>
    </message>
    <message>
        <source>Plan the glue-up</source>
        <translation>Verleimung planen</translation>
    </message>
    <message>
        <source>Which layers are glued at once, in which order, with the clamps, the glue and the hands at hand</source>
        <translation>Welche Schichten zugleich verleimt werden und in welcher Folge, mit den Zwingen, dem Leim und den Händen, die da sind</translation>
    </message>
    <message>
        <source>Check the stacks</source>
        <translation>Blöcke prüfen</translation>
    </message>
    <message>
        <source>Show what the checks say: does the form lie inside its blanks, is there enough wood round the joints</source>
        <translation>Zeigt, was die Prüfungen sagen: liegt die Form in ihren Zuschnitten, ist um die Verbindungen genug Holz</translation>
    </message>
    <message>
        <source>Finished piece</source>
        <extracomment>Sentences shown, at most: the rest is in the checks.</extracomment>
        <translation>Fertiges Stück</translation>
    </message>
    <message>
        <source>Say how the piece will be used and where: does it stand and hold, what does a year do to it</source>
        <translation>Sagen Sie, wie das Stück benutzt wird und wo: steht und hält es, was macht ein Jahr mit ihm</translation>
    </message>
    <message>
        <source>Layer drawings</source>
        <extracomment>Kinds of sheets that the maker ticked or unticked, kept until FreeCAD ends. Dots per inch of a page in the panel, and the most dots along its longer side.</extracomment>
        <translation>Schichtzeichnungen</translation>
    </message>
    <message>
        <source>Full-size templates of every layer, overviews and lists, as a PDF to print</source>
        <translation>Schablonen jeder Schicht in wahrer Größe, Übersichten und Listen, als PDF zum Drucken</translation>
    </message>
    <message>
        <source>Write the bill of wood into a spreadsheet of the document, and on request into a CSV file</source>
        <translation>Schreibt die Holzliste in eine Tabelle des Dokuments und auf Wunsch in eine CSV-Datei</translation>
    </message>
    <message>
        <source>Open the example</source>
        <translation>Beispiel öffnen</translation>
    </message>
    <message>
        <source>Open a plant stand to try the workbench on, as a new document of your own. The menu has more examples.</source>
        <translation>Öffnet einen Blumenständer zum Ausprobieren, als neues eigenes Dokument. Im Menü sind weitere Beispiele.</translation>
    </message>
    <message>
        <source>Plant stand</source>
        <extracomment>Which example, of those in `data.EXAMPLES`, and what its document is called.</extracomment>
        <translation>Blumenständer</translation>
    </message>
    <message>
        <source>First piece</source>
        <extracomment>A line of what is to do, with room below it. Stands between a figure and its unit. Milliseconds from look to look; the least width of the window, and its height where it shares a column, pixels.</extracomment>
        <translation>Erstes Stück</translation>
    </message>
    <message>
        <source>Ten minutes from an empty document to printed drawings: a guide that sees what you have done</source>
        <translation>Zehn Minuten vom leeren Dokument zu gedruckten Zeichnungen: eine Führung, die sieht, was Sie getan haben</translation>
    </message>
    <message>
        <source>Help on StackLam</source>
        <translation>Hilfe zu StackLam</translation>
    </message>
    <message>
        <source>A page for each command, the words of the trade, and the limits; no network is asked</source>
        <translation>Eine Seite zu jedem Befehl, die Wörter des Fachs und die Grenzen; ohne Netz</translation>
    </message>
    <message>
        <source>Low seat</source>
        <translation>Niedriger Sitz</translation>
    </message>
    <message>
        <source>A dished seat on three splayed legs, each leg a stack of its own</source>
        <translation>Ein gemuldeter Sitz auf drei gespreizten Beinen, jedes Bein ein eigener Block</translation>
    </message>
    <message>
        <source>Vessel</source>
        <translation>Gefäß</translation>
    </message>
    <message>
        <source>A vessel that is open inside, so that its layers are rings</source>
        <translation>Ein innen offenes Gefäß, so dass seine Schichten Ringe sind</translation>
    </message>
    <message>
        <source>Leaning table</source>
        <translation>Schräger Tisch</translation>
    </message>
    <message>
        <source>A small table on a base that leans, hollow above its foot</source>
        <translation>Ein kleiner Tisch auf schrägem Unterbau, über dem Fuß hohl</translation>
    </message>
    <message>
        <source>More examples</source>
        <extracomment>In a menu of their own, below the others. The commands as they stand in the toolbar and in the menu: what makes the stacks, what the bench needs, what comes of it, and something to try it on.</extracomment>
        <translation>Weitere Beispiele</translation>
    </message>
    <message>
        <source>The example {} is missing: install the workbench again.</source>
        <translation>Das Beispiel {} fehlt: installieren Sie den Arbeitsbereich neu.</translation>
    </message>
    <message>
        <source>Opening the example</source>
        <translation>Das Beispiel wird geöffnet</translation>
    </message>
    <message>
        <source>z, upright</source>
        <extracomment>What stands before the letter of an axis of the form's own.</extracomment>
        <translation>z, senkrecht</translation>
    </message>
    <message>
        <source>as picked</source>
        <translation>wie gewählt</translation>
    </message>
    <message>
        <source>z of the form</source>
        <translation>z der Form</translation>
    </message>
    <message>
        <source>x of the form</source>
        <translation>x der Form</translation>
    </message>
    <message>
        <source>y of the form</source>
        <translation>y der Form</translation>
    </message>
    <message>
        <source>Use selected face or edge</source>
        <extracomment>An object, and a face or edge of it; its own x, y and z where that is "".</extracomment>
        <translation>Gewählte Fläche oder Kante nehmen</translation>
    </message>
    <message>
        <source>Pick a flat or round face, or a straight or circular edge, in the 3D view first</source>
        <translation>Wählen Sie zuerst in der 3D-Ansicht eine ebene oder runde Fläche oder eine gerade oder kreisförmige Kante</translation>
    </message>
    <message>
        <source>Direction </source>
        <translation>Richtung </translation>
    </message>
    <message>
        <source>Stays so in the model, however the form is turned: {}</source>
        <translation>Bleibt im Modell so, wie die Form auch gedreht wird: {}</translation>
    </message>
    <message>
        <source>Turns with the form; now {}</source>
        <translation>Dreht sich mit der Form; jetzt {}</translation>
    </message>
    <message>
        <source>Follows {source}; now {direction}</source>
        <translation>Folgt {source}; jetzt {direction}</translation>
    </message>
    <message>
        <source>Look closer</source>
        <extracomment>Dots per inch of the large picture and of the small one.</extracomment>
        <translation>Näher ansehen</translation>
    </message>
    <message>
        <source>The boards in a window of their own, with pieces, knots, saw cuts and their order</source>
        <translation>Die Bretter in einem eigenen Fenster, mit Teilen, Ästen, Sägeschnitten und deren Folge</translation>
    </message>
    <message>
        <source>Look closer, at all {} pages</source>
        <translation>Näher ansehen, alle {} Seiten</translation>
    </message>
    <message>
        <source>Boards as they are cut</source>
        <translation>Bretter, wie sie geschnitten werden</translation>
    </message>
    <message>
        <source>“{}” cannot be worked out: write a length.</source>
        <extracomment>144 in³ in mm³. Room between a box and its rows, pixels: left, above, right, below. Milliseconds of quiet before the figures follow what is typed. Most decimals of a field in inches, enough for a fit and for sixteenths; and the fewest, FreeCAD's own. Least width of a field, and of one of two side by side, pixels: a panel is then no wider than FreeCAD's own at first. Most width that a button or a tick asks for, pixels. Least width of a line for a text: beside a long caption its words could not be read, and it goes below. The field's own value, kept beside the one that FreeCAD rounds; and why there is none, a sentence.</extracomment>
        <translation>„{}“ lässt sich nicht ausrechnen: schreiben Sie eine Länge.</translation>
    </message>
    <message>
        <source>FreeCAD gave no field to type in: save your work and start FreeCAD again.</source>
        <translation>FreeCAD hat kein Eingabefeld geliefert: speichern Sie und starten Sie FreeCAD neu.</translation>
    </message>
    <message>
        <source>What this panel works on is gone from the document: press Cancel, and start again.</source>
        <translation>Woran hier gearbeitet wird, ist aus dem Dokument verschwunden: drücken Sie Abbrechen und beginnen Sie neu.</translation>
    </message>
    <message>
        <source>Another panel is open: finish it with OK or Cancel first.</source>
        <extracomment>Width of a title, at most, pixels.</extracomment>
        <translation>Ein anderes Bedienfeld ist offen: schließen Sie es erst mit OK oder Abbrechen.</translation>
    </message>
    <message>
        <source>Templates at planes of your own: pick a flat face, then press Add</source>
        <translation>Schablonen an eigenen Ebenen: wählen Sie eine ebene Fläche, dann Hinzufügen</translation>
    </message>
    <message>
        <source>Add selected face</source>
        <translation>Gewählte Fläche hinzufügen</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Nothing is selected: pick the form you want to slice, in the 3D view or in the tree.</source>
        <translation>Nichts ist gewählt: wählen Sie in der 3D-Ansicht oder im Baum die Form, die geteilt werden soll.</translation>
    </message>
    <message>
        <source>{} things are selected: pick one form, and slice the others after it.</source>
        <translation>{} Dinge sind gewählt: wählen Sie eine Form und teilen Sie die anderen danach.</translation>
    </message>
    <message>
        <source>A joint needs two stacks: slice both forms first.</source>
        <translation>Eine Verbindung braucht zwei Blöcke: teilen Sie erst beide Formen.</translation>
    </message>
    <message>
        <source>A joint needs two stacks and {} is selected: pick all that it joins.</source>
        <translation>Eine Verbindung braucht zwei Blöcke, und {} ist gewählt: wählen Sie alles, was sie verbindet.</translation>
    </message>
    <message>
        <source>There is no stack yet: slice a form into layers first.</source>
        <translation>Es gibt noch keinen Block: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>{} stacks are selected: pick one, or a layer of it.</source>
        <translation>{} Blöcke sind gewählt: wählen Sie einen oder eine Schicht davon.</translation>
    </message>
    <message>
        <source>That cannot be measured: pick a face, an edge or a vertex of the model.</source>
        <translation>Das lässt sich nicht messen: wählen Sie eine Fläche, eine Kante oder einen Eckpunkt des Modells.</translation>
    </message>
    <message>
        <source>Pick {} in the 3D view first, then press the button.</source>
        <translation>Wählen Sie in der 3D-Ansicht erst {}, dann drücken Sie den Knopf.</translation>
    </message>
    <message>
        <source>That gives no direction: pick a flat or round face, or a straight or circular edge.</source>
        <translation>Das gibt keine Richtung: wählen Sie eine ebene oder runde Fläche oder eine gerade oder kreisförmige Kante.</translation>
    </message>
    <message>
        <source>That gives no point: pick a vertex, a circular edge, or a face for its centre.</source>
        <translation>Das gibt keinen Punkt: wählen Sie einen Eckpunkt, eine Kreiskante oder eine Fläche, deren Mitte gilt.</translation>
    </message>
    <message>
        <source>none</source>
        <extracomment>How a line looks whose text was refused: the sentence may stand out of sight. A red that reads on white (4.5 to 1, by WCAG 2.1 §1.4.3) and on the dark style (3.9 to 1). The units of figures that are lines wherever they are asked. Unit inside → unit shown and its worth, metric and in inches. From how many seconds on a time is told in minutes, and from how many in hours. Significant digits of a shown figure.
----------
Largest whole number and largest figure where a row has no bound. An area is typed in cm² or in², a volume in cm³ or in³: how many mm² and mm³ these are, and the places shown.</extracomment>
        <translation>keine</translation>
    </message>
    <message>
        <source>give {} to {}</source>
        <translation>geben Sie {} bis {} an</translation>
    </message>
    <message>
        <source>“{}” cannot be {}: {}.</source>
        <translation>„{}“ kann nicht {} sein: {}.</translation>
    </message>
    <message>
        <source>“{}” is no whole number.</source>
        <translation>„{}“ ist keine ganze Zahl.</translation>
    </message>
    <message>
        <source>“{}”: “{}” are no {}numbers: {}.</source>
        <translation>„{}“: „{}“ sind keine {}Zahlen: {}.</translation>
    </message>
    <message>
        <source>equal layers from the bottom</source>
        <translation>gleiche Schichten von unten</translation>
    </message>
    <message>
        <source>where they save most wood</source>
        <translation>wo sie am meisten Holz sparen</translation>
    </message>
    <message>
        <source>as few as can be</source>
        <translation>so wenige wie möglich</translation>
    </message>
    <message>
        <source>1-1/16 in; 3/4 in; …</source>
        <translation>1-1/16 in; 3/4 in; …</translation>
    </message>
    <message>
        <source>27 mm; 19 mm; …</source>
        <translation>27 mm; 19 mm; …</translation>
    </message>
    <message>
        <source>Other planed thicknesses at hand: layers are then laid where they need least wood</source>
        <translation>Andere gehobelte Dicken, die da sind: die Schichten liegen dann so, dass am wenigsten Holz nötig ist</translation>
    </message>
    <message>
        <source>With several thicknesses, equal layers are never the choice</source>
        <translation>Mit mehreren Dicken werden nie gleiche Schichten gewählt</translation>
    </message>
    <message>
        <source>20 in3</source>
        <translation>20 in3</translation>
    </message>
    <message>
        <source>Wood that one more glue line must save to be worth its work; empty: any saving is</source>
        <translation>Holz, das eine weitere Leimfuge sparen muss, damit sie die Arbeit wert ist; leer: jede Ersparnis zählt</translation>
    </message>
    <message>
        <source>Glue lines</source>
        <translation>Leimfugen</translation>
    </message>
    <message>
        <source>Laid</source>
        <translation>Lage</translation>
    </message>
    <message>
        <source>A line must save</source>
        <translation>Eine Fuge muss sparen</translation>
    </message>
    <message>
        <source>Add</source>
        <extracomment>Columns as they stand in the panel, what is changed most in front, and their widths, pixels. Air beside a figure, pixels. Rows in sight.</extracomment>
        <translation>Hinzufügen</translation>
    </message>
    <message>
        <source>Another kind of clamp</source>
        <translation>Eine weitere Art Zwinge</translation>
    </message>
    <message>
        <source>Take the chosen clamps off the table</source>
        <translation>Nimmt die gewählten Zwingen aus der Tabelle</translation>
    </message>
    <message>
        <source>Load CSV…</source>
        <translation>CSV laden…</translation>
    </message>
    <message>
        <source>Clamps from a file, besides those in the table; of one name the file's</source>
        <translation>Zwingen aus einer Datei zu denen der Tabelle; bei gleichem Namen gilt die Datei</translation>
    </message>
    <message>
        <source>Save CSV…</source>
        <translation>CSV sichern…</translation>
    </message>
    <message>
        <source>The table as a file</source>
        <translation>Die Tabelle als Datei</translation>
    </message>
    <message>
        <source>Keep as mine</source>
        <translation>Als meine behalten</translation>
    </message>
    <message>
        <source>Offer these clamps in every new document</source>
        <translation>Diese Zwingen in jedem neuen Dokument anbieten</translation>
    </message>
    <message>
        <source>Take mine</source>
        <translation>Meine nehmen</translation>
    </message>
    <message>
        <source>The clamps that were kept, in place of those in the table</source>
        <translation>Die behaltenen Zwingen anstelle derer in der Tabelle</translation>
    </message>
    <message>
        <source>Clamps, row {}, {}</source>
        <translation>Zwingen, Zeile {}, {}</translation>
    </message>
    <message>
        <source>Choose the clamps to remove: click their rows first.</source>
        <translation>Wählen Sie die Zwingen, die weg sollen: klicken Sie erst in ihre Zeilen.</translation>
    </message>
    <message>
        <source>{} of the file's clamps are in the table.</source>
        <translation>{} Zwingen der Datei stehen jetzt in der Tabelle.</translation>
    </message>
    <message>
        <source>The clamps were written to {}.</source>
        <translation>Die Zwingen wurden nach {} geschrieben.</translation>
    </message>
    <message>
        <source>These clamps were kept: every new glue-up begins with them.</source>
        <translation>Diese Zwingen wurden behalten: jede neue Verleimung beginnt mit ihnen.</translation>
    </message>
    <message>
        <source>No clamps were kept yet: list yours, then press Keep as mine.</source>
        <translation>Es sind noch keine Zwingen behalten: tragen Sie Ihre ein und drücken Sie „Als meine behalten“.</translation>
    </message>
    <message>
        <source>Clamps from a file</source>
        <translation>Zwingen aus einer Datei</translation>
    </message>
    <message>
        <source>Clamps to a file</source>
        <translation>Zwingen in eine Datei</translation>
    </message>
    <message>
        <source>by the wood</source>
        <extracomment>Options of the glue that are not as its kind has them: what is shown where they are left out.</extracomment>
        <translation>vom Holz her</translation>
    </message>
    <message>
        <source>not known</source>
        <extracomment>The same of the room.</extracomment>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Before you begin</source>
        <translation>Bevor Sie anfangen</translation>
    </message>
    <message>
        <source>At {}: open {}, pressed within {}, in clamps {}, cured after {}</source>
        <extracomment>What the table's times are measured at, °C.</extracomment>
        <translation>Bei {}: offen {}, unter Druck binnen {}, in Zwingen {}, abgebunden nach {}</translation>
    </message>
    <message>
        <source>Glue-up</source>
        <translation>Verleimung</translation>
    </message>
    <message>
        <source>There is nothing to glue yet: slice a form into layers first.</source>
        <translation>Es gibt noch nichts zu verleimen: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>What it takes</source>
        <translation>Was es braucht</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>Set-ups</source>
        <translation>Verleimgänge</translation>
    </message>
    <message>
        <source>Glue</source>
        <translation>Leim</translation>
    </message>
    <message>
        <source>Clamps</source>
        <translation>Zwingen</translation>
    </message>
    <message>
        <source>As your can says</source>
        <translation>Wie auf Ihrem Gebinde</translation>
    </message>
    <message>
        <source>Its figures are common practice: what stands on your own can says more</source>
        <translation>Die Werte sind allgemeine Praxis: was auf Ihrem Gebinde steht, kann mehr sagen</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>{}, near the body</source>
        <translation>{}, nah am Körper</translation>
    </message>
    <message>
        <source>Room</source>
        <translation>Raum</translation>
    </message>
    <message>
        <source>How long each move takes</source>
        <translation>Wie lange jeder Handgriff dauert</translation>
    </message>
    <message>
        <source>Cauls and refacing</source>
        <translation>Zulagen und Nachhobeln</translation>
    </message>
    <message>
        <source>ok: every set-up holds its limits</source>
        <translation>in Ordnung: jeder Verleimgang hält seine Grenzen ein</translation>
    </message>
    <message>
        <source>stop: {} of {} set-ups break a limit</source>
        <translation>Halt: {} von {} Verleimgängen überschreiten eine Grenze</translation>
    </message>
    <message>
        <source>stop: not everything could be planned</source>
        <translation>Halt: nicht alles ließ sich planen</translation>
    </message>
    <message>
        <source>stop: wait before glue is opened</source>
        <translation>Halt: warten Sie, bevor Leim geöffnet wird</translation>
    </message>
    <message>
        <source>{}, with {}</source>
        <translation>{}, mit {}</translation>
    </message>
    <message>
        <source>{}: {} to see to</source>
        <translation>{}: {} zu beachten</translation>
    </message>
    <message>
        <source>Step through the glue-up: what is not glued yet stands apart. Nothing is moved</source>
        <extracomment>Height of the list, and least width, pixels: three set-ups are in sight. Thickness of a drawn pad, mm.</extracomment>
        <translation>Gehen Sie die Verleimung durch: was noch nicht verleimt ist, steht getrennt. Nichts wird bewegt</translation>
    </message>
    <message>
        <source>Slide to see the layers come together</source>
        <translation>Schieben Sie, um zu sehen, wie die Schichten zusammenkommen</translation>
    </message>
    <message>
        <source>Nothing is glued yet</source>
        <translation>Noch ist nichts verleimt</translation>
    </message>
    <message>
        <source>Set-up {} of {}, wait {}</source>
        <translation>Verleimgang {} von {}, Wartezeit {}</translation>
    </message>
    <message>
        <source>ok: {}</source>
        <translation>in Ordnung: {}</translation>
    </message>
    <message>
        <source>stop: {}</source>
        <translation>Halt: {}</translation>
    </message>
    <message>
        <source>StackLam: Python packages</source>
        <translation>StackLam: Python-Pakete</translation>
    </message>
    <message>
        <source>Copy the line</source>
        <translation>Zeile kopieren</translation>
    </message>
    <message>
        <source>Install</source>
        <translation>Installieren</translation>
    </message>
    <message>
        <source>Install from a folder of wheels…</source>
        <translation>Aus einem Ordner mit Wheels installieren…</translation>
    </message>
    <message>
        <source>Without a network: choose the folder that holds the packages' .whl files</source>
        <translation>Ohne Netz: wählen Sie den Ordner mit den .whl-Dateien der Pakete</translation>
    </message>
    <message>
        <source>Back</source>
        <extracomment>Size of the window, pixels, where the screen is large enough; and room in the cells of tables.</extracomment>
        <translation>Zurück</translation>
    </message>
    <message>
        <source>Contents</source>
        <translation>Inhalt</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>The help page “{}” is not there: put the folder docs back beside StackLam.</source>
        <translation>Die Hilfeseite „{}“ ist nicht da: legen Sie den Ordner docs wieder neben StackLam.</translation>
    </message>
    <message>
        <source>StackLam: {}</source>
        <translation>StackLam: {}</translation>
    </message>
    <message>
        <source>Or by hand, in a terminal, and then start FreeCAD again:</source>
        <translation>Oder von Hand in einem Terminal, danach FreeCAD neu starten:</translation>
    </message>
    <message>
        <source>All packages are there now: StackLam is ready.</source>
        <translation>Alle Pakete sind jetzt da: StackLam ist bereit.</translation>
    </message>
    <message>
        <source>Close the documents that hold stacks and open them again.</source>
        <translation>Schließen Sie die Dokumente mit Blöcken und öffnen Sie sie wieder.</translation>
    </message>
    <message>
        <source>The packages were installed: start FreeCAD again to use them.</source>
        <translation>Die Pakete wurden installiert: starten Sie FreeCAD neu, um sie zu benutzen.</translation>
    </message>
    <message>
        <source>FreeCAD's own Python was not found: use the line below.</source>
        <translation>FreeCADs eigenes Python wurde nicht gefunden: nehmen Sie die Zeile unten.</translation>
    </message>
    <message>
        <source>Folder that holds the wheels</source>
        <translation>Ordner mit den Wheels</translation>
    </message>
    <message>
        <source>Installing into {} …</source>
        <translation>Wird nach {} installiert …</translation>
    </message>
    <message>
        <source>{} does not start.</source>
        <translation>{} startet nicht.</translation>
    </message>
    <message>
        <source>those that shops keep</source>
        <extracomment>Options of a joint that are about the bench.</extracomment>
        <translation>die handelsüblichen</translation>
    </message>
    <message>
        <source>Your bits, as in 35 mm; 1-3/8 in; 25 mm spade. They are kept for all joints</source>
        <translation>Ihre Bohrer, etwa 35 mm; 1-3/8 in; 25 mm spade. Sie gelten für alle Verbindungen</translation>
    </message>
    <message>
        <source>How far your drill press feeds; 0: nothing is said about it</source>
        <translation>Wie weit Ihre Ständerbohrmaschine zustellt; 0: dazu wird nichts gesagt</translation>
    </message>
    <message>
        <source>At the bench</source>
        <translation>An der Werkbank</translation>
    </message>
    <message>
        <source>Bits</source>
        <translation>Bohrer</translation>
    </message>
    <message>
        <source>Drill stroke (0: any)</source>
        <translation>Bohrhub (0: beliebig)</translation>
    </message>
    <message>
        <source>from the top</source>
        <translation>von oben</translation>
    </message>
    <message>
        <source>from the underside</source>
        <translation>von unten</translation>
    </message>
    <message>
        <source>from both</source>
        <translation>von beiden</translation>
    </message>
    <message>
        <source>right and left</source>
        <translation>rechts und links</translation>
    </message>
    <message>
        <source>above and below</source>
        <translation>oben und unten</translation>
    </message>
    <message>
        <source>twist bit</source>
        <extracomment>Options that the panel asks in a way of its own. What is shown for the words of an option.</extracomment>
        <translation>Spiralbohrer</translation>
    </message>
    <message>
        <source>forstner bit</source>
        <translation>Forstnerbohrer</translation>
    </message>
    <message>
        <source>There is nothing to carve yet: slice a form into layers first.</source>
        <translation>Es gibt noch nichts zu schnitzen: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>What it gives</source>
        <translation>Was es gibt</translation>
    </message>
    <message>
        <source>Holes from the rough surface that stop short of the finished one, as a gauge for carving</source>
        <translation>Bohrungen von der rohen Oberfläche, die vor der fertigen enden, als Maß beim Ausformen</translation>
    </message>
    <message>
        <source>Measure it: from the bit's rim, or its full width, to the tip</source>
        <translation>Messen Sie: vom Rand des Bohrers oder seiner vollen Breite bis zur Spitze</translation>
    </message>
    <message>
        <source>Depth holes</source>
        <translation>Tiefenbohrungen</translation>
    </message>
    <message>
        <source>Settings of the stop</source>
        <translation>Einstellungen des Anschlags</translation>
    </message>
    <message>
        <source>Deepest hole</source>
        <translation>Tiefstes Loch</translation>
    </message>
    <message>
        <source>Shallowest hole</source>
        <translation>Flachstes Loch</translation>
    </message>
    <message>
        <source>To carve</source>
        <translation>Abzutragen</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Zeit</translation>
    </message>
    <message>
        <source>Left out</source>
        <translation>Weggelassen</translation>
    </message>
    <message>
        <source>Length of its point</source>
        <translation>Länge seiner Spitze</translation>
    </message>
    <message>
        <source>The sides that gauges are held against the piece from</source>
        <translation>Die Seiten, an die Lehren gehalten werden</translation>
    </message>
    <message>
        <source>Offsets and section templates</source>
        <translation>Maßtabelle und Querschnittschablonen</translation>
    </message>
    <message>
        <source>Other planes</source>
        <translation>Andere Ebenen</translation>
    </message>
    <message>
        <source>Gauges</source>
        <translation>Lehren</translation>
    </message>
    <message>
        <source> litres an hour</source>
        <translation> Liter je Stunde</translation>
    </message>
    <message>
        <source>not measured</source>
        <translation>nicht gemessen</translation>
    </message>
    <message>
        <source>Wood that you carve away in an hour, measured on a piece of yours; no rate is assumed</source>
        <translation>Holz, das Sie in einer Stunde abtragen, an einem eigenen Stück gemessen; keine Leistung wird angenommen</translation>
    </message>
    <message>
        <source>Draw the glue lines</source>
        <translation>Leimfugen zeichnen</translation>
    </message>
    <message>
        <source>On the finished forms; they stay in step when you change the stacking axis or the stock</source>
        <translation>Auf den fertigen Formen; sie folgen, wenn Sie Stapelachse oder Brettdicke ändern</translation>
    </message>
    <message>
        <source>Your work</source>
        <translation>Ihre Arbeit</translation>
    </message>
    <message>
        <source>You carve</source>
        <translation>Sie schnitzen</translation>
    </message>
    <message>
        <source>Measure the length of the bit's point, from its rim to its tip, and give it here.</source>
        <translation>Messen Sie die Länge der Bohrerspitze vom Rand bis zur Spitze und tragen Sie sie hier ein.</translation>
    </message>
    <message>
        <source>none are asked for</source>
        <translation>keine verlangt</translation>
    </message>
    <message>
        <source>no rate is given</source>
        <translation>keine Leistung angegeben</translation>
    </message>
    <message>
        <source>about {:.1f} hours</source>
        <translation>etwa {:.1f} Stunden</translation>
    </message>
    <message>
        <source>Try the bit and its stop in waste first: every hole must end short of the finished surface.</source>
        <translation>Probieren Sie Bohrer und Anschlag erst in Abfallholz: jede Bohrung muss vor der fertigen Oberfläche enden.</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>Figure</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Limit</source>
        <translation>Grenze</translation>
    </message>
    <message>
        <source>What it says</source>
        <translation>Was sie sagt</translation>
    </message>
    <message>
        <source>By which rule</source>
        <translation>Nach welcher Regel</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Stelle</translation>
    </message>
    <message>
        <source>⊕ show</source>
        <extracomment>The column that takes what room is left; the most of the main window's height that the table opens with. What a row can show in the 3D view, and how it is said: a place, or only the stack or joint that it names.</extracomment>
        <translation>⊕ zeigen</translation>
    </message>
    <message>
        <source>Double click or press Enter: the 3D view goes to the place and marks it</source>
        <translation>Doppelklick oder Eingabetaste: die 3D-Ansicht geht zur Stelle und markiert sie</translation>
    </message>
    <message>
        <source>select</source>
        <translation>wählen</translation>
    </message>
    <message>
        <source>Double click or press Enter: what it names is selected and seen in the 3D view</source>
        <translation>Doppelklick oder Eingabetaste: was genannt ist, wird gewählt und in der 3D-Ansicht gezeigt</translation>
    </message>
    <message>
        <source>✓ ok</source>
        <extracomment>Whose mark in the 3D view it is, and how much of the model is seen round it. The verdict is read as a word with a mark before it; no colour is needed.</extracomment>
        <translation>✓ in Ordnung</translation>
    </message>
    <message>
        <source>! caution</source>
        <translation>! Vorsicht</translation>
    </message>
    <message>
        <source>✕ stop</source>
        <translation>✕ Halt</translation>
    </message>
    <message>
        <source>Do not cut yet: {} of {} checks say stop.</source>
        <translation>Noch nicht schneiden: {} von {} Prüfungen sagen Halt.</translation>
    </message>
    <message>
        <source>Nothing says stop; {} of {} checks ask for care.</source>
        <translation>Nichts sagt Halt; {} von {} Prüfungen verlangen Vorsicht.</translation>
    </message>
    <message>
        <source>All {} checks are well.</source>
        <translation>Alle {} Prüfungen sind in Ordnung.</translation>
    </message>
    <message>
        <source>Check again</source>
        <translation>Neu prüfen</translation>
    </message>
    <message>
        <source>Look deeper</source>
        <translation>Genauer nachsehen</translation>
    </message>
    <message>
        <source>Make what takes longer: the deep check of strength, a year in the room</source>
        <translation>Macht, was länger dauert: die genaue Festigkeitsprüfung und ein Jahr im Raum</translation>
    </message>
    <message>
        <source>Finished piece…</source>
        <translation>Fertiges Stück…</translation>
    </message>
    <message>
        <source>Say how the piece is used, and what else is asked of it</source>
        <translation>Sagen Sie, wie das Stück benutzt wird und was sonst von ihm verlangt ist</translation>
    </message>
    <message>
        <source>Checking</source>
        <translation>Wird geprüft</translation>
    </message>
    <message>
        <source>Checks of {}</source>
        <translation>Prüfungen von {}</translation>
    </message>
    <message>
        <source>whichever costs less</source>
        <extracomment>Least width of the bar of progress beside its buttons, pixels. Time between two looks at the buttons while a better plan is sought, s. What is shown for the words of an option.</extracomment>
        <translation>was weniger kostet</translation>
    </message>
    <message>
        <source>There is nothing to cut yet: slice a form into layers first.</source>
        <translation>Es gibt noch nichts zu schneiden: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>There are no boards on the rack: open the board rack and put yours there, or boards to buy.</source>
        <translation>Im Lager sind keine Bretter: öffnen Sie das Holzlager und tragen Sie Ihre ein oder solche, die zu kaufen sind.</translation>
    </message>
    <message>
        <source>Staves</source>
        <translation>Lamellen</translation>
    </message>
    <message>
        <source>Boards</source>
        <translation>Bretter</translation>
    </message>
    <message>
        <source>To buy</source>
        <translation>Zu kaufen</translation>
    </message>
    <message>
        <source>Yield</source>
        <translation>Ausbeute</translation>
    </message>
    <message>
        <source>Cost</source>
        <translation>Kosten</translation>
    </message>
    <message>
        <source>How good</source>
        <translation>Wie gut</translation>
    </message>
    <message>
        <source>Found by</source>
        <translation>Gefunden durch</translation>
    </message>
    <message>
        <source>Look longer</source>
        <translation>Länger suchen</translation>
    </message>
    <message>
        <source>Look longer for a cheaper plan, then for how good any can be</source>
        <translation>Sucht länger nach einem billigeren Plan und dann, wie gut einer überhaupt sein kann</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Aufhören</translation>
    </message>
    <message>
        <source>Keep the best plan found so far</source>
        <translation>Behält den besten Plan, der bis jetzt gefunden ist</translation>
    </message>
    <message>
        <source>Saw</source>
        <translation>Sägen</translation>
    </message>
    <message>
        <source>{} for {} layers</source>
        <translation>{} für {} Schichten</translation>
    </message>
    <message>
        <source>{} from the rack, {} to buy</source>
        <translation>{} aus dem Lager, {} zu kaufen</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>{:.0f} % of the boards becomes staves</source>
        <translation>{:.0f} % der Bretter werden zu Lamellen</translation>
    </message>
    <message>
        <source>… and {} more seams.</source>
        <translation>… und {} weitere Stoßfugen.</translation>
    </message>
    <message>
        <source>Looking for how good a plan can be at all …</source>
        <translation>Sucht, wie gut ein Plan überhaupt sein kann …</translation>
    </message>
    <message>
        <source>There is no plan to keep: mend what the panel says first.</source>
        <translation>Es gibt keinen Plan zu behalten: beheben Sie erst, was hier gesagt wird.</translation>
    </message>
    <message>
        <source>Cutting plan</source>
        <translation>Zuschnittplan</translation>
    </message>
    <message>
        <source>Bench page</source>
        <extracomment>Kinds of sheets that are ticked only when asked for: tables and reports to be read, and not to work by.</extracomment>
        <translation>Werkbankseite</translation>
    </message>
    <message>
        <source>The bench page was written to {}: open it in a browser, on a phone too.</source>
        <translation>Die Werkbankseite wurde nach {} geschrieben: öffnen Sie sie in einem Browser, auch am Telefon.</translation>
    </message>
    <message>
        <source>Folder for SVG and DXF</source>
        <translation>Ordner für SVG und DXF</translation>
    </message>
    <message>
        <source>{} sheets were written to {} as SVG.</source>
        <translation>{} Blätter wurden als SVG nach {} geschrieben.</translation>
    </message>
    <message>
        <source>Pages of the layers</source>
        <translation>Seiten der Schichten</translation>
    </message>
    <message>
        <source>Writing the drawings</source>
        <translation>Die Zeichnungen werden geschrieben</translation>
    </message>
    <message>
        <source>same paper</source>
        <extracomment>Templates are tiled over the paper of the other sheets.</extracomment>
        <translation>gleiches Papier</translation>
    </message>
    <message>
        <source>There is nothing to draw yet: slice a form into layers first.</source>
        <translation>Es gibt noch nichts zu zeichnen: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>Sheets</source>
        <translation>Blätter</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titel</translation>
    </message>
    <message>
        <source>Drawn by</source>
        <translation>Gezeichnet von</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>Templates on</source>
        <translation>Schablonen auf</translation>
    </message>
    <message>
        <source>Lengths in</source>
        <translation>Längen in</translation>
    </message>
    <message>
        <source>PDF file</source>
        <translation>PDF-Datei</translation>
    </message>
    <message>
        <source>B, tabloid</source>
        <translation>B, tabloid</translation>
    </message>
    <message>
        <source>Paper for the lists and overviews</source>
        <translation>Papier für Listen und Übersichten</translation>
    </message>
    <message>
        <source>Paper for the full-size templates: the same, a larger one, or a roll such as “roll 610mm”</source>
        <translation>Papier für die Schablonen in wahrer Größe: dasselbe, ein größeres oder eine Rolle wie „roll 610mm“</translation>
    </message>
    <message>
        <source>millimetres</source>
        <translation>Millimeter</translation>
    </message>
    <message>
        <source>inches and fractions</source>
        <translation>Zoll und Brüche</translation>
    </message>
    <message>
        <source>How lengths are written; the templates are full size either way</source>
        <translation>Wie Längen geschrieben werden; die Schablonen sind immer in wahrer Größe</translation>
    </message>
    <message>
        <source>to 1/{} in</source>
        <translation>auf 1/{} in</translation>
    </message>
    <message>
        <source>Inches are written to the nearest of these</source>
        <translation>Zoll werden auf den nächsten dieser Brüche geschrieben</translation>
    </message>
    <message>
        <source>Other unit in brackets</source>
        <translation>Andere Einheit in Klammern</translation>
    </message>
    <message>
        <source>The kinds of sheets that the book holds; contents and cautions are always there</source>
        <translation>Die Arten von Blättern im Buch; Inhalt und Warnhinweise sind immer dabei</translation>
    </message>
    <message>
        <source>Write PDF</source>
        <translation>PDF schreiben</translation>
    </message>
    <message>
        <source>Open it in the viewer</source>
        <translation>Im Betrachter öffnen</translation>
    </message>
    <message>
        <source>SVG and DXF…</source>
        <translation>SVG und DXF…</translation>
    </message>
    <message>
        <source>Every sheet as SVG, layers and templates as DXF</source>
        <translation>Jedes Blatt als SVG, Schichten und Schablonen als DXF</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Drucken…</translation>
    </message>
    <message>
        <source>Print true size, or open the PDF to print it</source>
        <translation>In wahrer Größe drucken oder die PDF zum Drucken öffnen</translation>
    </message>
    <message>
        <source>Pages to edit</source>
        <translation>Seiten zum Bearbeiten</translation>
    </message>
    <message>
        <source>A TechDraw page for each layer, to dimension as you like</source>
        <translation>Eine TechDraw-Seite für jede Schicht, zum freien Bemaßen</translation>
    </message>
    <message>
        <source>Bench page…</source>
        <translation>Werkbankseite…</translation>
    </message>
    <message>
        <source>The glue-up with its clocks, in one file for a phone or tablet without a network</source>
        <translation>Die Verleimung mit ihren Uhren, in einer Datei für Telefon oder Tablet ohne Netz</translation>
    </message>
    <message>
        <source>Previous</source>
        <translation>Zurück</translation>
    </message>
    <message>
        <source>Write PDF ({} pages)</source>
        <translation>PDF schreiben ({} Seiten)</translation>
    </message>
    <message>
        <source>Drawing the pages…</source>
        <translation>Die Seiten werden gezeichnet…</translation>
    </message>
    <message>
        <source>Print at 100 %, “actual size”, and measure the check scales before you cut.</source>
        <translation>Drucken Sie mit 100 %, „tatsächliche Größe“, und messen Sie die Prüfmaßstäbe, bevor Sie schneiden.</translation>
    </message>
    <message>
        <source>Show me where</source>
        <translation>Zeigen, wo</translation>
    </message>
    <message>
        <source>Next</source>
        <translation>Weiter</translation>
    </message>
    <message>
        <source>Step {} of {}, about {} min to go</source>
        <translation>Schritt {} von {}, noch etwa {} min</translation>
    </message>
    <message>
        <source>Do it for me</source>
        <translation>Für mich tun</translation>
    </message>
    <message>
        <source>Leave out</source>
        <translation>Auslassen</translation>
    </message>
    <message>
        <source>Finish</source>
        <translation>Fertig</translation>
    </message>
    <message>
        <source>The document was closed. Open it again and the guide goes on, or begin with a new one.</source>
        <translation>Das Dokument wurde geschlossen. Öffnen Sie es wieder, und die Führung geht weiter, oder beginnen Sie mit einem neuen.</translation>
    </message>
    <message>
        <source>“{}” is at the front; the guide goes on in “{}”. Show me where brings that back. To begin anew here, run First piece again.</source>
        <translation>„{}“ ist vorn; die Führung geht in „{}“ weiter. „Zeigen, wo“ bringt es zurück. Um hier neu zu beginnen, rufen Sie „Erstes Stück“ noch einmal auf.</translation>
    </message>
    <message>
        <source>✓ This is done.</source>
        <translation>✓ Das ist getan.</translation>
    </message>
    <message>
        <source>✓ That is right. Close the panel by its button.</source>
        <translation>✓ Das stimmt. Schließen Sie das Bedienfeld mit seinem Knopf.</translation>
    </message>
    <message>
        <source>✓ {}: done.</source>
        <translation>✓ {}: getan.</translation>
    </message>
    <message>
        <source>It is not to be seen now: look in the menus, or show the toolbars and the tree.</source>
        <translation>Es ist gerade nicht zu sehen: suchen Sie in den Menüs, oder zeigen Sie Werkzeugleiste und Baum.</translation>
    </message>
    <message>
        <source>A panel is open: finish it with OK, Cancel or Close first.</source>
        <translation>Ein Bedienfeld ist offen: schließen Sie es erst mit OK, Abbrechen oder Schließen.</translation>
    </message>
    <message>
        <source>Drawing the pages</source>
        <translation>Die Seiten werden gezeichnet</translation>
    </message>
    <message>
        <source>Page {} of {}: {}</source>
        <translation>Seite {} von {}: {}</translation>
    </message>
    <message>
        <source>Say where the PDF should go: give a file name.</source>
        <translation>Sagen Sie, wohin die PDF soll: geben Sie einen Dateinamen an.</translation>
    </message>
    <message>
        <source>{} pages were written to {}. {}</source>
        <translation>{} Seiten wurden nach {} geschrieben. {}</translation>
    </message>
    <message>
        <source>The PDF is open in your viewer: print it from there at “actual size”, 100 %. {}</source>
        <translation>Die PDF ist in Ihrem Betrachter offen: drucken Sie von dort mit „tatsächlicher Größe“, 100 %. {}</translation>
    </message>
    <message>
        <source>The PDF is written: open it yourself and print it at “actual size”, 100 %. {}</source>
        <translation>Die PDF ist geschrieben: öffnen Sie sie selbst und drucken Sie sie in „tatsächlicher Größe“, 100 %. {}</translation>
    </message>
    <message>
        <source>{} pages went to the printer. {}</source>
        <translation>{} Seiten gingen an den Drucker. {}</translation>
    </message>
    <message>
        <source>{} sheets as SVG and {} outlines as DXF were written to {}.</source>
        <translation>{} Blätter als SVG und {} Umrisse als DXF wurden nach {} geschrieben.</translation>
    </message>
    <message>
        <source> {} drawings from before lie there too: see whether they still hold.</source>
        <translation> {} frühere Zeichnungen liegen auch dort: sehen Sie nach, ob sie noch gelten.</translation>
    </message>
    <message>
        <source>{} pages were added to the tree: double-click one to edit and dimension it.</source>
        <translation>{} Seiten kamen in den Baum: doppelklicken Sie auf eine, um sie zu bearbeiten und zu bemaßen.</translation>
    </message>
    <message>
        <source>Every layer has its page already: you find them in the tree.</source>
        <translation>Jede Schicht hat ihre Seite schon: Sie finden sie im Baum.</translation>
    </message>
    <message>
        <source>Title and paper of the drawings</source>
        <translation>Titel und Papier der Zeichnungen</translation>
    </message>
    <message>
        <source>Hollow</source>
        <translation>Hohlraum</translation>
    </message>
    <message>
        <source>Voids</source>
        <translation>Hohlräume</translation>
    </message>
    <message>
        <source>Wood saved</source>
        <translation>Gespartes Holz</translation>
    </message>
    <message>
        <source>Least wall</source>
        <translation>Dünnste Wand</translation>
    </message>
    <message>
        <source>Glue area left</source>
        <translation>Verbleibende Leimfläche</translation>
    </message>
    <message>
        <source>Air</source>
        <translation>Luft</translation>
    </message>
    <message>
        <source>{} to {}</source>
        <translation>{} bis {}</translation>
    </message>
    <message>
        <source>{}, in layer {}</source>
        <translation>{}, in Schicht {}</translation>
    </message>
    <message>
        <source>{}, in layers {}</source>
        <translation>{}, in den Schichten {}</translation>
    </message>
    <message>
        <source>{:.0f} % of the blanks</source>
        <translation>{:.0f} % der Zuschnitte</translation>
    </message>
    <message>
        <source>at least {}</source>
        <translation>mindestens {}</translation>
    </message>
    <message>
        <source>{:.0f} % or more; least between layers {} and {}</source>
        <translation>{:.0f} % oder mehr; am wenigsten zwischen den Schichten {} und {}</translation>
    </message>
    <message>
        <source>all of it</source>
        <translation>die ganze</translation>
    </message>
    <message>
        <source>{} closed</source>
        <translation>{} geschlossen</translation>
    </message>
    <message>
        <source>vented to the underside</source>
        <translation>zur Unterseite entlüftet</translation>
    </message>
    <message>
        <source>“{}” has no stack: give it one in its properties, or delete it.</source>
        <translation>„{}“ hat keinen Block: geben Sie ihm einen in seinen Eigenschaften oder löschen Sie es.</translation>
    </message>
    <message>
        <source>{} of {}</source>
        <translation>{} von {}</translation>
    </message>
    <message>
        <source>Change {}</source>
        <translation>{} ändern</translation>
    </message>
    <message>
        <source>proud and wedged</source>
        <extracomment>Options that the panel asks in a way of its own, and what is shown for the words of another.</extracomment>
        <translation>überstehend und verkeilt</translation>
    </message>
    <message>
        <source>Mortise and tenon</source>
        <translation>Zapfenverbindung</translation>
    </message>
    <message>
        <source>Two of the stacks have the same name: give each a label of its own first.</source>
        <translation>Zwei der Blöcke heißen gleich: geben Sie erst jedem einen eigenen Namen.</translation>
    </message>
    <message>
        <source>{} of the point</source>
        <translation>{} der Spitze</translation>
    </message>
    <message>
        <source>Use selected vertex, circle or face</source>
        <translation>Gewählten Punkt, Kreis oder gewählte Fläche nehmen</translation>
    </message>
    <message>
        <source>The direction in which the tenon runs</source>
        <translation>Die Richtung, in der der Zapfen verläuft</translation>
    </message>
    <message>
        <source>Where it runs</source>
        <translation>Wo er verläuft</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Through x</source>
        <translation>Durch x</translation>
    </message>
    <message>
        <source>Axis</source>
        <translation>Achse</translation>
    </message>
    <message>
        <source>Side of the mortise, or its diameter</source>
        <translation>Seite des Zapfenlochs oder sein Durchmesser</translation>
    </message>
    <message>
        <source>Second side of the mortise</source>
        <translation>Zweite Seite des Zapfenlochs</translation>
    </message>
    <message>
        <source>Relief of my own</source>
        <translation>Eigener Freiraum</translation>
    </message>
    <message>
        <source>Otherwise each end-grain wall is cut back as far as the movement calls for</source>
        <translation>Sonst wird jede Hirnholzwand so weit zurückgenommen, wie das Arbeiten es verlangt</translation>
    </message>
    <message>
        <source>Cut back from each end-grain wall of the mortise</source>
        <translation>Von jeder Hirnholzwand des Zapfenlochs zurückgenommen</translation>
    </message>
    <message>
        <source>as the first piece</source>
        <translation>wie das erste Stück</translation>
    </message>
    <message>
        <source>The wood of the tenon; its grain runs along its length</source>
        <translation>Das Holz des Zapfens; seine Faser läuft in seiner Länge</translation>
    </message>
    <message>
        <source>Side or diameter</source>
        <translation>Seite oder Durchmesser</translation>
    </message>
    <message>
        <source>Second side</source>
        <translation>Zweite Seite</translation>
    </message>
    <message>
        <source>Wood of the tenon</source>
        <translation>Holz des Zapfens</translation>
    </message>
    <message>
        <source>Relief</source>
        <translation>Freiraum</translation>
    </message>
    <message>
        <source>Tenon held by {}</source>
        <translation>Zapfen gehalten durch {}</translation>
    </message>
    <message>
        <source>through</source>
        <translation>durchgehend</translation>
    </message>
    <message>
        <source>Depth in {}</source>
        <translation>Tiefe in {}</translation>
    </message>
    <message>
        <source>Tenon</source>
        <translation>Zapfen</translation>
    </message>
    <message>
        <source>Least wood left</source>
        <translation>Wenigstes Holz übrig</translation>
    </message>
    <message>
        <source>Nearest at</source>
        <translation>Am nächsten bei</translation>
    </message>
    <message>
        <source>Wedges</source>
        <translation>Keile</translation>
    </message>
    <message>
        <source>Boring</source>
        <translation>Bohren</translation>
    </message>
    <message>
        <source>The joint has no name: give it one, it is printed on the drawings.</source>
        <translation>Die Verbindung hat keinen Namen: geben Sie ihr einen, er steht auf den Zeichnungen.</translation>
    </message>
    <message>
        <source>Add joint {}</source>
        <translation>Verbindung {} einfügen</translation>
    </message>
    <message>
        <source>Change joint {}</source>
        <translation>Verbindung {} ändern</translation>
    </message>
    <message>
        <source>“{}” has lost one of its stacks: delete it, and join the stacks again.</source>
        <translation>„{}“ hat einen seiner Blöcke verloren: löschen Sie es und verbinden Sie die Blöcke neu.</translation>
    </message>
    <message>
        <source>rectangular</source>
        <translation>rechteckig</translation>
    </message>
    <message>
        <source>in diameter</source>
        <translation>im Durchmesser</translation>
    </message>
    <message>
        <source>{} {}, {} long</source>
        <translation>{} {}, {} lang</translation>
    </message>
    <message>
        <source>The mortise breaks out of the finished surface by {}: make it smaller or shallower, or move it.</source>
        <translation>Das Zapfenloch bricht um {} aus der fertigen Oberfläche: machen Sie es kleiner oder flacher oder versetzen Sie es.</translation>
    </message>
    <message>
        <source>Pins</source>
        <translation>Dübel</translation>
    </message>
    <message>
        <source>Pins set by hand, a line each: glue line (the number of the layer below it); x; y from the axis. A glue line with any gets no others.</source>
        <translation>Von Hand gesetzte Dübel, einer je Zeile: Leimfuge (Nummer der Schicht darunter); x; y von der Achse. Eine Leimfuge, die welche hat, bekommt keine anderen.</translation>
    </message>
    <message>
        <source>Set by hand</source>
        <translation>Von Hand gesetzt</translation>
    </message>
    <message>
        <source>Laid wrongly</source>
        <translation>Falsch gelegt</translation>
    </message>
    <message>
        <source>By glue line</source>
        <translation>Je Leimfuge</translation>
    </message>
    <message>
        <source> and {} in waste wood</source>
        <translation> und {} im Abfallholz</translation>
    </message>
    <message>
        <source>{}, between layers {} and {}</source>
        <translation>{}, zwischen den Schichten {} und {}</translation>
    </message>
    <message>
        <source>at least {} off; layer {}, {}</source>
        <translation>mindestens {} daneben; Schicht {}, {}</translation>
    </message>
    <message>
        <source>every outline shows it</source>
        <translation>jeder Umriss zeigt es</translation>
    </message>
    <message>
        <source>As the board lies on the rack, before planing</source>
        <extracomment>Heads as a maker reads them, and widths in pixels.</extracomment>
        <translation>Wie das Brett im Lager liegt, vor dem Hobeln</translation>
    </message>
    <message>
        <source>How many alike; for boards that you can buy: empty for as many as wanted</source>
        <translation>Wie viele gleiche; bei Brettern, die zu kaufen sind: leer, so viele wie gewünscht</translation>
    </message>
    <message>
        <source>In your own money, per board, board foot or m³; empty: not known</source>
        <translation>In Ihrer Währung, je Brett, board foot oder m³; leer: nicht bekannt</translation>
    </message>
    <message>
        <source>yes: can be bought; no: on hand</source>
        <translation>yes: kann gekauft werden; no: vorhanden</translation>
    </message>
    <message>
        <source>For boards that you can buy: how much clear wood the grade promises</source>
        <translation>Für Bretter, die zu kaufen sind: wie viel fehlerfreies Holz die Güte verspricht</translation>
    </message>
    <message>
        <source>x y dx dy of each, parted by semicolons: x from the left end, y from the lower edge, as in 600 40 80 35</source>
        <translation>x y dx dy von jedem, mit Strichpunkten dazwischen: x vom linken Ende, y von der unteren Kante, etwa 600 40 80 35</translation>
    </message>
    <message>
        <source>Rough from the saw, or surfaced; empty: surfaced where it is as thick as its layer, else rough</source>
        <translation>Roh von der Säge oder gehobelt; leer: gehobelt, wo es so dick ist wie seine Schicht, sonst roh</translation>
    </message>
    <message>
        <source>In a kiln, or in the air, where more is lost at the ends; empty: kiln</source>
        <translation>In der Kammer oder an der Luft, wo an den Enden mehr verloren geht; leer: Kammer</translation>
    </message>
    <message>
        <source>How it was sawn from the log: flat, rift or quarter; empty: not known</source>
        <translation>Wie es aus dem Stamm gesägt wurde: flat, rift oder quarter; leer: nicht bekannt</translation>
    </message>
    <message>
        <source>Percent, as a meter showed it before gluing; empty: not known</source>
        <translation>Prozent, wie ein Messgerät es vor dem Verleimen zeigte; leer: nicht bekannt</translation>
    </message>
    <message>
        <source>Board rack of {}</source>
        <extracomment>Columns of figures.</extracomment>
        <translation>Holzlager von {}</translation>
    </message>
    <message>
        <source>A size without a unit is in the unit of its column; 45 mm, 4.5 cm, 1-3/4 in and 8 ft can be typed too.</source>
        <translation>Ein Maß ohne Einheit gilt in der Einheit seiner Spalte; auch 45 mm, 4,5 cm, 1-3/4 in und 8 ft können geschrieben werden.</translation>
    </message>
    <message>
        <source>Choose the boards to copy: click their rows first.</source>
        <translation>Wählen Sie die Bretter, die kopiert werden sollen: klicken Sie erst in ihre Zeilen.</translation>
    </message>
    <message>
        <source>Choose the boards to remove: click their rows first.</source>
        <translation>Wählen Sie die Bretter, die weg sollen: klicken Sie erst in ihre Zeilen.</translation>
    </message>
    <message>
        <source>{} boards were read. Do they replace those in the table?</source>
        <translation>{} Bretter wurden gelesen. Sollen sie die der Tabelle ersetzen?</translation>
    </message>
    <message>
        <source>Nothing was written. {}</source>
        <translation>Nichts wurde geschrieben. {}</translation>
    </message>
    <message>
        <source>{} rows were written to {}.</source>
        <translation>{} Zeilen wurden nach {} geschrieben.</translation>
    </message>
    <message>
        <source>Boards of the rack</source>
        <translation>Bretter des Lagers</translation>
    </message>
    <message>
        <source>The rack is empty: add your boards, or import them.</source>
        <translation>Das Lager ist leer: tragen Sie Ihre Bretter ein, oder laden Sie sie.</translation>
    </message>
    <message>
        <source>{} board on hand, {}{} board feet;</source>
        <translation>{} Brett vorhanden, {}{} board feet;</translation>
    </message>
    <message>
        <source>{} boards on hand, {}{} board feet;</source>
        <translation>{} Bretter vorhanden, {}{} board feet;</translation>
    </message>
    <message>
        <source>{} kind can be bought.</source>
        <translation>{} Art ist zu kaufen.</translation>
    </message>
    <message>
        <source>{} kinds can be bought.</source>
        <translation>{} Arten sind zu kaufen.</translation>
    </message>
    <message>
        <source>{} without a cost: the plan then saves wood, not money.</source>
        <translation>{} ohne Preis: der Plan spart dann Holz und nicht Geld.</translation>
    </message>
    <message>
        <source>{} cannot be read ({}): check that you may open it.</source>
        <translation>{} lässt sich nicht lesen ({}): prüfen Sie, ob Sie sie öffnen dürfen.</translation>
    </message>
    <message>
        <source>{} is not plain text in UTF-8: save it as CSV (UTF-8).</source>
        <translation>{} ist kein reiner Text in UTF-8: speichern Sie sie als CSV (UTF-8).</translation>
    </message>
    <message>
        <source>Boards from a file</source>
        <translation>Bretter aus einer Datei</translation>
    </message>
    <message>
        <source>Boards to a file</source>
        <translation>Bretter in eine Datei</translation>
    </message>
    <message>
        <source>Slice {}</source>
        <extracomment>Options that the panel asks in a way of its own. Milliseconds after which a line that is not left counts as typed to its end. A waste tab as it is read: not to be translated.</extracomment>
        <translation>{} in Schichten teilen</translation>
    </message>
    <message>
        <source>Layers of {}</source>
        <translation>Schichten von {}</translation>
    </message>
    <message>
        <source>The solid to slice</source>
        <translation>Der Körper, der geteilt wird</translation>
    </message>
    <message>
        <source>What stands on its drawings and in the bill; left out: the label of the form</source>
        <translation>Was auf den Zeichnungen und in der Holzliste steht; leer: der Name der Form</translation>
    </message>
    <message>
        <source>Thickness of the boards as they leave the planer</source>
        <translation>Dicke der Bretter, wie sie vom Hobel kommen</translation>
    </message>
    <message>
        <source>Thicknesses measured on your own boards, from layer 1 up: they win over the stock thickness for as many layers as you list</source>
        <translation>An Ihren eigenen Brettern gemessene Dicken, von Schicht 1 aufwärts: sie gehen der Brettdicke vor, für so viele Schichten, wie Sie angeben</translation>
    </message>
    <message>
        <source>The wood of this stack</source>
        <translation>Das Holz dieses Blocks</translation>
    </message>
    <message>
        <source>Form</source>
        <translation>Form</translation>
    </message>
    <message>
        <source>Name of the piece</source>
        <translation>Name des Stücks</translation>
    </message>
    <message>
        <source>Stock thickness</source>
        <extracomment>The lengths that panels start with: their captions and what they are.</extracomment>
        <translation>Brettdicke</translation>
    </message>
    <message>
        <source>Others at hand</source>
        <translation>Andere vorhandene</translation>
    </message>
    <message>
        <source>As planed, from layer 1</source>
        <translation>Wie gehobelt, ab Schicht 1</translation>
    </message>
    <message>
        <source>Wood</source>
        <translation>Holz</translation>
    </message>
    <message>
        <source>Layer 1 at the other end</source>
        <translation>Schicht 1 am anderen Ende</translation>
    </message>
    <message>
        <source>Lay-up</source>
        <translation>Aufbau</translation>
    </message>
    <message>
        <source>Stacking axis</source>
        <translation>Stapelachse</translation>
    </message>
    <message>
        <source>One waste tab in each line, left on the blanks of its layers for the pads of clamps and sawn off after gluing. direction: where it points, from RIGHT, to the left seen from above; out: how far beyond the widest of its blanks; further, where needed: aside 10 mm; fillet 16 mm</source>
        <translation>Ein Spannlappen je Zeile, der an den Zuschnitten seiner Schichten für die Druckplatten der Zwingen stehen bleibt und nach dem Verleimen abgesägt wird. direction: wohin er zeigt, von RECHTS aus linksherum, von oben gesehen; out: wie weit über den breitesten seiner Zuschnitte hinaus; dazu, wo nötig: aside 10 mm; fillet 16 mm</translation>
    </message>
    <message>
        <source>Waste tabs for clamps</source>
        <translation>Spannlappen für Zwingen</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Schichten</translation>
    </message>
    <message>
        <source>Stack height</source>
        <translation>Höhe des Blocks</translation>
    </message>
    <message>
        <source>Wood in the blanks</source>
        <translation>Holz in den Zuschnitten</translation>
    </message>
    <message>
        <source>Finished form</source>
        <translation>Fertige Form</translation>
    </message>
    <message>
        <source>To carve away</source>
        <translation>Abzutragen</translation>
    </message>
    <message>
        <source>Another piece is called “{}”: give this one a name of its own.</source>
        <translation>Ein anderes Stück heißt „{}“: geben Sie diesem einen eigenen Namen.</translation>
    </message>
    <message>
        <source>{}, the lowest {} as planed</source>
        <translation>{}, die untersten {} wie gehobelt</translation>
    </message>
    <message>
        <source>{} above the form</source>
        <translation>{} höher als die Form</translation>
    </message>
    <message>
        <source>as high as the form</source>
        <translation>so hoch wie die Form</translation>
    </message>
    <message>
        <source>{}, {:.0f} % of the wood</source>
        <translation>{}, {:.0f} % des Holzes</translation>
    </message>
    <message>
        <source>Working it out…</source>
        <translation>Wird ausgerechnet…</translation>
    </message>
    <message>
        <source>{} already has a stack, {}: OK makes one more.</source>
        <translation>{} hat schon einen Block, {}: OK macht noch einen.</translation>
    </message>
    <message>
        <source>Slicing {}</source>
        <translation>{} wird in Schichten geteilt</translation>
    </message>
    <message>
        <source>Change layers of {}</source>
        <translation>Schichten von {} ändern</translation>
    </message>
    <message>
        <source>The form is not proven to lie inside the blanks of {}: do not cut. Check the stacks tells where it stands out.</source>
        <translation>Es ist nicht bewiesen, dass die Form in den Zuschnitten von {} liegt: schneiden Sie nicht. „Blöcke prüfen“ sagt, wo sie heraussteht.</translation>
    </message>
    <message>
        <source>The form of “{}” is gone: delete the stack, or give it a form in its properties.</source>
        <translation>Die Form von „{}“ ist weg: löschen Sie den Block oder geben Sie ihm in seinen Eigenschaften eine Form.</translation>
    </message>
    <message>
        <source>worst place</source>
        <translation>schwächste Stelle</translation>
    </message>
    <message>
        <source>where the load hurts</source>
        <translation>wo die Last schadet</translation>
    </message>
    <message>
        <source>use over the surface</source>
        <translation>Ausnutzung über die Fläche</translation>
    </message>
    <message>
        <source>See-through: nothing is told there.</source>
        <extracomment>Of the model that is not coloured.</extracomment>
        <translation>Durchsichtig: dort wird nichts gesagt.</translation>
    </message>
    <message>
        <source>with tenon</source>
        <translation>mit Zapfen</translation>
    </message>
    <message>
        <source>without tenon</source>
        <translation>ohne Zapfen</translation>
    </message>
    <message>
        <source>With or without tenon</source>
        <translation>Mit oder ohne Zapfen</translation>
    </message>
    <message>
        <source>The worst place was looked for with the mortises empty, too</source>
        <translation>Die schwächste Stelle wurde auch bei leeren Zapfenlöchern gesucht</translation>
    </message>
    <message>
        <source>Show on the form:</source>
        <translation>An der Form zeigen:</translation>
    </message>
    <message>
        <source>Loads of your own</source>
        <extracomment>Columns, what is changed most in front, and their least widths, pixels. Columns of figures, with their unit inside. The unit in the head of a column. Rows in sight.</extracomment>
        <translation>Eigene Lasten</translation>
    </message>
    <message>
        <source>Loads of your own, besides those of its kind</source>
        <translation>Eigene Lasten, zu denen seiner Art dazu</translation>
    </message>
    <message>
        <source>Add load</source>
        <translation>Last hinzufügen</translation>
    </message>
    <message>
        <source>Another load of your own</source>
        <translation>Noch eine eigene Last</translation>
    </message>
    <message>
        <source>Take the chosen loads off the table</source>
        <translation>Nimmt die gewählten Lasten aus der Tabelle</translation>
    </message>
    <message>
        <source>“{}” is impossible here: {}.</source>
        <translation>„{}“ ist hier unmöglich: {}.</translation>
    </message>
    <message>
        <source>Loads, row {}</source>
        <translation>Lasten, Zeile {}</translation>
    </message>
    <message>
        <source>this load has no name: write one, such as two children.</source>
        <translation>diese Last hat keinen Namen: schreiben Sie einen, etwa zwei Kinder.</translation>
    </message>
    <message>
        <source>“{}” is no place: write three sizes, parted by semicolons, as in 0; 120; 450.</source>
        <translation>„{}“ ist keine Stelle: schreiben Sie drei Maße mit Strichpunkten dazwischen, etwa 0; 120; 450.</translation>
    </message>
    <message>
        <source>Choose the loads to remove: click their rows first.</source>
        <translation>Wählen Sie die Lasten, die weg sollen: klicken Sie erst in ihre Zeilen.</translation>
    </message>
    <message>
        <source>own months</source>
        <translation>eigene Monate</translation>
    </message>
    <message>
        <source>Temperature</source>
        <extracomment>Columns, with their unit inside, and the least and the most that can be.</extracomment>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Humidity</source>
        <translation>Luftfeuchte</translation>
    </message>
    <message>
        <source>Of the room where it will stand, as a room thermometer shows it by day</source>
        <translation>Des Raums, in dem es stehen wird, wie ein Zimmerthermometer sie bei Tag zeigt</translation>
    </message>
    <message>
        <source>Relative humidity of that room, as a hygrometer shows it</source>
        <translation>Relative Luftfeuchte dieses Raums, wie ein Hygrometer sie zeigt</translation>
    </message>
    <message>
        <source>Bundled climates are invented; your own months begin with those chosen last</source>
        <translation>Die mitgelieferten Klimas sind erdacht; Ihre eigenen Monate beginnen mit dem zuletzt gewählten</translation>
    </message>
    <message>
        <source>Temperature and humidity of your own months</source>
        <translation>Temperatur und Luftfeuchte eigener Monate</translation>
    </message>
    <message>
        <source>“{}” is impossible here: give {} to {}.</source>
        <translation>„{}“ ist hier unmöglich: geben Sie {} bis {} an.</translation>
    </message>
    <message>
        <source>Climate, {}, {}</source>
        <translation>Klima, {}, {}</translation>
    </message>
    <message>
        <source>Does it stand and hold?</source>
        <extracomment>What is asked, in the words of its check box.</extracomment>
        <translation>Steht und hält es?</translation>
    </message>
    <message>
        <source>What does a year do?</source>
        <translation>Was macht ein Jahr?</translation>
    </message>
    <message>
        <source>Finish and abrasives</source>
        <translation>Oberfläche und Schleifmittel</translation>
    </message>
    <message>
        <source>Make a quote</source>
        <translation>Ein Angebot machen</translation>
    </message>
    <message>
        <source>Is the allowance enough?</source>
        <translation>Reicht die Zugabe?</translation>
    </message>
    <message>
        <source>Use and loads</source>
        <translation>Nutzung und Lasten</translation>
    </message>
    <message>
        <source>Room and wood</source>
        <translation>Raum und Holz</translation>
    </message>
    <message>
        <source>Finish and sanding</source>
        <translation>Oberfläche und Schleifen</translation>
    </message>
    <message>
        <source>Your rates</source>
        <translation>Ihre Sätze</translation>
    </message>
    <message>
        <source>What the work takes of the allowance</source>
        <translation>Was die Arbeit von der Zugabe nimmt</translation>
    </message>
    <message>
        <source>What to mind</source>
        <translation>Was zu beachten ist</translation>
    </message>
    <message>
        <source>There is no piece yet: slice a form into layers first.</source>
        <translation>Es gibt noch kein Stück: teilen Sie erst eine Form in Schichten.</translation>
    </message>
    <message>
        <source>What is found</source>
        <translation>Was gefunden wurde</translation>
    </message>
    <message>
        <source>It weighs</source>
        <translation>Es wiegt</translation>
    </message>
    <message>
        <source>Climate</source>
        <translation>Klima</translation>
    </message>
    <message>
        <source>{} more stand in the checks.</source>
        <translation>{} weitere stehen in den Prüfungen.</translation>
    </message>
    <message>
        <source>All is well</source>
        <translation>Alles ist gut</translation>
    </message>
    <message>
        <source>Show or hide: {}</source>
        <translation>Zeigen oder verbergen: {}</translation>
    </message>
    <message>
        <source>Settings: {}</source>
        <translation>Einstellungen: {}</translation>
    </message>
    <message>
        <source>Looking deeper</source>
        <extracomment>How often the window asks how far the work is, ms.</extracomment>
        <translation>Sieht genauer nach</translation>
    </message>
    <message>
        <source>Getting ready</source>
        <translation>Wird vorbereitet</translation>
    </message>
    <message>
        <source>Stopping after this step; what is finished is kept</source>
        <translation>Hört nach diesem Schritt auf; was fertig ist, bleibt</translation>
    </message>
    <message>
        <source>{} of wood</source>
        <extracomment>Kind of object → the property that holds its least cover. What a change of which property moves or words a mark.</extracomment>
        <translation>{} Holz</translation>
    </message>
    <message>
        <source>breaks out {}</source>
        <translation>bricht {} heraus</translation>
    </message>
    <message>
        <source>{} of wood over the form</source>
        <translation>{} Holz über der Form</translation>
    </message>
    <message>
        <source>Change {}…</source>
        <extracomment>Percent: enough to see the form inside the stepped block. What glue lines' objects show that the maker asked for; the others are there for the pages alone.</extracomment>
        <translation>{} ändern…</translation>
    </message>
    <message>
        <source>A form that the guide needs was deleted: press Undo in FreeCAD's toolbar.</source>
        <translation>Eine Form, die die Führung braucht, wurde gelöscht: drücken Sie Rückgängig in FreeCADs Werkzeugleiste.</translation>
    </message>
    <message>
        <source>Foot</source>
        <translation>Fuß</translation>
    </message>
    <message>
        <source>Top</source>
        <translation>Platte</translation>
    </message>
    <message>
        <source>“{title}” holds other things and stays as it is: press New for the piece.</source>
        <extracomment>The sizes of the piece by units, mm. A size is as asked within this, mm: FreeCAD rounds what it shows. FreeCAD 0.20 rounds what is typed in inches into its panels, to two figures in metres: by less than this share. Sizes that are typed into FreeCAD's own panels, which take 4-1/2 for a subtraction.</extracomment>
        <translation>„{title}“ enthält anderes und bleibt, wie es ist: drücken Sie Neu für das Stück.</translation>
    </message>
    <message>
        <source>Part Design is another workbench: choose Part.</source>
        <translation>Part Design ist ein anderer Arbeitsbereich: wählen Sie Part.</translation>
    </message>
    <message>
        <source>The form of “{stack}” was deleted: press Undo. Or delete “{stack}” too, and make the form again.</source>
        <translation>Die Form von „{stack}“ wurde gelöscht: drücken Sie Rückgängig. Oder löschen Sie auch „{stack}“ und machen Sie die Form noch einmal.</translation>
    </message>
    <message>
        <source>“{label}” is no cone: press Cone. The other may stay or go.</source>
        <translation>„{label}“ ist kein Kegel: drücken Sie Kegel. Das andere darf bleiben oder weg.</translation>
    </message>
    <message>
        <source>“{label}” is no cylinder: press Cylinder. The other may stay or go.</source>
        <translation>„{label}“ ist kein Zylinder: drücken Sie Zylinder. Das andere darf bleiben oder weg.</translation>
    </message>
    <message>
        <source>Radius 1</source>
        <extracomment>The host's names of sizes, as its panels have them.</extracomment>
        <translation>Radius 1</translation>
    </message>
    <message>
        <source>Radius 2</source>
        <translation>Radius 2</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>Position X</source>
        <translation>Position X</translation>
    </message>
    <message>
        <source>Position Y</source>
        <translation>Position Y</translation>
    </message>
    <message>
        <source>Position Z</source>
        <translation>Position Z</translation>
    </message>
    <message>
        <source>{name} of “{label}” is {now}, not {asked}: double click “{label}” and type it again.</source>
        <translation>{name} von „{label}“ ist {now}, nicht {asked}: doppelklicken Sie „{label}“ und schreiben Sie es neu.</translation>
    </message>
    <message>
        <source>FreeCAD 0.20 rounds inches here: {name} of “{label}” became {now}. Press Do it for me, and it is {asked}.</source>
        <translation>FreeCAD 0.20 rundet hier Zoll: {name} von „{label}“ wurde {now}. Drücken Sie „Für mich tun“, und es ist {asked}.</translation>
    </message>
    <message>
        <source>“{label}” is not whole or does not stand upright: its angles are 360° and 0°, as at first.</source>
        <translation>„{label}“ ist nicht ganz oder steht nicht aufrecht: seine Winkel sind 360° und 0°, wie am Anfang.</translation>
    </message>
    <message>
        <source>“{label}” cannot be made: press Undo, and type a smaller radius.</source>
        <translation>„{label}“ lässt sich nicht machen: drücken Sie Rückgängig, und schreiben Sie einen kleineren Radius.</translation>
    </message>
    <message>
        <source>“{label}” is of boards of {now}: double click it in the tree, and type {asked}.</source>
        <translation>„{label}“ ist aus Brettern von {now}: doppelklicken Sie ihn im Baum, und schreiben Sie {asked}.</translation>
    </message>
    <message>
        <source>“{label}” does not hold its form: double click it, and type an allowance of 3 mm.</source>
        <translation>„{label}“ fasst seine Form nicht: doppelklicken Sie ihn, und schreiben Sie 3 mm Zugabe.</translation>
    </message>
    <message>
        <source>That was the cylinder before it was rounded: delete its stack, and slice “{label}”.</source>
        <translation>Das war der Zylinder, bevor er gerundet wurde: löschen Sie seinen Block, und teilen Sie „{label}“.</translation>
    </message>
    <message>
        <source>The mortise breaks out: double click the joint, and type a side of {tenon}.</source>
        <translation>Das Zapfenloch bricht aus: doppelklicken Sie die Verbindung, und schreiben Sie eine Seite von {tenon}.</translation>
    </message>
    <message>
        <source>Those pins are in another stack: select “{label}” and set its pins too.</source>
        <translation>Diese Dübel sind in einem anderen Block: wählen Sie „{label}“, und setzen Sie auch seine Dübel.</translation>
    </message>
    <message>
        <source>These pins do not fit: delete them, and set them as offered.</source>
        <translation>Diese Dübel passen nicht: löschen Sie sie, und setzen Sie sie wie angeboten.</translation>
    </message>
    <message>
        <source>When you have read it, close the table.</source>
        <translation>Wenn Sie sie gelesen haben, schließen Sie die Tabelle.</translation>
    </message>
    <message>
        <source>{pdf} is of an earlier piece: write it anew.</source>
        <translation>{pdf} ist von einem früheren Stück: schreiben Sie sie neu.</translation>
    </message>
    <message>
        <source>An empty document</source>
        <translation>Ein leeres Dokument</translation>
    </message>
    <message>
        <source>Press New in the toolbar.</source>
        <translation>Drücken Sie Neu in der Werkzeugleiste.</translation>
    </message>
    <message>
        <source>The workbench Part</source>
        <translation>Der Arbeitsbereich Part</translation>
    </message>
    <message>
        <source>Choose Part in the list of workbenches, in the toolbar.</source>
        <translation>Wählen Sie Part in der Liste der Arbeitsbereiche, in der Werkzeugleiste.</translation>
    </message>
    <message>
        <source>A cone for the foot</source>
        <translation>Ein Kegel als Fuß</translation>
    </message>
    <message>
        <source>Press Cone in the toolbar. What a toolbar has no room for lies under its ».</source>
        <translation>Drücken Sie Kegel in der Werkzeugleiste. Wofür eine Leiste keinen Platz hat, liegt unter ihrem ».</translation>
    </message>
    <message>
        <source>The sizes of the foot</source>
        <translation>Die Maße des Fußes</translation>
    </message>
    <message>
        <source>Double click Cone in the tree.</source>
        <translation>Doppelklicken Sie den Kegel im Baum.</translation>
    </message>
    <message>
        <source>Type Radius 1: {bottom}, Radius 2: {neck}, Height: {high}.</source>
        <translation>Schreiben Sie Radius 1: {bottom}, Radius 2: {neck}, Höhe: {high}.</translation>
    </message>
    <message>
        <source>Is the panel cut off at its side, drag its edge wider.</source>
        <translation>Ist das Bedienfeld an der Seite abgeschnitten, ziehen Sie seinen Rand breiter.</translation>
    </message>
    <message>
        <source>Press OK. Press V, then F, to see all of it.</source>
        <translation>Drücken Sie OK. Drücken Sie V, dann F, um alles davon zu sehen.</translation>
    </message>
    <message>
        <source>A cylinder for the top</source>
        <translation>Ein Zylinder als Platte</translation>
    </message>
    <message>
        <source>Press Cylinder in the toolbar.</source>
        <translation>Drücken Sie Zylinder in der Werkzeugleiste.</translation>
    </message>
    <message>
        <source>The sizes of the top</source>
        <translation>Die Maße der Platte</translation>
    </message>
    <message>
        <source>Double click Cylinder in the tree.</source>
        <translation>Doppelklicken Sie den Zylinder im Baum.</translation>
    </message>
    <message>
        <source>Type Radius: {wide}, Height: {thick}.</source>
        <translation>Schreiben Sie Radius: {wide}, Höhe: {thick}.</translation>
    </message>
    <message>
        <source>At Position, type Z: {high}. So it lies on the foot.</source>
        <translation>Bei Position schreiben Sie Z: {high}. So liegt sie auf dem Fuß.</translation>
    </message>
    <message>
        <source>Press OK.</source>
        <translation>Drücken Sie OK.</translation>
    </message>
    <message>
        <source>A round rim</source>
        <translation>Ein runder Rand</translation>
    </message>
    <message>
        <source>Select Cylinder in the tree and press Fillet.</source>
        <translation>Wählen Sie den Zylinder im Baum, und drücken Sie Verrundung.</translation>
    </message>
    <message>
        <source>Press All, type Radius: {round}, and press OK.</source>
        <translation>Drücken Sie Alle, schreiben Sie Radius: {round}, und drücken Sie OK.</translation>
    </message>
    <message>
        <source>Back to StackLam</source>
        <translation>Zurück zu StackLam</translation>
    </message>
    <message>
        <source>The form is done. Choose StackLam in the list of workbenches.</source>
        <translation>Die Form ist fertig. Wählen Sie StackLam in der Liste der Arbeitsbereiche.</translation>
    </message>
    <message>
        <source>Slice the foot</source>
        <translation>Den Fuß teilen</translation>
    </message>
    <message>
        <source>Select Cone in the tree and press Slice form into layers.</source>
        <translation>Wählen Sie den Kegel im Baum, und drücken Sie „Form in Schichten teilen“.</translation>
    </message>
    <message>
        <source>Type Name of the piece: Foot, Stock thickness: {foot_boards}.</source>
        <translation>Schreiben Sie Name des Stücks: Fuß, Brettdicke: {foot_boards}.</translation>
    </message>
    <message>
        <source>See what it takes, and press OK.</source>
        <translation>Sehen Sie, was es braucht, und drücken Sie OK.</translation>
    </message>
    <message>
        <source>Slice the top</source>
        <translation>Die Platte teilen</translation>
    </message>
    <message>
        <source>Select Fillet in the tree and press Slice form into layers.</source>
        <translation>Wählen Sie die Verrundung im Baum, und drücken Sie „Form in Schichten teilen“.</translation>
    </message>
    <message>
        <source>Type Name of the piece: Top, Stock thickness: {top_boards}. Press OK.</source>
        <translation>Schreiben Sie Name des Stücks: Platte, Brettdicke: {top_boards}. Drücken Sie OK.</translation>
    </message>
    <message>
        <source>Join them</source>
        <translation>Verbinden</translation>
    </message>
    <message>
        <source>Press Add mortise and tenon: both stacks are taken.</source>
        <translation>Drücken Sie „Zapfenverbindung einfügen“: beide Blöcke sind gewählt.</translation>
    </message>
    <message>
        <source>Type Side or diameter: {tenon}. See where least wood is left. Press OK.</source>
        <translation>Schreiben Sie Seite oder Durchmesser: {tenon}. Sehen Sie, wo am wenigsten Holz bleibt. Drücken Sie OK.</translation>
    </message>
    <message>
        <source>Pin the layers of the foot</source>
        <translation>Die Schichten des Fußes verdübeln</translation>
    </message>
    <message>
        <source>Select the stack of the foot in the tree and press Set pins.</source>
        <translation>Wählen Sie den Block des Fußes im Baum, und drücken Sie „Dübel setzen“.</translation>
    </message>
    <message>
        <source>Leave the values as they are, and press OK.</source>
        <translation>Lassen Sie die Werte, wie sie sind, und drücken Sie OK.</translation>
    </message>
    <message>
        <source>See what the checks say</source>
        <translation>Sehen, was die Prüfungen sagen</translation>
    </message>
    <message>
        <source>Press Check the stacks.</source>
        <translation>Drücken Sie „Blöcke prüfen“.</translation>
    </message>
    <message>
        <source>Stops come first, then cautions. Here nothing says stop; what asks for care is the short tenon in the thin top, and a pin that stands near it.</source>
        <translation>Erst kommt Halt, dann Vorsicht. Hier sagt nichts Halt; Vorsicht verlangen der kurze Zapfen in der dünnen Platte und ein Dübel, der nahe bei ihm steht.</translation>
    </message>
    <message>
        <source>Close the table.</source>
        <translation>Schließen Sie die Tabelle.</translation>
    </message>
    <message>
        <source>Save it</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>Press Save, and give it a name. The drawings will lie beside it.</source>
        <translation>Drücken Sie Speichern, und geben Sie ihm einen Namen. Die Zeichnungen kommen daneben.</translation>
    </message>
    <message>
        <source>The drawings</source>
        <translation>Die Zeichnungen</translation>
    </message>
    <message>
        <source>Press Layer drawings. Previous and Next leaf through them.</source>
        <translation>Drücken Sie „Schichtzeichnungen“. Mit Zurück und Weiter blättern Sie.</translation>
    </message>
    <message>
        <source>Leave the file name as it is, and press Write PDF.</source>
        <translation>Lassen Sie den Dateinamen, wie er ist, und drücken Sie „PDF schreiben“.</translation>
    </message>
    <message>
        <source>Press Close.</source>
        <translation>Drücken Sie Schließen.</translation>
    </message>
    <message>
        <source>Print and measure</source>
        <translation>Drucken und messen</translation>
    </message>
    <message>
        <source>Open the PDF. Page 1 lists the pages and explains the lines; page 2 warns.</source>
        <translation>Öffnen Sie die PDF. Seite 1 zählt die Seiten auf und erklärt die Linien; Seite 2 warnt.</translation>
    </message>
    <message>
        <source>Print page 1 at 100 %, “actual size”, not “fit to page”.</source>
        <translation>Drucken Sie Seite 1 mit 100 %, „tatsächliche Größe“, nicht „an Seite anpassen“.</translation>
    </message>
    <message>
        <source>Measure the check scales at its foot and up its side with a steel rule: 100 mm, and 4 in. Is either off, mend the printer's scale.</source>
        <translation>Messen Sie die Prüfmaßstäbe unten und an der Seite mit einem Stahllineal: 100 mm und 4 in. Stimmt einer nicht, berichtigen Sie den Maßstab des Druckers.</translation>
    </message>
    <message>
        <source>Print the rest, and measure the scales of every template before you saw by it.</source>
        <translation>Drucken Sie den Rest, und messen Sie die Maßstäbe jeder Schablone, bevor Sie nach ihr sägen.</translation>
    </message>
    <message>
        <source>The expression “{}” gives this value, so it cannot be typed here.</source>
        <translation>Der Ausdruck „{}“ gibt diesen Wert, darum lässt er sich hier nicht schreiben.</translation>
    </message>
    <message>
        <source>Press the blue sign in the field to change the expression or clear it.</source>
        <translation>Drücken Sie das blaue Zeichen im Feld, um den Ausdruck zu ändern oder zu löschen.</translation>
    </message>
    <message>
        <source>To type one, clear the expression in the properties of {}.</source>
        <translation>Um einen zu schreiben, löschen Sie den Ausdruck in den Eigenschaften von {}.</translation>
    </message>
    <message>
        <source>{} (expression)</source>
        <translation>{} (Ausdruck)</translation>
    </message>
    <message>
        <source>Open</source>
        <extracomment>How often a pinned head looks where the form is seen, ms.</extracomment>
        <translation>Öffnen</translation>
    </message>
    <message>
        <source>Nothing here opens it: open it yourself. It is {}.</source>
        <translation>Nichts hier öffnet sie: öffnen Sie sie selbst. Es ist {}.</translation>
    </message>
    <message>
        <source>Larger…</source>
        <extracomment>Qt's own word for no limit of a widget's height, pixels.</extracomment>
        <translation>Größer…</translation>
    </message>
    <message>
        <source>The whole table in a window of its own; close it to go on here</source>
        <translation>Die ganze Tabelle in einem eigenen Fenster; schließen Sie es, um hier weiterzuarbeiten</translation>
    </message>
    <message>
        <source>The page “{}” was not kept. {}</source>
        <translation>Die Seite „{}“ wurde nicht behalten. {}</translation>
    </message>
    <message>
        <source>Allowance</source>
        <translation>Zugabe</translation>
    </message>
    <message>
        <source>Wood left outside the form, all round, for the saw, slip and sanding</source>
        <translation>Holz, das rings um die Form stehen bleibt, für Säge, Verrutschen und Schleifen</translation>
    </message>
    <message>
        <source>Side of a tenon</source>
        <translation>Seite eines Zapfens</translation>
    </message>
    <message>
        <source>Side of a square mortise for a floating tenon</source>
        <translation>Seite eines quadratischen Zapfenlochs für einen losen Zapfen</translation>
    </message>
    <message>
        <source>Diameter of pins</source>
        <translation>Durchmesser der Dübel</translation>
    </message>
    <message>
        <source>Diameter of the dowels you have</source>
        <translation>Durchmesser der Dübel, die Sie haben</translation>
    </message>
    <message>
        <source>Depth of pins</source>
        <translation>Tiefe der Dübel</translation>
    </message>
    <message>
        <source>Depth of the hole in each of the two layers</source>
        <translation>Tiefe der Bohrung in jeder der beiden Schichten</translation>
    </message>
    <message>
        <source>Wood round pins</source>
        <translation>Holz um Dübel</translation>
    </message>
    <message>
        <source>Least wood from a pin to the finished surface, to joints and to voids</source>
        <translation>Wenigstes Holz von einem Dübel zur fertigen Oberfläche, zu Verbindungen und Hohlräumen</translation>
    </message>
    <message>
        <source>Wall of a hollow</source>
        <translation>Wand eines Hohlraums</translation>
    </message>
    <message>
        <source>Least wood around a void, in every direction</source>
        <translation>Wenigstes Holz um einen Hohlraum, in jeder Richtung</translation>
    </message>
    <message>
        <source>Bit for depth holes</source>
        <translation>Bohrer für Tiefenbohrungen</translation>
    </message>
    <message>
        <source>Diameter of the bit that bores depth holes</source>
        <translation>Durchmesser des Bohrers für Tiefenbohrungen</translation>
    </message>
    <message>
        <source>From hole to hole</source>
        <translation>Von Loch zu Loch</translation>
    </message>
    <message>
        <source>Distance between two depth holes</source>
        <translation>Abstand zweier Tiefenbohrungen</translation>
    </message>
    <message>
        <source>Left under holes</source>
        <translation>Bleibt unter Löchern</translation>
    </message>
    <message>
        <source>Wood between the tip of the bit and the finished surface</source>
        <translation>Holz zwischen der Bohrerspitze und der fertigen Oberfläche</translation>
    </message>
    <message>
        <source>Band saw: blade</source>
        <translation>Bandsäge: Blatt</translation>
    </message>
    <message>
        <source>Band saw: height</source>
        <translation>Bandsäge: Höhe</translation>
    </message>
    <message>
        <source>Band saw: throat</source>
        <translation>Bandsäge: Durchlass</translation>
    </message>
    <message>
        <source>as FreeCAD</source>
        <translation>wie FreeCAD</translation>
    </message>
    <message>
        <source>Start values</source>
        <extracomment>What machines can take; the other rows of the shop's saw are how it is sawn.</extracomment>
        <translation>Anfangswerte</translation>
    </message>
    <message>
        <source>the values used last</source>
        <translation>die zuletzt benutzten Werte</translation>
    </message>
    <message>
        <source>the values of these pages</source>
        <translation>die Werte dieser Seiten</translation>
    </message>
    <message>
        <source>A value that you change here counts as used last from then on</source>
        <translation>Ein hier geänderter Wert gilt von da an als zuletzt benutzt</translation>
    </message>
    <message>
        <source>Panels start with</source>
        <translation>Bedienfelder beginnen mit</translation>
    </message>
    <message>
        <source>Panels</source>
        <translation>Bedienfelder</translation>
    </message>
    <message>
        <source>Back to first values</source>
        <translation>Zurück zu den ersten Werten</translation>
    </message>
    <message>
        <source>Forget what was set on these pages and what was used last; your clamps are kept</source>
        <translation>Vergisst, was auf diesen Seiten gesetzt und was zuletzt benutzt wurde; Ihre Zwingen bleiben</translation>
    </message>
    <message>
        <source>What drawings, bill and cautions are written in</source>
        <translation>Worin Zeichnungen, Holzliste und Warnhinweise geschrieben werden</translation>
    </message>
    <message>
        <source>How lengths are written on sheets and in the bill of a new document</source>
        <translation>Wie Längen auf Blättern und in der Holzliste eines neuen Dokuments geschrieben werden</translation>
    </message>
    <message>
        <source>Language</source>
        <translation>Sprache</translation>
    </message>
    <message>
        <source>Fractions</source>
        <translation>Brüche</translation>
    </message>
    <message>
        <source>The wood that is offered first</source>
        <translation>Das Holz, das zuerst angeboten wird</translation>
    </message>
    <message>
        <source>The kind of glue that a new glue-up starts with</source>
        <translation>Die Leimart, mit der eine neue Verleimung beginnt</translation>
    </message>
    <message>
        <source>“{}” must be more than nothing: give a length.</source>
        <translation>„{}“ muss mehr als nichts sein: geben Sie eine Länge.</translation>
    </message>
    <message>
        <source>Shop</source>
        <translation>Werkstatt</translation>
    </message>
    <message>
        <source>0: nothing is said about it</source>
        <translation>0: dazu wird nichts gesagt</translation>
    </message>
    <message>
        <source>Sawing and planing</source>
        <translation>Sägen und Hobeln</translation>
    </message>
    <message>
        <source>What your machines take (0: not known)</source>
        <translation>Was Ihre Maschinen nehmen (0: nicht bekannt)</translation>
    </message>
    <message>
        <source> l/h</source>
        <translation> l/h</translation>
    </message>
    <message>
        <source>Litres that you carve in an hour, as measured; 0: no time is told</source>
        <translation>Liter, die Sie in einer Stunde abtragen, gemessen; 0: keine Zeit wird genannt</translation>
    </message>
    <message>
        <source>In your own money; 0: hours have no price</source>
        <translation>In Ihrer Währung; 0: Stunden haben keinen Preis</translation>
    </message>
    <message>
        <source>Carved in an hour</source>
        <translation>In einer Stunde abgetragen</translation>
    </message>
    <message>
        <source>An hour costs</source>
        <translation>Eine Stunde kostet</translation>
    </message>
    <message>
        <source>Working out the figures</source>
        <extracomment>How often the window asks whether the work is done, ms. Seconds within which a work needs no progress bar, and within which figures need not be greyed. The works that somebody waits for; tests wait for them too.</extracomment>
        <translation>Die Werte werden ausgerechnet</translation>
    </message>
    <message>
        <source>Stopped: nothing was changed.</source>
        <translation>Angehalten: nichts wurde geändert.</translation>
    </message>
</context>
</TS>