<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="fr_FR">
<context>
    <name>StackLam</name>
    <message>
        <source>Planning</source>
        <translation>Planification</translation>
    </message>
    <message>
        <source>Bill of wood</source>
        <translation>Débit de bois</translation>
    </message>
    <message>
        <source>The bill is in the document. Do you want it as a CSV file too?</source>
        <translation>Le débit de bois est dans le document. Le voulez-vous aussi en fichier CSV ?</translation>
    </message>
    <message>
        <source>Slice form into layers</source>
        <extracomment>The packages without which it cannot work. FreeCAD's own word for a command that may be pressed while a panel is open, or empty.</extracomment>
        <translation>Trancher la forme en couches</translation>
    </message>
    <message>
        <source>Slice the selected form into layers that can be cut from your boards. With a stack selected, change it.</source>
        <translation>Tranche la forme choisie en couches qui se débitent dans vos planches. Si un bloc est choisi, le modifie.</translation>
    </message>
    <message>
        <source>Add mortise and tenon</source>
        <translation>Ajouter mortaise et tenon</translation>
    </message>
    <message>
        <source>Join two or more stacks by a floating tenon along an axis</source>
        <translation>Assemble deux blocs ou plus par un faux tenon le long d’un axe</translation>
    </message>
    <message>
        <source>Set pins</source>
        <translation>Placer les tourillons</translation>
    </message>
    <message>
        <source>Pin the layers of the selected stack, so that none can slip or be laid the wrong way round</source>
        <translation>Tourillonne les couches du bloc choisi, pour qu’aucune ne glisse ni ne soit posée à l’envers</translation>
    </message>
    <message>
        <source>Hollow the layers</source>
        <translation>Évider les couches</translation>
    </message>
    <message>
        <source>Cut voids into the inner layers of the selected stack, to save weight and wood</source>
        <translation>Découpe des évidements dans les couches intérieures du bloc choisi, pour gagner du poids et du bois</translation>
    </message>
    <message>
        <source>Board rack</source>
        <translation>Stock de planches</translation>
    </message>
    <message>
        <source>List the boards on hand and those you can buy, in a spreadsheet of the document</source>
        <translation>Vos planches et celles que vous pouvez acheter, dans une feuille de calcul du document</translation>
    </message>
    <message>
        <source>Cut the boards</source>
        <translation>Débiter les planches</translation>
    </message>
    <message>
        <source>Plan how the staves of all layers are cut from the boards of the rack, and what must be bought</source>
        <translation>Prévoit comment les lames de toutes les couches se débitent dans les planches du stock, et ce qu’il faut acheter</translation>
    </message>
    <message>
        <source>Carving guide</source>
        <translation>Guide de sculpture</translation>
    </message>
    <message>
        <source>Depth holes, offsets, section templates and glue lines: what guides the carving down to the form</source>
        <translation>Trous de profondeur, relevés de cotes, gabarits de section et plans de collage : ce qui guide la sculpture</translation>
    </message>
    <message>
        <source>Plan the glue-up</source>
        <translation>Préparer le collage</translation>
    </message>
    <message>
        <source>Which layers are glued at once, in which order, with the clamps, the glue and the hands at hand</source>
        <translation>Quelles couches se collent ensemble et dans quel ordre, avec les serre-joints, la colle et les mains disponibles</translation>
    </message>
    <message>
        <source>Check the stacks</source>
        <translation>Contrôler les blocs</translation>
    </message>
    <message>
        <source>Show what the checks say: does the form lie inside its blanks, is there enough wood round the joints</source>
        <translation>Montre ce que disent les contrôles : la forme tient-elle dans ses ébauches, y a-t-il assez de bois autour des assemblages</translation>
    </message>
    <message>
        <source>Finished piece</source>
        <extracomment>Sentences shown, at most: the rest is in the checks.</extracomment>
        <translation>Pièce finie</translation>
    </message>
    <message>
        <source>Say how the piece will be used and where: does it stand and hold, what does a year do to it</source>
        <translation>Dites comment et où la pièce servira : tient-elle debout, résiste-t-elle, que lui fait une année</translation>
    </message>
    <message>
        <source>Layer drawings</source>
        <extracomment>Kinds of sheets that the maker ticked or unticked, kept until FreeCAD ends. Dots per inch of a page in the panel, and the most dots along its longer side.</extracomment>
        <translation>Plans des couches</translation>
    </message>
    <message>
        <source>Full-size templates of every layer, overviews and lists, as a PDF to print</source>
        <translation>Gabarits de chaque couche grandeur nature, vues d’ensemble et listes, en PDF à imprimer</translation>
    </message>
    <message>
        <source>Write the bill of wood into a spreadsheet of the document, and on request into a CSV file</source>
        <translation>Écrit le débit de bois dans une feuille de calcul du document et, sur demande, dans un fichier CSV</translation>
    </message>
    <message>
        <source>Open the example</source>
        <translation>Ouvrir l’exemple</translation>
    </message>
    <message>
        <source>Open a plant stand to try the workbench on, as a new document of your own. The menu has more examples.</source>
        <translation>Ouvre une sellette pour plante, pour essayer l’atelier, comme nouveau document à vous. Le menu a d’autres exemples.</translation>
    </message>
    <message>
        <source>Plant stand</source>
        <extracomment>Which example, of those in `data.EXAMPLES`, and what its document is called.</extracomment>
        <translation>Sellette</translation>
    </message>
    <message>
        <source>First piece</source>
        <extracomment>A line of what is to do, with room below it. Stands between a figure and its unit. Milliseconds from look to look; the least width of the window, and its height where it shares a column, pixels.</extracomment>
        <translation>Première pièce</translation>
    </message>
    <message>
        <source>Ten minutes from an empty document to printed drawings: a guide that sees what you have done</source>
        <translation>Dix minutes d’un document vide aux dessins imprimés : un guide qui voit ce que vous avez fait</translation>
    </message>
    <message>
        <source>Help on StackLam</source>
        <translation>Aide de StackLam</translation>
    </message>
    <message>
        <source>A page for each command, the words of the trade, and the limits; no network is asked</source>
        <translation>Une page par commande, les mots du métier et les limites ; sans réseau</translation>
    </message>
    <message>
        <source>Low seat</source>
        <translation>Siège bas</translation>
    </message>
    <message>
        <source>A dished seat on three splayed legs, each leg a stack of its own</source>
        <translation>Un siège creusé sur trois pieds évasés, chaque pied un bloc à lui</translation>
    </message>
    <message>
        <source>Vessel</source>
        <translation>Vase</translation>
    </message>
    <message>
        <source>A vessel that is open inside, so that its layers are rings</source>
        <translation>Un vase ouvert en dedans, si bien que ses couches sont des anneaux</translation>
    </message>
    <message>
        <source>Leaning table</source>
        <translation>Table penchée</translation>
    </message>
    <message>
        <source>A small table on a base that leans, hollow above its foot</source>
        <translation>Une petite table sur un pied qui penche, évidé au-dessus de sa base</translation>
    </message>
    <message>
        <source>More examples</source>
        <extracomment>In a menu of their own, below the others. The commands as they stand in the toolbar and in the menu: what makes the stacks, what the bench needs, what comes of it, and something to try it on.</extracomment>
        <translation>Autres exemples</translation>
    </message>
    <message>
        <source>The example {} is missing: install the workbench again.</source>
        <translation>L’exemple {} manque : réinstallez l’atelier.</translation>
    </message>
    <message>
        <source>Opening the example</source>
        <translation>Ouverture de l’exemple</translation>
    </message>
    <message>
        <source>z, upright</source>
        <extracomment>What stands before the letter of an axis of the form's own.</extracomment>
        <translation>z, debout</translation>
    </message>
    <message>
        <source>as picked</source>
        <translation>comme choisi</translation>
    </message>
    <message>
        <source>z of the form</source>
        <translation>z de la forme</translation>
    </message>
    <message>
        <source>x of the form</source>
        <translation>x de la forme</translation>
    </message>
    <message>
        <source>y of the form</source>
        <translation>y de la forme</translation>
    </message>
    <message>
        <source>Use selected face or edge</source>
        <extracomment>An object, and a face or edge of it; its own x, y and z where that is "".</extracomment>
        <translation>Prendre la face ou l’arête choisie</translation>
    </message>
    <message>
        <source>Pick a flat or round face, or a straight or circular edge, in the 3D view first</source>
        <translation>Choisissez d’abord dans la vue 3D une face plane ou ronde, ou une arête droite ou circulaire</translation>
    </message>
    <message>
        <source>Direction </source>
        <translation>Direction </translation>
    </message>
    <message>
        <source>Stays so in the model, however the form is turned: {}</source>
        <translation>Reste ainsi dans le modèle, que la forme tourne ou non : {}</translation>
    </message>
    <message>
        <source>Turns with the form; now {}</source>
        <translation>Tourne avec la forme ; à présent {}</translation>
    </message>
    <message>
        <source>Follows {source}; now {direction}</source>
        <translation>Suit {source} ; à présent {direction}</translation>
    </message>
    <message>
        <source>Look closer</source>
        <extracomment>Dots per inch of the large picture and of the small one.</extracomment>
        <translation>Voir de plus près</translation>
    </message>
    <message>
        <source>The boards in a window of their own, with pieces, knots, saw cuts and their order</source>
        <translation>Les planches dans leur propre fenêtre, avec pièces, nœuds, traits de scie et leur ordre</translation>
    </message>
    <message>
        <source>Look closer, at all {} pages</source>
        <translation>Voir de plus près, les {} pages</translation>
    </message>
    <message>
        <source>Boards as they are cut</source>
        <translation>Les planches telles qu’on les débite</translation>
    </message>
    <message>
        <source>“{}” cannot be worked out: write a length.</source>
        <extracomment>144 in³ in mm³. Room between a box and its rows, pixels: left, above, right, below. Milliseconds of quiet before the figures follow what is typed. Most decimals of a field in inches, enough for a fit and for sixteenths; and the fewest, FreeCAD's own. Least width of a field, and of one of two side by side, pixels: a panel is then no wider than FreeCAD's own at first. Most width that a button or a tick asks for, pixels. Least width of a line for a text: beside a long caption its words could not be read, and it goes below. The field's own value, kept beside the one that FreeCAD rounds; and why there is none, a sentence.</extracomment>
        <translation>« {} » ne se calcule pas : écrivez une longueur.</translation>
    </message>
    <message>
        <source>FreeCAD gave no field to type in: save your work and start FreeCAD again.</source>
        <translation>FreeCAD n’a pas donné de champ de saisie : enregistrez et relancez FreeCAD.</translation>
    </message>
    <message>
        <source>What this panel works on is gone from the document: press Cancel, and start again.</source>
        <translation>Ce sur quoi l’on travaille ici a disparu du document : appuyez sur Annuler et recommencez.</translation>
    </message>
    <message>
        <source>Another panel is open: finish it with OK or Cancel first.</source>
        <extracomment>Width of a title, at most, pixels.</extracomment>
        <translation>Un autre panneau est ouvert : finissez-le d’abord par OK ou Annuler.</translation>
    </message>
    <message>
        <source>Templates at planes of your own: pick a flat face, then press Add</source>
        <translation>Gabarits à vos propres plans : choisissez une face plane, puis Ajouter</translation>
    </message>
    <message>
        <source>Add selected face</source>
        <translation>Ajouter la face choisie</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Retirer</translation>
    </message>
    <message>
        <source>Nothing is selected: pick the form you want to slice, in the 3D view or in the tree.</source>
        <translation>Rien n’est choisi : choisissez la forme à trancher, dans la vue 3D ou dans l’arbre.</translation>
    </message>
    <message>
        <source>{} things are selected: pick one form, and slice the others after it.</source>
        <translation>{} choses sont choisies : choisissez une forme et tranchez les autres ensuite.</translation>
    </message>
    <message>
        <source>A joint needs two stacks: slice both forms first.</source>
        <translation>Un assemblage demande deux blocs : tranchez d’abord les deux formes.</translation>
    </message>
    <message>
        <source>A joint needs two stacks and {} is selected: pick all that it joins.</source>
        <translation>Un assemblage demande deux blocs et {} est choisi : choisissez tout ce qu’il relie.</translation>
    </message>
    <message>
        <source>There is no stack yet: slice a form into layers first.</source>
        <translation>Il n’y a pas encore de bloc : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>{} stacks are selected: pick one, or a layer of it.</source>
        <translation>{} blocs sont choisis : choisissez-en un, ou une de ses couches.</translation>
    </message>
    <message>
        <source>That cannot be measured: pick a face, an edge or a vertex of the model.</source>
        <translation>Cela ne se mesure pas : choisissez une face, une arête ou un sommet du modèle.</translation>
    </message>
    <message>
        <source>Pick {} in the 3D view first, then press the button.</source>
        <translation>Choisissez d’abord {} dans la vue 3D, puis appuyez sur le bouton.</translation>
    </message>
    <message>
        <source>That gives no direction: pick a flat or round face, or a straight or circular edge.</source>
        <translation>Cela ne donne pas de direction : choisissez une face plane ou ronde, ou une arête droite ou circulaire.</translation>
    </message>
    <message>
        <source>That gives no point: pick a vertex, a circular edge, or a face for its centre.</source>
        <translation>Cela ne donne pas de point : choisissez un sommet, une arête circulaire, ou une face pour son centre.</translation>
    </message>
    <message>
        <source>none</source>
        <extracomment>How a line looks whose text was refused: the sentence may stand out of sight. A red that reads on white (4.5 to 1, by WCAG 2.1 §1.4.3) and on the dark style (3.9 to 1). The units of figures that are lines wherever they are asked. Unit inside → unit shown and its worth, metric and in inches. From how many seconds on a time is told in minutes, and from how many in hours. Significant digits of a shown figure.
