//! German: what core says of fields, defects, reasons, shapes and warnings.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    (
        "How warm the wood is: cold wood reads low.",
        "Wie warm das Holz ist: kaltes Holz zeigt zu wenig.",
    ),
    (
        "a piece or straightedge of {} mm: it has to be more than nothing",
        "ein Stück oder Richtscheit von {} mm: es muss mehr als nichts sein",
    ),
    ("the gap is no number", "der Spalt ist keine Zahl"),
    (
        "a piece of {} mm can't be cut from {} mm",
        "ein Stück von {} mm lässt sich nicht aus {} mm schneiden",
    ),
    (
        "the straightedge is {} mm but lies on {} mm: leave it empty where it reaches all over",
        "das Richtscheit hat {} mm, liegt aber auf {} mm: lass es leer, wo es überall reicht",
    ),
    (
        "a kink at {} mm is not inside a plank of {} mm",
        "ein Knick bei {} mm liegt nicht in einer Bohle von {} mm",
    ),
    (
        "a piece from {} to {} mm does not lie in a plank of {} mm",
        "ein Stück von {} bis {} mm liegt nicht in einer Bohle von {} mm",
    ),
    (
        "Gap left of an even curve",
        "Verbleibender Spalt eines gleichmäßigen Bogens",
    ),
    ("gap as read", "Spalt wie gelesen"),
    ("size of the part", "Maß des Teils"),
    (
        "what the gap was read over",
        "worüber der Spalt gelesen wurde",
    ),
    (
        "an even curve, its gap under a fiftieth of its length",
        "ein gleichmäßiger Bogen, sein Spalt unter einem Fünfzigstel seiner Länge",
    ),
    ("geometry of the sagitta", "Geometrie des Bogenstichs"),
    ("Angle of the kink", "Winkel des Knicks"),
    (
        "from the nearer end of that to the kink",
        "vom näheren Ende davon bis zum Knick",
    ),
    ("small angles", "kleine Winkel"),
    ("geometry", "Geometrie"),
    ("Gap left of the kink", "Verbleibender Spalt des Knicks"),
    ("angle of the kink", "Winkel des Knicks"),
    (
        "from an end of the part to the kink; where its place is open, where it costs most",
        "von einem Ende des Teils bis zum Knick; wo seine Stelle offen ist, dort, wo er am meisten kostet",
    ),
    (
        "Rise left of the twist",
        "Verbleibendes Anheben der Verdrehung",
    ),
    ("rise as read", "Anheben wie gelesen"),
    ("length of the part", "Länge des Teils"),
    ("length of the plank", "Länge der Bohle"),
    ("width of the part", "Breite des Teils"),
    (
        "width that the rise was read over",
        "Breite, über die das Anheben gelesen wurde",
    ),
    ("an even twist", "eine gleichmäßige Verdrehung"),
    (
        "Slope of grain, both faces together",
        "Faserabweichung, beide Seiten zusammen",
    ),
    ("slope on the face", "Neigung auf der Breitseite"),
    ("slope on the edge", "Neigung auf der Schmalseite"),
    ("two adjacent faces", "zwei aneinanderstoßende Seiten"),
    (
        "geometry; said to be in ASTM D245 (from memory)",
        "Geometrie; soll in ASTM D245 stehen (aus dem Gedächtnis)",
    ),
    ("Runout over the part", "Faserauslauf über das Teil"),
    ("slope of grain", "Faserabweichung"),
    ("an even slope", "eine gleichmäßige Neigung"),
    (
        "shape between the stations",
        "Form zwischen den Messstellen",
    ),
    ("place of the bearer", "Stelle des Auflagers"),
    ("wood temperature", "Holztemperatur"),
    ("rings rise to the left", "Jahrringe steigen nach links"),
    ("rings square", "Jahrringe rechtwinklig"),
    ("rings rise to the right", "Jahrringe steigen nach rechts"),
    ("grain falls to the far end", "Faser fällt zum fernen Ende"),
    ("grain runs along", "Faser läuft gerade"),
    ("grain rises to the far end", "Faser steigt zum fernen Ende"),
    (
        "Curved along the length, flatwise.",
        "Der Länge nach gekrümmt, über die Breitseite.",
    ),
    (
        "Curved along the length, edgewise.",
        "Der Länge nach gekrümmt, über die Kante.",
    ),
    (
        "The ends are not in one plane.",
        "Die Enden liegen nicht in einer Ebene.",
    ),
    ("Curved across the width.", "Quer über die Breite gekrümmt."),
    ("kink", "Knick"),
    (
        "A sharp local bend, often at a knot.",
        "Eine scharfe örtliche Biegung, oft an einem Ast.",
    ),
    (
        "Thick and thin; the saw wandered.",
        "Dick und dünn; die Säge ist verlaufen.",
    ),
    ("too small", "zu klein"),
    (
        "Too short, narrow or thin for the cut list.",
        "Zu kurz, schmal oder dünn für die Stückliste.",
    ),
    ("runout", "Faserauslauf"),
    (
        "The fibres leave the face or the edge.",
        "Die Fasern verlassen die Breitseite oder die Kante.",
    ),
    (
        "The fibres wind round the trunk.",
        "Die Fasern laufen um den Stamm.",
    ),
    ("wrong ring angle", "falscher Jahrringwinkel"),
    (
        "Flat or rift where quartered is wanted, or the other way.",
        "Liegend oder Halbrift, wo stehend gewünscht ist, oder umgekehrt.",
    ),
    (
        "The centre of the tree, or wood close to it, is in the plank.",
        "Die Mitte des Baums, oder Holz nah daran, ist in der Bohle.",
    ),
    ("reaction wood", "Reaktionsholz"),
    (
        "Tension or compression wood: moves lengthwise.",
        "Zug- oder Druckholz: bewegt sich in der Länge.",
    ),
    (
        "Knots where they can't be cut round.",
        "Äste, wo sie sich nicht umgehen lassen.",
    ),
    ("too much figure", "zu viel Zeichnung"),
    (
        "Curl or burl where it is not wanted.",
        "Riegel oder Maser, wo sie nicht gewünscht sind.",
    ),
    (
        "Pale outer wood where heartwood is wanted.",
        "Helles äußeres Holz, wo Kernholz gewünscht ist.",
    ),
    ("too heavy", "zu schwer"),
    ("Denser than wanted.", "Dichter als gewünscht."),
    ("too light", "zu leicht"),
    ("Less dense than wanted.", "Weniger dicht als gewünscht."),
    ("too wet", "zu feucht"),
    ("Moisture over the limit.", "Holzfeuchte über der Grenze."),
    ("checks", "Trockenrisse"),
    (
        "Drying cracks across the rings.",
        "Trockenrisse quer zu den Jahrringen.",
    ),
    ("drying stress", "Trockenspannung"),
    (
        "Case-hardened, honeycombed or collapsed.",
        "Verschalt, mit Innenrissen oder eingefallen.",
    ),
    ("A crack right through.", "Ein Riss ganz hindurch."),
    (
        "Wrinkles across the grain: breaks short.",
        "Falten quer zur Faser: bricht kurz.",
    ),
    (
        "Forklift, nails, saw nicks.",
        "Stapler, Nägel, Sägeschnitte.",
    ),
    ("decay or stain", "Fäule oder Verfärbung"),
    (
        "Fungus, or colour that won't do.",
        "Pilz, oder eine Farbe, die nicht geht.",
    ),
    ("worm", "Wurm"),
    ("Insect holes.", "Insektenlöcher."),
    ("bark or gum", "Rinde oder Harz"),
    (
        "Bark or a gum pocket inside.",
        "Rinde oder eine Harzgalle im Innern.",
    ),
    ("dull tap", "dumpfer Klang"),
    (
        "Rings dead for no visible reason: a hidden crack is suspected.",
        "Klingt ohne sichtbaren Grund dumpf: ein verborgener Riss wird vermutet.",
    ),
    ("could not judge", "nicht zu beurteilen"),
    (
        "Ends painted, or only one face seen.",
        "Enden gestrichen, oder nur eine Seite gesehen.",
    ),
    ("species in doubt", "Holzart zweifelhaft"),
    (
        "A look-alike under a trade name.",
        "Ein ähnliches Holz unter einem Handelsnamen.",
    ),
    ("price", "Preis"),
    ("Over the ceiling.", "Über der Obergrenze."),
    ("no papers", "keine Papiere"),
    (
        "Origin or a listed species is unclear.",
        "Herkunft oder eine geschützte Art ist unklar.",
    ),
    ("budget reached", "Budget erreicht"),
    (
        "A good plank, left for want of money.",
        "Eine gute Bohle, aus Geldmangel gelassen.",
    ),
    ("better one taken", "eine bessere genommen"),
    (
        "A good plank, left for a better one.",
        "Eine gute Bohle, für eine bessere gelassen.",
    ),
    ("sprang at the saw", "an der Säge gesprungen"),
    (
        "Moved as it was cut, or within a day of it.",
        "Hat sich beim Schneiden bewegt, oder binnen eines Tages danach.",
    ),
    ("moved while resting", "in der Ruhe bewegt"),
    (
        "Beyond its limit since it was last machined flat.",
        "Über die Grenze, seit es zuletzt abgerichtet wurde.",
    ),
    ("tear-out", "Ausriss"),
    (
        "Torn deeper than the allowance.",
        "Tiefer eingerissen, als das Aufmaß hergibt.",
    ),
    ("miscut", "verschnitten"),
    (
        "Cut wrong, or too thin after flattening.",
        "Falsch geschnitten, oder nach dem Abrichten zu dünn.",
    ),
    ("bad joint", "schlechte Fuge"),
    (
        "Open, starved or creeping.",
        "Offen, zu wenig Leim, oder sie kriecht.",
    ),
    ("no match", "passt nicht"),
    (
        "Colour, figure or moisture unlike its mates.",
        "Farbe, Zeichnung oder Holzfeuchte anders als bei den anderen.",
    ),
    ("Straight slab", "Nutzbare Dicke"),
    ("least thickness", "kleinste Dicke"),
    ("what the bow takes", "was die Flachkrümmung nimmt"),
    (
        "what the twist takes: half of its rise",
        "was die Verdrehung nimmt: die Hälfte ihres Anhebens",
    ),
    ("what the cup takes", "was die Schüsselung nimmt"),
    ("planing", "Hobelabtrag"),
    (
        "what planing takes from both faces together",
        "was das Hobeln beider Seiten zusammen nimmt",
    ),
    (
        "never more than is there; with twist among the losses up to half the rise may be left over",
        "nie mehr, als da ist; mit Verdrehung unter den Verlusten kann bis zur Hälfte des Anhebens übrig bleiben",
    ),
    (
        "geometry, held against a search over tilted planes",
        "Geometrie, an einer Suche über gekippte Ebenen geprüft",
    ),
    ("at least {}", "mindestens {}"),
    (
        "{} must be more than 0; usual is {} to {}.",
        "{} muss mehr als 0 sein; üblich ist {} bis {}.",
    ),
    ("{#} left", "{} links"),
    ("{#} right", "{} rechts"),
    ("{#} in 300", "{} auf 300"),
    ("{} {#}? Usual is {} to {}.", "{} {}? Üblich ist {} bis {}."),
    (
        "{}, away from the marked edge? Else say left.",
        "{}, weg von der gezeichneten Kante? Sonst tippe left (links).",
    ),
    ("the {} was not measured", "die {} wurde nicht gemessen"),
    (
        "the {} comes to {} mm: it has to be more than nothing",
        "die {} ergibt {} mm: es muss mehr als nichts sein",
    ),
    ("Cross-section", "Querschnitt"),
    ("width there", "Breite dort"),
    ("thickness there", "Dicke dort"),
    ("any", "beliebig"),
    ("Volume", "Volumen"),
    ("cross-section at the near end", "Querschnitt am nahen Ende"),
    ("cross-section at the middle", "Querschnitt in der Mitte"),
    ("cross-section at the far end", "Querschnitt am fernen Ende"),
    (
        "exact for a straight taper of width and thickness",
        "genau bei geradem Verlauf von Breite und Dicke",
    ),
    (
        "the prismoidal formula, a textbook identity",
        "die Prismatoidformel, eine Lehrbuchidentität",
    ),
    (
        "the scale reading comes to {} kg: it has to be more than nothing",
        "die Waage ergibt {} kg: es muss mehr als nichts sein",
    ),
    (
        "this way of weighing needs the length of the plank",
        "diese Art zu wiegen braucht die Länge der Bohle",
    ),
    (
        "the length comes to {} mm: it has to be more than nothing",
        "die Länge ergibt {} mm: es muss mehr als nichts sein",
    ),
    (
        "the distance comes to {} mm: it can't be less than nothing",
        "der Abstand ergibt {} mm: weniger als nichts geht nicht",
    ),
    (
        "the bearer is set in by {} mm, past the middle of a {} mm plank: lifting the end tells nothing",
        "das Auflager ist um {} mm eingerückt, über die Mitte einer Bohle von {} mm hinaus: das Ende zu heben sagt nichts",
    ),
    (
        "the bar is {} mm from the hung mass; in a {} mm plank it must stand between the mass and the middle",
        "der Stab ist {} mm von der angehängten Masse; bei einer Bohle von {} mm muss er zwischen Masse und Mitte stehen",
    ),
    ("Weight from one end", "Gewicht aus einem Ende"),
    ("reading at the end", "Anzeige am Ende"),
    (
        "a plank without taper, its far end resting at its very end",
        "eine Bohle ohne Verjüngung, das ferne Ende ganz außen aufliegend",
    ),
    (
        "statics: moments about the bearer",
        "Statik: Momente um das Auflager",
    ),
    (
        "overhang of the resting end",
        "Überstand des aufliegenden Endes",
    ),
    (
        "a plank without taper, the overhang under half of its length",
        "eine Bohle ohne Verjüngung, der Überstand unter der Hälfte ihrer Länge",
    ),
];
