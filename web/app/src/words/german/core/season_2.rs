//! German: what core says of rests, drying, movement and plans.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    ("came through, counted so", "durchgekommen, so gezählt"),
    (
        "The share lies between the points under which beta (a, b) has 2.5 % and 97.5 % of its whole: {} % and {} %; from 0 where none came through, to 100 where all did. They are found by halving, to the last digit.",
        "Der Anteil liegt zwischen den Punkten, unter denen beta (a, b) 2,5 % und 97,5 % ihres Ganzen hat: {} % und {} %; ab 0, wo keines durchkam, bis 100, wo alle. Sie werden durch Halbieren gefunden, bis zur letzten Ziffer.",
    ),
    (
        "The pieces of one plank are alike: these {} count as {} by themselves, by how alike the planks' pieces turned out and by how few planks there are (Kish 1965; Korn and Graubard 1998; both from memory).",
        "Die Stücke einer Bohle sind sich ähnlich: diese {} zählen als {} für sich, danach, wie ähnlich die Stücke der Bohlen ausfielen und wie wenige Bohlen es sind (Kish 1965; Korn und Graubard 1998; beide aus dem Gedächtnis).",
    ),
    (
        "The interval is wider than {} points: too few to say (common practice, no source).",
        "Das Intervall ist weiter als {} Punkte: zu wenige, um es zu sagen (üblicher Brauch, ohne Quelle).",
    ),
    ("evidence", "ein Beleg"),
    ("not yet evidence", "noch kein Beleg"),
    (
        "{} came through of {}: there can't be more than there were",
        "{} kamen durch von {}: es können nicht mehr sein, als da waren",
    ),
    ("none was seen yet", "noch wurde keines gesehen"),
    (
        "{} pieces: that is beyond what is reckoned here",
        "{} Stücke: das ist mehr, als hier gerechnet wird",
    ),
    (
        "pieces that count as {}: it has to be over 0 and no more than they are",
        "Stücke, die als {} zählen: es muss über 0 sein und nicht mehr, als es sind",
    ),
    (
        "a time of {}: it has to be a number, and not less than nothing",
        "eine Zeit von {}: es muss eine Zahl sein, und nicht weniger als nichts",
    ),
    (
        "the approach to a moving equilibrium: derived here; profile-likelihood intervals: standard, from memory",
        "die Annäherung an ein wanderndes Gleichgewicht: hier hergeleitet; Profil-Likelihood-Intervalle: üblich, aus dem Gedächtnis",
    ),
    ("day {}: {} g, air {}", "Tag {}: {} g, Luft {}"),
    (
        "A curve was laid through the weighings: m = D · (1 + M / 100), dM/dt = (E − M) / τ, E the air's equilibrium, which runs straight from one reading to the next. The sum of the squares of what the weighings are off it is the least over D, the first M and τ, with τ from a tenth of the shortest gap to three times the days watched.",
        "Durch die Wägungen wurde eine Kurve gelegt: m = D · (1 + M / 100), dM/dt = (E − M) / τ, E das Gleichgewicht der Luft, das von einer Ablesung zur nächsten gerade läuft. Die Summe der Quadrate dessen, worum die Wägungen davon abliegen, ist die kleinste über D, das erste M und τ, mit τ von einem Zehntel des kürzesten Abstands bis zum Dreifachen der beobachteten Tage.",
    ),
    (
        "Found: D {} g, τ {} days ({} to {}); a weighing is good to ± {} g (standard).",
        "Gefunden: D {} g, τ {} Tage ({} bis {}); eine Wägung ist auf ± {} g genau (Standard).",
    ),
    ("Weighed: {}.", "Gewogen: {}."),
    (
        "The true value lies from {} to {} {} in 95 of 100 cases.",
        "Der wahre Wert liegt in 95 von 100 Fällen von {} bis {} {}.",
    ),
    (
        "This holds if the air was as logged.",
        "Das gilt, wenn die Luft war wie festgehalten.",
    ),
    (
        "This holds if the air was as logged, each reading good to ± {} % of moisture by itself and all together to ± {} % (standard), and if it changed evenly from one reading to the next.",
        "Das gilt, wenn die Luft war wie festgehalten, jede Ablesung für sich auf ± {} % Holzfeuchte genau und alle zusammen auf ± {} % (Standard), und wenn sie sich von einer Ablesung zur nächsten gleichmäßig änderte.",
    ),
    (
        "Above the air's equilibrium",
        "Über dem Gleichgewicht der Luft",
    ),
    (
        "water left above it at the last weighing, by the curve",
        "Wasser, das bei der letzten Wägung darüber ist, nach der Kurve",
    ),
    (
        "the piece without water, by the curve",
        "das Stück ohne Wasser, nach der Kurve",
    ),
    (
        "less than nothing: below it",
        "weniger als nichts: darunter",
    ),
    (
        "the definition of moisture content",
        "die Definition der Holzfeuchte",
    ),
    ("It settles at", "Es kommt an bei"),
    (
        "equilibrium of the last air",
        "Gleichgewicht der letzten Luft",
    ),
    (
        "air that stays as it was last",
        "Luft, die bleibt, wie sie zuletzt war",
    ),
    (
        "Days until it is near its equilibrium",
        "Tage, bis es nahe an seinem Gleichgewicht ist",
    ),
    (
        "days in which all but 37 % of the way is done, by the curve",
        "Tage, in denen alles bis auf 37 % des Wegs getan ist, nach der Kurve",
    ),
    (
        "how far it is from its equilibrium",
        "wie weit es von seinem Gleichgewicht ist",
    ),
    ("what counts as near", "was als nahe gilt"),
    (
        "further off than what counts as near; nearer, none; air that stays as it was last",
        "weiter weg als das, was als nahe gilt; näher, keine; Luft, die bleibt, wie sie zuletzt war",
    ),
    (
        "exponential approach: standard, from memory",
        "exponentielle Annäherung: üblich, aus dem Gedächtnis",
    ),
    ("1 % of moisture weighs", "1 % Holzfeuchte wiegt"),
    ("mass of the piece", "Masse des Stücks"),
    ("its moisture", "seine Holzfeuchte"),
    (
        "a moisture from 0 to 30 %",
        "eine Holzfeuchte von 0 bis 30 %",
    ),
    (
        "the definition of moisture content turned round",
        "die Definition der Holzfeuchte, umgestellt",
    ),
    ("still drying", "trocknet noch"),
    ("steady", "gleichbleibend"),
    ("taking up water", "nimmt Wasser auf"),
    (
        "the scale cannot see 1 % in this piece",
        "die Waage sieht 1 % in diesem Stück nicht",
    ),
    ("too few weighings", "zu wenige Wägungen"),
    ("too close to call", "zu knapp"),
    (
        "{}; what it gained last is no more than the damper air accounts for",
        "{}; was es zuletzt zugelegt hat, ist nicht mehr, als die feuchtere Luft erklärt",
    ),
    (
        "a weight of {} kg: it has to be more than nothing",
        "ein Gewicht von {} kg: es muss mehr als nichts sein",
    ),
    (
        "a scale that is good to {} kg: it has to be more than nothing",
        "eine Waage, die auf {} kg genau ist: es muss mehr als nichts sein",
    ),
    (
        "the weighing of day {} does not come after the one before it",
        "die Wägung von Tag {} kommt nicht nach der davor",
    ),
    (
        "air that keeps wood at {} %: between 0 and 30 % was expected",
        "Luft, die Holz bei {} % hält: zwischen 0 und 30 % wurde erwartet",
    ),
    ("nothing was weighed yet", "noch wurde nichts gewogen"),
    (
        "no curve can be laid through {} weighings",
        "durch {} Wägungen lässt sich keine Kurve legen",
    ),
    (
        "Wood settles at, by the stick",
        "Holz kommt an bei, nach der Leiste",
    ),
    (
        "equilibrium of the air when it was weighed first, by the hygrometer",
        "Gleichgewicht der Luft, als sie zuerst gewogen wurde, nach dem Hygrometer",
    ),
    ("what the stick weighs now", "was die Leiste jetzt wiegt"),
    ("what it weighed first", "was sie zuerst wog"),
    (
        "moistures from 0 to 30 %, a stick that keeps up with its air",
        "Holzfeuchten von 0 bis 30 %, eine Leiste, die ihrer Luft folgt",
    ),
    (
        "Derived here from the definition of moisture content",
        "Hier aus der Definition der Holzfeuchte hergeleitet",
    ),
    ("Good blanks to be expected", "Zu erwartende gute Rohlinge"),
    ("laminates of each lot", "Lamellen jedes Postens"),
    (
        "share of them that comes through the stages left",
        "Anteil davon, der durch die übrigen Stufen kommt",
    ),
    ("laminates to a blank", "Lamellen je Rohling"),
    (
        "share of blanks that comes through",
        "Anteil der Rohlinge, der durchkommt",
    ),
    (
        "on average; what is over counts as part of a blank",
        "im Mittel; was darüber ist, zählt als Teil eines Rohlings",
    ),
    (
        "Planks on average, without a margin",
        "Bohlen im Mittel, ohne Reserve",
    ),
    ("good blanks wanted", "benötigte gute Rohlinge"),
    (
        "good blanks to be expected of what is in hand",
        "zu erwartende gute Rohlinge aus dem, was da ist",
    ),
    (
        "good blanks to be expected of one plank",
        "zu erwartende gute Rohlinge aus einer Bohle",
    ),
    ("none where enough is in hand", "keine, wo genug da ist"),
    (
        "divided by the share, not added to",
        "durch den Anteil geteilt, nicht aufgeschlagen",
    ),
    (
        "{} blanks in hand, each by the share of its stages left, are in what is to be expected.",
        "{} vorhandene Rohlinge, jeder mit dem Anteil seiner übrigen Stufen, sind in dem, was zu erwarten ist.",
    ),
    (
        "the maker's own counts; a counted share is the mean of beta (x + 1/2, n − x + 1/2)",
        "die eigenen Zählungen; ein gezählter Anteil ist das Mittel von beta (x + 1/2, n − x + 1/2)",
    ),
    (
        "The least number of planks with which at least {} good blanks come in {} of 100 cases: planks are added one by one until the chance is reached. With {} it is {} %.",
        "Die kleinste Zahl von Bohlen, mit der in {1} von 100 Fällen mindestens {0} gute Rohlinge kommen: Bohlen werden einzeln dazugezählt, bis die Aussicht erreicht ist. Mit {2} sind es {3} %.",
    ),
    (
        "What comes of a plank's {} laminates is beta-binomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = {} their likeness (ρ = 0: binomial). Planks are added up by convolution, every {} make a blank, blanks come through each by itself: exact for given shares. Shares that were counted are taken at 256 places spread evenly over what they may be, and the chance is the mean.",
        "Was aus den {} Lamellen einer Bohle wird, ist betabinomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = {} ihre Ähnlichkeit (ρ = 0: binomial). Bohlen werden durch Faltung zusammengezählt, je {} ergeben einen Rohling, Rohlinge kommen jeder für sich durch: genau bei gegebenen Anteilen. Gezählte Anteile werden an 256 Orten genommen, gleichmäßig verteilt über das, was sie sein können, und die Aussicht ist das Mittel.",
    ),
    (
        "textbook probability, no source read; counted shares with the prior of Jeffreys",
        "Lehrbuchwahrscheinlichkeit, keine Quelle gelesen; gezählte Anteile mit dem Prior von Jeffreys",
    ),
    ("{}: {} %, taken as it is.", "{}: {} %, so angenommen."),
    (
        "{}: {} of {} came through; ({} + 1/2) / ({} + 1) = {} %.",
        "{}: {} von {} kamen durch; ({} + 1/2) / ({} + 1) = {} %.",
    ),
    ("Pieces", "Stücke"),
    ("Laminates", "Lamellen"),
    ("Glued", "Verleimt"),
    ("Blanks", "Rohlinge"),
    (
        "Likeness of one plank's pieces",
        "Ähnlichkeit der Stücke einer Bohle",
    ),
    (
        "spread between planks: sum of n (p − P)² over k − 1",
        "Streuung zwischen Bohlen: Summe n (p − P)² durch k − 1",
    ),
    (
        "spread within planks: sum of n p (1 − p) over N − k",
        "Streuung in den Bohlen: Summe n p (1 − p) durch N − k",
    ),
    (
        "usual count of a plank: (N − sum of n² / N) / (k − 1)",
        "übliche Zahl einer Bohle: (N − Summe n² / N) / (k − 1)",
    ),
    (
        "at most 1; under nothing no likeness shows",
        "höchstens 1; unter nichts zeigt sich keine Ähnlichkeit",
    ),
    (
        "analysis of variance estimator for counts (from memory)",
        "Schätzer der Varianzanalyse für Zählungen (aus dem Gedächtnis)",
    ),
    (
        "Plank by plank came through: {}.",
        "Bohle für Bohle kamen durch: {}.",
    ),
    ("moved within its limit", "innerhalb der Grenze bewegt"),
    (
        "moved within its limit: watch it",
        "innerhalb der Grenze bewegt: beobachten",
    ),
    ("not measured", "nicht gemessen"),
    ("earlier gap", "früherer Spalt"),
    ("gap at this check", "Spalt bei dieser Prüfung"),
    (
        "guarded decisions after JCGM 106:2012, 8.3 (from memory); limits: common practice, yours to set",
        "abgesicherte Entscheidungen nach JCGM 106:2012, 8.3 (aus dem Gedächtnis); Grenzen: üblicher Brauch, du legst sie fest",
    ),
    (
        "This stage sets no limit for it.",
        "Diese Stufe setzt dafür keine Grenze.",
    ),
    (
        "It stands: {}. Beyond counts only what is over {} mm by {} u, within only what is under it by as much, steady only what is no more than {} u.",
        "Stand: {0}. Jenseits zählt nur, was um {2} u über {1} mm liegt, innerhalb nur, was um so viel darunter liegt, ruhig nur, was nicht mehr als {3} u ist.",
    ),
    (
        "The limit of the stage holds over {} mm; a cup's does not ask for the length.",
        "Die Grenze der Stufe gilt über {} mm; die einer Schüsselung fragt nicht nach der Länge.",
    ),
    ("Change", "Änderung"),
    (
        "gap at this check, signed",
        "Spalt bei dieser Prüfung, mit Vorzeichen",
    ),
    (
        "gap when the movement began to count, signed",
        "Spalt, als die Bewegung zu zählen begann, mit Vorzeichen",
    ),
    (
        "both with their side or hand noted; a gap that changed sides moved by both",
        "beide mit notierter Seite oder Drehsinn; ein Spalt, der die Seite wechselte, bewegte sich um beide",
    ),
    (
        "Change at least, the side not noted",
        "Änderung mindestens, die Seite nicht notiert",
    ),
    (
        "gap when the movement began to count",
        "Spalt, als die Bewegung zu zählen begann",
    ),
    ("both gaps on one side", "beide Spalte auf einer Seite"),
    (
        "Change at most, the side not noted",
        "Änderung höchstens, die Seite nicht notiert",
    ),
    (
        "the gaps on opposite sides",
        "die Spalte auf entgegengesetzten Seiten",
    ),
    (
        "Standard uncertainty of the change",
        "Standardunsicherheit der Änderung",
    ),
    ("of the earlier gap", "des früheren Spalts"),
    ("of the gap at this check", "des Spalts bei dieser Prüfung"),
    (
        "readings that are off independently",
        "Ablesungen, die unabhängig danebenliegen",
    ),
    (
        "JCGM 100:2008, 5.1.2 (from memory)",
        "JCGM 100:2008, 5.1.2 (aus dem Gedächtnis)",
    ),
    ("Limit over this piece", "Grenze über dieses Stück"),
    ("limit of the stage", "Grenze der Stufe"),
    ("length of the piece", "Länge des Stücks"),
    ("what the limit holds over", "worüber die Grenze gilt"),
    ("an even curve", "ein gleichmäßiger Bogen"),
    (
        "geometry of the sagitta; the limit is the maker's own",
        "Geometrie des Bogenstichs; die Grenze ist die eigene",
    ),
    (
        "geometry; the limit is the maker's own",
        "Geometrie; die Grenze ist die eigene",
    ),
    (
        "a limit over {} mm: it has to be over more than nothing",
        "eine Grenze über {} mm: sie muss über mehr als nichts gelten",
    ),
    (
        "the length was not measured: a limit over {} mm can't be carried over to it",
        "die Länge wurde nicht gemessen: eine Grenze über {} mm lässt sich nicht darauf übertragen",
    ),
];
