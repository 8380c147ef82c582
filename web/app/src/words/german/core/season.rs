//! German: what core says of rests, drying, movement and plans.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "{} + {} weeks of 7 days = {}: counted from the day on which it was first put in its place."
        => "{} + {} × 7 Tage = {}: gezählt ab dem Tag, an dem sie zuerst an ihren Platz kam.";
    "arithmetic of the calendar; the weeks are among the terms of pieces, yours to set"
        => "Kalenderrechnung; die Wochen stehen bei den Ruhezeiten der Stücke, du legst sie fest";
    "days" => "Tage";
    "moisture before" => "Holzfeuchte vorher";
    "moisture after" => "Holzfeuchte nachher";
    "Pieces that they count as" => "Stücke, als die sie zählen";
    "decided: came through or failed" => "entschieden: durchgekommen oder ausgefallen";
    "pieces of one plank, as each piece sees it: sum of squares over the sum"
        => "Stücke einer Bohle, aus der Sicht jedes Stücks: Summe der Quadrate durch die Summe";
    "family effect: correlation of two pieces of one plank; none under nothing"
        => "Familieneffekt: Korrelation zweier Stücke einer Bohle; unter 0 keiner";
    "Student's factor for n − 1, at most t′" => "Student-Faktor für n − 1, höchstens t′";
    "Student's factor for the planks less one" => "Student-Faktor für die Bohlen weniger eine";
    "two planks and more, some through and some not" => "zwei Bohlen oder mehr, einige durchgekommen und einige nicht";
    "design effect of clusters, Kish 1965; with Student's factors as Korn and Graubard 1998 (both from memory)"
        => "Designeffekt von Klumpen, Kish 1965; mit Student-Faktoren nach Korn und Graubard 1998 (beide aus dem Gedächtnis)";
    "too few to say: {} went on" => "zu wenige, um es zu sagen: {} gingen weiter";
    "too few to say: {} went on, and more wait still"
        => "zu wenige, um es zu sagen: {} gingen weiter, und mehr warten noch";
    "day" => "Tag";
    "{#} days ({#} to {#})" => "{} Tage ({} bis {})";
    "{#} days ({#} and over)" => "{} Tage ({} und mehr)";
    "a tenth" => "ein Zehntel";
    "half" => "die Hälfte";
    "nine tenths" => "neun Zehntel";
    "{} not by any day that is known" => "{} bis zu keinem bekannten Tag";
    "{} by day {#} ({#} lay until then; {#} % of all lie longer)"
        => "{} bis Tag {} ({} lagen bis dahin; {} % von allen liegen länger)";
    "Gone on, in days over the least rest: {}." => "Weitergegangen, in Tagen nach der kürzesten Ruhezeit: {}.";
    "Kaplan and Meier 1958, from memory; a worked table was read; the days are your own record's"
        => "Kaplan und Meier 1958, aus dem Gedächtnis; eine durchgerechnete Tabelle wurde gelesen; die Tage sind die deiner eigenen Aufzeichnung";
    "The share that lies longer is the product of 1 − gone on / lay until then, over the days on which any went on. What waits still or left another way counts as lying up to then. Plans add the day by which half had gone on to the least rest."
        => "Der Anteil, der länger liegt, ist das Produkt aus 1 − weitergegangen / bis dahin gelegen, über die Tage, an denen etwas weiterging. Was noch wartet oder anders ausschied, zählt als bis dahin gelegen. Pläne rechnen zur kürzesten Ruhezeit die Tage hinzu, bis zu denen die Hälfte weitergegangen war.";
    "a blank of no laminates: it takes at least one" => "ein Rohling ohne Lamellen: mindestens eine ist nötig";
    "{} laminates: more than {} are not reckoned with here" => "{} Lamellen: mit mehr als {} wird hier nicht gerechnet";
    "{#} and {} as {}: {#}." => "{} und {} als {}: {}.";
    "{#} and {#} days in the room: {#}." => "{} und {} Tage im Raum: {}.";
    "{#} less {#} days in the room: {#}." => "{} weniger {} Tage im Raum: {}.";
    "Each rest begins on the day on which the one before is over; days at the bench are counted as none."
        => "Jede Ruhezeit beginnt an dem Tag, an dem die davor vorbei ist; Tage an der Werkbank zählen nicht.";
    "arithmetic of the calendar; months are the stage's terms, yours to set"
        => "Kalenderrechnung; die Monate sind die Ruhezeit der Stufe, du legst sie fest";
    "{#} less {} as {}: {#}." => "{} weniger {} als {}: {}.";
    "Each is the last day whose rest is over in time; days at the bench are counted as none."
        => "Jeder ist der letzte Tag, dessen Ruhezeit rechtzeitig vorbei ist; Tage an der Werkbank zählen nicht.";
    "{} is no number to compare" => "{} ist keine Zahl zum Vergleichen";
    "all are the same: there is nothing to compare" => "alle sind gleich: es gibt nichts zu vergleichen";
    "too few to say" => "zu wenige, um es zu sagen";
    "no sign yet" => "noch kein Zusammenhang zu sehen";
    "more of it goes with more" => "mehr davon geht mit mehr einher";
    "more of it goes with less" => "mehr davon geht mit weniger einher";
    "Standard uncertainty of artanh r" => "Standardunsicherheit von artanh r";
    "rank correlation" => "Rangkorrelation";
    "pairs" => "Paare";
    "10 pairs and more, few of them alike, ranks that do not agree throughout"
        => "10 Paare oder mehr, wenige davon gleich, Ränge, die nicht durchweg übereinstimmen";
    "Bonett and Wright 2000 (from memory)" => "Bonett und Wright 2000 (aus dem Gedächtnis)";
    "An end of the interval" => "Ein Ende des Intervalls";
    "standard uncertainties to either side, of 95 %" => "Standardunsicherheiten nach beiden Seiten, für 95 %";
    "standard uncertainty of artanh r" => "Standardunsicherheit von artanh r";
    "95 of 100 cases" => "95 von 100 Fällen";
    "Rank correlation" => "Rangkorrelation";
    "sum of the products of what both ranks are off their means"
        => "Summe der Produkte der Abweichungen beider Ränge von ihrem Mittel";
    "sum of the squares for the sign" => "Summe der Quadrate für den Messwert";
    "sum of the squares for the share" => "Summe der Quadrate für den Anteil";
    "−1 to 1; equal values share the mean of their ranks"
        => "−1 bis 1; gleiche Werte teilen sich das Mittel ihrer Ränge";
    "Spearman's correlation, textbook" => "Spearmans Korrelation, Lehrbuch";
    "{} and {} % (ranks {} and {})" => "{} und {} % (Ränge {} und {})";
    "Plank by plank the sign and the share that came through: {}."
        => "Bohle für Bohle der Messwert und der Anteil, der durchkam: {}.";
    "It says: {}. Of all ways to pair these signs with these shares, {} % go together as closely or closer; less than {} % is told as a sign."
        => "Ergebnis: {}. Von allen Möglichkeiten, diese Messwerte mit diesen Anteilen zu paaren, passen {} % so gut oder besser zusammen; gesagt wird etwas bei weniger als {} %.";
    "It says: {}. Under {} pairs nothing is said; else the interval has to leave out 0."
        => "Ergebnis: {}. Unter {} Paaren wird nichts gesagt; sonst darf das Intervall die 0 nicht enthalten.";
    "{} months from {} is beyond the calendar" => "{} Monate ab {} liegen außerhalb des Kalenders";
    "{} weeks from {} is beyond the calendar" => "{} Wochen ab {} liegen außerhalb des Kalenders";
    "{} + {} calendar months = {}: the same day of the month, or the last one where that month is shorter."
        => "{} + {} × 1 Kalendermonat = {}: derselbe Tag des Monats, oder der letzte, wo der Monat kürzer ist.";
    "arithmetic of the calendar; the months are the stage's terms, yours to set"
        => "Kalenderrechnung; die Monate sind die Ruhezeit der Stufe, du legst sie fest";
    "month" => "Monat";
    "From {} to {}: {}." => "Von {} bis {}: {}.";
    "arithmetic of the calendar: whole months, what is over them left out"
        => "Kalenderrechnung: ganze Monate, überzählige Tage weggelassen";
    "An end of a share's interval" => "Ein Ende des Intervalls eines Anteils";
    "share that came through" => "Anteil, der durchkam";
    "95 of 100 cases; from 0 where none came through, to 1 where all did"
        => "95 von 100 Fällen; ab 0, wo keines durchkam, bis 1, wo alle durchkamen";
    "Wilson 1927; NIST/SEMATECH e-Handbook, 7.2.4.1" => "Wilson 1927; NIST/SEMATECH e-Handbook, 7.2.4.1";
    "An end of the difference's interval" => "Ein Ende des Intervalls des Unterschieds";
    "share of the one that came through" => "Anteil der einen, der durchkam";
    "end of its interval" => "Ende ihres Intervalls";
    "share of the other" => "Anteil der anderen";
    "−1 for the low end, 1 for the high end" => "−1 für das untere Ende, 1 für das obere";
    "95 of 100 cases; where 0 lies between both ends, it is not yet evidence"
        => "95 von 100 Fällen; wo 0 zwischen beiden Enden liegt, ist noch nichts belegt";
    "Newcombe 1998 (difference of independent proportions), method 10"
        => "Newcombe 1998 (Differenz unabhängiger Anteile), Methode 10";
    "more looks wanted" => "weitere Durchsichten nötig";
    "too close to call: check again" => "zu knapp: noch einmal prüfen";
    "moved beyond its limit" => "über die Grenze verzogen";
    "keeps its shape, weight still changing" => "behält seine Form, Gewicht ändert sich noch";
    "keeps its shape, weight not known" => "behält seine Form, Gewicht unbekannt";
    "keeps its shape, weight steady" => "behält seine Form, Gewicht gleichbleibend";
    "{} ends before it starts: the other way round?" => "{} endet, bevor es beginnt: andersherum?";
    "{} reaches {} mm beyond the wood that it is cut from"
        => "{} ragt {} mm über das Holz hinaus, aus dem es geschnitten ist";
    "{} and {} share wood" => "{} und {} haben Holz gemeinsam";
    "Wood in the pieces" => "Holz in den Stücken";
    "volume of each piece" => "Volumen jedes Stücks";
    "as laid out or measured" => "wie eingeteilt oder gemessen";
    "Waste: edgings, end trims, what was not kept" => "Verschnitt: Säumlinge, Abschnitte, Ausgesondertes";
    "volume of the whole" => "Volumen des Ganzen";
    "wood in the pieces" => "Holz in den Stücken";
    "dust between neighbours: kerf times the faces that they share"
        => "Sägespäne zwischen Nachbarn: Schnittfuge mal gemeinsame Fläche";
    "below nothing where the pieces come to more than the whole"
        => "unter 0, wo die Stücke zusammen mehr als das Ganze ergeben";
    "Not in the pieces, of the whole" => "Nicht in den Stücken, vom Ganzen";
    "waste" => "Verschnitt";
    "dust between neighbours" => "Sägespäne zwischen Nachbarn";
    "blanks" => "Rohlinge";
    "a share of {} coming through: it has to be over 0 and at most 1"
        => "ein Anteil von {}, der durchkommt: er muss über 0 und darf höchstens 1 sein";
    "a confidence of {}: it has to be over 0 and under 1" => "eine Sicherheit von {}: sie muss über 0 und unter 1 sein";
    "a family effect of {}: it has to be at least 0 and under 1"
        => "ein Familieneffekt von {}: er muss mindestens 0 und unter 1 sein";
    "a plank or a blank of no parts: it has to have at least one"
        => "eine Bohle oder ein Rohling ohne Teile: es muss mindestens eines sein";
    "more than {} laminates: that is beyond what is reckoned here"
        => "mehr als {} Lamellen: das ist mehr, als hier gerechnet wird";
    "no stress across the section to be seen" => "keine Spannung im Querschnitt erkennbar";
    "casehardened" => "verschalt";
    "casehardened in reverse" => "umgekehrt verschalt";
    "no stress along the length to be seen" => "keine Spannung in der Länge erkennbar";
    "stress along the length: it springs open" => "Spannung in der Länge: beim Auftrennen klafft es";
    "stress along the length: it springs shut" => "Spannung in der Länge: beim Auftrennen klemmt es";
    "It should stay as it is when it is cut." => "Beim Sägen sollte es seine Form behalten.";
    "The shell is pressed and the core pulled: resawn, each half goes hollow on its sawn face."
        => "Außen steht das Holz unter Druck, innen unter Zug: aufgetrennt wird jede Hälfte auf der Schnittfläche hohl.";
    "The shell is pulled and the core pressed: resawn, each half goes round on its sawn face."
        => "Außen steht das Holz unter Zug, innen unter Druck: aufgetrennt wird jede Hälfte auf der Schnittfläche rund.";
    "Ripped, its parts bow away from each other." => "Aufgetrennt biegen sich die Teile voneinander weg.";
    "Ripped, its parts bow towards each other and pinch the saw."
        => "Aufgetrennt biegen sich die Teile zueinander und klemmen das Sägeblatt.";
    "Spring of a laminate" => "Verzug einer Lamelle";
    "gap between the halves, without its sign" => "Spalt zwischen den Hälften, ohne Vorzeichen";
    "length that it is told for" => "Länge, für die es angegeben ist";
    "length of the offcut" => "Länge des Reststücks";
    "an even curve, both halves alike" => "ein gleichmäßiger Bogen, beide Hälften gleich";
    "Share that came through" => "Anteil, der durchkam";
    "came through" => "durchgekommen";
    "what still waits counts nowhere" => "was noch wartet, zählt nicht mit";
    "a count" => "eine Zählung";
    "First number of the beta distribution" => "Erster Parameter der Betaverteilung";
    "came through, counted as pieces by themselves" => "durchgekommen, als unabhängige Stücke gezählt";
    "the prior of Jeffreys, beta (1/2, 1/2)" => "der Prior von Jeffreys, beta (1/2, 1/2)";
    "Brown, Cai and DasGupta 2001, section 4.3 (from memory)"
        => "Brown, Cai und DasGupta 2001, Abschnitt 4.3 (aus dem Gedächtnis)";
    "Its second number" => "Ihr zweiter Parameter";
    "decided, counted as pieces by themselves" => "entschieden, als unabhängige Stücke gezählt";
    "came through, counted so" => "durchgekommen, so gezählt";
    "The share lies between the points under which beta (a, b) has 2.5 % and 97.5 % of its whole: {} % and {} %; from 0 where none came through, to 100 where all did. They are found by halving, to the last digit."
        => "Der Anteil liegt zwischen den Punkten, unter denen 2,5 % und 97,5 % der Verteilung beta (a, b) liegen: {} % und {} %; ab 0, wo keines durchkam, bis 100, wo alle durchkamen. Gefunden werden sie durch Halbieren, bis zur letzten Ziffer.";
    "The pieces of one plank are alike: these {} count as {} by themselves, by how alike the planks' pieces turned out and by how few planks there are (Kish 1965; Korn and Graubard 1998; both from memory)."
        => "Die Stücke einer Bohle sind einander ähnlich: Diese {} zählen wie {} unabhängige, je nachdem, wie ähnlich die Stücke der Bohlen ausfielen und wie wenige Bohlen es sind (Kish 1965; Korn und Graubard 1998; beide aus dem Gedächtnis).";
    "The interval is wider than {} points: too few to say (common practice, no source)."
        => "Das Intervall ist breiter als {} Punkte: zu wenige, um es zu sagen (gängige Praxis, ohne Quelle).";
    "evidence" => "ein Beleg";
    "not yet evidence" => "noch kein Beleg";
    "{} came through of {}: there can't be more than there were"
        => "{} kamen durch von {}: es können nicht mehr sein, als da waren";
    "none was seen yet" => "noch wurde keines gesehen";
    "{} pieces: that is beyond what is reckoned here" => "{} Stücke: das ist mehr, als hier gerechnet wird";
    "pieces that count as {}: it has to be over 0 and no more than they are"
        => "Stücke, die als {} zählen: es muss über 0 sein und nicht mehr, als es sind";
    "a time of {}: it has to be a number, and not less than nothing"
        => "eine Zeit von {}: es muss eine Zahl sein, nicht kleiner als 0";
    "the approach to a moving equilibrium: derived here; profile-likelihood intervals: standard, from memory"
        => "die Annäherung an eine wandernde Ausgleichsfeuchte: hier hergeleitet; Profil-Likelihood-Intervalle: üblich, aus dem Gedächtnis";
    "day {}: {} g, air {}" => "Tag {}: {} g, Luft {}";
    "A curve was laid through the weighings: m = D · (1 + M / 100), dM/dt = (E − M) / τ, E the air's equilibrium, which runs straight from one reading to the next. The sum of the squares of what the weighings are off it is the least over D, the first M and τ, with τ from a tenth of the shortest gap to three times the days watched."
        => "Durch die Wägungen wurde eine Kurve gelegt: m = D · (1 + M / 100), dM/dt = (E − M) / τ, E die Ausgleichsfeuchte der Luft, die von einer Ablesung zur nächsten gerade verläuft. Die Summe der Quadrate der Abweichungen der Wägungen davon ist die kleinste über D, das erste M und τ, mit τ von einem Zehntel des kürzesten Abstands bis zum Dreifachen der beobachteten Tage.";
    "Found: D {} g, τ {} days ({} to {}); a weighing is good to ± {} g (standard)."
        => "Gefunden: D {} g, τ {} Tage ({} bis {}); eine Wägung ist auf ± {} g genau (Standard).";
    "Weighed: {}." => "Gewogen: {}.";
    "The true value lies from {} to {} {} in 95 of 100 cases."
        => "Der wahre Wert liegt in 95 von 100 Fällen von {} bis {} {}.";
    "This holds if the air was as logged." => "Das gilt, wenn das Raumklima war wie eingetragen.";
    "This holds if the air was as logged, each reading good to ± {} % of moisture by itself and all together to ± {} % (standard), and if it changed evenly from one reading to the next."
        => "Das gilt, wenn das Raumklima war wie eingetragen, jede Ablesung für sich auf ± {} % Holzfeuchte genau und alle zusammen auf ± {} % (Standard), und wenn es sich von einer Ablesung zur nächsten gleichmäßig änderte.";
    "Above the air's equilibrium" => "Über der Ausgleichsfeuchte";
    "water left above it at the last weighing, by the curve"
        => "Wasser, das bei der letzten Wägung noch darüber ist, nach der Kurve";
    "the piece without water, by the curve" => "das Stück ohne Wasser, nach der Kurve";
    "less than nothing: below it" => "kleiner als 0: darunter";
    "the definition of moisture content" => "die Definition der Holzfeuchte";
    "It settles at" => "Gewicht bei Ausgleichsfeuchte";
    "equilibrium of the last air" => "Ausgleichsfeuchte der letzten Luft";
    "air that stays as it was last" => "Luft, die bleibt, wie sie zuletzt war";
    "Days until it is near its equilibrium" => "Tage, bis es nahe an seiner Ausgleichsfeuchte ist";
    "days in which all but 37 % of the way is done, by the curve"
        => "Tage, in denen der Weg bis auf 37 % zurückgelegt ist, nach der Kurve";
    "how far it is from its equilibrium" => "wie weit es von seiner Ausgleichsfeuchte entfernt ist";
    "what counts as near" => "was als nahe gilt";
    "further off than what counts as near; nearer, none; air that stays as it was last"
        => "weiter entfernt, als noch als nahe gilt; näher: keine; Luft, die bleibt, wie sie zuletzt war";
    "exponential approach: standard, from memory" => "exponentielle Annäherung: üblich, aus dem Gedächtnis";
    "1 % of moisture weighs" => "1 % Holzfeuchte wiegt";
    "mass of the piece" => "Masse des Stücks";
    "its moisture" => "seine Holzfeuchte";
    "a moisture from 0 to 30 %" => "eine Holzfeuchte von 0 bis 30 %";
    "the definition of moisture content turned round" => "die Definition der Holzfeuchte, umgestellt";
    "still drying" => "trocknet noch";
    "steady" => "gleichbleibend";
    "taking up water" => "nimmt Wasser auf";
    "the scale cannot see 1 % in this piece" => "die Waage zeigt 1 % bei diesem Stück nicht an";
    "too few weighings" => "zu wenige Wägungen";
    "too close to call" => "zu knapp";
    "{}; what it gained last is no more than the damper air accounts for"
        => "{}; was es zuletzt zugelegt hat, ist nicht mehr, als die feuchtere Luft erklärt";
    "a weight of {} kg: it has to be more than nothing" => "ein Gewicht von {} kg: es muss größer als 0 sein";
    "a scale that is good to {} kg: it has to be more than nothing"
        => "eine Waage, die auf {} kg genau ist: die Genauigkeit muss größer als 0 sein";
    "the weighing of day {} does not come after the one before it"
        => "die Wägung von Tag {} kommt nicht nach der davor";
    "air that keeps wood at {} %: between 0 and 30 % was expected"
        => "Luft, in der Holz bei {} % bleibt: zwischen 0 und 30 % war erwartet";
    "nothing was weighed yet" => "noch wurde nichts gewogen";
    "no curve can be laid through {} weighings" => "durch {} Wägungen lässt sich keine Kurve legen";
    "Wood settles at, by the stick" => "Ausgleichsfeuchte, nach der Leiste";
    "equilibrium of the air when it was weighed first, by the hygrometer"
        => "Ausgleichsfeuchte der Luft, als sie zum ersten Mal gewogen wurde, nach dem Hygrometer";
    "what the stick weighs now" => "was die Leiste jetzt wiegt";
    "what it weighed first" => "was sie beim ersten Mal wog";
    "moistures from 0 to 30 %, a stick that keeps up with its air"
        => "Holzfeuchten von 0 bis 30 %, eine Leiste, die der Luft folgt";
    "Derived here from the definition of moisture content" => "Hier aus der Definition der Holzfeuchte hergeleitet";
    "Good blanks to be expected" => "Zu erwartende gute Rohlinge";
    "laminates of each lot" => "Lamellen jedes Postens";
    "share of them that comes through the stages left" => "Anteil davon, der durch die übrigen Stufen kommt";
    "laminates to a blank" => "Lamellen je Rohling";
    "share of blanks that comes through" => "Anteil der Rohlinge, der durchkommt";
    "on average; what is over counts as part of a blank" => "im Mittel; was übrig ist, zählt als Teil eines Rohlings";
    "Planks on average, without a margin" => "Bohlen im Mittel, ohne Reserve";
    "good blanks wanted" => "benötigte gute Rohlinge";
    "good blanks to be expected of what is in hand" => "zu erwartende gute Rohlinge aus dem Vorhandenen";
    "good blanks to be expected of one plank" => "zu erwartende gute Rohlinge aus einer Bohle";
    "none where enough is in hand" => "keine, wo genug da ist";
    "divided by the share, not added to" => "durch den Anteil geteilt, nicht aufgeschlagen";
    "{} blanks in hand, each by the share of its stages left, are in what is to be expected."
        => "{} vorhandene Rohlinge, jeder mit dem Anteil seiner übrigen Stufen, sind in den zu erwartenden enthalten.";
    "the maker's own counts; a counted share is the mean of beta (x + 1/2, n − x + 1/2)"
        => "deine eigenen Zählungen; ein gezählter Anteil ist das Mittel von beta (x + 1/2, n − x + 1/2)";
    "The least number of planks with which at least {} good blanks come in {} of 100 cases: planks are added one by one until the chance is reached."
        => "Die kleinste Zahl von Bohlen, mit der in {1} von 100 Fällen mindestens {0} gute Rohlinge herauskommen: Bohlen werden einzeln dazugezählt, bis die Wahrscheinlichkeit erreicht ist.";
    "With {} it is {} %." => "Mit {} sind es {} %.";
    "It is not reached: with {}, the most that are looked at, it is {} %."
        => "Sie wird nicht erreicht: Mit {}, mehr werden nicht betrachtet, sind es {} %.";
    "No piece was ever cut: planks are ripped straight to laminates."
        => "Noch nie wurde ein Stück zugeschnitten: Bohlen werden gleich zu Lamellen aufgetrennt.";
    "A plank gives {} laminates where none of its pieces is discarded. What comes of them is beta-binomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = {} their family effect (ρ = 0: binomial). Planks are added up by convolution, every {} make a blank, blanks come through each by itself: exact for given shares. Shares that were counted are taken at 256 places spread evenly over what they may be, and the chance is the mean."
        => "Eine Bohle gibt {} Lamellen, wenn keines ihrer Stücke ausgesondert wird. Was aus ihnen wird, ist betabinomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = {} ihr Familieneffekt (ρ = 0: binomial). Bohlen werden durch Faltung zusammengezählt, je {} ergeben einen Rohling, Rohlinge kommen jeder für sich durch: genau bei gegebenen Anteilen. Gezählte Anteile werden an 256 Stellen genommen, gleichmäßig verteilt über das, was sie sein können, und die Wahrscheinlichkeit ist das Mittel.";
    "textbook probability, no source read; counted shares with the prior of Jeffreys"
        => "Lehrbuchwahrscheinlichkeit, keine Quelle gelesen; gezählte Anteile mit dem Prior von Jeffreys";
    "{}: {} %, taken as it is." => "{}: {} %, so angenommen.";
    "Pieces" => "Stücke";
    "Laminates" => "Lamellen";
    "Glued" => "Verleimt";
    "Blanks" => "Rohlinge";
    "Family effect of one plank's pieces" => "Familieneffekt: Ähnlichkeit der Stücke einer Bohle";
    "spread between planks: sum of n (p − P)² over k − 1" => "Streuung zwischen den Bohlen: Summe von n (p − P)² durch k − 1";
    "spread within planks: sum of n p (1 − p) over N − k" => "Streuung innerhalb der Bohlen: Summe von n p (1 − p) durch N − k";
    "usual count of a plank: (N − sum of n² / N) / (k − 1)" => "übliche Zahl je Bohle: (N − Summe von n² / N) / (k − 1)";
    "at most 1; under nothing no family effect shows" => "höchstens 1; unter 0 zeigt sich kein Familieneffekt";
    "analysis of variance estimator for counts (from memory)"
        => "Schätzer der Varianzanalyse für Zählungen (aus dem Gedächtnis)";
    "Plank by plank came through: {}." => "Bohle für Bohle kamen durch: {}.";
    "within its limit" => "innerhalb der Grenze";
    "within its limit: watch it" => "innerhalb der Grenze: beobachten";
    "not measured" => "nicht gemessen";
    "earlier gap" => "früherer Spalt";
    "gap at this check" => "Spalt bei dieser Prüfung";
    "guarded decisions after JCGM 106:2012, 8.3 (from memory); limits: common practice, yours to set"
        => "abgesicherte Entscheidungen nach JCGM 106:2012, 8.3 (aus dem Gedächtnis); Grenzen: gängige Praxis, du legst sie fest";
    "This stage sets no limit for it." => "Diese Stufe setzt dafür keine Grenze.";
    "The limit of the stage holds over {} mm; a cup's does not ask for the length."
        => "Die Grenze der Stufe gilt über {} mm; bei der Querkrümmung kommt es auf die Länge nicht an.";
    "Change" => "Änderung";
    "gap at this check, signed" => "Spalt bei dieser Prüfung, mit Vorzeichen";
    "gap when the movement began to count, signed" => "Spalt, ab dem der Verzug zählt, mit Vorzeichen";
    "both with their side or hand noted; a gap that changed sides moved by both"
        => "beide mit notierter Seite oder Drehrichtung; wechselt ein Spalt die Seite, zählen beide zusammen";
    "Change at least, the side not noted" => "Kleinste mögliche Änderung, Seite nicht notiert";
    "gap when the movement began to count" => "Spalt, ab dem der Verzug zählt";
    "both gaps on one side" => "beide Spalte auf einer Seite";
    "Change at most, the side not noted" => "Größte mögliche Änderung, Seite nicht notiert";
    "the gaps on opposite sides" => "die Spalte auf entgegengesetzten Seiten";
    "Standard uncertainty of the change" => "Standardunsicherheit der Änderung";
    "of the earlier gap" => "des früheren Spalts";
    "of the gap at this check" => "des Spalts bei dieser Prüfung";
    "readings that are off independently" => "Messwerte mit voneinander unabhängigen Fehlern";
    "JCGM 100:2008, 5.1.2 (from memory)" => "JCGM 100:2008, 5.1.2 (aus dem Gedächtnis)";
    "Limit over this piece" => "Grenze über dieses Stück";
    "limit of the stage" => "Grenze der Stufe";
    "length of the piece" => "Länge des Stücks";
    "what the limit holds over" => "worüber die Grenze gilt";
    "an even curve" => "ein gleichmäßiger Bogen";
    "geometry of the sagitta; the limit is the maker's own" => "Geometrie der Pfeilhöhe; die Grenze ist deine eigene";
    "geometry; the limit is the maker's own" => "Geometrie; die Grenze ist deine eigene";
    "a limit over {} mm: it has to be over more than nothing"
        => "eine Grenze über {} mm: die Länge muss größer als 0 sein";
    "the length was not measured: a limit over {} mm can't be carried over to it"
        => "die Länge wurde nicht gemessen: eine Grenze über {} mm lässt sich nicht darauf übertragen";
};
