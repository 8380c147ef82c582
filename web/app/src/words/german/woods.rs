//! German: the screens of woods.

use super::super::WoodsWords;

impl WoodsWords {
    /// The German column.
    pub const GERMAN: WoodsWords = WoodsWords {
        title: "Hölzer",
        search: "Unter jedem Namen suchen",
        woods_one: "1 Holz",
        woods_other: "{n} Hölzer",
        none_found: "Kein Holz dieses Namens. Füge es als eigenes Holz hinzu.",
        pick: "Wähle ein Holz.",
        add: "Ein eigenes Holz hinzufügen",
        also: "Heißt auch {names}.",
        density: "Dichte bei 12 %",
        usual_density: "Übliche Dichte",
        from_to: "{low} bis {high}",
        gravity: "Raumdichtezahl",
        radial: "Schwindmaß radial",
        tangential: "Schwindmaß tangential",
        volumetric: "Volumenschwindmaß",
        stiffness: "E-Modul bei 12 %",
        sound: "Schallgeschwindigkeit längs der Faser",
        from_both: "aus Dichte und E-Modul",
        not_known: "unbekannt",
        dust: "Staub",
        trade: "Handel",
        note: "Deine Notiz",
        change: "Ändern",
        own: "Ein eigenes Holz",
        meant: "Steht schon in der Tabelle. Ist es eines davon?",
        in_table: "Es steht schon in der Tabelle: Nichts ist hinzuzufügen.",
        may_stay_empty: "Jede Zahl darf leer bleiben. Wo eine fehlt, wird nicht beurteilt, was sie braucht.",
        dust_unknown: "unbekannt",
        dust_general: "keine besonderen Berichte",
        dust_irritant: "reizt",
        dust_sensitiser: "löst Allergien aus",
        save: "Holz sichern",
        delete: "Dieses Holz löschen",
        delete_yes: "Löschen",
        delete_question: "Dieses Holz löschen? Sein Name bleibt auf den Bohlen.",
        deleted: "Gelöscht. Sein Name bleibt auf den Bohlen.",
        form: "ein eigenes Holz",
    };
}
