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
    "the limit: 0 there and beyond" => "die Grenze: 0 dort und außerhalb";
    "target" => "Ziel";
    "where it is good: 1 there and beyond" => "wo es gut ist: 1 dort und darüber hinaus";
    "0 at the least, 1 at the most" => "mindestens 0, höchstens 1";
    "Derringer and Suich 1980, after NIST/SEMATECH e-Handbook 5.5.3.2.2 (read in copies)"
        => "Derringer und Suich 1980, nach NIST/SEMATECH e-Handbook 5.5.3.2.2 (in Abschriften gelesen)";
    "As weighed: the whole plank on the scale, {} kg." => "Wie gewogen: die ganze Bohle auf der Waage, {} kg.";
    "By its widths and thicknesses the centre of mass lies {} mm from mid-length. Which end was weighed was not noted: the ± holds both."
        => "Nach Breiten und Dicken liegt der Schwerpunkt {} mm neben der Mitte der Länge. Welches Ende gewogen wurde, ist nicht notiert: Das ± gilt für beide.";
    "The wood's temperature was not taken: {} °C, give or take 10."
        => "Die Holztemperatur wurde nicht gemessen: angenommen sind {} °C, auf ± 10 genau.";
    "what was read on the plank" => "was an der Bohle gemessen wurde";
    "what was read on the plank's end" => "was am Ende der Bohle gemessen wurde";
    "{} along the length and {} across the least width, with the spec's kerf and trims, round the defects that are usually cut round."
        => "{} in der Länge und {} in der kleinsten Breite, mit Schnittfuge, Abschnitt und Besäumung der Vorgabe, um die Fehler herum, die man sonst umgeht.";
    "They are ripped out of pieces that are {} mm wide once planed; pieces and parts are sawn wider by the planing of both edges."
        => "Sie werden aus Stücken aufgetrennt, die gehobelt {} mm breit sind; Stücke und Teile werden um den Hobelabtrag beider Kanten breiter gesägt.";
    "Each is sawn wider by the planing of both sides." => "Jedes wird um den Hobelabtrag beider Seiten breiter gesägt.";
    "The straight slab is too thin, so that it holds none."
        => "Die nutzbare Dicke ist zu klein, also ergibt sie keines.";
    "counted: as many as go, whole" => "gezählt: so viele ganze, wie hineinpassen";
    "Across {} mm of width, through {} mm of thickness; turned on edge, 90° less each."
        => "Über {} mm Breite, durch {} mm Dicke; hochkant gedreht: 90° minus jeder Winkel.";
    "0 of 100: {} is fatal under this spec." => "0 von 100: Ausschlussgrund nach dieser Vorgabe: {}.";
    "the maker's spec" => "die eigene Vorgabe";
    "Its weakest criterion: {}." => "Ihr schwächstes Kriterium: {}.";
    "As many parts as go along the plank, each with a slab that is thick enough; then where their slabs, told above from the near end on, are together thickest. All starts at which that sum can be largest are gone through, so none is better."
        => "So viele Teile, wie der Länge nach in die Bohle passen, jedes mit genügender nutzbarer Dicke; dann dort, wo ihre Dicken, oben vom nahen Ende an genannt, zusammen am größten sind. Alle Anfänge, bei denen diese Summe am größten sein kann, sind durchprobiert, also ist keiner besser.";
    "The cut falls on the kink, so that the bow takes nothing."
        => "Der Schnitt liegt im Knick, also kostet die Flachkrümmung nichts.";
    "With twist the highest points of the shapes rarely lie in one place: up to {} mm more may be left than this says, never less."
        => "Bei Verdrehung liegen die höchsten Punkte der Verformungen selten an derselben Stelle: Es können bis zu {} mm mehr übrig bleiben, als hier steht, nie weniger.";
    "Not looked at, so nothing taken off for it: {}." => "Nicht angesehen, also nichts dafür abgezogen: {}.";
    "One face alone was seen, {}: the grain slopes at least so much."
        => "Nur eine Seite wurde gesehen, {}: Die Faser weicht mindestens so weit ab.";
    "The angle to the wide face at mid-width, as read: {}."
        => "Der Winkel zur Breitseite in der Mitte der Breite, wie gemessen: {}.";
    "Beyond the limit: the score is 0, and so is the plank's."
        => "Außerhalb der Grenze: 0 Punkte, und damit auch für die Bohle.";
    "At best: {}." => "Bestenfalls: {}.";
    "Score: the desirability times 100, in whole points: {}. The plank's score is that of its weakest criterion."
        => "Punkte: die Erwünschtheit mal 100, in ganzen Punkten: {}. Die Bohle hat die Punkte ihres schwächsten Kriteriums.";
    "If it is taken as inside, the chance that it is not is {} %; if it is refused, the chance that it was well is {} %. With both over 5 % it is too close to call."
        => "Wird es angenommen, liegt es mit {} % Wahrscheinlichkeit doch außerhalb; wird es abgelehnt, war es mit {} % Wahrscheinlichkeit gut. Wenn beides über 5 % liegt, ist es zu knapp, um es zu sagen.";
    "The cut falls on the kink, so that nothing of it is left in the part."
        => "Der Schnitt liegt im Knick, also bleibt davon nichts im Teil.";
    "length not looked at" => "Länge nicht angesehen";
    "width not looked at" => "Breite nicht angesehen";
    "thickness not looked at" => "Dicke nicht angesehen";
    "moisture not looked at" => "Holzfeuchte nicht angesehen";
    "bow, twist and cup not looked at" => "Flachkrümmung, Verdrehung und Querkrümmung nicht angesehen";
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
    "cup not looked at" => "Querkrümmung nicht angesehen";
    "bow and twist not looked at" => "Flachkrümmung und Verdrehung nicht angesehen";
    "bow and cup not looked at" => "Flachkrümmung und Querkrümmung nicht angesehen";
    "twist and cup not looked at" => "Verdrehung und Querkrümmung nicht angesehen";
    "Neck laminates" => "Halslamellen";
    "One-piece necks" => "Hälse aus einem Stück";
    "Bodies" => "Korpusse";
    "Fingerboards" => "Griffbretter";
    "nothing judged yet" => "noch nichts beurteilt";
    "good as far as looked at" => "bisher gut";
};
