//! German: what core says of entries and files.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "grain" => "Faser";
    "fork test" => "Gabelprobe";
    "\"{}\" is not a mark: a mark is like K7-13-M" => "\"{}\" ist kein Zeichen: ein Zeichen sieht aus wie K7-13-M";
    "\"{}\": \"{}\" is in no mark" => "\"{}\": \"{}\" kommt in keinem Zeichen vor";
    "\"{}\" does not add up: a sign is misread, or two are swapped. Look at the wood again"
        => "\"{}\" geht nicht auf: ein Buchstabe ist falsch gelesen, oder zwei sind vertauscht. Sieh noch einmal aufs Holz";
    "number {} is too large for a mark" => "die Nummer {} ist zu groß für ein Zeichen";
    "{} stands where {} should be" => "{} steht, wo {} stehen sollte";
    "{} is missing" => "{} fehlt";
    "the key {} comes twice" => "der Schlüssel {} kommt zweimal vor";
    "{} is not known here" => "{} ist hier nicht bekannt";
    "nothing (null)" => "nichts (null)";
    "a group of keys" => "eine Gruppe von Schlüsseln";
    "a list" => "eine Liste";
    "a number" => "eine Zahl";
    "a whole number" => "eine ganze Zahl";
    "a text" => "ein Text";
    "true or false" => "wahr oder falsch";
    "a price or a share, such as \"14.50\"," => "ein Preis oder Anteil, etwa \"14.50\",";
    "a number is too large" => "eine Zahl ist zu groß";
    "not proper JSON: {}" => "kein gültiges JSON: {}";
    "the entry is cut short" => "der Eintrag ist abgeschnitten";
    "a number is too large to be one" => "eine Zahl ist zu groß, um eine zu sein";
    "{} is beyond any number that a workshop reaches: at most {} is read"
        => "{} ist größer als jede Zahl, die eine Werkstatt erreicht: höchstens {} wird gelesen";
    "the day {} is outside the years {} to {}" => "der Tag {} liegt außerhalb der Jahre {} bis {}";
    "the line is damaged: its checksum does not fit" => "die Zeile ist beschädigt: ihre Prüfsumme passt nicht";
    "the line is damaged: it carries no checksum, and an entry of version {} must"
        => "die Zeile ist beschädigt: sie trägt keine Prüfsumme, und ein Eintrag der Version {} braucht eine";
    "the line is damaged: it carries a checksum, and an entry of version {} has none"
        => "die Zeile ist beschädigt: sie trägt eine Prüfsumme, und ein Eintrag der Version {} hat keine";
    "a text of {} bytes is too long: at most {} are read"
        => "ein Text von {} Bytes ist zu lang: höchstens {} werden gelesen";
    "an entry of {} bytes is too long: at most {} are read"
        => "ein Eintrag von {} Bytes ist zu lang: höchstens {} werden gelesen";
    "\"{}\" holds a sign that can't be seen" => "\"{}\" enthält ein Zeichen, das nicht zu sehen ist";
    "\"{}\" is not a name: it must have 1 to {} signs" => "\"{}\" ist kein Name: er muss 1 bis {} Zeichen haben";
    "it refers to itself: {}" => "es bezieht sich auf sich selbst: {}";
    "the same piece is named twice: {}" => "dasselbe Stück ist zweimal genannt: {}";
    "a value can't be written down: {}" => "ein Wert lässt sich nicht aufschreiben: {}";
    "number out of range" => "Zahl außerhalb des Bereichs";
    "a day such as \"2026-11-25\"" => "ein Tag wie \"2026-11-25\"";
    "entry {} (line {}), {}" => "Eintrag {} (Zeile {}), {}";
    "this is not text (UTF-8)" => "das ist kein Text (UTF-8)";
    "the header says {} entries, the file holds {}" => "der Kopf sagt {} Einträge, die Datei enthält {}";
    "the header can't be read" => "der Kopf ist nicht lesbar";
    "something that does not belong to the file stands at byte {}; what follows was not read"
        => "etwas, das nicht zur Datei gehört, steht bei Byte {}; was folgt, wurde nicht gelesen";
    "another entry in this file has the same id, {}, and says something else"
        => "ein anderer Eintrag in dieser Datei hat dieselbe Kennung, {}, und sagt etwas anderes";
    "the file holds more than {} entries; the rest was not read"
        => "die Datei enthält mehr als {} Einträge; der Rest wurde nicht gelesen";
    "the file is empty" => "die Datei ist leer";
    "the file has {} bytes; at most {} are read" => "die Datei hat {} Bytes; höchstens {} werden gelesen";
    "the file is text in UTF-16; save it as UTF-8" => "die Datei ist Text in UTF-16; sichere sie als UTF-8";
    "this is not a Stillwood file: it is not JSON" => "das ist keine Stillwood-Datei: es ist kein JSON";
    "this is not a Stillwood file: it is JSON of another kind"
        => "das ist keine Stillwood-Datei: es ist JSON anderer Art";
    "this is not a Stillwood file: it says that it is \"{}\""
        => "das ist keine Stillwood-Datei: sie sagt, sie sei \"{}\"";
};
