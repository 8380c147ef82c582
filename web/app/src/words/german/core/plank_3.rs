//! German: what core says of fields, defects, reasons, shapes and warnings.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    ("Weight from both ends", "Gewicht aus beiden Enden"),
    ("reading at the first end", "Anzeige am ersten Ende"),
    ("reading at the second end", "Anzeige am zweiten Ende"),
    (
        "any taper, the resting end at its very end both times",
        "jede Verjüngung, das aufliegende Ende beide Male ganz außen",
    ),
    (
        "any taper, the overhang under half of the length",
        "jede Verjüngung, der Überstand unter der Hälfte der Länge",
    ),
    ("Weight from a balance", "Gewicht aus dem Gleichgewicht"),
    ("the known weight", "das bekannte Gewicht"),
    ("from the bar to it", "vom Stab bis dorthin"),
    (
        "a plank without taper, the bar short of its middle",
        "eine Bohle ohne Verjüngung, der Stab vor ihrer Mitte",
    ),
    (
        "statics: moments about the bar",
        "Statik: Momente um den Stab",
    ),
    (
        "a ring {} mm across with a dip of {} mm: both have to be more than nothing",
        "ein Jahrring von {} mm Sehne mit {} mm Stich: beides muss mehr als nichts sein",
    ),
    (
        "a dip of {} mm is more than half of the {} mm across: were the two mixed up?",
        "ein Stich von {} mm ist mehr als die Hälfte der Sehne von {} mm: wurden beide verwechselt?",
    ),
    (
        "only the angle at mid-width was read; to know it elsewhere, read a ring's chord and dip",
        "nur der Winkel in der Mitte der Breite wurde gelesen; um ihn anderswo zu kennen, lies Sehne und Stich eines Jahrrings",
    ),
    (
        "a ring of {} mm radius in a plank {} mm thick: the pith lies in it",
        "ein Jahrring von {} mm Radius in einer {} mm dicken Bohle: die Markröhre liegt darin",
    ),
    (
        "a part from {} to {} mm: it has to be more than nothing",
        "ein Teil von {} bis {} mm: es muss mehr als nichts sein",
    ),
    (
        "a ring angle of {} degrees: it lies between 0 and 90",
        "ein Jahrringwinkel von {} Grad: er liegt zwischen 0 und 90",
    ),
    ("flatsawn", "liegend"),
    ("quartersawn", "stehend"),
    ("Radius of the ring", "Radius des Jahrrings"),
    (
        "chord of the ring across the end",
        "Sehne des Jahrrings quer über das Ende",
    ),
    ("its dip over that chord", "sein Stich über dieser Sehne"),
    (
        "a dip up to half the chord; rings as circles about one pith",
        "ein Stich bis zur halben Sehne; Jahrringe als Kreise um eine Markröhre",
    ),
    (
        "geometry of the circle, exact",
        "Geometrie des Kreises, genau",
    ),
    (
        "Angle of the rings to the wide face",
        "Winkel der Jahrringe zur Breitseite",
    ),
    (
        "from the foot of the pith, along the width",
        "vom Fußpunkt der Markröhre, entlang der Breite",
    ),
    (
        "depth of the pith below that level; at the ring's crown its radius",
        "Tiefe der Markröhre unter dieser Höhe; am Scheitel des Jahrrings sein Radius",
    ),
    (
        "a pith below the level looked at",
        "eine Markröhre unter der betrachteten Höhe",
    ),
    (
        "geometry, rings as circles about the pith",
        "Geometrie, Jahrringe als Kreise um die Markröhre",
    ),
    (
        "Angle of the rings once turned on edge",
        "Winkel der Jahrringe, hochkant gedreht",
    ),
    ("angle as it lies", "Winkel, wie es liegt"),
    ("0 to 90°", "0 bis 90°"),
    (
        "Strips come out quartersawn within, to either side of the foot of the pith",
        "Leisten kommen stehend heraus innerhalb von, beiderseits des Fußpunkts der Markröhre",
    ),
    ("radius of the ring", "Radius des Jahrrings"),
    (
        "strips turned on edge; quartersawn from 60°",
        "Leisten hochkant gedreht; stehend ab 60°",
    ),
    (
        "{} at {}, but the plank is {} long?",
        "{} bei {}, aber die Bohle ist {} lang?",
    ),
    (
        "{} thick and {} wide? Were width and thickness changed about?",
        "{} dick und {} breit? Wurden Breite und Dicke vertauscht?",
    ),
    (
        "{} long and {} wide? Were length and width changed about?",
        "{} lang und {} breit? Wurden Länge und Breite vertauscht?",
    ),
    ("{} {#}, beside {#} and {#}?", "{} {}, neben {} und {}?"),
    (
        "That makes {}, heavier than solid wood ({})?",
        "Das ergibt {}, schwerer als porenfreies Holz ({})?",
    ),
    (
        "That makes {}, lighter than such wood is.",
        "Das ergibt {}, leichter als solches Holz ist.",
    ),
    (
        "That makes {}, heavier than such wood is. Was it in pounds?",
        "Das ergibt {}, schwerer als solches Holz ist. War es in Pfund?",
    ),
    (
        "The ends read {} and {}: is one of them in another unit?",
        "Die Enden zeigen {} und {}: ist eines davon in einer anderen Einheit?",
    ),
    ("{} {#} in {#}?", "{} {} auf {}?"),
    (
        "A kink at {}, but the plank is {} long?",
        "Ein Knick bei {}, aber die Bohle ist {} lang?",
    ),
    (
        "A twist of {} over only {} across?",
        "Eine Verdrehung von {} über nur {} quer?",
    ),
    (
        "A dip of {} in a ring {} across? Were the two changed about?",
        "Ein Stich von {} bei einem Jahrring von {} Sehne? Wurden beide vertauscht?",
    ),
];