----------
Largest whole number and largest figure where a row has no bound. An area is typed in cm² or in², a volume in cm³ or in³: how many mm² and mm³ these are, and the places shown.</extracomment>
        <translation>aucun</translation>
    </message>
    <message>
        <source>give {} to {}</source>
        <translation>donnez de {} à {}</translation>
    </message>
    <message>
        <source>“{}” cannot be {}: {}.</source>
        <translation>« {} » ne peut être {} : {}.</translation>
    </message>
    <message>
        <source>“{}” is no whole number.</source>
        <translation>« {} » n’est pas un nombre entier.</translation>
    </message>
    <message>
        <source>“{}”: “{}” are no {}numbers: {}.</source>
        <translation>« {} » : « {} » ne sont pas des nombres {}: {}.</translation>
    </message>
    <message>
        <source>equal layers from the bottom</source>
        <translation>couches égales depuis le bas</translation>
    </message>
    <message>
        <source>where they save most wood</source>
        <translation>où l’on gagne le plus de bois</translation>
    </message>
    <message>
        <source>as few as can be</source>
        <translation>le moins possible</translation>
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
        <translation>Autres épaisseurs rabotées disponibles : les couches sont alors placées où il faut le moins de bois</translation>
    </message>
    <message>
        <source>With several thicknesses, equal layers are never the choice</source>
        <translation>Avec plusieurs épaisseurs, on ne choisit jamais des couches égales</translation>
    </message>
    <message>
        <source>20 in3</source>
        <translation>20 in3</translation>
    </message>
    <message>
        <source>Wood that one more glue line must save to be worth its work; empty: any saving is</source>
        <translation>Bois qu’un plan de collage de plus doit épargner pour valoir son travail ; vide : toute épargne compte</translation>
    </message>
    <message>
        <source>Glue lines</source>
        <translation>Plans de collage</translation>
    </message>
    <message>
        <source>Laid</source>
        <translation>Disposition</translation>
    </message>
    <message>
        <source>A line must save</source>
        <translation>Un plan doit épargner</translation>
    </message>
    <message>
        <source>Add</source>
        <extracomment>Columns as they stand in the panel, what is changed most in front, and their widths, pixels. Air beside a figure, pixels. Rows in sight.</extracomment>
        <translation>Ajouter</translation>
    </message>
    <message>
        <source>Another kind of clamp</source>
        <translation>Une autre sorte de serre-joint</translation>
    </message>
    <message>
        <source>Take the chosen clamps off the table</source>
        <translation>Retire de la table les serre-joints choisis</translation>
    </message>
    <message>
        <source>Load CSV…</source>
        <translation>Charger un CSV…</translation>
    </message>
    <message>
        <source>Clamps from a file, besides those in the table; of one name the file's</source>
        <translation>Serre-joints d’un fichier, en plus de ceux de la table ; à nom égal, ceux du fichier</translation>
    </message>
    <message>
        <source>Save CSV…</source>
        <translation>Enregistrer en CSV…</translation>
    </message>
    <message>
        <source>The table as a file</source>
        <translation>La table en fichier</translation>
    </message>
    <message>
        <source>Keep as mine</source>
        <translation>Garder comme miens</translation>
    </message>
    <message>
        <source>Offer these clamps in every new document</source>
        <translation>Proposer ces serre-joints dans chaque nouveau document</translation>
    </message>
    <message>
        <source>Take mine</source>
        <translation>Prendre les miens</translation>
    </message>
    <message>
        <source>The clamps that were kept, in place of those in the table</source>
        <translation>Les serre-joints gardés, à la place de ceux de la table</translation>
    </message>
    <message>
        <source>Clamps, row {}, {}</source>
        <translation>Serre-joints, ligne {}, {}</translation>
    </message>
    <message>
        <source>Choose the clamps to remove: click their rows first.</source>
        <translation>Choisissez les serre-joints à retirer : cliquez d’abord sur leurs lignes.</translation>
    </message>
    <message>
        <source>{} of the file's clamps are in the table.</source>
        <translation>{} des serre-joints du fichier sont dans la table.</translation>
    </message>
    <message>
        <source>The clamps were written to {}.</source>
        <translation>Les serre-joints ont été écrits dans {}.</translation>
    </message>
    <message>
        <source>These clamps were kept: every new glue-up begins with them.</source>
        <translation>Ces serre-joints sont gardés : chaque nouveau collage commence par eux.</translation>
    </message>
    <message>
        <source>No clamps were kept yet: list yours, then press Keep as mine.</source>
        <translation>Aucun serre-joint n’est encore gardé : notez les vôtres, puis appuyez sur « Garder comme miens ».</translation>
    </message>
    <message>
        <source>Clamps from a file</source>
        <translation>Serre-joints d’un fichier</translation>
    </message>
    <message>
        <source>Clamps to a file</source>
        <translation>Serre-joints dans un fichier</translation>
    </message>
    <message>
        <source>by the wood</source>
        <extracomment>Options of the glue that are not as its kind has them: what is shown where they are left out.</extracomment>
        <translation>selon le bois</translation>
    </message>
    <message>
        <source>not known</source>
        <extracomment>The same of the room.</extracomment>
        <translation>inconnu</translation>
    </message>
    <message>
        <source>Before you begin</source>
        <translation>Avant de commencer</translation>
    </message>
    <message>
        <source>At {}: open {}, pressed within {}, in clamps {}, cured after {}</source>
        <extracomment>What the table's times are measured at, °C.</extracomment>
        <translation>À {} : ouvert {}, sous pression avant {}, serré {}, pris après {}</translation>
    </message>
    <message>
        <source>Glue-up</source>
        <translation>Collage</translation>
    </message>
    <message>
        <source>There is nothing to glue yet: slice a form into layers first.</source>
        <translation>Il n’y a encore rien à coller : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>What it takes</source>
        <translation>Ce qu’il faut</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Verdict</translation>
    </message>
    <message>
        <source>Set-ups</source>
        <translation>Serrages</translation>
    </message>
    <message>
        <source>Glue</source>
        <translation>Colle</translation>
    </message>
    <message>
        <source>Clamps</source>
        <translation>Serre-joints</translation>
    </message>
    <message>
        <source>As your can says</source>
        <translation>Comme sur votre pot</translation>
    </message>
    <message>
        <source>Its figures are common practice: what stands on your own can says more</source>
        <translation>Ses valeurs sont d’usage courant : votre pot peut en dire plus</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Sorte</translation>
    </message>
    <message>
        <source>{}, near the body</source>
        <translation>{}, près du corps</translation>
    </message>
    <message>
        <source>Room</source>
        <translation>Local</translation>
    </message>
    <message>
        <source>How long each move takes</source>
        <translation>Combien dure chaque geste</translation>
    </message>
    <message>
        <source>Cauls and refacing</source>
        <translation>Cales et ressurfaçage</translation>
    </message>
    <message>
        <source>ok: every set-up holds its limits</source>
        <translation>bon : chaque serrage tient ses limites</translation>
    </message>
    <message>
        <source>stop: {} of {} set-ups break a limit</source>
        <translation>arrêt : {} serrages sur {} dépassent une limite</translation>
    </message>
    <message>
        <source>stop: not everything could be planned</source>
        <translation>arrêt : tout n’a pas pu être prévu</translation>
    </message>
    <message>
        <source>stop: wait before glue is opened</source>
        <translation>arrêt : attendez avant d’ouvrir la colle</translation>
    </message>
    <message>
        <source>{}, with {}</source>
        <translation>{}, avec {}</translation>
    </message>
    <message>
        <source>{}: {} to see to</source>
        <translation>{} : {} à voir</translation>
    </message>
    <message>
        <source>Step through the glue-up: what is not glued yet stands apart. Nothing is moved</source>
        <extracomment>Height of the list, and least width, pixels: three set-ups are in sight. Thickness of a drawn pad, mm.</extracomment>
        <translation>Parcourez le collage : ce qui n’est pas encore collé est à l’écart. Rien n’est déplacé</translation>
    </message>
    <message>
        <source>Slide to see the layers come together</source>
        <translation>Faites glisser pour voir les couches se rejoindre</translation>
    </message>
    <message>
        <source>Nothing is glued yet</source>
        <translation>Rien n’est encore collé</translation>
    </message>
    <message>
        <source>Set-up {} of {}, wait {}</source>
        <translation>Serrage {} sur {}, attente {}</translation>
    </message>
    <message>
        <source>ok: {}</source>
        <translation>bon : {}</translation>
    </message>
    <message>
        <source>stop: {}</source>
        <translation>arrêt : {}</translation>
    </message>
    <message>
        <source>StackLam: Python packages</source>
        <translation>StackLam : paquets Python</translation>
    </message>
    <message>
        <source>Copy the line</source>
        <translation>Copier la ligne</translation>
    </message>
    <message>
        <source>Install</source>
        <translation>Installer</translation>
    </message>
    <message>
        <source>Install from a folder of wheels…</source>
        <translation>Installer d’un dossier de wheels…</translation>
    </message>
    <message>
        <source>Without a network: choose the folder that holds the packages' .whl files</source>
        <translation>Sans réseau : choisissez le dossier qui contient les fichiers .whl des paquets</translation>
    </message>
    <message>
        <source>Back</source>
        <extracomment>Size of the window, pixels, where the screen is large enough; and room in the cells of tables.</extracomment>
        <translation>Retour</translation>
    </message>
    <message>
        <source>Contents</source>
        <translation>Sommaire</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Fermer</translation>
    </message>
    <message>
        <source>The help page “{}” is not there: put the folder docs back beside StackLam.</source>
        <translation>La page d’aide « {} » n’est pas là : remettez le dossier docs près de StackLam.</translation>
    </message>
    <message>
        <source>StackLam: {}</source>
        <translation>StackLam : {}</translation>
    </message>
    <message>
        <source>Or by hand, in a terminal, and then start FreeCAD again:</source>
        <translation>Ou à la main, dans un terminal, puis relancez FreeCAD :</translation>
    </message>
    <message>
        <source>All packages are there now: StackLam is ready.</source>
        <translation>Tous les paquets sont là : StackLam est prêt.</translation>
    </message>
    <message>
        <source>Close the documents that hold stacks and open them again.</source>
        <translation>Fermez les documents qui contiennent des blocs et rouvrez-les.</translation>
    </message>
    <message>
        <source>The packages were installed: start FreeCAD again to use them.</source>
        <translation>Les paquets sont installés : relancez FreeCAD pour les utiliser.</translation>
    </message>
    <message>
        <source>FreeCAD's own Python was not found: use the line below.</source>
        <translation>Le Python de FreeCAD n’a pas été trouvé : utilisez la ligne ci-dessous.</translation>
    </message>
    <message>
        <source>Folder that holds the wheels</source>
        <translation>Dossier qui contient les wheels</translation>
    </message>
    <message>
        <source>Installing into {} …</source>
        <translation>Installation dans {} …</translation>
    </message>
    <message>
        <source>{} does not start.</source>
        <translation>{} ne démarre pas.</translation>
    </message>
    <message>
        <source>those that shops keep</source>
        <extracomment>Options of a joint that are about the bench.</extracomment>
        <translation>celles du commerce</translation>
    </message>
    <message>
        <source>Your bits, as in 35 mm; 1-3/8 in; 25 mm spade. They are kept for all joints</source>
        <translation>Vos mèches, comme 35 mm; 1-3/8 in; 25 mm spade. Elles valent pour tous les assemblages</translation>
    </message>
    <message>
        <source>How far your drill press feeds; 0: nothing is said about it</source>
        <translation>Course de votre perceuse à colonne ; 0 : on n’en dit rien</translation>
    </message>
    <message>
        <source>At the bench</source>
        <translation>À l’établi</translation>
    </message>
    <message>
        <source>Bits</source>
        <translation>Mèches</translation>
    </message>
    <message>
        <source>Drill stroke (0: any)</source>
        <translation>Course de perçage (0 : toute)</translation>
    </message>
    <message>
        <source>from the top</source>
        <translation>par le dessus</translation>
    </message>
    <message>
        <source>from the underside</source>
        <translation>par le dessous</translation>
    </message>
    <message>
        <source>from both</source>
        <translation>par les deux</translation>
    </message>
    <message>
        <source>right and left</source>
        <translation>à droite et à gauche</translation>
    </message>
    <message>
        <source>above and below</source>
        <translation>au-dessus et au-dessous</translation>
    </message>
    <message>
        <source>twist bit</source>
        <extracomment>Options that the panel asks in a way of its own. What is shown for the words of an option.</extracomment>
        <translation>foret hélicoïdal</translation>
    </message>
    <message>
        <source>forstner bit</source>
        <translation>mèche Forstner</translation>
    </message>
    <message>
        <source>There is nothing to carve yet: slice a form into layers first.</source>
        <translation>Il n’y a encore rien à sculpter : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>What it gives</source>
        <translation>Ce que cela donne</translation>
    </message>
    <message>
        <source>Holes from the rough surface that stop short of the finished one, as a gauge for carving</source>
        <translation>Trous depuis la surface brute, qui s’arrêtent avant la surface finie, comme repères de sculpture</translation>
    </message>
    <message>
        <source>Measure it: from the bit's rim, or its full width, to the tip</source>
        <translation>Mesurez-la : du bord de la mèche, ou de sa pleine largeur, à la pointe</translation>
    </message>
    <message>
        <source>Depth holes</source>
        <translation>Trous de profondeur</translation>
    </message>
    <message>
        <source>Settings of the stop</source>
        <translation>Réglages de la butée</translation>
    </message>
    <message>
        <source>Deepest hole</source>
        <translation>Trou le plus profond</translation>
    </message>
    <message>
        <source>Shallowest hole</source>
        <translation>Trou le moins profond</translation>
    </message>
    <message>
        <source>To carve</source>
        <translation>À sculpter</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Temps</translation>
    </message>
    <message>
        <source>Left out</source>
        <translation>Omis</translation>
    </message>
    <message>
        <source>Length of its point</source>
        <translation>Longueur de sa pointe</translation>
    </message>
    <message>
        <source>The sides that gauges are held against the piece from</source>
        <translation>Les côtés où l’on présente les calibres</translation>
    </message>
    <message>
        <source>Offsets and section templates</source>
        <translation>Relevé de cotes et gabarits de section</translation>
    </message>
    <message>
        <source>Other planes</source>
        <translation>Autres plans</translation>
    </message>
    <message>
        <source>Gauges</source>
        <translation>Calibres</translation>
    </message>
    <message>
        <source> litres an hour</source>
        <translation> litres par heure</translation>
    </message>
    <message>
        <source>not measured</source>
        <translation>non mesuré</translation>
    </message>
    <message>
        <source>Wood that you carve away in an hour, measured on a piece of yours; no rate is assumed</source>
        <translation>Bois que vous enlevez en une heure, mesuré sur une pièce à vous ; aucun rythme n’est supposé</translation>
    </message>
    <message>
        <source>Draw the glue lines</source>
        <translation>Tracer les plans de collage</translation>
    </message>
    <message>
        <source>On the finished forms; they stay in step when you change the stacking axis or the stock</source>
        <translation>Sur les formes finies ; ils suivent quand vous changez l’axe d’empilage ou l’épaisseur</translation>
    </message>
    <message>
        <source>Your work</source>
        <translation>Votre travail</translation>
    </message>
    <message>
        <source>You carve</source>
        <translation>Vous sculptez</translation>
    </message>
    <message>
        <source>Measure the length of the bit's point, from its rim to its tip, and give it here.</source>
        <translation>Mesurez la longueur de la pointe de la mèche, du bord à la pointe, et donnez-la ici.</translation>
    </message>
    <message>
        <source>none are asked for</source>
        <translation>aucun n’est demandé</translation>
    </message>
    <message>
        <source>no rate is given</source>
        <translation>aucun rythme n’est donné</translation>
    </message>
    <message>
        <source>about {:.1f} hours</source>
        <translation>environ {:.1f} heures</translation>
    </message>
    <message>
        <source>Try the bit and its stop in waste first: every hole must end short of the finished surface.</source>
        <translation>Essayez la mèche et sa butée dans une chute : chaque trou doit finir avant la surface finie.</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Contrôle</translation>
    </message>
    <message>
        <source>Figure</source>
        <translation>Valeur</translation>
    </message>
    <message>
        <source>Limit</source>
        <translation>Limite</translation>
    </message>
    <message>
        <source>What it says</source>
        <translation>Ce qu’il dit</translation>
    </message>
    <message>
        <source>By which rule</source>
        <translation>D’après quelle règle</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Endroit</translation>
    </message>
    <message>
        <source>⊕ show</source>
        <extracomment>The column that takes what room is left; the most of the main window's height that the table opens with. What a row can show in the 3D view, and how it is said: a place, or only the stack or joint that it names.</extracomment>
        <translation>⊕ montrer</translation>
    </message>
    <message>
        <source>Double click or press Enter: the 3D view goes to the place and marks it</source>
        <translation>Double clic ou Entrée : la vue 3D va à l’endroit et le marque</translation>
    </message>
    <message>
        <source>select</source>
        <translation>choisir</translation>
    </message>
    <message>
        <source>Double click or press Enter: what it names is selected and seen in the 3D view</source>
        <translation>Double clic ou Entrée : ce qui est nommé est choisi et montré dans la vue 3D</translation>
    </message>
    <message>
        <source>✓ ok</source>
        <extracomment>Whose mark in the 3D view it is, and how much of the model is seen round it. The verdict is read as a word with a mark before it; no colour is needed.</extracomment>
        <translation>✓ bon</translation>
    </message>
    <message>
        <source>! caution</source>
        <translation>! attention</translation>
    </message>
    <message>
        <source>✕ stop</source>
        <translation>✕ arrêt</translation>
    </message>
    <message>
        <source>Do not cut yet: {} of {} checks say stop.</source>
        <translation>Ne coupez pas encore : {} contrôles sur {} disent arrêt.</translation>
    </message>
    <message>
        <source>Nothing says stop; {} of {} checks ask for care.</source>
        <translation>Rien ne dit arrêt ; {} contrôles sur {} demandent attention.</translation>
    </message>
    <message>
        <source>All {} checks are well.</source>
        <translation>Les {} contrôles sont bons.</translation>
    </message>
    <message>
        <source>Check again</source>
        <translation>Contrôler de nouveau</translation>
    </message>
    <message>
        <source>Look deeper</source>
        <translation>Examiner à fond</translation>
    </message>
    <message>
        <source>Make what takes longer: the deep check of strength, a year in the room</source>
        <translation>Fait ce qui prend plus de temps : le contrôle approfondi de résistance, une année dans la pièce</translation>
    </message>
    <message>
        <source>Finished piece…</source>
        <translation>Pièce finie…</translation>
    </message>
    <message>
        <source>Say how the piece is used, and what else is asked of it</source>
        <translation>Dites comment la pièce sert et ce qu’on lui demande encore</translation>
    </message>
    <message>
        <source>Checking</source>
        <translation>Contrôle en cours</translation>
    </message>
    <message>
        <source>Checks of {}</source>
        <translation>Contrôles de {}</translation>
    </message>
    <message>
        <source>whichever costs less</source>
        <extracomment>Least width of the bar of progress beside its buttons, pixels. Time between two looks at the buttons while a better plan is sought, s. What is shown for the words of an option.</extracomment>
        <translation>ce qui coûte le moins</translation>
    </message>
    <message>
        <source>There is nothing to cut yet: slice a form into layers first.</source>
        <translation>Il n’y a encore rien à débiter : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>There are no boards on the rack: open the board rack and put yours there, or boards to buy.</source>
        <translation>Il n’y a pas de planches en stock : ouvrez le stock de planches et mettez-y les vôtres, ou des planches à acheter.</translation>
    </message>
    <message>
        <source>Staves</source>
        <translation>Lames</translation>
    </message>
    <message>
        <source>Boards</source>
        <translation>Planches</translation>
    </message>
    <message>
        <source>To buy</source>
        <translation>À acheter</translation>
    </message>
    <message>
        <source>Yield</source>
        <translation>Rendement</translation>
    </message>
    <message>
        <source>Cost</source>
        <translation>Coût</translation>
    </message>
    <message>
        <source>How good</source>
        <translation>Qualité</translation>
    </message>
    <message>
        <source>Found by</source>
        <translation>Trouvé par</translation>
    </message>
    <message>
        <source>Look longer</source>
        <translation>Chercher plus longtemps</translation>
    </message>
    <message>
        <source>Look longer for a cheaper plan, then for how good any can be</source>
        <translation>Cherche plus longtemps un débit moins cher, puis jusqu’où l’on peut aller</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Arrêter</translation>
    </message>
    <message>
        <source>Keep the best plan found so far</source>
        <translation>Garde le meilleur débit trouvé jusqu’ici</translation>
    </message>
    <message>
        <source>Saw</source>
        <translation>Scie</translation>
    </message>
    <message>
        <source>{} for {} layers</source>
        <translation>{} pour {} couches</translation>
    </message>
    <message>
        <source>{} from the rack, {} to buy</source>
        <translation>{} du stock, {} à acheter</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>rien</translation>
    </message>
    <message>
        <source>{:.0f} % of the boards becomes staves</source>
        <translation>{:.0f} % des planches deviennent des lames</translation>
    </message>
    <message>
        <source>… and {} more seams.</source>
        <translation>… et {} joints de chant de plus.</translation>
    </message>
    <message>
        <source>Looking for how good a plan can be at all …</source>
        <translation>Cherche jusqu’où un débit peut aller …</translation>
    </message>
    <message>
        <source>There is no plan to keep: mend what the panel says first.</source>
        <translation>Il n’y a pas de débit à garder : corrigez d’abord ce que dit le panneau.</translation>
    </message>
    <message>
        <source>Cutting plan</source>
        <translation>Plan de débit</translation>
    </message>
    <message>
        <source>Bench page</source>
        <extracomment>Kinds of sheets that are ticked only when asked for: tables and reports to be read, and not to work by.</extracomment>
        <translation>Page d’établi</translation>
    </message>
    <message>
        <source>The bench page was written to {}: open it in a browser, on a phone too.</source>
        <translation>La page d’établi a été écrite dans {} : ouvrez-la dans un navigateur, aussi au téléphone.</translation>
    </message>
    <message>
        <source>Folder for SVG and DXF</source>
        <translation>Dossier pour SVG et DXF</translation>
    </message>
    <message>
        <source>{} sheets were written to {} as SVG.</source>
        <translation>{} feuilles ont été écrites dans {} en SVG.</translation>
    </message>
    <message>
        <source>Pages of the layers</source>
        <translation>Pages des couches</translation>
    </message>
    <message>
        <source>Writing the drawings</source>
        <translation>Écriture des dessins</translation>
    </message>
    <message>
        <source>same paper</source>
        <extracomment>Templates are tiled over the paper of the other sheets.</extracomment>
        <translation>même papier</translation>
    </message>
    <message>
        <source>There is nothing to draw yet: slice a form into layers first.</source>
        <translation>Il n’y a encore rien à dessiner : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>Sheets</source>
        <translation>Feuilles</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titre</translation>
    </message>
    <message>
        <source>Drawn by</source>
        <translation>Dessiné par</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>Templates on</source>
        <translation>Gabarits sur</translation>
    </message>
    <message>
        <source>Lengths in</source>
        <translation>Longueurs en</translation>
    </message>
    <message>
        <source>PDF file</source>
        <translation>Fichier PDF</translation>
    </message>
    <message>
        <source>B, tabloid</source>
        <translation>B, tabloid</translation>
    </message>
    <message>
        <source>Paper for the lists and overviews</source>
        <translation>Papier des listes et des vues d’ensemble</translation>
    </message>
    <message>
        <source>Paper for the full-size templates: the same, a larger one, or a roll such as “roll 610mm”</source>
        <translation>Papier des gabarits grandeur nature : le même, un plus grand, ou un rouleau comme « roll 610mm »</translation>
    </message>
    <message>
        <source>millimetres</source>
        <translation>millimètres</translation>
    </message>
    <message>
        <source>inches and fractions</source>
        <translation>pouces et fractions</translation>
    </message>
    <message>
        <source>How lengths are written; the templates are full size either way</source>
        <translation>Comment les longueurs sont écrites ; les gabarits sont toujours grandeur nature</translation>
    </message>
    <message>
        <source>to 1/{} in</source>
        <translation>à 1/{} in près</translation>
    </message>
    <message>
        <source>Inches are written to the nearest of these</source>
        <translation>Les pouces sont arrondis à la plus proche de ces fractions</translation>
    </message>
    <message>
        <source>Other unit in brackets</source>
        <translation>Autre unité entre parenthèses</translation>
    </message>
    <message>
        <source>The kinds of sheets that the book holds; contents and cautions are always there</source>
        <translation>Les sortes de feuilles du cahier ; sommaire et précautions y sont toujours</translation>
    </message>
    <message>
        <source>Write PDF</source>
        <translation>Écrire le PDF</translation>
    </message>
    <message>
        <source>Open it in the viewer</source>
        <translation>Ouvrir dans la visionneuse</translation>
    </message>
    <message>
        <source>SVG and DXF…</source>
        <translation>SVG et DXF…</translation>
    </message>
    <message>
        <source>Every sheet as SVG, layers and templates as DXF</source>
        <translation>Chaque feuille en SVG, couches et gabarits en DXF</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Imprimer…</translation>
    </message>
    <message>
        <source>Print true size, or open the PDF to print it</source>
        <translation>Imprimer grandeur nature, ou ouvrir le PDF pour l’imprimer</translation>
    </message>
    <message>
        <source>Pages to edit</source>
        <translation>Pages à modifier</translation>
    </message>
    <message>
        <source>A TechDraw page for each layer, to dimension as you like</source>
        <translation>Une page TechDraw par couche, à coter comme vous voulez</translation>
    </message>
    <message>
        <source>Bench page…</source>
        <translation>Page d’établi…</translation>
    </message>
    <message>
        <source>The glue-up with its clocks, in one file for a phone or tablet without a network</source>
        <translation>Le collage avec ses chronos, en un fichier pour téléphone ou tablette sans réseau</translation>
    </message>
    <message>
        <source>Previous</source>
        <translation>Précédente</translation>
    </message>
    <message>
        <source>Write PDF ({} pages)</source>
        <translation>Écrire le PDF ({} pages)</translation>
    </message>
    <message>
        <source>Drawing the pages…</source>
        <translation>Dessin des pages…</translation>
    </message>
    <message>
        <source>Print at 100 %, “actual size”, and measure the check scales before you cut.</source>
        <translation>Imprimez à 100 %, « taille réelle », et mesurez les échelles de contrôle avant de couper.</translation>
    </message>
    <message>
        <source>Show me where</source>
        <translation>Montrer où</translation>
    </message>
    <message>
        <source>Next</source>
        <translation>Suivante</translation>
    </message>
    <message>
        <source>Step {} of {}, about {} min to go</source>
        <translation>Étape {} sur {}, encore {} min environ</translation>
    </message>
    <message>
        <source>Do it for me</source>
        <translation>Le faire pour moi</translation>
    </message>
    <message>
        <source>Leave out</source>
        <translation>Sauter</translation>
    </message>
    <message>
        <source>Finish</source>
        <translation>Terminer</translation>
    </message>
    <message>
        <source>The document was closed. Open it again and the guide goes on, or begin with a new one.</source>
        <translation>Le document a été fermé. Rouvrez-le et le guide continue, ou commencez-en un nouveau.</translation>
    </message>
    <message>
        <source>“{}” is at the front; the guide goes on in “{}”. Show me where brings that back. To begin anew here, run First piece again.</source>
        <translation>« {} » est devant ; le guide continue dans « {} ». « Montrer où » le ramène. Pour recommencer ici, relancez « Première pièce ».</translation>
    </message>
    <message>
        <source>✓ This is done.</source>
        <translation>✓ C’est fait.</translation>
    </message>
    <message>
        <source>✓ That is right. Close the panel by its button.</source>
        <translation>✓ C’est juste. Fermez le panneau par son bouton.</translation>
    </message>
    <message>
        <source>✓ {}: done.</source>
        <translation>✓ {} : fait.</translation>
    </message>
    <message>
        <source>It is not to be seen now: look in the menus, or show the toolbars and the tree.</source>
        <translation>Cela ne se voit pas à présent : cherchez dans les menus, ou montrez la barre d’outils et l’arbre.</translation>
    </message>
    <message>
        <source>A panel is open: finish it with OK, Cancel or Close first.</source>
        <translation>Un panneau est ouvert : finissez-le d’abord par OK, Annuler ou Fermer.</translation>
    </message>
    <message>
        <source>Drawing the pages</source>
        <translation>Dessin des pages</translation>
    </message>
    <message>
        <source>Page {} of {}: {}</source>
        <translation>Page {} sur {} : {}</translation>
    </message>
    <message>
        <source>Say where the PDF should go: give a file name.</source>
        <translation>Dites où doit aller le PDF : donnez un nom de fichier.</translation>
    </message>
    <message>
        <source>{} pages were written to {}. {}</source>
        <translation>{} pages ont été écrites dans {}. {}</translation>
    </message>
    <message>
        <source>The PDF is open in your viewer: print it from there at “actual size”, 100 %. {}</source>
        <translation>Le PDF est ouvert dans votre visionneuse : imprimez-le de là en « taille réelle », 100 %. {}</translation>
    </message>
    <message>
        <source>The PDF is written: open it yourself and print it at “actual size”, 100 %. {}</source>
        <translation>Le PDF est écrit : ouvrez-le vous-même et imprimez-le en « taille réelle », 100 %. {}</translation>
    </message>
    <message>
        <source>{} pages went to the printer. {}</source>
        <translation>{} pages sont parties à l’imprimante. {}</translation>
    </message>
    <message>
        <source>{} sheets as SVG and {} outlines as DXF were written to {}.</source>
        <translation>{} feuilles en SVG et {} contours en DXF ont été écrits dans {}.</translation>
    </message>
    <message>
        <source> {} drawings from before lie there too: see whether they still hold.</source>
        <translation> {} anciens dessins s’y trouvent aussi : voyez s’ils valent encore.</translation>
    </message>
    <message>
        <source>{} pages were added to the tree: double-click one to edit and dimension it.</source>
        <translation>{} pages ont été ajoutées à l’arbre : double-cliquez sur une page pour la modifier et la coter.</translation>
    </message>
    <message>
        <source>Every layer has its page already: you find them in the tree.</source>
        <translation>Chaque couche a déjà sa page : vous les trouvez dans l’arbre.</translation>
    </message>
    <message>
        <source>Title and paper of the drawings</source>
        <translation>Titre et papier des dessins</translation>
    </message>
    <message>
        <source>Hollow</source>
        <translation>Évidement</translation>
    </message>
    <message>
        <source>Voids</source>
        <translation>Évidements</translation>
    </message>
    <message>
        <source>Wood saved</source>
        <translation>Bois épargné</translation>
    </message>
    <message>
        <source>Least wall</source>
        <translation>Paroi la plus mince</translation>
    </message>
    <message>
        <source>Glue area left</source>
        <translation>Surface de colle restante</translation>
    </message>
    <message>
        <source>Air</source>
        <translation>Air</translation>
    </message>
    <message>
        <source>{} to {}</source>
        <translation>{} à {}</translation>
    </message>
    <message>
        <source>{}, in layer {}</source>
        <translation>{}, dans la couche {}</translation>
    </message>
    <message>
        <source>{}, in layers {}</source>
        <translation>{}, dans les couches {}</translation>
    </message>
    <message>
        <source>{:.0f} % of the blanks</source>
        <translation>{:.0f} % des ébauches</translation>
    </message>
    <message>
        <source>at least {}</source>
        <translation>au moins {}</translation>
    </message>
    <message>
        <source>{:.0f} % or more; least between layers {} and {}</source>
        <translation>{:.0f} % ou plus ; le moins entre les couches {} et {}</translation>
    </message>
    <message>
        <source>all of it</source>
        <translation>la totalité</translation>
    </message>
    <message>
        <source>{} closed</source>
        <translation>{} fermé</translation>
    </message>
    <message>
        <source>vented to the underside</source>
        <translation>ventilé vers le dessous</translation>
    </message>
    <message>
        <source>“{}” has no stack: give it one in its properties, or delete it.</source>
        <translation>« {} » n’a pas de bloc : donnez-lui-en un dans ses propriétés, ou supprimez-le.</translation>
    </message>
    <message>
        <source>{} of {}</source>
        <translation>{} sur {}</translation>
    </message>
    <message>
        <source>Change {}</source>
        <translation>Modifier {}</translation>
    </message>
    <message>
        <source>proud and wedged</source>
        <extracomment>Options that the panel asks in a way of its own, and what is shown for the words of another.</extracomment>
        <translation>dépassant et calé par des coins</translation>
    </message>
    <message>
        <source>Mortise and tenon</source>
        <translation>Mortaise et tenon</translation>
    </message>
    <message>
        <source>Two of the stacks have the same name: give each a label of its own first.</source>
        <translation>Deux des blocs portent le même nom : donnez d’abord à chacun le sien.</translation>
    </message>
    <message>
        <source>{} of the point</source>
        <translation>{} de la pointe</translation>
    </message>
    <message>
        <source>Use selected vertex, circle or face</source>
        <translation>Prendre le sommet, le cercle ou la face choisie</translation>
    </message>
    <message>
        <source>The direction in which the tenon runs</source>
        <translation>La direction dans laquelle va le tenon</translation>
    </message>
    <message>
        <source>Where it runs</source>
        <translation>Où il passe</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nom</translation>
    </message>
    <message>
        <source>Through x</source>
        <translation>Par x</translation>
    </message>
    <message>
        <source>Axis</source>
        <translation>Axe</translation>
    </message>
    <message>
        <source>Side of the mortise, or its diameter</source>
        <translation>Côté de la mortaise, ou son diamètre</translation>
    </message>
    <message>
        <source>Second side of the mortise</source>
        <translation>Second côté de la mortaise</translation>
    </message>
    <message>
        <source>Relief of my own</source>
        <translation>Dégagement à moi</translation>
    </message>
    <message>
        <source>Otherwise each end-grain wall is cut back as far as the movement calls for</source>
        <translation>Sinon chaque paroi en bois de bout est reculée autant que le jeu du bois le demande</translation>
    </message>
    <message>
        <source>Cut back from each end-grain wall of the mortise</source>
        <translation>Recul de chaque paroi en bois de bout de la mortaise</translation>
    </message>
    <message>
        <source>as the first piece</source>
        <translation>comme la première pièce</translation>
    </message>
    <message>
        <source>The wood of the tenon; its grain runs along its length</source>
        <translation>Le bois du tenon ; son fil va dans sa longueur</translation>
    </message>
    <message>
        <source>Side or diameter</source>
        <translation>Côté ou diamètre</translation>
    </message>
    <message>
        <source>Second side</source>
        <translation>Second côté</translation>
    </message>
    <message>
        <source>Wood of the tenon</source>
        <translation>Bois du tenon</translation>
    </message>
    <message>
        <source>Relief</source>
        <translation>Dégagement</translation>
    </message>
    <message>
        <source>Tenon held by {}</source>
        <translation>Tenon tenu par {}</translation>
    </message>
    <message>
        <source>through</source>
        <translation>traversant</translation>
    </message>
    <message>
        <source>Depth in {}</source>
        <translation>Profondeur dans {}</translation>
    </message>
    <message>
        <source>Tenon</source>
        <translation>Tenon</translation>
    </message>
    <message>
        <source>Least wood left</source>
        <translation>Bois restant au moins</translation>
    </message>
    <message>
        <source>Nearest at</source>
        <translation>Au plus près en</translation>
    </message>
    <message>
        <source>Wedges</source>
        <translation>Coins</translation>
    </message>
    <message>
        <source>Boring</source>
        <translation>Perçage</translation>
    </message>
    <message>
        <source>The joint has no name: give it one, it is printed on the drawings.</source>
        <translation>L’assemblage n’a pas de nom : donnez-lui-en un, il est imprimé sur les dessins.</translation>
    </message>
    <message>
        <source>Add joint {}</source>
        <translation>Ajouter l’assemblage {}</translation>
    </message>
    <message>
        <source>Change joint {}</source>
        <translation>Modifier l’assemblage {}</translation>
    </message>
    <message>
        <source>“{}” has lost one of its stacks: delete it, and join the stacks again.</source>
        <translation>« {} » a perdu un de ses blocs : supprimez-le et assemblez de nouveau les blocs.</translation>
    </message>
    <message>
        <source>rectangular</source>
        <translation>rectangulaire</translation>
    </message>
    <message>
        <source>in diameter</source>
        <translation>de diamètre</translation>
    </message>
    <message>
        <source>{} {}, {} long</source>
        <translation>{} {}, long de {}</translation>
    </message>
    <message>
        <source>The mortise breaks out of the finished surface by {}: make it smaller or shallower, or move it.</source>
        <translation>La mortaise perce la surface finie de {} : faites-la plus petite ou moins profonde, ou déplacez-la.</translation>
    </message>
    <message>
        <source>Pins</source>
        <translation>Tourillons</translation>
    </message>
    <message>
        <source>Pins set by hand, a line each: glue line (the number of the layer below it); x; y from the axis. A glue line with any gets no others.</source>
        <translation>Tourillons placés à la main, un par ligne : plan de collage (le numéro de la couche du dessous) ; x ; y depuis l’axe. Un plan qui en a n’en reçoit pas d’autres.</translation>
    </message>
    <message>
        <source>Set by hand</source>
        <translation>Placés à la main</translation>
    </message>
    <message>
        <source>Laid wrongly</source>
        <translation>Mal posées</translation>
    </message>
    <message>
        <source>By glue line</source>
        <translation>Par plan de collage</translation>
    </message>
    <message>
        <source> and {} in waste wood</source>
        <translation> et {} dans le bois perdu</translation>
    </message>
    <message>
        <source>{}, between layers {} and {}</source>
        <translation>{}, entre les couches {} et {}</translation>
    </message>
    <message>
        <source>at least {} off; layer {}, {}</source>
        <translation>écart d’au moins {} ; couche {}, {}</translation>
    </message>
    <message>
        <source>every outline shows it</source>
        <translation>chaque contour le montre</translation>
    </message>
    <message>
        <source>As the board lies on the rack, before planing</source>
        <extracomment>Heads as a maker reads them, and widths in pixels.</extracomment>
        <translation>Comme la planche est en stock, avant rabotage</translation>
    </message>
    <message>
        <source>How many alike; for boards that you can buy: empty for as many as wanted</source>
        <translation>Combien de pareilles ; pour des planches à acheter : vide, autant qu’on veut</translation>
    </message>
    <message>
        <source>In your own money, per board, board foot or m³; empty: not known</source>
        <translation>Dans votre monnaie, par planche, pied-planche ou m³ ; vide : inconnu</translation>
    </message>
    <message>
        <source>yes: can be bought; no: on hand</source>
        <translation>yes : peut s’acheter ; no : disponible</translation>
    </message>
    <message>
        <source>For boards that you can buy: how much clear wood the grade promises</source>
        <translation>Pour des planches à acheter : la part de bois net que promet le choix</translation>
    </message>
    <message>
        <source>x y dx dy of each, parted by semicolons: x from the left end, y from the lower edge, as in 600 40 80 35</source>
        <translation>x y dx dy de chacun, séparés par des points-virgules : x depuis le bout gauche, y depuis le chant du bas, comme 600 40 80 35</translation>
    </message>
    <message>
        <source>Rough from the saw, or surfaced; empty: surfaced where it is as thick as its layer, else rough</source>
        <translation>Brute de sciage, ou rabotée ; vide : rabotée où elle a l’épaisseur de sa couche, sinon brute</translation>
    </message>
    <message>
        <source>In a kiln, or in the air, where more is lost at the ends; empty: kiln</source>
        <translation>Au séchoir, ou à l’air, où l’on perd plus aux bouts ; vide : séchoir</translation>
    </message>
    <message>
        <source>How it was sawn from the log: flat, rift or quarter; empty: not known</source>
        <translation>Comment il a été scié dans la grume : flat, rift ou quarter ; vide : inconnu</translation>
    </message>
    <message>
        <source>Percent, as a meter showed it before gluing; empty: not known</source>
        <translation>Pour cent, comme un humidimètre l’a montré avant collage ; vide : inconnu</translation>
    </message>
    <message>
        <source>Board rack of {}</source>
        <extracomment>Columns of figures.</extracomment>
        <translation>Stock de planches de {}</translation>
    </message>
    <message>
        <source>A size without a unit is in the unit of its column; 45 mm, 4.5 cm, 1-3/4 in and 8 ft can be typed too.</source>
        <translation>Une mesure sans unité est dans l’unité de sa colonne ; on peut aussi écrire 45 mm, 4,5 cm, 1-3/4 in et 8 ft.</translation>
    </message>
    <message>
        <source>Choose the boards to copy: click their rows first.</source>
        <translation>Choisissez les planches à copier : cliquez d’abord sur leurs lignes.</translation>
    </message>
    <message>
        <source>Choose the boards to remove: click their rows first.</source>
        <translation>Choisissez les planches à retirer : cliquez d’abord sur leurs lignes.</translation>
    </message>
    <message>
        <source>{} boards were read. Do they replace those in the table?</source>
        <translation>{} planches ont été lues. Remplacent-elles celles de la table ?</translation>
    </message>
    <message>
        <source>Nothing was written. {}</source>
        <translation>Rien n’a été écrit. {}</translation>
    </message>
    <message>
        <source>{} rows were written to {}.</source>
        <translation>{} lignes ont été écrites dans {}.</translation>
    </message>
    <message>
        <source>Boards of the rack</source>
        <translation>Planches du stock</translation>
    </message>
    <message>
        <source>The rack is empty: add your boards, or import them.</source>
        <translation>Le stock est vide : ajoutez vos planches, ou importez-les.</translation>
    </message>
    <message>
        <source>{} board on hand, {}{} board feet;</source>
        <translation>{} planche disponible, {}{} pieds-planches ;</translation>
    </message>
    <message>
        <source>{} boards on hand, {}{} board feet;</source>
        <translation>{} planches disponibles, {}{} pieds-planches ;</translation>
    </message>
    <message>
        <source>{} kind can be bought.</source>
        <translation>{} sorte peut s’acheter.</translation>
    </message>
    <message>
        <source>{} kinds can be bought.</source>
        <translation>{} sortes peuvent s’acheter.</translation>
    </message>
    <message>
        <source>{} without a cost: the plan then saves wood, not money.</source>
        <translation>{} sans coût : le plan épargne alors le bois, non l’argent.</translation>
    </message>
    <message>
        <source>{} cannot be read ({}): check that you may open it.</source>
        <translation>{} ne se lit pas ({}) : vérifiez que vous pouvez l’ouvrir.</translation>
    </message>
    <message>
        <source>{} is not plain text in UTF-8: save it as CSV (UTF-8).</source>
        <translation>{} n’est pas du texte simple en UTF-8 : enregistrez-le en CSV (UTF-8).</translation>
    </message>
    <message>
        <source>Boards from a file</source>
        <translation>Planches d’un fichier</translation>
    </message>
    <message>
        <source>Boards to a file</source>
        <translation>Planches dans un fichier</translation>
    </message>
    <message>
        <source>Slice {}</source>
        <extracomment>Options that the panel asks in a way of its own. Milliseconds after which a line that is not left counts as typed to its end. A waste tab as it is read: not to be translated.</extracomment>
        <translation>Trancher {}</translation>
    </message>
    <message>
        <source>Layers of {}</source>
        <translation>Couches de {}</translation>
    </message>
    <message>
        <source>The solid to slice</source>
        <translation>Le solide à trancher</translation>
    </message>
    <message>
        <source>What stands on its drawings and in the bill; left out: the label of the form</source>
        <translation>Ce qui figure sur les dessins et dans le débit ; vide : l’étiquette de la forme</translation>
    </message>
    <message>
        <source>Thickness of the boards as they leave the planer</source>
        <translation>Épaisseur des planches à la sortie de la raboteuse</translation>
    </message>
    <message>
        <source>Thicknesses measured on your own boards, from layer 1 up: they win over the stock thickness for as many layers as you list</source>
        <translation>Épaisseurs mesurées sur vos propres planches, depuis la couche 1 : elles l’emportent sur l’épaisseur des planches pour autant de couches que vous en donnez</translation>
    </message>
    <message>
        <source>The wood of this stack</source>
        <translation>Le bois de ce bloc</translation>
    </message>
    <message>
        <source>Form</source>
        <translation>Forme</translation>
    </message>
    <message>
        <source>Name of the piece</source>
        <translation>Nom de la pièce</translation>
    </message>
    <message>
        <source>Stock thickness</source>
        <extracomment>The lengths that panels start with: their captions and what they are.</extracomment>
        <translation>Épaisseur des planches</translation>
    </message>
    <message>
        <source>Others at hand</source>
        <translation>Autres disponibles</translation>
    </message>
    <message>
        <source>As planed, from layer 1</source>
        <translation>Rabotées, dès la couche 1</translation>
    </message>
    <message>
        <source>Wood</source>
        <translation>Bois</translation>
    </message>
    <message>
        <source>Layer 1 at the other end</source>
        <translation>Couche 1 à l’autre bout</translation>
    </message>
    <message>
        <source>Lay-up</source>
        <translation>Empilage</translation>
    </message>
    <message>
        <source>Stacking axis</source>
        <translation>Axe d’empilage</translation>
    </message>
    <message>
        <source>One waste tab in each line, left on the blanks of its layers for the pads of clamps and sawn off after gluing. direction: where it points, from RIGHT, to the left seen from above; out: how far beyond the widest of its blanks; further, where needed: aside 10 mm; fillet 16 mm</source>
        <translation>Une patte perdue par ligne, laissée sur les ébauches de ses couches pour les patins des serre-joints et sciée après collage. direction : où elle pointe, depuis DROITE, vers la gauche vu de dessus ; out : de combien elle dépasse la plus large de ses ébauches ; en plus, s’il le faut : aside 10 mm; fillet 16 mm</translation>
    </message>
    <message>
        <source>Waste tabs for clamps</source>
        <translation>Pattes perdues pour serre-joints</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Couches</translation>
    </message>
    <message>
        <source>Stack height</source>
        <translation>Hauteur du bloc</translation>
    </message>
    <message>
        <source>Wood in the blanks</source>
        <translation>Bois des ébauches</translation>
    </message>
    <message>
        <source>Finished form</source>
        <translation>Forme finie</translation>
    </message>
    <message>
        <source>To carve away</source>
        <translation>À sculpter</translation>
    </message>
    <message>
        <source>Another piece is called “{}”: give this one a name of its own.</source>
        <translation>Une autre pièce s’appelle « {} » : donnez à celle-ci un nom à elle.</translation>
    </message>
    <message>
        <source>{}, the lowest {} as planed</source>
        <translation>{}, les {} du bas comme rabotées</translation>
    </message>
    <message>
        <source>{} above the form</source>
        <translation>{} de plus que la forme</translation>
    </message>
    <message>
        <source>as high as the form</source>
        <translation>aussi haut que la forme</translation>
    </message>
    <message>
        <source>{}, {:.0f} % of the wood</source>
        <translation>{}, {:.0f} % du bois</translation>
    </message>
    <message>
        <source>Working it out…</source>
        <translation>Calcul en cours…</translation>
    </message>
    <message>
        <source>{} already has a stack, {}: OK makes one more.</source>
        <translation>{} a déjà un bloc, {} : OK en fait un de plus.</translation>
    </message>
    <message>
        <source>Slicing {}</source>
        <translation>Tranchage de {}</translation>
    </message>
    <message>
        <source>Change layers of {}</source>
        <translation>Modifier les couches de {}</translation>
    </message>
    <message>
        <source>The form is not proven to lie inside the blanks of {}: do not cut. Check the stacks tells where it stands out.</source>
        <translation>Il n’est pas prouvé que la forme tienne dans les ébauches de {} : ne coupez pas. « Contrôler les blocs » dit où elle dépasse.</translation>
    </message>
    <message>
        <source>The form of “{}” is gone: delete the stack, or give it a form in its properties.</source>
        <translation>La forme de « {} » a disparu : supprimez le bloc, ou donnez-lui une forme dans ses propriétés.</translation>
    </message>
    <message>
        <source>worst place</source>
        <translation>endroit le plus faible</translation>
    </message>
    <message>
        <source>where the load hurts</source>
        <translation>où la charge nuit</translation>
    </message>
    <message>
        <source>use over the surface</source>
        <translation>sollicitation de la surface</translation>
    </message>
    <message>
        <source>See-through: nothing is told there.</source>
        <extracomment>Of the model that is not coloured.</extracomment>
        <translation>Transparent : on n’y dit rien.</translation>
    </message>
    <message>
        <source>with tenon</source>
        <translation>avec tenon</translation>
    </message>
    <message>
        <source>without tenon</source>
        <translation>sans tenon</translation>
    </message>
    <message>
        <source>With or without tenon</source>
        <translation>Avec ou sans tenon</translation>
    </message>
    <message>
        <source>The worst place was looked for with the mortises empty, too</source>
        <translation>L’endroit le plus faible a aussi été cherché avec les mortaises vides</translation>
    </message>
    <message>
        <source>Show on the form:</source>
        <translation>Montrer sur la forme :</translation>
    </message>
    <message>
        <source>Loads of your own</source>
        <extracomment>Columns, what is changed most in front, and their least widths, pixels. Columns of figures, with their unit inside. The unit in the head of a column. Rows in sight.</extracomment>
        <translation>Vos propres charges</translation>
    </message>
    <message>
        <source>Loads of your own, besides those of its kind</source>
        <translation>Vos propres charges, en plus de celles de sa sorte</translation>
    </message>
    <message>
        <source>Add load</source>
        <translation>Ajouter une charge</translation>
    </message>
    <message>
        <source>Another load of your own</source>
        <translation>Une autre charge à vous</translation>
    </message>
    <message>
        <source>Take the chosen loads off the table</source>
        <translation>Retire de la table les charges choisies</translation>
    </message>
    <message>
        <source>“{}” is impossible here: {}.</source>
        <translation>« {} » est impossible ici : {}.</translation>
    </message>
    <message>
        <source>Loads, row {}</source>
        <translation>Charges, ligne {}</translation>
    </message>
    <message>
        <source>this load has no name: write one, such as two children.</source>
        <translation>cette charge n’a pas de nom : écrivez-en un, comme deux enfants.</translation>
    </message>
    <message>
        <source>“{}” is no place: write three sizes, parted by semicolons, as in 0; 120; 450.</source>
        <translation>« {} » n’est pas un endroit : écrivez trois mesures séparées par des points-virgules, comme 0; 120; 450.</translation>
    </message>
    <message>
        <source>Choose the loads to remove: click their rows first.</source>
        <translation>Choisissez les charges à retirer : cliquez d’abord sur leurs lignes.</translation>
    </message>
    <message>
        <source>own months</source>
        <translation>mes mois</translation>
    </message>
    <message>
        <source>Temperature</source>
        <extracomment>Columns, with their unit inside, and the least and the most that can be.</extracomment>
        <translation>Température</translation>
    </message>
    <message>
        <source>Humidity</source>
        <translation>Humidité</translation>
    </message>
    <message>
        <source>Of the room where it will stand, as a room thermometer shows it by day</source>
        <translation>De la pièce où elle sera, comme la montre un thermomètre le jour</translation>
    </message>
    <message>
        <source>Relative humidity of that room, as a hygrometer shows it</source>
        <translation>Humidité relative de cette pièce, comme la montre un hygromètre</translation>
    </message>
    <message>
        <source>Bundled climates are invented; your own months begin with those chosen last</source>
        <translation>Les climats fournis sont inventés ; vos mois commencent par le dernier choisi</translation>
    </message>
    <message>
        <source>Temperature and humidity of your own months</source>
        <translation>Température et humidité de vos mois</translation>
    </message>
    <message>
        <source>“{}” is impossible here: give {} to {}.</source>
        <translation>« {} » est impossible ici : donnez de {} à {}.</translation>
    </message>
    <message>
        <source>Climate, {}, {}</source>
        <translation>Climat, {}, {}</translation>
    </message>
    <message>
        <source>Does it stand and hold?</source>
        <extracomment>What is asked, in the words of its check box.</extracomment>
        <translation>Tient-elle debout et résiste-t-elle ?</translation>
    </message>
    <message>
        <source>What does a year do?</source>
        <translation>Que fait une année ?</translation>
    </message>
    <message>
        <source>Finish and abrasives</source>
        <translation>Finition et abrasifs</translation>
    </message>
    <message>
        <source>Make a quote</source>
        <translation>Faire un devis</translation>
    </message>
    <message>
        <source>Is the allowance enough?</source>
        <translation>La surcote suffit-elle ?</translation>
    </message>
    <message>
        <source>Use and loads</source>
        <translation>Usage et charges</translation>
    </message>
    <message>
        <source>Room and wood</source>
        <translation>Pièce et bois</translation>
    </message>
    <message>
        <source>Finish and sanding</source>
        <translation>Finition et ponçage</translation>
    </message>
    <message>
        <source>Your rates</source>
        <translation>Vos tarifs</translation>
    </message>
    <message>
        <source>What the work takes of the allowance</source>
        <translation>Ce que le travail prend sur la surcote</translation>
    </message>
    <message>
        <source>What to mind</source>
        <translation>À surveiller</translation>
    </message>
    <message>
        <source>There is no piece yet: slice a form into layers first.</source>
        <translation>Il n’y a pas encore de pièce : tranchez d’abord une forme en couches.</translation>
    </message>
    <message>
        <source>What is found</source>
        <translation>Ce qui est trouvé</translation>
    </message>
    <message>
        <source>It weighs</source>
        <translation>Elle pèse</translation>
    </message>
    <message>
        <source>Climate</source>
        <translation>Climat</translation>
    </message>
    <message>
        <source>{} more stand in the checks.</source>
        <translation>{} de plus sont dans les contrôles.</translation>
    </message>
    <message>
        <source>All is well</source>
        <translation>Tout va bien</translation>
    </message>
    <message>
        <source>Show or hide: {}</source>
        <translation>Montrer ou cacher : {}</translation>
    </message>
    <message>
        <source>Settings: {}</source>
        <translation>Réglages : {}</translation>
    </message>
    <message>
        <source>Looking deeper</source>
        <extracomment>How often the window asks how far the work is, ms.</extracomment>
        <translation>Examen à fond</translation>
    </message>
    <message>
        <source>Getting ready</source>
        <translation>Préparation</translation>
    </message>
    <message>
        <source>Stopping after this step; what is finished is kept</source>
        <translation>Arrêt après cette étape ; ce qui est fini est gardé</translation>
    </message>
    <message>
        <source>{} of wood</source>
        <extracomment>Kind of object → the property that holds its least cover. What a change of which property moves or words a mark.</extracomment>
        <translation>{} de bois</translation>
    </message>
    <message>
        <source>breaks out {}</source>
        <translation>perce de {}</translation>
    </message>
    <message>
        <source>{} of wood over the form</source>
        <translation>{} de bois sur la forme</translation>
    </message>
    <message>
        <source>Change {}…</source>
        <extracomment>Percent: enough to see the form inside the stepped block. What glue lines' objects show that the maker asked for; the others are there for the pages alone.</extracomment>
        <translation>Modifier {}…</translation>
    </message>
    <message>
        <source>A form that the guide needs was deleted: press Undo in FreeCAD's toolbar.</source>
        <translation>Une forme dont le guide a besoin a été supprimée : appuyez sur Annuler dans la barre d’outils de FreeCAD.</translation>
    </message>
    <message>
        <source>Foot</source>
        <translation>Pied</translation>
    </message>
    <message>
        <source>Top</source>
        <translation>Plateau</translation>
    </message>
    <message>
        <source>“{title}” holds other things and stays as it is: press New for the piece.</source>
        <extracomment>The sizes of the piece by units, mm. A size is as asked within this, mm: FreeCAD rounds what it shows. FreeCAD 0.20 rounds what is typed in inches into its panels, to two figures in metres: by less than this share. Sizes that are typed into FreeCAD's own panels, which take 4-1/2 for a subtraction.</extracomment>
        <translation>« {title} » contient autre chose et reste tel quel : appuyez sur Nouveau pour la pièce.</translation>
    </message>
    <message>
        <source>Part Design is another workbench: choose Part.</source>
        <translation>Part Design est un autre atelier : choisissez Part.</translation>
    </message>
    <message>
        <source>The form of “{stack}” was deleted: press Undo. Or delete “{stack}” too, and make the form again.</source>
        <translation>La forme de « {stack} » a été supprimée : appuyez sur Annuler. Ou supprimez aussi « {stack} » et refaites la forme.</translation>
    </message>
    <message>
        <source>“{label}” is no cone: press Cone. The other may stay or go.</source>
        <translation>« {label} » n’est pas un cône : appuyez sur Cône. L’autre peut rester ou partir.</translation>
    </message>
    <message>
        <source>“{label}” is no cylinder: press Cylinder. The other may stay or go.</source>
        <translation>« {label} » n’est pas un cylindre : appuyez sur Cylindre. L’autre peut rester ou partir.</translation>
    </message>
    <message>
        <source>Radius 1</source>
        <extracomment>The host's names of sizes, as its panels have them.</extracomment>
        <translation>Rayon 1</translation>
    </message>
    <message>
        <source>Radius 2</source>
        <translation>Rayon 2</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Rayon</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Hauteur</translation>
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
        <translation>{name} de « {label} » est {now}, non {asked} : double-cliquez sur « {label} » et écrivez-le de nouveau.</translation>
    </message>
    <message>
        <source>FreeCAD 0.20 rounds inches here: {name} of “{label}” became {now}. Press Do it for me, and it is {asked}.</source>
        <translation>FreeCAD 0.20 arrondit ici les pouces : {name} de « {label} » est devenu {now}. Appuyez sur « Le faire pour moi », et c’est {asked}.</translation>
    </message>
    <message>
        <source>“{label}” is not whole or does not stand upright: its angles are 360° and 0°, as at first.</source>
        <translation>« {label} » n’est pas entier ou n’est pas debout : ses angles sont 360° et 0°, comme au départ.</translation>
    </message>
    <message>
        <source>“{label}” cannot be made: press Undo, and type a smaller radius.</source>
        <translation>« {label} » ne peut être fait : appuyez sur Annuler, et écrivez un rayon plus petit.</translation>
    </message>
    <message>
        <source>“{label}” is of boards of {now}: double click it in the tree, and type {asked}.</source>
        <translation>« {label} » est en planches de {now} : double-cliquez dessus dans l’arbre, et écrivez {asked}.</translation>
    </message>
    <message>
        <source>“{label}” does not hold its form: double click it, and type an allowance of 3 mm.</source>
        <translation>« {label} » ne tient pas sa forme : double-cliquez dessus, et écrivez une surcote de 3 mm.</translation>
    </message>
    <message>
        <source>That was the cylinder before it was rounded: delete its stack, and slice “{label}”.</source>
        <translation>C’était le cylindre avant l’arrondi : supprimez son bloc, et tranchez « {label} ».</translation>
    </message>
    <message>
        <source>The mortise breaks out: double click the joint, and type a side of {tenon}.</source>
        <translation>La mortaise perce : double-cliquez sur l’assemblage, et écrivez un côté de {tenon}.</translation>
    </message>
    <message>
        <source>Those pins are in another stack: select “{label}” and set its pins too.</source>
        <translation>Ces tourillons sont dans un autre bloc : choisissez « {label} » et placez aussi ses tourillons.</translation>
    </message>
    <message>
        <source>These pins do not fit: delete them, and set them as offered.</source>
        <translation>Ces tourillons ne vont pas : supprimez-les, et placez-les comme proposé.</translation>
    </message>
    <message>
        <source>When you have read it, close the table.</source>
        <translation>Quand vous l’avez lue, fermez la table.</translation>
    </message>
    <message>
        <source>{pdf} is of an earlier piece: write it anew.</source>
        <translation>{pdf} est d’une pièce antérieure : écrivez-le de nouveau.</translation>
    </message>
    <message>
        <source>An empty document</source>
        <translation>Un document vide</translation>
    </message>
    <message>
        <source>Press New in the toolbar.</source>
        <translation>Appuyez sur Nouveau dans la barre d’outils.</translation>
    </message>
    <message>
        <source>The workbench Part</source>
        <translation>L’atelier Part</translation>
    </message>
    <message>
        <source>Choose Part in the list of workbenches, in the toolbar.</source>
        <translation>Choisissez Part dans la liste des ateliers, dans la barre d’outils.</translation>
    </message>
    <message>
        <source>A cone for the foot</source>
        <translation>Un cône pour le pied</translation>
    </message>
    <message>
        <source>Press Cone in the toolbar. What a toolbar has no room for lies under its ».</source>
        <translation>Appuyez sur Cône dans la barre d’outils. Ce qui n’y tient pas est sous son ».</translation>
    </message>
    <message>
        <source>The sizes of the foot</source>
        <translation>Les mesures du pied</translation>
    </message>
    <message>
        <source>Double click Cone in the tree.</source>
        <translation>Double-cliquez sur le cône dans l’arbre.</translation>
    </message>
    <message>
        <source>Type Radius 1: {bottom}, Radius 2: {neck}, Height: {high}.</source>
        <translation>Écrivez Rayon 1 : {bottom}, Rayon 2 : {neck}, Hauteur : {high}.</translation>
    </message>
    <message>
        <source>Is the panel cut off at its side, drag its edge wider.</source>
        <translation>Si le panneau est coupé sur le côté, tirez son bord.</translation>
    </message>
    <message>
        <source>Press OK. Press V, then F, to see all of it.</source>
        <translation>Appuyez sur OK. Appuyez sur V, puis F, pour tout voir.</translation>
    </message>
    <message>
        <source>A cylinder for the top</source>
        <translation>Un cylindre pour le plateau</translation>
    </message>
    <message>
        <source>Press Cylinder in the toolbar.</source>
        <translation>Appuyez sur Cylindre dans la barre d’outils.</translation>
    </message>
    <message>
        <source>The sizes of the top</source>
        <translation>Les mesures du plateau</translation>
    </message>
    <message>
        <source>Double click Cylinder in the tree.</source>
        <translation>Double-cliquez sur le cylindre dans l’arbre.</translation>
    </message>
    <message>
        <source>Type Radius: {wide}, Height: {thick}.</source>
        <translation>Écrivez Rayon : {wide}, Hauteur : {thick}.</translation>
    </message>
    <message>
        <source>At Position, type Z: {high}. So it lies on the foot.</source>
        <translation>À Position, écrivez Z : {high}. Il pose ainsi sur le pied.</translation>
    </message>
    <message>
        <source>Press OK.</source>
        <translation>Appuyez sur OK.</translation>
    </message>
    <message>
        <source>A round rim</source>
        <translation>Un bord arrondi</translation>
    </message>
    <message>
        <source>Select Cylinder in the tree and press Fillet.</source>
        <translation>Choisissez le cylindre dans l’arbre et appuyez sur Congé.</translation>
    </message>
    <message>
        <source>Press All, type Radius: {round}, and press OK.</source>
        <translation>Appuyez sur Tout, écrivez Rayon : {round}, et appuyez sur OK.</translation>
    </message>
    <message>
        <source>Back to StackLam</source>
        <translation>Retour à StackLam</translation>
    </message>
    <message>
        <source>The form is done. Choose StackLam in the list of workbenches.</source>
        <translation>La forme est faite. Choisissez StackLam dans la liste des ateliers.</translation>
    </message>
    <message>
        <source>Slice the foot</source>
        <translation>Trancher le pied</translation>
    </message>
    <message>
        <source>Select Cone in the tree and press Slice form into layers.</source>
        <translation>Choisissez le cône dans l’arbre et appuyez sur « Trancher la forme en couches ».</translation>
    </message>
    <message>
        <source>Type Name of the piece: Foot, Stock thickness: {foot_boards}.</source>
        <translation>Écrivez Nom de la pièce : Pied, Épaisseur des planches : {foot_boards}.</translation>
    </message>
    <message>
        <source>See what it takes, and press OK.</source>
        <translation>Voyez ce qu’il faut, et appuyez sur OK.</translation>
    </message>
    <message>
        <source>Slice the top</source>
        <translation>Trancher le plateau</translation>
    </message>
    <message>
        <source>Select Fillet in the tree and press Slice form into layers.</source>
        <translation>Choisissez le congé dans l’arbre et appuyez sur « Trancher la forme en couches ».</translation>
    </message>
    <message>
        <source>Type Name of the piece: Top, Stock thickness: {top_boards}. Press OK.</source>
        <translation>Écrivez Nom de la pièce : Plateau, Épaisseur des planches : {top_boards}. Appuyez sur OK.</translation>
    </message>
    <message>
        <source>Join them</source>
        <translation>Les assembler</translation>
    </message>
    <message>
        <source>Press Add mortise and tenon: both stacks are taken.</source>
        <translation>Appuyez sur « Ajouter mortaise et tenon » : les deux blocs sont pris.</translation>
    </message>
    <message>
        <source>Type Side or diameter: {tenon}. See where least wood is left. Press OK.</source>
        <translation>Écrivez Côté ou diamètre : {tenon}. Voyez où reste le moins de bois. Appuyez sur OK.</translation>
    </message>
    <message>
        <source>Pin the layers of the foot</source>
        <translation>Tourillonner les couches du pied</translation>
    </message>
    <message>
        <source>Select the stack of the foot in the tree and press Set pins.</source>
        <translation>Choisissez le bloc du pied dans l’arbre et appuyez sur « Placer les tourillons ».</translation>
    </message>
    <message>
        <source>Leave the values as they are, and press OK.</source>
        <translation>Laissez les valeurs telles quelles, et appuyez sur OK.</translation>
    </message>
    <message>
        <source>See what the checks say</source>
        <translation>Voir ce que disent les contrôles</translation>
    </message>
    <message>
        <source>Press Check the stacks.</source>
        <translation>Appuyez sur « Contrôler les blocs ».</translation>
    </message>
    <message>
        <source>Stops come first, then cautions. Here nothing says stop; what asks for care is the short tenon in the thin top, and a pin that stands near it.</source>
        <translation>Les arrêts viennent d’abord, puis les mises en garde. Ici rien ne dit arrêt ; demandent attention le tenon court dans le plateau mince, et un tourillon qui en est proche.</translation>
    </message>
    <message>
        <source>Close the table.</source>
        <translation>Fermez la table.</translation>
    </message>
    <message>
        <source>Save it</source>
        <translation>L’enregistrer</translation>
    </message>
    <message>
        <source>Press Save, and give it a name. The drawings will lie beside it.</source>
        <translation>Appuyez sur Enregistrer, et donnez-lui un nom. Les dessins iront à côté.</translation>
    </message>
    <message>
        <source>The drawings</source>
        <translation>Les dessins</translation>
    </message>
    <message>
        <source>Press Layer drawings. Previous and Next leaf through them.</source>
        <translation>Appuyez sur « Plans des couches ». Précédente et Suivante les feuillettent.</translation>
    </message>
    <message>
        <source>Leave the file name as it is, and press Write PDF.</source>
        <translation>Laissez le nom de fichier tel quel, et appuyez sur « Écrire le PDF ».</translation>
    </message>
    <message>
        <source>Press Close.</source>
        <translation>Appuyez sur Fermer.</translation>
    </message>
    <message>
        <source>Print and measure</source>
        <translation>Imprimer et mesurer</translation>
    </message>
    <message>
        <source>Open the PDF. Page 1 lists the pages and explains the lines; page 2 warns.</source>
        <translation>Ouvrez le PDF. La page 1 liste les pages et explique les traits ; la page 2 met en garde.</translation>
    </message>
    <message>
        <source>Print page 1 at 100 %, “actual size”, not “fit to page”.</source>
        <translation>Imprimez la page 1 à 100 %, « taille réelle », non « ajuster à la page ».</translation>
    </message>
    <message>
        <source>Measure the check scales at its foot and up its side with a steel rule: 100 mm, and 4 in. Is either off, mend the printer's scale.</source>
        <translation>Mesurez les échelles de contrôle au pied et sur le côté avec une règle d’acier : 100 mm et 4 in. Si l’une est fausse, corrigez l’échelle de l’imprimante.</translation>
    </message>
    <message>
        <source>Print the rest, and measure the scales of every template before you saw by it.</source>
        <translation>Imprimez le reste, et mesurez les échelles de chaque gabarit avant de scier d’après lui.</translation>
    </message>
    <message>
        <source>The expression “{}” gives this value, so it cannot be typed here.</source>
        <translation>L’expression « {} » donne cette valeur, on ne peut donc l’écrire ici.</translation>
    </message>
    <message>
        <source>Press the blue sign in the field to change the expression or clear it.</source>
        <translation>Appuyez sur le signe bleu dans le champ pour changer ou effacer l’expression.</translation>
    </message>
    <message>
        <source>To type one, clear the expression in the properties of {}.</source>
        <translation>Pour en écrire une, effacez l’expression dans les propriétés de {}.</translation>
    </message>
    <message>
        <source>{} (expression)</source>
        <translation>{} (expression)</translation>
    </message>
    <message>
        <source>Open</source>
        <extracomment>How often a pinned head looks where the form is seen, ms.</extracomment>
        <translation>Ouvrir</translation>
    </message>
    <message>
        <source>Nothing here opens it: open it yourself. It is {}.</source>
        <translation>Rien ici ne l’ouvre : ouvrez-le vous-même. C’est {}.</translation>
    </message>
    <message>
        <source>Larger…</source>
        <extracomment>Qt's own word for no limit of a widget's height, pixels.</extracomment>
        <translation>Agrandir…</translation>
    </message>
    <message>
        <source>The whole table in a window of its own; close it to go on here</source>
        <translation>Toute la table dans sa propre fenêtre ; fermez-la pour continuer ici</translation>
    </message>
    <message>
        <source>The page “{}” was not kept. {}</source>
        <translation>La page « {} » n’a pas été gardée. {}</translation>
    </message>
    <message>
        <source>Allowance</source>
        <translation>Surcote</translation>
    </message>
    <message>
        <source>Wood left outside the form, all round, for the saw, slip and sanding</source>
        <translation>Bois laissé hors de la forme, tout autour, pour la scie, le glissement et le ponçage</translation>
    </message>
    <message>
        <source>Side of a tenon</source>
        <translation>Côté d’un tenon</translation>
    </message>
    <message>
        <source>Side of a square mortise for a floating tenon</source>
        <translation>Côté d’une mortaise carrée pour un faux tenon</translation>
    </message>
    <message>
        <source>Diameter of pins</source>
        <translation>Diamètre des tourillons</translation>
    </message>
    <message>
        <source>Diameter of the dowels you have</source>
        <translation>Diamètre des tourillons que vous avez</translation>
    </message>
    <message>
        <source>Depth of pins</source>
        <translation>Profondeur des tourillons</translation>
    </message>
    <message>
        <source>Depth of the hole in each of the two layers</source>
        <translation>Profondeur du trou dans chacune des deux couches</translation>
    </message>
    <message>
        <source>Wood round pins</source>
        <translation>Bois autour des tourillons</translation>
    </message>
    <message>
        <source>Least wood from a pin to the finished surface, to joints and to voids</source>
        <translation>Bois minimal d’un tourillon à la surface finie, aux assemblages et aux évidements</translation>
    </message>
    <message>
        <source>Wall of a hollow</source>
        <translation>Paroi d’un évidement</translation>
    </message>
    <message>
        <source>Least wood around a void, in every direction</source>
        <translation>Bois minimal autour d’un évidement, en toute direction</translation>
    </message>
    <message>
        <source>Bit for depth holes</source>
        <translation>Mèche des trous de profondeur</translation>
    </message>
    <message>
        <source>Diameter of the bit that bores depth holes</source>
        <translation>Diamètre de la mèche des trous de profondeur</translation>
    </message>
    <message>
        <source>From hole to hole</source>
        <translation>De trou à trou</translation>
    </message>
    <message>
        <source>Distance between two depth holes</source>
        <translation>Distance entre deux trous de profondeur</translation>
    </message>
    <message>
        <source>Left under holes</source>
        <translation>Reste sous les trous</translation>
    </message>
    <message>
        <source>Wood between the tip of the bit and the finished surface</source>
        <translation>Bois entre la pointe de la mèche et la surface finie</translation>
    </message>
    <message>
        <source>Band saw: blade</source>
        <translation>Scie à ruban : lame</translation>
    </message>
    <message>
        <source>Band saw: height</source>
        <translation>Scie à ruban : hauteur</translation>
    </message>
    <message>
        <source>Band saw: throat</source>
        <translation>Scie à ruban : col de cygne</translation>
    </message>
    <message>
        <source>as FreeCAD</source>
        <translation>comme FreeCAD</translation>
    </message>
    <message>
        <source>Start values</source>
        <extracomment>What machines can take; the other rows of the shop's saw are how it is sawn.</extracomment>
        <translation>Valeurs de départ</translation>
    </message>
    <message>
        <source>the values used last</source>
        <translation>les dernières valeurs utilisées</translation>
    </message>
    <message>
        <source>the values of these pages</source>
        <translation>les valeurs de ces pages</translation>
    </message>
    <message>
        <source>A value that you change here counts as used last from then on</source>
        <translation>Une valeur changée ici compte désormais comme la dernière utilisée</translation>
    </message>
    <message>
        <source>Panels start with</source>
        <translation>Les panneaux partent de</translation>
    </message>
    <message>
        <source>Panels</source>
        <translation>Panneaux</translation>
    </message>
    <message>
        <source>Back to first values</source>
        <translation>Revenir aux premières valeurs</translation>
    </message>
    <message>
        <source>Forget what was set on these pages and what was used last; your clamps are kept</source>
        <translation>Oublie ce qui a été réglé sur ces pages et les dernières valeurs ; vos serre-joints restent</translation>
    </message>
    <message>
        <source>What drawings, bill and cautions are written in</source>
        <translation>Langue des dessins, du débit et des précautions</translation>
    </message>
    <message>
        <source>How lengths are written on sheets and in the bill of a new document</source>
        <translation>Comment les longueurs sont écrites sur les feuilles et dans le débit d’un nouveau document</translation>
    </message>
    <message>
        <source>Language</source>
        <translation>Langue</translation>
    </message>
    <message>
        <source>Fractions</source>
        <translation>Fractions</translation>
    </message>
    <message>
        <source>The wood that is offered first</source>
        <translation>Le bois proposé d’abord</translation>
    </message>
    <message>
        <source>The kind of glue that a new glue-up starts with</source>
        <translation>La sorte de colle par laquelle commence un nouveau collage</translation>
    </message>
    <message>
        <source>“{}” must be more than nothing: give a length.</source>
        <translation>« {} » doit être plus que rien : donnez une longueur.</translation>
    </message>
    <message>
        <source>Shop</source>
        <translation>Atelier</translation>
    </message>
    <message>
        <source>0: nothing is said about it</source>
        <translation>0 : on n’en dit rien</translation>
    </message>
    <message>
        <source>Sawing and planing</source>
        <translation>Sciage et rabotage</translation>
    </message>
    <message>
        <source>What your machines take (0: not known)</source>
        <translation>Ce que prennent vos machines (0 : inconnu)</translation>
    </message>
    <message>
        <source> l/h</source>
        <translation> l/h</translation>
    </message>
    <message>
        <source>Litres that you carve in an hour, as measured; 0: no time is told</source>
        <translation>Litres que vous sculptez en une heure, mesurés ; 0 : aucun temps n’est dit</translation>
    </message>
    <message>
        <source>In your own money; 0: hours have no price</source>
        <translation>Dans votre monnaie ; 0 : les heures n’ont pas de prix</translation>
    </message>
    <message>
        <source>Carved in an hour</source>
        <translation>Sculpté en une heure</translation>
    </message>
    <message>
        <source>An hour costs</source>
        <translation>Une heure coûte</translation>
    </message>
    <message>
        <source>Working out the figures</source>
        <extracomment>How often the window asks whether the work is done, ms. Seconds within which a work needs no progress bar, and within which figures need not be greyed. The works that somebody waits for; tests wait for them too.</extracomment>
        <translation>Calcul des valeurs</translation>
    </message>
    <message>
        <source>Stopped: nothing was changed.</source>
        <translation>Arrêté : rien n’a été changé.</translation>
    </message>
</context>
</TS>