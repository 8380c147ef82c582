//! German: what core says of filled forms.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "It looks like {}: same sizes and weight. Is it the same plank?"
        => "Sie sieht aus wie {}: gleiche Maße, gleiches Gewicht. Ist es dieselbe Bohle?";
    "Nothing of it was measured. Buy it all the same?" => "An ihr wurde nichts gemessen. Trotzdem kaufen?";
    "This is still to be typed." => "Das fehlt noch.";
    "“{}” can't be read. {}" => "„{}“ ist nicht lesbar. {}";
    "“{}” is not a day." => "„{}“ ist kein Tag.";
    "Which day was it?" => "Welcher Tag war es?";
    "“{}…” has {} letters. A name has at most {}: write the rest in a note."
        => "„{}…“ hat {} Buchstaben. Ein Name hat höchstens {}: Schreib den Rest in eine Notiz.";
    "“{}” holds a sign that can't be seen: type it anew."
        => "„{}“ enthält ein Zeichen, das man nicht sieht: Tippe es neu.";
    "“{}” is more than all of it. A tenth is 0.1; type 1 or less."
        => "„{}“ ist mehr als das Ganze. Ein Zehntel ist 0,1; tippe 1 oder weniger.";
    "A whole number up to {}, not “{}”." => "Eine ganze Zahl bis {}, nicht „{}“.";
    "It must be more than 0." => "Es muss mehr als 0 sein.";
    "{} % is more than all of it. Type 100 or less." => "{} % ist mehr als das Ganze. Tippe 100 oder weniger.";
    "Say why: what is discarded teaches what to buy." => "Gib an, warum: Ausgesondertes lehrt, was zu kaufen ist.";
    "Choose a piece at least." => "Wähle mindestens ein Stück.";
    "Type what was measured, or say that nothing moved."
        => "Tippe, was gemessen wurde, oder gib an, dass sich nichts verzogen hat.";
    "Say which: a face, an edge, or both." => "Gib an, was: eine Breitseite, eine Kante, oder beides.";
    "{} % added to the footage is more than any yard adds."
        => "{} % Aufschlag auf die Holzmenge ist mehr, als ein Händler aufschlägt.";
    "“{}” is no currency. Type its code or its sign, as EUR, USD or £."
        => "„{}“ ist keine Währung. Tippe Kürzel oder Zeichen, etwa EUR, USD oder £.";
    "Say what the wood is for." => "Gib an, wofür das Holz ist.";
    "Which wood is it? Any name will do." => "Welches Holz ist es? Jeder Name ist recht.";
    "Its pile is not in this record. Bring in the file that holds it first."
        => "Ihr Stapel ist nicht in dieser Aufzeichnung. Lies zuerst die Datei ein, die ihn enthält.";
    "It is not in this record." => "Es ist nicht in dieser Aufzeichnung.";
    "It is no longer here: it was cut, glued, discarded or used."
        => "Es ist nicht mehr da: Es wurde zugeschnitten, verleimt, ausgesondert oder verwendet.";
    "Measure its length and its width before it is laid out."
        => "Miss Länge und Breite, bevor du den Zuschnitt einteilst.";
    "No cut can be laid out: {}." => "Es lässt sich kein Zuschnitt einteilen: {}.";
    "Nothing of it was cut. Say what came off the saw." => "Nichts davon wurde geschnitten. Gib an, was von der Säge kam.";
    "The places of the pieces can't be right: look at the sizes again."
        => "Die Lage der Stücke kann nicht stimmen: Prüfe die Maße noch einmal.";
    "No laminate is chosen: press those that may be glued."
        => "Keine Lamelle ist gewählt: Drücke auf die, die verleimt werden dürfen.";
    "Take the laminates of the blank in hand first." => "Wähle zuerst die Lamellen des Rohlings.";
    "“{}” is no longer here to be glued: take another." => "„{}“ ist nicht mehr zum Verleimen da: Nimm eine andere.";
    "A limit lies on the wrong side of its target." => "Eine Grenze liegt auf der falschen Seite ihres Ziels.";
    "{} at most can't be fewer than {} at least." => "{} höchstens kann nicht weniger sein als {} mindestens.";
    "It has to be less than where it is rejected." => "Es muss weniger sein als der Wert, ab dem abgelehnt wird.";
    "Type the humidity or the temperature, or what the stick weighs."
        => "Tippe Luftfeuchte oder Temperatur, oder was die Leiste wiegt.";
    "Type a name, such as “phone” or “laptop in the shop”."
        => "Tippe einen Namen, etwa „Telefon“ oder „Laptop in der Werkstatt“.";
    "Choose a picture, or type an angle or a slope." => "Wähle ein Bild, oder tippe einen Winkel oder eine Faserabweichung.";
    "What is the wood called? Any name will do." => "Wie heißt das Holz? Jeder Name ist recht.";
    "“{}” is in the table already; give yours a name of its own"
        => "„{}“ steht schon in der Tabelle; gib deinem einen eigenen Namen";
    "you have a wood called “{}” already: change that one" => "du hast schon ein Holz namens „{}“: ändere das";
    "The usual density needs both ends, the lighter one first."
        => "Die übliche Dichte braucht beide Grenzen, die kleinere zuerst.";
};
