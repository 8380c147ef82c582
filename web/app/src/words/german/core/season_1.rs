//! German: what core says of rests, drying, movement and plans.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    (
        "{} + {} weeks of 7 days = {}: counted from the day on which it was first put in its place.",
        "{} + {} Wochen zu 7 Tagen = {}: gezählt ab dem Tag, an dem sie zuerst an ihren Platz kam.",
    ),
    (
        "arithmetic of the calendar; the weeks are among the terms of pieces, yours to set",
        "Kalenderrechnung; die Wochen stehen bei den Ruhezeiten der Stücke, du legst sie fest",
    ),
    (
        "its weeks are over, weight still changing",
        "die Wochen sind vorbei, Gewicht ändert sich noch",
    ),
    (
        "its weeks are over, weight not known",
        "die Wochen sind vorbei, Gewicht unbekannt",
    ),
    ("may be cut", "darf zugeschnitten werden"),
    (
        "may be cut within a week",
        "darf binnen einer Woche zugeschnitten werden",
    ),
    ("getting used to the room", "gewöhnt sich an den Raum"),
    ("weight steady", "Gewicht gleichbleibend"),
    ("weight still changing", "Gewicht ändert sich noch"),
    ("weight not known", "Gewicht unbekannt"),
    (
        "{} mm: the drying time holds for boards of 15 to 80 mm",
        "{} mm: die Trockenzeit gilt für Bretter von 15 bis 80 mm",
    ),
    (
        "{} °C: the drying time holds from 15 to 80 °C",
        "{} °C: die Trockenzeit gilt von 15 bis 80 °C",
    ),
    (
        "from {} % to {} % in air that keeps wood at {} %: that is no drying of wood",
        "von {} % auf {} % in Luft, die Holz bei {} % hält: so trocknet kein Holz",
    ),
    (
        "Pressure of saturated vapour",
        "Druck des gesättigten Dampfs",
    ),
    ("temperature of the air", "Lufttemperatur"),
    ("1 to 99 °C", "1 bis 99 °C"),
    (
        "Antoine's equation for water, as a public notebook has it (read)",
        "Antoine-Gleichung für Wasser, wie sie ein öffentliches Notizbuch hat (gelesen)",
    ),
    ("Days of drying", "Tage Trocknung"),
    ("days", "Tage"),
    (
        "pressure of saturated vapour",
        "Druck des gesättigten Dampfs",
    ),
    ("moisture before", "Holzfeuchte vorher"),
    ("moisture after", "Holzfeuchte nachher"),
    ("equilibrium with the air", "Gleichgewicht mit der Luft"),
    (
        "northern red oak, 15 to 80 mm, 15 to 80 °C, steady air",
        "Roteiche, 15 bis 80 mm, 15 bis 80 °C, gleichbleibende Luft",
    ),
    (
        "constants as a public notebook on red oak has them (read)",
        "Konstanten, wie sie ein öffentliches Notizbuch über Roteiche hat (gelesen)",
    ),
    ("Pieces that they count as", "Stücke, als die sie zählen"),
    (
        "decided: came through or failed",
        "entschieden: durchgekommen oder misslungen",
    ),
    (
        "pieces of one plank, as each piece sees it: sum of squares over the sum",
        "Stücke einer Bohle, wie jedes Stück sie sieht: Summe der Quadrate durch die Summe",
    ),
    (
        "family effect: correlation of two pieces of one plank; none under nothing",
        "Familieneffekt: Korrelation zweier Stücke einer Bohle; unter nichts keiner",
    ),
    ("Student's factor for n − 1", "Student-Faktor für n − 1"),
    (
        "Student's factor for the planks less one",
        "Student-Faktor für die Bohlen weniger eine",
    ),
    (
        "two planks and more, some through and some not",
        "zwei Bohlen und mehr, einige durch und einige nicht",
    ),
    (
        "design effect of clusters, Kish 1965; with Student's factors as Korn and Graubard 1998 (both from memory)",
        "Designeffekt von Klumpen, Kish 1965; mit Student-Faktoren nach Korn und Graubard 1998 (beide aus dem Gedächtnis)",
    ),
    (
        "too few to say: {} went on",
        "zu wenige, um es zu sagen: {} gingen weiter",
    ),
    (
        "too few to say: {} went on, and more wait still",
        "zu wenige, um es zu sagen: {} gingen weiter, und mehr warten noch",
    ),
    ("day", "Tag"),
    ("{#} days ({#} to {#})", "{} Tage ({} bis {})"),
    ("{#} days ({#} and over)", "{} Tage ({} und mehr)"),
    ("a tenth", "ein Zehntel"),
    ("half", "die Hälfte"),
    ("nine tenths", "neun Zehntel"),
    (
        "{} not by any day that is known",
        "{} an keinem bekannten Tag",
    ),
    (
        "{} by day {#} ({#} lay until then; {#} % of all lie longer)",
        "{} bis Tag {} ({} lagen bis dahin; {} % von allen liegen länger)",
    ),
    (
        "Gone on, in days over the least rest: {}.",
        "Weitergegangen, in Tagen über die kürzeste Ruhezeit: {}.",
    ),
    (
        "Kaplan and Meier 1958, from memory; a worked table was read; the days are your own record's",
        "Kaplan und Meier 1958, aus dem Gedächtnis; eine durchgerechnete Tabelle wurde gelesen; die Tage sind die deiner eigenen Aufzeichnung",
    ),
    (
        "The share that lies longer is the product of 1 − gone on / lay until then, over the days on which any went on. What waits still or left another way counts as lying up to then. Plans add the day by which half had gone on to the least rest.",
        "Der Anteil, der länger liegt, ist das Produkt aus 1 − weitergegangen / bis dahin gelegen, über die Tage, an denen etwas weiterging. Was noch wartet oder auf andere Weise ging, zählt als bis dahin gelegen. Pläne zählen den Tag, bis zu dem die Hälfte weitergegangen war, zur kürzesten Ruhezeit.",
    ),
    (
        "a blank of no laminates: it takes at least one",
        "ein Rohling ohne Lamellen: es braucht mindestens eine",
    ),
    (
        "{} laminates: more than {} are not reckoned with here",
        "{} Lamellen: mit mehr als {} wird hier nicht gerechnet",
    ),
    ("{#} and {} as {}: {#}.", "{} und {} als {}: {}."),
    (
        "Each rest begins on the day on which the one before is over; days at the bench are counted as none.",
        "Jede Ruhezeit beginnt an dem Tag, an dem die davor vorbei ist; Tage an der Bank zählen als keine.",
    ),
    (
        "arithmetic of the calendar; months are the stage's terms, yours to set",
        "Kalenderrechnung; die Monate sind die der Stufe, du legst sie fest",
    ),
    ("cut planks", "Bohlen zuschneiden"),
    ("rip pieces", "Stücke auftrennen"),
    ("glue blanks", "Rohlinge verleimen"),
    ("{#} less {} as {}: {#}.", "{} weniger {} als {}: {}."),
    (
        "Each is the last day whose rest is over in time; days at the bench are counted as none.",
        "Jeder ist der letzte Tag, dessen Ruhezeit rechtzeitig vorbei ist; Tage an der Bank zählen als keine.",
    ),
    (
        "{} is no number to compare",
        "{} ist keine Zahl zum Vergleichen",
    ),
    (
        "all are the same: there is nothing to compare",
        "alle sind gleich: es gibt nichts zu vergleichen",
    ),
    ("too few to say", "zu wenige, um es zu sagen"),
    ("no sign yet", "noch kein Anzeichen"),
    ("more of it goes with more", "mehr davon geht mit mehr"),
    ("more of it goes with less", "mehr davon geht mit weniger"),
    (
        "Standard uncertainty of artanh r",
        "Standardunsicherheit von artanh r",
    ),
    ("rank correlation", "Rangkorrelation"),
    ("pairs", "Paare"),
    (
        "5 pairs and more, ranks that do not agree throughout",
        "5 Paare und mehr, Ränge, die nicht durchweg übereinstimmen",
    ),
    (
        "Bonett and Wright 2000 (from memory)",
        "Bonett und Wright 2000 (aus dem Gedächtnis)",
    ),
    ("An end of the interval", "Ein Ende des Intervalls"),
    (
        "standard uncertainties to either side, of 95 %",
        "Standardunsicherheiten nach beiden Seiten, für 95 %",
    ),
    (
        "standard uncertainty of artanh r",
        "Standardunsicherheit von artanh r",
    ),
    ("95 of 100 cases", "95 von 100 Fällen"),
    ("Rank correlation", "Rangkorrelation"),
    (
        "sum of the products of what both ranks are off their means",
        "Summe der Produkte dessen, worum beide Ränge von ihrem Mittel abweichen",
    ),
    (
        "sum of the squares for the sign",
        "Summe der Quadrate für das Anzeichen",
    ),
    (
        "sum of the squares for the share",
        "Summe der Quadrate für den Anteil",
    ),
    (
        "−1 to 1; equal values share the mean of their ranks",
        "−1 bis 1; gleiche Werte teilen sich das Mittel ihrer Ränge",
    ),
    (
        "Spearman's correlation, textbook",
        "Spearmans Korrelation, Lehrbuch",
    ),
    (
        "{} and {} % (ranks {} and {})",
        "{} und {} % (Ränge {} und {})",
    ),
    (
        "Plank by plank the sign and the share that came through: {}.",
        "Bohle für Bohle das Anzeichen und der Anteil, der durchkam: {}.",
    ),
    (
        "It says: {}. Under {} pairs nothing is said; else the interval has to leave out 0.",
        "Es sagt: {}. Unter {} Paaren wird nichts gesagt; sonst muss das Intervall die 0 auslassen.",
    ),
    (
        "{} months from {} is beyond the calendar",
        "{} Monate ab {} liegen jenseits des Kalenders",
    ),
    (
        "{} weeks from {} is beyond the calendar",
        "{} Wochen ab {} liegen jenseits des Kalenders",
    ),
    (
        "{} + {} calendar months = {}: the same day of the month, or the last one where that month is shorter.",
        "{} + {} Kalendermonate = {}: derselbe Tag des Monats, oder der letzte, wo der Monat kürzer ist.",
    ),
    (
        "arithmetic of the calendar; the months are the stage's terms, yours to set",
        "Kalenderrechnung; die Monate sind die der Stufe, du legst sie fest",
    ),
    ("month", "Monat"),
    ("From {} to {}: {}.", "Von {} bis {}: {}."),
    (
        "arithmetic of the calendar: whole months, what is over them left out",
        "Kalenderrechnung: ganze Monate, was darüber ist, weggelassen",
    ),
    (
        "Rest over, not known whether ready",
        "Ruhezeit vorbei, unbekannt ob bereit",
    ),
    ("Not ready", "Nicht bereit"),
    ("two checks wanted", "zwei Prüfungen nötig"),
    (
        "too close to call: check again",
        "zu knapp: noch einmal prüfen",
    ),
    ("moved beyond its limit", "über die Grenze bewegt"),
    (
        "keeps its shape, weight still changing",
        "behält seine Form, Gewicht ändert sich noch",
    ),
    (
        "keeps its shape, weight not known",
        "behält seine Form, Gewicht unbekannt",
    ),
    (
        "keeps its shape, weight steady",
        "behält seine Form, Gewicht gleichbleibend",
    ),
    ("ready", "bereit"),
    (
        "steady, ripe within a week",
        "ruhig, Ruhezeit in einer Woche vorbei",
    ),
    ("steady, not yet ripe", "ruhig, Ruhezeit nicht vorbei"),
    ("due within a week", "in einer Woche fällig"),
    (
        "ripe: check its movement",
        "Ruhezeit vorbei: Bewegung prüfen",
    ),
    (
        "ripe: too close to call, check again",
        "Ruhezeit vorbei: zu knapp, noch einmal prüfen",
    ),
    (
        "rest over, weight still changing",
        "Ruhezeit vorbei, Gewicht ändert sich noch",
    ),
    (
        "rest over, weight not known",
        "Ruhezeit vorbei, Gewicht unbekannt",
    ),
    (
        "{} ends before it starts: the other way round?",
        "{} endet, bevor es beginnt: andersherum?",
    ),
    (
        "{} reaches {} mm beyond the wood that it is cut from",
        "{} ragt {} mm über das Holz hinaus, aus dem es geschnitten ist",
    ),
    ("{} and {} share wood", "{} und {} haben Holz gemeinsam"),
    ("Wood in the pieces", "Holz in den Stücken"),
    ("volume of each piece", "Volumen jedes Stücks"),
    ("as laid out or measured", "wie eingeteilt oder gemessen"),
    (
        "Waste: edgings, end trims, what was not kept",
        "Verschnitt: Säumlinge, Abschnitte, nicht Behaltenes",
    ),
    ("volume of the whole", "Volumen des Ganzen"),
    ("wood in the pieces", "Holz in den Stücken"),
    (
        "dust between neighbours: kerf times the faces that they share",
        "Späne zwischen Nachbarn: Schnittfuge mal die Flächen, die sie teilen",
    ),
    (
        "below nothing where the pieces come to more than the whole",
        "unter nichts, wo die Stücke mehr als das Ganze ergeben",
    ),
    (
        "Not in the pieces, of the whole",
        "Nicht in den Stücken, vom Ganzen",
    ),
    ("waste", "Verschnitt"),
    ("dust between neighbours", "Späne zwischen Nachbarn"),
    ("blanks", "Rohlinge"),
    (
        "a share of {} coming through: it has to be over 0 and at most 1",
        "ein Anteil von {}, der durchkommt: er muss über 0 und höchstens 1 sein",
    ),
    (
        "a confidence of {}: it has to be over 0 and under 1",
        "eine Sicherheit von {}: sie muss über 0 und unter 1 sein",
    ),
    (
        "a likeness of {}: it has to be at least 0 and under 1",
        "eine Ähnlichkeit von {}: sie muss mindestens 0 und unter 1 sein",
    ),
    (
        "a plank or a blank of no parts: it has to have at least one",
        "eine Bohle oder ein Rohling ohne Teile: es muss mindestens eines sein",
    ),
    (
        "even {} planks are not enough for that confidence",
        "selbst {} Bohlen reichen für diese Sicherheit nicht",
    ),
    (
        "more than {} pieces: that is beyond what is reckoned here",
        "mehr als {} Stücke: das ist mehr, als hier gerechnet wird",
    ),
    (
        "no stress across the section to be seen",
        "keine Spannung über den Querschnitt zu sehen",
    ),
    ("casehardened", "verschalt"),
    ("casehardened in reverse", "umgekehrt verschalt"),
    (
        "no stress along the length to be seen",
        "keine Spannung der Länge nach zu sehen",
    ),
    (
        "stress along the length: it springs open",
        "Spannung der Länge nach: es springt auf",
    ),
    (
        "stress along the length: it springs shut",
        "Spannung der Länge nach: es springt zu",
    ),
    (
        "It should stay as it is when it is cut.",
        "Es sollte bleiben, wie es ist, wenn es geschnitten wird.",
    ),
    (
        "The shell is pressed and the core pulled: resawn, each half goes hollow on its sawn face.",
        "Die Schale ist gedrückt und der Kern gezogen: aufgetrennt wird jede Hälfte auf der Schnittfläche hohl.",
    ),
    (
        "The shell is pulled and the core pressed: resawn, each half goes round on its sawn face.",
        "Die Schale ist gezogen und der Kern gedrückt: aufgetrennt wird jede Hälfte auf der Schnittfläche rund.",
    ),
    (
        "Ripped, its strips bow away from each other.",
        "Aufgetrennt biegen sich die Leisten voneinander weg.",
    ),
    (
        "Ripped, its strips bow towards each other and pinch the saw.",
        "Aufgetrennt biegen sich die Leisten zueinander und klemmen die Säge.",
    ),
    ("Spring of a strip", "Sprung einer Leiste"),
    (
        "gap between the halves, without its sign",
        "Spalt zwischen den Hälften, ohne Vorzeichen",
    ),
    (
        "length that it is told for",
        "Länge, für die es gesagt wird",
    ),
    ("length of the offcut", "Länge des Reststücks"),
    (
        "an even curve, both halves alike",
        "ein gleichmäßiger Bogen, beide Hälften gleich",
    ),
    ("Share that came through", "Anteil, der durchkam"),
    ("came through", "durchgekommen"),
    (
        "what still waits counts nowhere",
        "was noch wartet, zählt nirgends",
    ),
    ("a count", "eine Zählung"),
    (
        "First number of the beta distribution",
        "Erste Zahl der Betaverteilung",
    ),
    (
        "came through, counted as pieces by themselves",
        "durchgekommen, gezählt als Stücke für sich",
    ),
    (
        "the prior of Jeffreys, beta (1/2, 1/2)",
        "der Prior von Jeffreys, beta (1/2, 1/2)",
    ),
    (
        "Brown, Cai and DasGupta 2001, section 4.3 (from memory)",
        "Brown, Cai und DasGupta 2001, Abschnitt 4.3 (aus dem Gedächtnis)",
    ),
    ("Its second number", "Ihre zweite Zahl"),
    (
        "decided, counted as pieces by themselves",
        "entschieden, gezählt als Stücke für sich",
    ),
];
