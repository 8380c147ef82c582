//! German: what core says of fields, defects, reasons, shapes and warnings.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "knot" => "Ast";
    "Base of a branch; the grain swirls around it." => "Ansatz eines Astes; die Faser läuft um ihn herum.";
    "pin knot" => "Punktast";
    "A knot no larger than a pencil lead." => "Ein Ast, nicht größer als eine Bleistiftmine.";
    "swirl" => "Faserwirbel";
    "Grain turned aside round a knot or a crotch." => "Faser, die einem Ast oder einer Zwiesel ausweicht.";
    "burl" => "Maserknolle";
    "Knotted, twisted growth, where it is not wanted." => "Knotiger, verdrehter Wuchs, wo er nicht gewünscht ist.";
    "curl" => "Riegel";
    "Waves in the grain: short, repeated runout, where it is not wanted."
        => "Wellen in der Faser: kurzer, wiederholter Faserauslauf, wo er nicht gewünscht ist.";
    "spiral grain" => "Drehwuchs";
    "Fibres that wind round the trunk; shows on the flatsawn face and brings twist."
        => "Fasern, die um den Stamm laufen; auf der Fladerseite zu sehen, bringt Verdrehung.";
    "interlocked grain" => "Wechseldrehwuchs";
    "The slope turns back and forth in layers; a ribbon on the quartered face."
        => "Die Faser neigt sich von Lage zu Lage anders; auf der Spiegelseite zeigen sich Streifen.";
    "diagonal grain" => "Schrägfaser";
    "Rings not parallel to an edge: sawn askew to the tree."
        => "Jahrringe nicht parallel zur Kante: schief zum Stamm eingeschnitten.";
    "check" => "Trockenriss";
    "A lengthwise crack across the rings, not through the plank."
        => "Ein Längsriss quer zu den Jahrringen, der nicht durch die Bohle geht.";
    "end check" => "Endriss";
    "A check that starts at the end." => "Ein Trockenriss, der am Ende beginnt.";
    "split" => "Spaltriss";
    "A crack right through, usually from the end." => "Ein durchgehender Riss, meist vom Ende her.";
    "shake" => "Ringschäle";
    "A separation along the rings." => "Das Holz trennt sich entlang eines Jahrrings.";
    "honeycomb" => "Innenrisse";
    "Checks inside, unseen until it is cut; the tap is dull."
        => "Risse im Innern, unsichtbar bis zum Schnitt; beim Klopfen klingt es dumpf.";
    "collapse" => "Zellkollaps";
    "Sunken, washboard face from drying too fast." => "Eingefallene, waschbrettartige Fläche durch zu schnelle Trocknung.";
    "case-hardening" => "Verschalung";
    "Drying stress locked in; halves close or spring when resawn."
        => "Eingeschlossene Trocknungsspannung; beim Auftrennen klemmen oder klaffen die Hälften.";
    "compression failure" => "Faserstauchung";
    "Fine wrinkles across the grain, hidden by a rough surface; breaks short."
        => "Feine Stauchfalten quer zur Faser, unter sägerauer Fläche verborgen; bricht kurz.";
    "brash wood" => "sprödes Holz";
    "Breaks short without a splinter." => "Bricht kurz ab, ohne Splitter.";
    "decay" => "Fäule";
    "Soft, bleached or zone-lined wood eaten by fungus."
        => "Weiches, ausgebleichtes oder von dunklen Linien durchzogenes Holz, von Pilzen zersetzt.";
    "stain" => "Verfärbung";
    "Colour only: blue, mineral, metal or sticker marks." => "Nur die Farbe: Bläue, Minerale, Metall oder Abdrücke von Stapelleisten.";
    "worm hole" => "Insektenfraß";
    "Holes of insects; fresh dust means that they live." => "Bohrlöcher von Insekten; frisches Bohrmehl heißt, dass sie leben.";
    "bark pocket" => "Rindeneinschluss";
    "Bark grown into the wood." => "Ins Holz eingewachsene Rinde.";
    "gum or pitch pocket" => "Harzgalle";
    "A sticky vein." => "Eine klebrige Ader.";
    "wane" => "Baumkante";
    "Bark, or missing wood, along an edge." => "Rinde oder fehlendes Holz an einer Kante.";
    "sapwood" => "Splint";
    "The pale outer wood, where heartwood is wanted." => "Das helle äußere Holz, wo Kernholz gewünscht ist.";
    "pith" => "Markröhre";
    "The centre of the tree in the plank; cracks and warps."
        => "Die Mitte des Baums in der Bohle; reißt und verzieht sich.";
    "juvenile wood" => "juveniles Holz";
    "The first rings about the pith: weak, and shrinks lengthwise."
        => "Die ersten Jahrringe um die Markröhre: wenig fest, und es schwindet in der Länge.";
    "reaction or tension wood" => "Reaktionsholz, Zugholz";
    "From a leaning tree: woolly sawn face, silvery bands; moves lengthwise."
        => "Von einem schief gewachsenen Baum: wollige Schnittfläche, silbrige Streifen; arbeitet in der Länge.";
    "uneven thickness" => "ungleiche Dicke";
    "Thick and thin where the saw wandered." => "Dick und dünn, wo die Säge verlaufen ist.";
    "damage" => "Beschädigung";
    "Forklift marks, nails, a saw nick, metal inside." => "Spuren vom Stapler, Nägel, Sägeschnitt, Metall im Holz.";
    "the plank was not weighed" => "die Bohle wurde nicht gewogen";
    "Density as measured" => "Dichte, wie gemessen";
    "weight" => "Gewicht";
    "volume" => "Volumen";
    "both at the moisture that the plank has" => "beides bei der Holzfeuchte der Bohle";
    "Weight" => "Gewicht";
    "density" => "Dichte";
    "both at one moisture" => "beides bei derselben Holzfeuchte";
    "length" => "Länge";
    "width" => "Breite";
    "thickness" => "Dicke";
    "bow" => "Flachkrümmung";
    "crook" => "Kantenkrümmung";
    "twist" => "Verdrehung";
    "cup" => "Querkrümmung";
    "grain on the face" => "Faser auf der Breitseite";
    "grain on the edge" => "Faser auf der Schmalseite";
    "rings" => "Jahrringe";
    "moisture" => "Holzfeuchte";
    "none" => "keine";
    "about 3" => "etwa 3";
    "about 6" => "etwa 6";
    "10 or more" => "10 oder mehr";
    "about 1" => "etwa 1";
    "5 or more" => "5 oder mehr";
    "straight" => "gerade";
    "1 in 25" => "1 zu 25";
    "1 in 15" => "1 zu 15";
    "worse" => "schlechter";
    "flat" => "liegend";
    "rift" => "Halbrift";
    "quartered" => "stehend";
    "Length" => "Länge";
    "Full length of the plank." => "Ganze Länge der Bohle.";
    "Width near" => "Breite nah";
    "Width at the near end; alone, it stands for the whole plank."
        => "Breite am nahen Ende; allein gilt sie für die ganze Bohle.";
    "Width middle" => "Breite Mitte";
    "Width at mid-length." => "Breite in der Mitte der Länge.";
    "Width far" => "Breite fern";
    "Width at the far end." => "Breite am fernen Ende.";
    "Thickness" => "Dicke";
    "Thickness, the lowest of three; with the two below, that at the near end."
        => "Dicke, die kleinste von dreien; zusammen mit den beiden folgenden die am nahen Ende.";
    "Thickness middle" => "Dicke Mitte";
    "Thickness at mid-length." => "Dicke in der Mitte der Länge.";
    "Thickness far" => "Dicke fern";
    "Thickness at the far end." => "Dicke am fernen Ende.";
    "Width with wane" => "Breite mit Baumkante";
    "Mean width with all of the wane, as some yards charge it; the widths above are those without."
        => "Mittlere Breite mit der ganzen Baumkante, wie manche Händler sie berechnen; die Breiten oben sind ohne.";
    "The whole plank on the scale." => "Die ganze Bohle auf der Waage.";
    "First end" => "Erstes Ende";
    "Scale reading with one end lifted, the other resting."
        => "Anzeige der Waage, ein Ende angehoben, das andere liegt auf.";
    "Other end" => "Anderes Ende";
    "Scale reading with the other end lifted. The two add up to the whole."
        => "Anzeige der Waage, das andere Ende angehoben. Beide zusammen ergeben das Ganze.";
    "Overhang" => "Überstand";
    "How far the resting end overhangs its bearer." => "Wie weit das aufliegende Ende über sein Auflager hinausragt.";
    "Known mass" => "Bekannte Masse";
    "No scale: the known mass that balances the plank on a bar."
        => "Ohne Waage: die bekannte Masse, mit der die Bohle auf einer Stange im Gleichgewicht liegt.";
    "Bar to mass" => "Stange bis Masse";
    "From the bar to the end that carries the known mass." => "Von der Stange bis zu dem Ende, das die bekannte Masse trägt.";
    "Bow" => "Flachkrümmung";
    "Curve along the length, flatwise: gap under the string. Plus: the marked face is hollow."
        => "Längskrümmung der Breitseite: Spalt unter der Schnur. Plus: Die angezeichnete Breitseite ist hohl.";
    "Bow over" => "Flachkrümmung über";
    "Length of the straightedge or string; empty is the whole plank."
        => "Länge von Richtscheit oder Schnur; leer ist die ganze Bohle.";
    "Kink at" => "Knick bei";
    "Where the bow is a kink: its place from the near end."
        => "Wenn die Flachkrümmung ein Knick ist: seine Stelle vom nahen Ende aus.";
    "Crook" => "Kantenkrümmung";
    "Curve along the length, edgewise. Plus: the marked edge is hollow."
        => "Längskrümmung der Schmalseite. Plus: Die angezeichnete Kante ist hohl.";
    "Crook over" => "Kantenkrümmung über";
    "Where the crook is a kink: its place from the near end."
        => "Wenn die Kantenkrümmung ein Knick ist: seine Stelle vom nahen Ende aus.";
    "Twist" => "Verdrehung";
    "Rise of the fourth corner, or the gap at the winding sticks."
        => "Wie weit die vierte Ecke abhebt, oder der Spalt an den Richthölzern.";
    "Winding stick" => "Richtholz";
    "Length of the winding stick; empty means the rise of the corner."
        => "Länge des Richtholzes; leer heißt: Abheben der Ecke.";
    "Cup" => "Querkrümmung";
    "Curve across the width. Plus: the marked face is hollow."
        => "Krümmung quer über die Breite: Die Bohle schüsselt. Plus: Die angezeichnete Breitseite ist hohl.";
    "Cup over" => "Querkrümmung über";
    "Length of the straightedge across; empty is the whole width."
        => "Länge des Lineals quer zur Bohle; leer ist die ganze Breite.";
    "Grain face" => "Faser Breitseite";
    "How far the grain leaves the edge on the wide face: 12 in 300, 1:25 or 2.3 deg."
        => "Wie weit die Faser auf der Breitseite von der Kante wegläuft: 12 in 300, 1:25 oder 2,3 deg.";
    "Grain edge" => "Faser Schmalseite";
    "How far the grain leaves the face on the edge."
        => "Wie weit die Faser auf der Schmalseite von der Breitseite wegläuft.";
    "Ring angle" => "Jahrringwinkel";
    "Acute angle between the rings and the wide face, at the end grain: 90 is quartersawn."
        => "Spitzer Winkel zwischen Jahrringen und Breitseite, am Hirnholz: Bei 90 stehen sie.";
    "Ring chord" => "Jahrringsehne";
    "A ring's chord across the end." => "Die Sehne eines Jahrrings, quer über das Hirnholz.";
    "Ring dip" => "Jahrringstich";
    "The rise of that ring over its chord." => "Der Stich dieses Jahrrings über seiner Sehne.";
    "Pith off centre" => "Markröhre neben der Mitte";
    "From mid-width to below the pith, on the near end with the marked face up: left is to the marked edge. A bare number is to the right."
        => "Von der Mitte der Breite bis unter die Markröhre, am nahen Ende mit der angezeichneten Breitseite oben: left (links) ist zur angezeichneten Kante hin. Eine bloße Zahl ist nach rechts.";
    "Moisture" => "Holzfeuchte";
    "What the meter shows." => "Was das Messgerät zeigt.";
    "Wood temperature" => "Holztemperatur";
    "How warm the wood is: cold wood reads low." => "Wie warm das Holz ist: Bei kaltem Holz zeigt das Gerät zu wenig an.";
    "a piece or straightedge of {} mm: it has to be more than nothing"
        => "ein Stück oder Richtscheit von {} mm: das Maß muss größer als 0 sein";
    "the gap is no number" => "der Spalt ist keine Zahl";
    "a piece of {} mm can't be cut from {} mm" => "ein Stück von {} mm lässt sich nicht aus {} mm schneiden";
    "the straightedge is {} mm but lies on {} mm: leave it empty where it reaches all over"
        => "das Richtscheit hat {} mm, liegt aber auf {} mm: lass es leer, wo es über alles reicht";
    "a kink at {} mm is not inside a plank of {} mm" => "ein Knick bei {} mm liegt nicht in einer Bohle von {} mm";
    "a piece from {} to {} mm does not lie in a plank of {} mm"
        => "ein Stück von {} bis {} mm liegt nicht in einer Bohle von {} mm";
    "Gap left of an even curve" => "Restlicher Spalt eines gleichmäßigen Bogens";
    "gap as read" => "Spalt, wie gemessen";
    "size of the part" => "Maß des Teils";
    "what the gap was read over" => "worüber der Spalt gemessen wurde";
    "an even curve, its gap under a fiftieth of its length"
        => "ein gleichmäßiger Bogen, sein Spalt unter einem Fünfzigstel seiner Länge";
    "geometry of the sagitta" => "Geometrie der Pfeilhöhe";
    "Angle of the kink" => "Winkel des Knicks";
    "from the nearer end of that to the kink" => "vom näheren Ende davon bis zum Knick";
    "small angles" => "kleine Winkel";
    "geometry" => "Geometrie";
    "Gap left of the kink" => "Restlicher Spalt des Knicks";
    "angle of the kink" => "Winkel des Knicks";
    "from an end of the part to the kink; where its place is open, where it costs most"
        => "von einem Ende des Teils bis zum Knick; wo seine Stelle offen ist, dort, wo er am meisten kostet";
    "Rise left of the twist" => "Restliches Abheben durch die Verdrehung";
    "rise as read" => "Abheben, wie gemessen";
    "length of the part" => "Länge des Teils";
    "length of the plank" => "Länge der Bohle";
    "width of the part" => "Breite des Teils";
    "width that the rise was read over" => "Breite, über die das Abheben gemessen wurde";
    "an even twist" => "eine gleichmäßige Verdrehung";
    "a head at {}°: from 0 to 45° are worked out" => "eine Kopfplatte mit {}°: gerechnet wird von 0 bis 45°";
    "Grain in the head, where it falls towards the head" => "Faser in der Kopfplatte, wo sie zu ihr hin abfällt";
    "Grain in the head, where it rises towards the head" => "Faser in der Kopfplatte, wo sie zu ihr hin ansteigt";
    "angle of the head" => "Winkel der Kopfplatte";
    "slope of grain in side view" => "Faserabweichung in der Seitenansicht";
    "a head of 0 to 45°, tilted back; an even slope" => "eine Kopfplatte von 0 bis 45°, nach hinten abgewinkelt; eine gleichmäßige Neigung";
    "Slope of grain, both faces together" => "Faserabweichung, beide Seiten zusammen";
    "slope on the face" => "Neigung auf der Breitseite";
    "slope on the edge" => "Neigung auf der Schmalseite";
    "two adjacent faces" => "zwei aneinandergrenzende Seiten";
    "geometry; said to be in ASTM D245 (from memory)" => "Geometrie; soll in ASTM D245 stehen (aus dem Gedächtnis)";
    "Runout over the part" => "Faserauslauf auf der Länge des Teils";
    "slope of grain" => "Faserabweichung";
    "an even slope" => "eine gleichmäßige Neigung";
    "shape between the stations" => "Form zwischen den Messstellen";
    "weight at the other end" => "Gewicht am anderen Ende";
    "place of the bearer" => "Stelle des Auflagers";
    "wood temperature" => "Holztemperatur";
    "rings rise to the left" => "Jahrringe steigen nach links";
    "rings square" => "Jahrringe rechtwinklig";
    "rings rise to the right" => "Jahrringe steigen nach rechts";
    "grain falls to the far end" => "Faser fällt zum fernen Ende";
    "grain runs along" => "Faser läuft gerade durch";
    "grain rises to the far end" => "Faser steigt zum fernen Ende";
    "Curved along the length, flatwise." => "Längskrümmung der Breitseite.";
    "Curved along the length, edgewise." => "Längskrümmung der Schmalseite.";
    "The ends are not in one plane." => "Windschief: Die Enden liegen nicht in einer Ebene.";
    "Curved across the width." => "Schüsselt: quer über die Breite gekrümmt.";
    "kink" => "Knick";
    "A sharp local bend, often at a knot." => "Eine scharfe Biegung an einer Stelle, oft an einem Ast.";
    "Thick and thin; the saw wandered." => "Dick und dünn; die Säge ist verlaufen.";
    "too small" => "zu klein";
    "Too short, narrow or thin for the cut list." => "Zu kurz, schmal oder dünn für die Stückliste.";
    "runout" => "Faserauslauf";
    "The fibres leave the face or the edge." => "Die Fasern laufen aus der Breitseite oder der Kante heraus.";
    "The fibres wind round the trunk." => "Die Fasern laufen um den Stamm.";
    "wrong ring angle" => "falsche Jahrringstellung";
    "Flat or rift where quartered is wanted, or the other way."
        => "Liegend oder Halbrift, wo stehend gewünscht ist, oder umgekehrt.";
    "The centre of the tree, or wood close to it, is in the plank."
        => "Die Markröhre, oder Holz nahe an ihr, ist in der Bohle.";
    "reaction wood" => "Reaktionsholz";
    "Tension or compression wood: moves lengthwise." => "Zug- oder Druckholz: arbeitet in der Länge.";
    "Knots where they can't be cut round." => "Äste, wo sie sich nicht umgehen lassen.";
    "too much figure" => "zu viel Zeichnung";
    "Curl or burl where it is not wanted." => "Riegel oder Maser, wo sie nicht gewünscht sind.";
    "Pale outer wood where heartwood is wanted." => "Helles äußeres Holz, wo Kernholz gewünscht ist.";
    "too heavy" => "zu schwer";
    "Denser than wanted." => "Dichter als gewünscht.";
    "too light" => "zu leicht";
    "Less dense than wanted." => "Weniger dicht als gewünscht.";
    "too wet" => "zu feucht";
    "Moisture over the limit." => "Holzfeuchte über der Grenze.";
    "checks" => "Trockenrisse";
    "Drying cracks across the rings." => "Trockenrisse quer zu den Jahrringen.";
    "drying stress" => "Trocknungsspannung";
    "Case-hardened, honeycombed or collapsed." => "Verschalt, mit Innenrissen oder eingefallen.";
    "A crack right through." => "Ein durchgehender Riss.";
    "Wrinkles across the grain: breaks short." => "Stauchfalten quer zur Faser: bricht kurz.";
    "Forklift, nails, saw nicks." => "Stapler, Nägel, Sägeschnitte.";
    "decay or stain" => "Fäule oder Verfärbung";
    "Fungus, or colour that won't do." => "Pilz, oder eine unbrauchbare Farbe.";
    "worm" => "Insektenfraß";
    "Insect holes." => "Bohrlöcher von Insekten.";
    "bark or gum" => "Rinde oder Harz";
    "Bark or a gum pocket inside." => "Rinde oder eine Harzgalle im Innern.";
    "dull tap" => "dumpfer Klang";
    "Rings dead for no visible reason: a hidden crack is suspected."
        => "Klingt ohne sichtbaren Grund dumpf: ein verborgener Riss wird vermutet.";
    "could not judge" => "nicht zu beurteilen";
    "Ends painted, or only one face seen." => "Enden gestrichen, oder nur eine Breitseite gesehen.";
    "species in doubt" => "Holzart zweifelhaft";
    "A look-alike under a trade name." => "Ein ähnlich aussehendes Holz unter einem Handelsnamen.";
    "price" => "Preis";
    "Over the ceiling." => "Über deiner Preisgrenze.";
    "no papers" => "keine Papiere";
    "Origin or a listed species is unclear." => "Herkunft oder eine geschützte Art ist unklar.";
    "budget reached" => "Budget erreicht";
    "A good plank, left for want of money." => "Eine gute Bohle, aus Geldmangel liegen gelassen.";
    "better one taken" => "eine bessere genommen";
    "A good plank, left for a better one." => "Eine gute Bohle, für eine bessere liegen gelassen.";
    "sprang at the saw" => "beim Sägen verzogen";
    "Moved as it was cut, or within a day of it." => "Hat sich beim Sägen verzogen, oder innerhalb eines Tages danach.";
    "moved while resting" => "beim Ruhen verzogen";
    "Beyond its limit since it was last machined flat." => "Über die Grenze, seit es zuletzt abgerichtet wurde.";
    "tear-out" => "Ausriss";
    "Torn deeper than the allowance." => "Tiefer eingerissen, als die Hobelzugabe hergibt.";
    "miscut" => "verschnitten";
    "Cut wrong, or too thin after flattening." => "Falsch geschnitten, oder nach dem Abrichten zu dünn.";
    "bad joint" => "schlechte Fuge";
    "Open, starved or creeping." => "Offen, verhungert, oder sie kriecht.";
    "no match" => "passt nicht dazu";
    "Colour, figure or moisture unlike its mates." => "Farbe, Zeichnung oder Holzfeuchte anders als bei den übrigen.";
    "Straight slab" => "Nutzbare Dicke";
    "least thickness" => "kleinste Dicke";
    "what the bow takes" => "was die Flachkrümmung kostet";
    "what the twist takes: half of its rise" => "was die Verdrehung kostet: die Hälfte ihres Abhebens";
    "what the cup takes" => "was die Querkrümmung kostet";
    "planing" => "Hobelabtrag";
    "what planing takes from both faces together" => "was das Hobeln beider Breitseiten zusammen kostet";
    "never more than is there; with twist among the losses up to half the rise may be left over"
        => "nie mehr, als da ist; mit Verdrehung unter den Verlusten kann bis zur Hälfte des Abhebens zusätzlich übrig bleiben";
    "geometry, held against a search over tilted planes" => "Geometrie, mit einer Suche über gekippte Ebenen verglichen";
    "at least {}" => "mindestens {}";
    "{} must be more than 0; usual is {} to {}." => "{} muss größer als 0 sein; üblich ist {} bis {}.";
    "{#} left" => "{} links";
    "{#} right" => "{} rechts";
    "{#} in 300" => "{} auf 300";
    "{} {#}? Usual is {} to {}." => "{} {}? Üblich ist {} bis {}.";
    "{}, away from the marked edge? Else say left." => "{}, weg von der angezeichneten Kante? Sonst tippe left (links).";
    "the {} was not measured" => "die {} wurde nicht gemessen";
    "the {} comes to {} mm: it has to be more than nothing" => "die {} ergibt {} mm: sie muss größer als 0 sein";
    "Cross-section" => "Querschnitt";
    "width there" => "Breite dort";
    "thickness there" => "Dicke dort";
    "any" => "beliebig";
    "Volume" => "Volumen";
    "cross-section at the near end" => "Querschnitt am nahen Ende";
    "cross-section at the middle" => "Querschnitt in der Mitte";
    "cross-section at the far end" => "Querschnitt am fernen Ende";
    "exact for a straight taper of width and thickness" => "genau bei geradem Verlauf von Breite und Dicke";
    "the prismoidal formula, a textbook identity" => "die Prismatoidformel, aus dem Lehrbuch";
    "the scale reading comes to {} kg: it has to be more than nothing"
        => "die Waage ergibt {} kg: das Gewicht muss größer als 0 sein";
    "this way of weighing needs the length of the plank" => "diese Art zu wiegen braucht die Länge der Bohle";
    "the length comes to {} mm: it has to be more than nothing"
        => "die Länge ergibt {} mm: sie muss größer als 0 sein";
    "the distance comes to {} mm: it can't be less than nothing"
        => "der Abstand ergibt {} mm: weniger als 0 geht nicht";
    "the bearer is set in by {} mm, past the middle of a {} mm plank: lifting the end tells nothing"
        => "das Auflager ist um {} mm eingerückt, über die Mitte einer Bohle von {} mm hinaus: so sagt das Anheben des Endes nichts";
    "the bar is {} mm from the hung mass; in a {} mm plank it must stand between the mass and the middle"
        => "die Stange ist {} mm von der angehängten Masse; bei einer Bohle von {} mm muss sie zwischen Masse und Mitte liegen";
    "Weight from one end" => "Gewicht aus einem Ende";
    "reading at the end" => "Anzeige am Ende";
    "a plank without taper, its far end resting at its very end"
        => "eine Bohle ohne Verjüngung, das ferne Ende ganz außen aufliegend";
    "statics: moments about the bearer" => "Statik: Momente um das Auflager";
    "overhang of the resting end" => "Überstand des aufliegenden Endes";
    "a plank without taper, the overhang under half of its length"
        => "eine Bohle ohne Verjüngung, der Überstand unter der Hälfte ihrer Länge";
    "Weight from both ends" => "Gewicht aus beiden Enden";
    "reading at the first end" => "Anzeige am ersten Ende";
    "reading at the second end" => "Anzeige am zweiten Ende";
    "any taper, the resting end at its very end both times"
        => "jede Verjüngung, das aufliegende Ende beide Male ganz außen";
    "any taper, the overhang under half of the length" => "jede Verjüngung, der Überstand unter der Hälfte der Länge";
    "Weight from a balance" => "Gewicht aus dem Ausbalancieren";
    "from the resting end to the centre of mass, taken at mid-length"
        => "vom aufliegenden Ende bis zum Schwerpunkt, der in der Mitte der Länge angenommen wird";
    "the known weight" => "das bekannte Gewicht";
    "from the bar to it" => "von der Stange bis dorthin";
    "from it to the centre of mass, taken at mid-length"
        => "von dort bis zum Schwerpunkt, der in der Mitte der Länge angenommen wird";
    "a plank without taper, the bar short of its middle" => "eine Bohle ohne Verjüngung, die Stange vor ihrer Mitte";
    "statics: moments about the bar" => "Statik: Momente um die Stange";
    "a ring {} mm across with a dip of {} mm: both have to be more than nothing"
        => "ein Jahrring von {} mm Sehne mit {} mm Stich: beides muss größer als 0 sein";
    "a dip of {} mm is more than half of the {} mm across: were the two mixed up?"
        => "ein Stich von {} mm ist mehr als die Hälfte der Sehne von {} mm: wurden beide verwechselt?";
    "only the angle at mid-width was read; to know it elsewhere, read a ring's chord and dip"
        => "nur der Winkel in der Mitte der Breite wurde gemessen; um ihn anderswo zu kennen, miss Sehne und Stich eines Jahrrings";
    "a ring of {} mm radius in a plank {} mm thick: the pith lies in it"
        => "ein Jahrring von {} mm Radius in einer {} mm dicken Bohle: die Markröhre liegt darin";
    "a part from {} to {} mm: it has to be more than nothing"
        => "ein Teil von {} bis {} mm: es muss größer als 0 sein";
    "a ring angle of {} degrees: it lies between 0 and 90"
        => "ein Jahrringwinkel von {} Grad: er liegt zwischen 0 und 90";
    "flatsawn" => "liegend";
    "quartersawn" => "stehend";
    "Radius of the ring" => "Radius des Jahrrings";
    "chord of the ring across the end" => "Sehne des Jahrrings quer über das Ende";
    "its dip over that chord" => "sein Stich über dieser Sehne";
    "a dip up to half the chord; rings as circles about one pith"
        => "ein Stich bis zur halben Sehne; Jahrringe als Kreise um eine Markröhre";
    "geometry of the circle, exact" => "Geometrie des Kreises, genau";
    "Angle of the rings to the wide face" => "Winkel der Jahrringe zur Breitseite";
    "from the foot of the pith, along the width" => "vom Fußpunkt der Markröhre, entlang der Breite";
    "depth of the pith below that level; at the ring's crown its radius"
        => "Tiefe der Markröhre unter dieser Höhe; am Scheitel des Jahrrings sein Radius";
    "a pith below the level looked at" => "eine Markröhre unter der betrachteten Höhe";
    "geometry, rings as circles about the pith" => "Geometrie, Jahrringe als Kreise um die Markröhre";
    "Angle of the rings once turned on edge" => "Winkel der Jahrringe, hochkant gedreht";
    "angle as it lies" => "Winkel, wie es liegt";
    "0 to 90°" => "0 bis 90°";
    "Parts come out quartersawn within, to either side of the foot of the pith"
        => "Teile bekommen stehende Jahrringe innerhalb von, beiderseits des Fußpunkts der Markröhre";
    "radius of the ring" => "Radius des Jahrrings";
    "parts turned on edge; quartersawn from 60°" => "Teile hochkant gedreht; stehend ab 60°";
    "{} at {}, but the plank is {} long?" => "{} bei {}, aber die Bohle ist {} lang?";
    "{} thick and {} wide? Were width and thickness changed about?"
        => "{} dick und {} breit? Wurden Breite und Dicke vertauscht?";
    "{} long and {} wide? Were length and width changed about?"
        => "{} lang und {} breit? Wurden Länge und Breite vertauscht?";
    "{} {#}, beside {#} and {#}?" => "{} {}, neben {} und {}?";
    "Its weight and size make {}, heavier than solid wood ({})?" => "Aus Gewicht und Maßen ergeben sich {}: schwerer als Holz ohne Poren ({})?";
    "Its weight and size make {}, heavier than such wood is. Was it in pounds?"
        => "Aus Gewicht und Maßen ergeben sich {}: schwerer, als solches Holz ist. War es in Pfund?";
    "The ends read {} and {}: is one of them in another unit?"
        => "An den Enden {} und {}: Ist eines davon in einer anderen Einheit?";
    "{} {#} in {#}?" => "{} {} auf {}?";
    "A kink at {}, but the plank is {} long?" => "Ein Knick bei {}, aber die Bohle ist {} lang?";
    "A straightedge of {} on only {}? Leave it empty where it reaches all over."
        => "Ein Richtscheit von {} auf nur {}? Leer lassen, wenn es überall aufliegt.";
    "A twist of {} over only {} across?" => "Eine Verdrehung von {} auf nur {} Breite?";
    "A dip of {} in a ring {} across? Were the two changed about?"
        => "Ein Stich von {} bei einem Jahrring von {} Sehne? Wurden beide vertauscht?";
};
