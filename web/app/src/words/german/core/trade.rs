//! German: what core says of price, tally and bill.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "the {} comes to {} mm: that is longer than any plank" => "die {} ergibt {} mm: das ist länger als jede Bohle";
    "the rule charges the nominal thickness, but the pile has none"
        => "die Regel berechnet die Nenndicke, aber für den Stapel ist keine angegeben";
    "{} % added to the footage: it has to lie between -100 and 1000"
        => "{} % Aufschlag auf die Holzmenge: er muss zwischen -100 und 1000 liegen";
    "Footage" => "Holzmenge";
    "length charged" => "berechnete Länge";
    "width charged" => "berechnete Breite";
    "thickness charged" => "berechnete Dicke";
    "the definition of the board foot: 1 ft × 12 in × 1 in" => "die Definition des Board Foot: 1 ft × 12 in × 1 in";
    "Square feet of the face" => "Quadratfuß der Breitseite";
    "to the nearest whole foot after that, exact halves down and up by turns"
        => "danach auf den nächsten ganzen Fuß, genaue Hälften abwechselnd ab und auf";
    "the hardwood trade's surface measure (read as quoted)" => "das Flächenmaß des Laubholzhandels (als Zitat gelesen)";
    "Footage by surface measure" => "Holzmenge nach Flächenmaß";
    "surface measure: the face in whole square feet" => "Flächenmaß: die Breitseite in ganzen Quadratfuß";
    "thickness in quarters of an inch, at least 1" => "Dicke in Viertelzoll, mindestens 1";
    "Footage with the yard's percentage" => "Holzmenge mit dem Aufschlag des Händlers";
    "footage" => "Holzmenge";
    "added by the rule" => "von der Regel aufgeschlagen";
    "−100 to 1000 %" => "−100 bis 1000 %";
    "the visit's tally rule" => "die Aufmaßregel des Besuchs";
    "In cubic metres" => "In Kubikmetern";
    "the definition of the board foot, exact" => "die Definition des Board Foot, genau";
    "{#} {}, or {#}?" => "{} {}, oder {}?";
    "That day is still to come. Really?" => "Dieser Tag kommt erst noch. Stimmt das?";
    "That is more than thirty years ago. Really?" => "Das ist mehr als dreißig Jahre her. Stimmt das?";
    "per board foot" => "je Board Foot";
    "per plank" => "je Bohle";
    "per kg" => "je kg";
    "nominal thickness" => "Nenndicke";
    "measured thickness" => "gemessene Dicke";
    "length × width × {}" => "Länge × Breite × {}";
    "surface measure (face in whole square feet, exact halves down and up by turns) × {} in quarters of an inch"
        => "Flächenmaß (Breitseite in ganzen Quadratfuß, genaue Hälften abwechselnd ab und auf) × {} in Viertelzoll";
    "width as measured" => "Breite wie gemessen";
    "width rounded down to whole inches" => "Breite abgerundet auf ganze Zoll";
    "width rounded to the nearest to whole inches" => "Breite kaufmännisch gerundet auf ganze Zoll";
    "width rounded up to whole inches" => "Breite aufgerundet auf ganze Zoll";
    "length as measured" => "Länge wie gemessen";
    "length rounded down to whole feet" => "Länge abgerundet auf ganze Fuß";
    "length rounded to the nearest to whole feet" => "Länge kaufmännisch gerundet auf ganze Fuß";
    "length rounded up to whole feet" => "Länge aufgerundet auf ganze Fuß";
    "exact footage, no surface measure" => "genaue Holzmenge, kein Flächenmaß";
    "surface measure, to the nearest square foot" => "Flächenmaß, auf den nächsten Quadratfuß";
    "nominal thickness charged" => "Nenndicke berechnet";
    "measured thickness charged" => "gemessene Dicke berechnet";
    "all of the wane counted" => "die ganze Baumkante mitgezählt";
    "{#} % added" => "{} % aufgeschlagen";
    "footage from before the kiln (divided by 0.92)" => "Holzmenge vor der Trocknung (durch 0,92 geteilt)";
    "The agreed rule as it stands" => "Die vereinbarte Regel, wie sie ist";
    "The agreed rule, but {}" => "Die vereinbarte Regel, aber {}";
    "{}: every plank's footage by that, added up, is {} bd ft. What that leaves of the yard's figures, each gap without its sign, is {} bd ft."
        => "{}: Die Holzmenge aller Bohlen zusammen ist danach {} bd ft. Von den Zahlen des Händlers bleiben damit, jede Differenz ohne Vorzeichen, {} bd ft.";
    "the customs of the trade, alone and by twos, each tried on the planks as measured"
        => "die Handelsbräuche, einzeln und zu zweit, jeder an den gemessenen Bohlen ausprobiert";
    "The rule: {}." => "Die Regel: {}.";
    "No footage: {}." => "Keine Holzmenge: {}.";
    "The price is {}." => "Der Preis gilt {}.";
    "Money is reckoned in decimals, to the cent, halves up."
        => "Beträge werden dezimal gerechnet und auf den Cent gerundet, halbe Cent nach oben.";
    "No price: {}." => "Kein Preis: {}.";
    "no price was given" => "es ist kein Preis angegeben";
    "the price is by the kilogram, and the plank was not weighed"
        => "der Preis gilt je Kilogramm, und die Bohle wurde nicht gewogen";
    "price, discount or tax is beyond reason: the amount can't be reckoned"
        => "Preis, Rabatt oder Steuer liegen jenseits aller Vernunft: der Betrag lässt sich nicht berechnen";
    "what is charged" => "was berechnet wird";
    "the price of one" => "der Preis für eines";
    "With the discount taken off" => "Nach Abzug des Rabatts";
    "discount" => "Rabatt";
    "0 to 100 %" => "0 bis 100 %";
    "the visit's terms" => "die Bedingungen des Besuchs";
    "With tax" => "Mit Steuer";
    "without tax, to the cent" => "ohne Steuer, auf den Cent";
    "tax" => "Steuer";
    "Without tax" => "Ohne Steuer";
    "with tax, to the cent" => "mit Steuer, auf den Cent";
};
