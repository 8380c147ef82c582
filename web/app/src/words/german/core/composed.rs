//! German: what core says of what is put together.

use crate::words::line::Line;

/// English, German.
pub const LINES: &[Line] = lines! {
    "1 mm" => "1 mm";
    "Was the other end left out?" => "Fehlt das andere Ende?";
    "One end was taken twice." => "Ein Ende wurde zweimal gemessen.";
    "Twist and cup are left out." => "Verdrehung und Querkrümmung sind weggelassen.";
    "width down to whole inches" => "Breite auf ganze Zoll abgerundet";
    "width to the nearest whole inches" => "Breite auf ganze Zoll gerundet";
    "width up to whole inches" => "Breite auf ganze Zoll aufgerundet";
    "length down to whole feet" => "Länge auf ganze Fuß abgerundet";
    "length to the nearest whole feet" => "Länge auf ganze Fuß gerundet";
    "length up to whole feet" => "Länge auf ganze Fuß aufgerundet";
    "nothing rounded" => "nichts gerundet";
    "less than a day" => "weniger als einen Tag";
    "1 day" => "1 Tag";
    "{#} days" => "{} Tage";
    "1 month" => "1 Monat";
    "{#} months" => "{} Monate";
    "1 year" => "1 Jahr";
    "{#} years" => "{} Jahre";
    "1 month and {#} day" => "1 Monat und {} Tag";
    "1 month and {#} days" => "1 Monat und {} Tage";
    "{#} months and {#} day" => "{} Monate und {} Tag";
    "{#} months and {#} days" => "{} Monate und {} Tage";
    "{#} month and {#} day" => "{} Monat und {} Tag";
    "{#} month and {#} days" => "{} Monat und {} Tage";
    "checked {}" => "{} geprüft";
    "{#} in 12" => "{} in 12";
    "{} → {}" => "{} → {}";
    "0 to 1" => "0 bis 1";
    "0 to 100" => "0 bis 100";
    "plank" => "Bohle";
    "piece" => "Stück";
    "laminate" => "Lamelle";
    "blank" => "Rohling";
    "planks" => "Bohlen";
    "modulus of elasticity" => "E-Modul";
    "a speed of sound, m/s," => "eine Schallgeschwindigkeit, m/s,";
    "a density, kg/m³," => "eine Dichte, kg/m³,";
    "Is that {#}, or {#}? Type it that way." => "Ist das {} oder {}? Tippe es so.";
    "{} agrees." => "{}: stimmt überein.";
    "{} agree." => "{}: stimmen überein.";
    "Possible: {} agrees." => "Möglich: {} stimmt überein.";
    "Possible: {} agree." => "Möglich: {} stimmen überein.";
    "Likely: {} agrees." => "Wahrscheinlich: {} stimmt überein.";
    "Likely: {} agree." => "Wahrscheinlich: {} stimmen überein.";
    "1 measurement" => "1 Messung";
    "{#} measurements" => "{} Messungen";
    "1 defect" => "1 Fehler";
    "{#} defects" => "{} Fehler";
    "1 piece in the workshop was made of its planks. Delete that too?"
        => "1 Stück in der Werkstatt wurde aus seinen Bohlen gemacht. Das auch löschen?";
    "{#} pieces in the workshop were made of its planks. Delete that too?"
        => "{} Stücke in der Werkstatt wurden aus seinen Bohlen gemacht. Das auch löschen?";
    "the file is cut short after entry {} of {} (the header says)"
        => "die Datei ist nach Eintrag {} von {} abgeschnitten (laut Kopf)";
    "{}: {} came through of {}, which count as {} of {} by themselves; ({} + 1/2) / ({} + 1) = {} %."
        => "{}: {} kamen durch von {}, die als {} von {} für sich zählen; ({} + 1/2) / ({} + 1) = {} %.";
    "{}: {} of {} came through, which count as {} of {} by themselves; ({} + 1/2) / ({} + 1) = {} %."
        => "{}: {} von {} kamen durch, die als {} von {} für sich zählen; ({} + 1/2) / ({} + 1) = {} %.";
    "0 at" => "0 bei";
    "both" => "beides";
    "1 day ({#} to {#})" => "1 Tag ({} bis {})";
    "It is watched only where it is over {} mm by {} u." => "Beobachtet wird nur, was um {1} u über {0} mm liegt.";
    "an id has 32 hexadecimal digits and four dashes" => "eine Kennung hat 32 hexadezimale Ziffern und vier Striche";
    "an id such as \"017f22e2-79b0-7cc3-98c4-dc0c0c07398f\""
        => "eine Kennung wie \"017f22e2-79b0-7cc3-98c4-dc0c0c07398f\"";
    "any JSON value" => "ein beliebiger JSON-Wert";
    "It stands: {}. Beyond counts only what is over {} mm by {} u, within only what is under it by as much, steady only what is no more than {} u. It is watched only where it is over {} mm by {} u."
        => "Stand: {0}. Als außerhalb zählt nur, was um {2} u über {1} mm liegt, als innerhalb nur, was ebenso weit darunter liegt, als ruhig nur, was höchstens {3} u beträgt. Beobachtet wird nur, was um {5} u über {4} mm liegt.";
    "from memory" => "aus dem Gedächtnis";
    "{} and the place in the pile" => "{} und der Platz im Stapel";
    "{#} measurements and {}" => "{} Messungen und {}";
    "1 measurement and {}" => "1 Messung und {}";
    "{} and {#} defects" => "{} und {} Fehler";
    "{} and 1 defect" => "{} und 1 Fehler";
    "{#} parts" => "{} Teile";
    "1 part" => "1 Teil";
    "phone" => "Telefon";
    "laptop" => "Laptop";
    "your data: {}" => "deine Daten: {}";
    "middle of the range: {}" => "Mitte des Bereichs: {}";
    "computed from the specific gravity at 12 %: {}" => "aus der relativen Dichte (Darrmasse) bei 12 % berechnet: {}";
    "computed from the basic specific gravity: {}" => "aus der Raumdichtezahl berechnet: {}";
    "two standard deviations either way; {}" => "zwei Standardabweichungen nach beiden Seiten; {}";
    "computed: ± {} % of the density above, the usual variation of a wood (from memory); {}"
        => "berechnet: ± {} % der Dichte darüber, die übliche Streuung eines Holzes (aus dem Gedächtnis); {}";
    "computed from the total shrinkage: {}" => "aus dem gesamten Schwindmaß berechnet: {}";
    "computed from the change coefficient: {}" => "aus der Änderungszahl berechnet: {}";
    "left" => "links";
    "right" => "rechts";
    "space" => "Leer";
    "Its weight and size make {}, lighter than such wood is." => "Aus Gewicht und Maßen ergeben sich {}: leichter, als solches Holz ist.";
    "the file is cut short after entry {}" => "die Datei ist nach Eintrag {} abgeschnitten";
    "{}: {} of {} came through; ({} + 1/2) / ({} + 1) = {} %."
        => "{}: {} von {} kamen durch; ({} + 1/2) / ({} + 1) = {} %.";
    "It stands: {}. Beyond counts only what is over {} mm by {} u, within only what is under it by as much, steady only what is no more than {} u."
        => "Stand: {0}. Als außerhalb zählt nur, was um {2} u über {1} mm liegt, als innerhalb nur, was ebenso weit darunter liegt, als ruhig nur, was höchstens {3} u beträgt.";
    "{} by eye so much or more: measure it" => "{} nach Augenmaß so viel oder mehr: messen";
};
