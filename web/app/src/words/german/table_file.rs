//! German: the table of planks as a file for a spreadsheet.

use crate::words::line::Line;

/// Headings and words of cells that core names, and what they are called.
pub const LINES: &[Line] = lines! {
    "mark" => "Zeichen";
    "yard" => "Holzhof";
    "day" => "Tag";
    "wood" => "Holz";
    "length mm" => "Länge mm";
    "width mm" => "Breite mm";
    "thickness mm" => "Dicke mm";
    "weight kg" => "Gewicht kg";
    "moisture %" => "Holzfeuchte %";
    "density at 12 % kg/m3" => "Dichte bei 12 % kg/m3";
    "score of 100" => "Punkte von 100";
    "verdict" => "Urteil";
    "weakest" => "am schwächsten";
    "decision" => "Entscheidung";
    "main reason" => "Hauptgrund";
    "other reasons" => "weitere Gründe";
    "board feet by the yard's rule" => "bd ft nach der Regel des Händlers";
    "m3 by the yard's rule" => "m3 nach der Regel des Händlers";
    "cost without tax" => "Kosten ohne Steuer";
    "cost with tax" => "Kosten mit Steuer";
    "currency" => "Währung";
    "parts" => "Teile";
    "cost a part with tax" => "Kosten je Teil mit Steuer";
    "notes" => "Notizen";
    "invoice" => "Rechnung";
    "country of harvest" => "Land des Einschlags";
    "bought" => "gekauft";
    "rejected" => "abgelehnt";
    "held" => "vorgemerkt";
    "nothing judged yet" => "noch nichts beurteilt";
    "reject it" => "ablehnen";
    "too close to call" => "zu knapp, um es zu sagen";
    "good as far as looked at" => "bisher gut";
    "buy it" => "kaufen";
};
