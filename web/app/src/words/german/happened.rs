//! What happened, in German.

use crate::words::EventWords;

impl EventWords {
    /// The German column.
    pub const GERMAN: EventWords = EventWords {
        visit: "Besuch bei {yard}",
        pile: "Stapel {wood}",
        pile_priced: "Stapel {wood} zu {price}",
        rejected_one: "1 Bohle beim Sortieren abgelehnt",
        rejected_other: "{n} Bohlen beim Sortieren abgelehnt",
        marked: "Zeichen {mark}",
        measured: "gemessen: {what}",
        measured_nothing: "gemessen: nichts",
        typed_as: "{value} (eingetippt {typed})",
        by_eye: "{value} nach Augenmaß",
        confirmed: "{value}, so übernommen",
        defect_from_to: "{defect}, von {from} bis {to}",
        defect_at: "{defect}, bei {at}",
        defect_somewhere: "{defect}, Stelle nicht notiert",
        wood_is: "Holz: {wood}",
        bought: "gekauft",
        held: "vorgemerkt",
        rejected: "abgelehnt",
        with_score: "{said}; {score} Punkte",
        against_proposal: "{said}; gegen das Urteil, Vorschlag war: {proposed}",
        yard_says: "laut Händler {what}",
        in_money: "{money} in Geld",
        note: "Notiz: {text}",
        same_plank: "dieselbe Bohle wie in einer anderen Aufzeichnung",
        other_plank: "eine andere Bohle als in einer ähnlichen Aufzeichnung",
        own_wood: "eigenes Holz: {wood}",
        deleted: "gelöscht",
        story_chosen: "eine von mehreren Fassungen eines Eintrags gewählt",
        import_undone: "der Import von {name} rückgängig gemacht",
        device_called: "Gerät „{name}“ genannt",
        newer: "„{kind}“, aus einer neueren Version",
        corrected_later: "später berichtigt",
        deleted_later: "später gelöscht",
        its_import_undone: "sein Import wurde rückgängig gemacht",
        outvoted: "eine andere Berichtigung gilt",
    };
}
