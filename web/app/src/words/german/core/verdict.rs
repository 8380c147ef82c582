//! German: what core says of criteria, verdict and its workings.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "clean thickness" => "nutzbare Dicke";
    "straight slab" => "nutzbare Dicke";
    "ring angle" => "Jahrringwinkel";
    "size" => "Maß";
    "Desirability" => "Erwünschtheit";
    "the value" => "der Wert";
    "limit" => "Grenze";
    "the limit: 0 there and beyond" => "die Grenze: 0 dort und jenseits";
    "target" => "Ziel";
    "where it is good: 1 there and beyond" => "wo es gut ist: 1 dort und jenseits";
    "0 at the least, 1 at the most" => "0 mindestens, 1 höchstens";
    "Derringer and Suich 1980, after NIST/SEMATECH e-Handbook 5.5.3.2.2 (read in copies)"
        => "Derringer und Suich 1980, nach NIST/SEMATECH e-Handbook 5.5.3.2.2 (in Abschriften gelesen)";
    "As weighed: the whole plank on the scale, {} kg." => "Wie gewogen: die ganze Bohle auf der Waage, {} kg.";
    "The wood's temperature was not taken: {} °C, give or take 10."
        => "Die Temperatur des Holzes wurde nicht genommen: {} °C, auf 10 genau.";
    "what was read on the plank" => "was an der Bohle gelesen wurde";
    "what was read on the plank's end" => "was am Ende der Bohle gelesen wurde";
    "{} along the length and {} across the least width, with the spec's kerf and trims, round the faults that are usually cut round."
        => "{} der Länge nach und {} quer zur kleinsten Breite, mit Schnittfuge und Abschnitten der Vorgabe, um die Fehler herum, die üblicherweise umgangen werden.";
    "They are ripped out of pieces that are {} mm wide once planed; pieces and parts are sawn wider by the planing of both edges."
        => "Sie werden aus Stücken aufgetrennt, die gehobelt {} mm breit sind; Stücke und Teile werden um das Hobeln beider Kanten breiter gesägt.";
    "Each is sawn wider by the planing of both sides." => "Jedes wird um das Hobeln beider Seiten breiter gesägt.";
    "The straight slab is too thin, so that it holds none."
        => "Die nutzbare Dicke ist zu klein, also ergibt sie keines.";
    "counted: as many as go, whole" => "gezählt: so viele hineingehen, ganz";
    "Across {} mm of width, through {} mm of thickness; turned on edge, 90° less each."
        => "Quer zu {} mm Breite, durch {} mm Dicke; hochkant gedreht je 90° weniger.";
    "0 of 100: {} is fatal under this spec." => "0 von 100: {} schließt nach dieser Vorgabe aus.";
    "the maker's spec" => "die eigene Vorgabe";
    "Its weakest criterion: {}." => "Ihr schwächstes Kriterium: {}.";
    "As many parts as go along the plank, each with a slab that is thick enough; then where their slabs, told above from the near end on, are together thickest. All starts at which that sum can be largest are gone through, so none is better."
        => "So viele Teile, wie entlang der Bohle hineingehen, jedes mit genügender nutzbarer Dicke; dann dort, wo ihre Dicken, oben vom nahen Ende an gesagt, zusammen am größten sind. Alle Anfänge, bei denen diese Summe am größten sein kann, werden durchgegangen, also ist keiner besser.";
    "The cut falls on the kink, so that the bow takes nothing."
        => "Der Schnitt fällt auf den Knick, also nimmt die Flachkrümmung nichts.";
    "With twist the highest points of the shapes rarely lie in one place: up to {} mm more may be left than this says, never less."
        => "Mit Verdrehung liegen die höchsten Punkte der Formen selten an einer Stelle: bis zu {} mm mehr kann übrig bleiben, als hier steht, nie weniger.";
    "Not looked at, so nothing taken off for it: {}." => "Nicht angesehen, also nichts dafür abgezogen: {}.";
    "One face alone was seen, {}: the grain slopes at least so much."
        => "Nur eine Seite wurde gesehen, {}: die Faser weicht mindestens so viel ab.";
    "The angle to the wide face at mid-width, as read: {}."
        => "Der Winkel zur Breitseite in der Mitte der Breite, wie gelesen: {}.";
    "Beyond the limit: the score is 0, and so is the plank's."
        => "Jenseits der Grenze: 0 Punkte, und so auch die Bohle.";
    "At best: {}." => "Bestenfalls: {}.";
    "Score: the desirability times 100, in whole points {}; the plank's score is that of its weakest criterion."
        => "Punkte: die Erwünschtheit mal 100, in ganzen Punkten {}; die Bohle hat die Punkte ihres schwächsten Kriteriums.";
    "If it is taken as inside, the chance that it is not is {} %; if it is refused, the chance that it was well is {} %. With both over 5 % it is too close to call."
        => "Gilt es als innerhalb, ist die Aussicht, dass es das nicht ist, {} %; wird es abgelehnt, ist die Aussicht, dass es gut war, {} %. Mit beiden über 5 % ist es zu knapp.";
    "The cut falls on the kink, so that nothing of it is left in the part."
        => "Der Schnitt fällt auf den Knick, also bleibt davon nichts im Teil.";
    "length not looked at" => "Länge nicht angesehen";
    "width not looked at" => "Breite nicht angesehen";
    "thickness not looked at" => "Dicke nicht angesehen";
    "moisture not looked at" => "Holzfeuchte nicht angesehen";
    "bow, twist and cup not looked at" => "Flachkrümmung, Verdrehung und Schüsselung nicht angesehen";
    "crook not looked at" => "Kantenkrümmung nicht angesehen";
    "weight not looked at" => "Gewicht nicht angesehen";
    "moisture not looked at: densities are compared at 12 %"
        => "Holzfeuchte nicht angesehen: Dichten werden bei 12 % verglichen";
    "slope of grain not looked at" => "Faserabweichung nicht angesehen";
    "edge not looked at" => "Schmalseite nicht angesehen";
    "face not looked at" => "Breitseite nicht angesehen";
    "rings not looked at" => "Jahrringe nicht angesehen";
    "bow not looked at" => "Flachkrümmung nicht angesehen";
    "twist not looked at" => "Verdrehung nicht angesehen";
    "cup not looked at" => "Schüsselung nicht angesehen";
    "bow and twist not looked at" => "Flachkrümmung und Verdrehung nicht angesehen";
    "bow and cup not looked at" => "Flachkrümmung und Schüsselung nicht angesehen";
    "twist and cup not looked at" => "Verdrehung und Schüsselung nicht angesehen";
    "Neck laminates" => "Halslamellen";
    "One-piece necks" => "Hälse aus einem Stück";
    "Bodies" => "Korpusse";
    "Fingerboards" => "Griffbretter";
    "{} by eye so much or more: measure it" => "{} nach Augenmaß so viel oder mehr: miss es";
    "nothing judged yet" => "noch nichts beurteilt";
    "leave it" => "lassen";
    "good as far as looked at" => "gut, soweit angesehen";
    "take it" => "nehmen";
};
