//! German: what core says of what is typed and shown.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "It can't be less than 0." => "Weniger als 0 geht nicht.";
    "“{}” is not a number." => "„{}“ ist keine Zahl.";
    "Probability that it is inside" => "Wahrscheinlichkeit, dass es innerhalb ist";
    "margin" => "Abstand";
    "from the value to the limit" => "vom Wert zur Grenze";
    "standard uncertainty" => "Standardunsicherheit";
    "errors as a normal distribution" => "Fehler als Normalverteilung";
    "JCGM 106:2012, 7.3.1 (from memory)" => "JCGM 106:2012, 7.3.1 (aus dem Gedächtnis)";
    "{#} ({#} to {#})" => "{} ({} bis {})";
    "There is no number in it." => "Darin steht keine Zahl.";
    "“{}” is not a unit that fits here." => "„{}“ ist keine Einheit, die hier passt.";
    "What follows the number can't be placed: “{}”." => "Was auf die Zahl folgt, lässt sich nicht einordnen: „{}“.";
    "The number has two decimal signs." => "Die Zahl hat zwei Dezimalzeichen.";
    "A fraction can't have 0 below the line." => "Unter dem Bruchstrich darf keine 0 stehen.";
    "A fraction wants whole numbers above and below the line."
        => "Ein Bruch braucht ganze Zahlen über und unter dem Bruchstrich.";
    "{} in {}, or {}/{} inch in what run? Type {}:{}, or {}/{} in 12."
        => "{0} in {1}, oder {0}/{1} Zoll auf welche Länge? Tippe {0}:{1}, oder {0}/{1} in 12.";
    "After feet there are fewer than 12 inches. Type thousands without a sign between."
        => "Nach Fuß stehen weniger als 12 Zoll. Tippe Tausender ohne Zeichen dazwischen.";
    "After pounds there are fewer than 16 ounces." => "Nach Pfund stehen weniger als 16 Unzen.";
    "The number has too many digits." => "Die Zahl hat zu viele Ziffern.";
    "There is a hidden character in it; type it anew." => "Ein unsichtbares Zeichen ist darin; tippe es neu.";
    "A minus does not belong here: it must be more than 0."
        => "Ein Minus gehört nicht hierher: Es muss mehr als 0 sein.";
    "{#} in each" => "je {}";
    "{#} to {#}" => "{} bis {}";
};
