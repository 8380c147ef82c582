//! German: what core says of what screens ask.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    ("the place in the pile", "der Platz im Stapel"),
    ("measurement", "Messung"),
    ("defect", "Fehler"),
    ("nothing that was measured", "nichts, was gemessen wurde"),
    ("Mark", "Zeichen"),
    ("Yard", "Holzhof"),
    ("Day", "Tag"),
    ("Size", "Maß"),
    ("Density at 12 %", "Dichte bei 12 %"),
    ("Score", "Punkte"),
    ("Verdict", "Urteil"),
    ("Weakest", "Am schwächsten"),
    ("Decision", "Entscheidung"),
    ("Reasons", "Gründe"),
    ("Cost with tax", "Kosten mit Steuer"),
    ("Cost a part", "Kosten je Teil"),
    (
        "What it cost is told beside its cost; the parts are those that it holds.",
        "Was sie kostete, steht neben ihren Kosten; die Teile sind die, die sie ergibt.",
    ),
    ("{}, as supplied", "{}, wie mitgeliefert"),
    ("Left of the budget", "Vom Budget übrig"),
    ("the visit's budget", "das Budget des Besuchs"),
    ("to pay, with tax", "zu zahlen, mit Steuer"),
    (
        "less than nothing: over the budget",
        "weniger als nichts: über dem Budget",
    ),
    (
        "For the planks still needed",
        "Für die noch benötigten Bohlen",
    ),
    ("planks still needed", "noch benötigte Bohlen"),
    ("mean of the planks so far", "Mittel der Bohlen bisher"),
    ("planks like those so far", "Bohlen wie die bisherigen"),
    ("taken on this visit", "bei diesem Besuch gekauft"),
    (
        "ever taken, for none of this visit has a price yet",
        "je gekauft, denn bei diesem Besuch hat noch keine einen Preis",
    ),
    (
        "The mean is that of {} planks {}.",
        "Das Mittel ist das von {} Bohlen, {}.",
    ),
    ("Tax", "Steuer"),
    ("with tax", "mit Steuer"),
    ("without tax", "ohne Steuer"),
    ("both to the cent", "beide auf den Cent"),
    ("Gap: theirs less ours", "Abstand: dort weniger hier"),
    ("by the yard's tally", "nach dem Aufmaß des Holzhofs"),
    ("by the agreed rule", "nach der vereinbarten Regel"),
    (
        "The yard's money is not known here: the gap is what so much wood costs by the visit's terms.",
        "Das Geld des Holzhofs ist hier nicht bekannt: der Abstand ist, was so viel Holz zu den Bedingungen des Besuchs kostet.",
    ),
    (
        "a sum over the planks taken",
        "eine Summe über die gekauften Bohlen",
    ),
    (
        "Each to the cent. The total is rounded once, from the unrounded sum, so it may be a cent away from these.",
        "Jeder Betrag auf den Cent. Die Summe wird einmal gerundet, aus der ungerundeten, also kann sie einen Cent daneben liegen.",
    ),
    ("not known, not in the sum", "unbekannt, nicht in der Summe"),
    ("The sum of {}.", "Die Summe aus {}."),
];
