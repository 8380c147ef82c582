//! German: what core says of cutting, matching and the laminated blank.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "Stiffness bent along the glue lines" => "Steifigkeit bei Biegung parallel zu den Leimfugen";
    "modulus of elasticity of each laminate" => "E-Modul jeder Lamelle";
    "its thickness" => "ihre Dicke";
    "its width, the depth of the blank" => "ihre Breite, die Tiefe des Rohlings";
    "linear, laminates that hold together; each about its own middle; GPa mm⁴ over 1000 are N m²"
        => "linear, schubfest verleimte Lamellen; jede um ihre eigene Mitte; GPa mm⁴ durch 1000 sind N m²";
    "statics: derived here" => "Statik: hier hergeleitet";
    "its width" => "ihre Breite";
    "Weight of the blank" => "Gewicht des Rohlings";
    "density of each laminate" => "Dichte jeder Lamelle";
    "length of the blank" => "Länge des Rohlings";
    "at the moisture of the densities; glue is not in it" => "bei der Holzfeuchte der Dichten; ohne den Leim";
    "a definition" => "eine Definition";
    "Wood for each" => "Holz für jedes";
    "what the whole cost, tax included" => "was das Ganze gekostet hat, mit Steuer";
    "parts that come of it" => "Teile, die daraus werden";
    "waste is paid for by the parts" => "den Verschnitt tragen die Teile";
    "arithmetic of shares" => "Anteilsrechnung";
    "Wood for one good blank" => "Holz für einen guten Rohling";
    "paid for the planks, with tax" => "für die Bohlen bezahlt, mit Steuer";
    "parts to a blank" => "Teile je Rohling";
    "parts that they hold" => "Teile, die sie ergeben";
    "share expected to come through" => "Anteil, der voraussichtlich durchkommt";
    "a share over 0, up to 1" => "ein Anteil über 0, bis 1";
    "arithmetic of shares: what fails is paid for by what comes through"
        => "Anteilsrechnung: den Ausfall trägt, was durchkommt";
    "What it carries" => "Was es trägt";
    "its own wood" => "sein eigenes Holz";
    "paid for the whole plank, with tax" => "für die ganze Bohle bezahlt, mit Steuer";
    "the wood of the plank that came through, at its own cost"
        => "das durchgekommene Holz der Bohle, zu seinen eigenen Kosten";
    "something of the plank came through" => "etwas von der Bohle ist durchgekommen";
    "arithmetic of shares: what failed is paid for by what came through"
        => "Anteilsrechnung: den Ausfall trägt, was durchgekommen ist";
    "Its part of what the whole cost, by volume" => "Sein Anteil an den Kosten des Ganzen, nach Volumen";
    "what the whole cost" => "was das Ganze gekostet hat";
    "its volume" => "sein Volumen";
    "volume of all that was cut from the whole" => "Volumen von allem, was aus dem Ganzen geschnitten wurde";
    "waste is paid for by the pieces" => "den Verschnitt tragen die Stücke";
    "a blank of no laminates" => "ein Rohling ohne Lamellen";
    "a laminate of {} mm: it has to be more than nothing" => "eine Lamelle von {} mm: das Maß muss größer als 0 sein";
    "a modulus of {} MPa: it has to be more than nothing" => "ein E-Modul von {} MPa: er muss größer als 0 sein";
    "a density of {} kg/m³: it has to be more than nothing"
        => "eine Dichte von {} kg/m³: sie muss größer als 0 sein";
    "a shape that is no number" => "eine Form, die keine Zahl ist";
    "{} mm: it has to be more than nothing" => "{} mm: es muss größer als 0 sein";
    "a kerf, trim or planing of {} mm: it can't be less than nothing"
        => "Schnittfuge, Abschnitt oder Hobelabtrag von {} mm: weniger als 0 geht nicht";
    "a part worth {}: it can't be less than nothing" => "ein Teil im Wert von {}: weniger als 0 geht nicht";
    "a defect from {} to {} mm: its place has to be two numbers in order"
        => "ein Fehler von {} bis {} mm: die Stelle braucht zwei Zahlen in der richtigen Reihenfolge";
    "cuts every {} mm are too fine for a plank of {} mm" => "Schnitte alle {} mm sind zu fein für eine Bohle von {} mm";
    "Unlike pairs: what mirrored laminates differ by in thickness, and {} of what they differ by in density and stiffness, each in limits. What was not measured counts 1, grain that runs out against the rest {} each. Moisture too far apart, mixed rings, a wood not mirrored: {} each, so that no set that is warned of goes before one that is not."
        => "Ungleiche Paare: der Unterschied gegenüberliegender Lamellen in der Dicke, und {} ihres Unterschieds in Dichte und Steifigkeit, alles in Grenzen. Was nicht gemessen wurde, zählt 1, eine Faser, die gegen die übrigen ausläuft, je {}. Zu verschiedene Holzfeuchte, gemischte Jahrringstellungen, ein Holz, das nicht symmetrisch liegt: je {}, damit kein Satz mit Warnung vor einem ohne Warnung steht.";
    "The search goes through all sets, places and turns, and leaves out only those that a lower bound of this sum rules out."
        => "Die Suche geht alle Sätze, Plätze und Lagen durch und lässt nur aus, was eine untere Schranke dieser Summe ausschließt.";
    "Crooks, each by how stiff its laminate is edgewise"
        => "Kantenkrümmungen, jede mal Hochkantsteifigkeit ihrer Lamelle";
    "edgewise stiffness E t w³ / 12 of each laminate" => "Hochkantsteifigkeit E t w³ / 12 jeder Lamelle";
    "how far it has moved since it was last flat, signed as it lies in the set"
        => "wie weit sie sich verzogen hat, seit sie zuletzt abgerichtet wurde, mit dem Vorzeichen ihrer Lage im Satz";
    "a crook that was not measured counts as none, and is warned of"
        => "eine nicht gemessene Kantenkrümmung zählt als keine; davor wird gewarnt";
    "linear beam statics, no creep: derived here" => "lineare Balkenstatik, kein Kriechen: hier hergeleitet";
    "Edgewise stiffness of all" => "Hochkantsteifigkeit aller";
    "edgewise stiffness of each laminate" => "Hochkantsteifigkeit jeder Lamelle";
    "where one modulus is not known, 10 GPa for all: only their ratio counts"
        => "wo ein E-Modul nicht bekannt ist, 10 GPa für alle: nur ihr Verhältnis zählt";
    "linear beam statics: derived here" => "lineare Balkenstatik: hier hergeleitet";
    "Crook that the blank is left with" => "Kantenkrümmung, die dem Rohling bleibt";
    "crooks by stiffness, added up" => "Kantenkrümmungen mal Steifigkeit, zusammengezählt";
    "edgewise stiffness of all" => "Hochkantsteifigkeit aller";
    "edgewise, gluing forgives nothing: only opposite crooks help"
        => "hochkant verzeiht das Verleimen nichts: nur entgegengesetzte Krümmungen helfen";
    "Area of the joints" => "Fläche der Fugen";
    "width of the laminates" => "Breite der Lamellen";
    "each joint once; glue on both faces covers twice as much"
        => "jede Fuge einmal; Leim auf beiden Seiten bedeckt das Doppelte";
    "Twists" => "Verdrehungen";
    "rise of the fourth corner of each laminate, its hand as sign"
        => "Abheben der vierten Ecke jeder Lamelle, die Drehrichtung als Vorzeichen";
    "no turning changes a hand; one that was not measured counts as none, and is warned of"
        => "Wenden ändert die Drehrichtung nicht; eine nicht gemessene zählt als keine; davor wird gewarnt";
    "a sum" => "eine Summe";
    "Twist, the mean of its laminates" => "Verdrehung, das Mittel ihrer Lamellen";
    "twists added up" => "Verdrehungen zusammengezählt";
    "laminates" => "Lamellen";
    "each laminate counts alike; the glued blank keeps less of it"
        => "jede Lamelle zählt gleich viel; der verleimte Rohling behält weniger davon";
    "a mean" => "ein Mittel";
    "Bows" => "Flachkrümmungen";
    "flatwise bow of each laminate, signed as it lies in the set"
        => "Flachkrümmung jeder Lamelle, mit dem Vorzeichen ihrer Lage im Satz";
    "one that was not measured counts as none" => "eine nicht gemessene zählt als keine";
    "Remaining bow, the mean over n²" => "Restliche Flachkrümmung, das Mittel durch n²";
    "bows added up" => "Flachkrümmungen zusammengezählt";
    "equal laminates" => "gleiche Lamellen";
    "How far from perfect, in limits" => "Abweichung vom Idealen, in Grenzen";
    "mean crook" => "mittlere Kantenkrümmung";
    "its limit" => "ihre Grenze";
    "mean twist" => "mittlere Verdrehung";
    "unlike mirrored pairs, what was not measured, warnings"
        => "ungleiche gegenüberliegende Paare, nicht Gemessenes, Warnungen";
    "0 is perfect; compares sets of one search" => "0 ist ideal; vergleicht Sätze derselben Suche";
    "common practice, no source: the limits are the maker's own"
        => "gängige Praxis, ohne Quelle: die Grenzen sind deine eigenen";
    "a blank of {} laminates: between 1 and {} can be matched"
        => "ein Rohling aus {} Lamellen: zwischen 1 und {} lassen sich zusammenstellen";
    "only {} laminates for {} places, of the woods wanted"
        => "nur {} Lamellen für {} Plätze, aus den gewünschten Hölzern";
    "{} laminates: up to {} can be looked through" => "{} Lamellen: bis zu {} lassen sich durchsehen";
    "there is no laminate {} in the stock" => "es gibt keine Lamelle {} im Bestand";
    "laminate {} stands at two places" => "Lamelle {} steht an zwei Plätzen";
    "a laminate or limit of {} mm: it has to be more than nothing"
        => "eine Lamelle oder Grenze von {} mm: das Maß muss größer als 0 sein";
    "a limit or a property of {}: it has to be a number, and a limit more than nothing"
        => "eine Grenze oder Eigenschaft von {}: es muss eine Zahl sein, und eine Grenze größer als 0";
    "a part of {} mm: it has to be at least 1 mm each way"
        => "ein Teil von {} mm: es muss in jeder Richtung mindestens 1 mm haben";
    "a kerf or trim of {} mm: it can't be less than nothing"
        => "Schnittfuge oder Abschnitt von {} mm: weniger als 0 geht nicht";
    "a plank of {} mm is longer than any" => "eine Bohle von {} mm: so lang ist keine";
    "{} blanks along one plank: more than 100 are not weighed against each other"
        => "{} Rohlinge entlang einer Bohle: mehr als 100 werden nicht gegeneinander abgewogen";
    "{} defects along one plank: more than 200 are not dodged one by one"
        => "{} Fehler entlang einer Bohle: mehr als 200 werden nicht einzeln umgangen";
};
