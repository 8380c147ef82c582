//! German: what core says of what screens ask.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "Its own wood is its part of the plank's bill by volume, waste paid for."
        => "Sein eigenes Holz ist sein Anteil an der Rechnung der Bohle nach Volumen, Verschnitt eingerechnet.";
    "All its laminates together" => "Alle seine Lamellen zusammen";
    "each laminate" => "jede Lamelle";
    "laminates of planks whose price and sizes are known" => "Lamellen von Bohlen, deren Preis und Maße bekannt sind";
    "A laminate's own wood is its part of the plank's bill by volume, waste paid for; alike ones are told once."
        => "Das eigene Holz einer Lamelle ist ihr Anteil an der Rechnung der Bohle nach Volumen, Verschnitt eingerechnet; gleiche sind einmal genannt.";
    "Each laminate's part of its plank's bill by volume, waste paid for."
        => "Der Anteil jeder Lamelle an der Rechnung ihrer Bohle nach Volumen, Verschnitt eingerechnet.";
    "What each laminate carries over its own wood, for what failed of its plank."
        => "Was jede Lamelle über ihr eigenes Holz hinaus für den Ausfall aus ihrer Bohle trägt.";
    "Paid for planks, with tax" => "Für Bohlen bezahlt, mit Steuer";
    "in blanks" => "in Rohlingen";
    "used" => "verwendet";
    "put to another use" => "abgestuft";
    "in hand, resting or waiting" => "vorhanden, ruhend oder wartend";
    "in planks of which nothing came through" => "in Bohlen, von denen nichts durchkam";
    "planks whose price and sizes are known" => "Bohlen, deren Preis und Maße bekannt sind";
    "the bills, shared out" => "die Rechnungen, aufgeteilt";
    "Each plank's bill goes down to what was cut from it by volume, waste paid for; what failed is paid for by what came through of the same plank, in the measure of its own cost."
        => "Die Rechnung jeder Bohle verteilt sich nach Volumen auf das, was daraus geschnitten wurde, Verschnitt eingerechnet; den Ausfall trägt, was von derselben Bohle durchkam, im Verhältnis seiner eigenen Kosten.";
    "The temperature was not read with it: {} °C is taken. 5 °C more or less make 0.1 %."
        => "Die Temperatur wurde nicht dazu abgelesen: Angenommen sind {} °C. 5 °C mehr oder weniger machen 0,1 %.";
    "after {#} months {#} of the {#} watched until then" => "nach {} Monaten {} von den {} bis dahin beobachteten";
    "Discarded until then: none." => "Bis dahin ausgesondert: keines.";
    "Discarded: {}." => "Ausgesondert: {}.";
    "The share still in is the product of 1 − discarded / watched over these; one last seen good counts as watched up to that day. Its interval holds 95 of 100: Greenwood's variance, taken on ln(−ln S)."
        => "Der Anteil, der noch dabei ist, ist das Produkt aus 1 − ausgesondert / beobachtet über diese; was zuletzt gut war, zählt als bis zu jenem Tag beobachtet. Sein Intervall enthält 95 von 100: Greenwoods Varianz, von ln(−ln S).";
    "The pieces of one plank are alike: these {} count as {} by themselves, and the variance is larger by as much."
        => "Die Stücke einer Bohle sind einander ähnlich: Diese {} zählen wie {} unabhängige, und die Varianz ist um so viel größer.";
    "Kaplan and Meier 1958, Greenwood 1926, Kish 1965, from memory; a worked table was read"
        => "Kaplan und Meier 1958, Greenwood 1926, Kish 1965, aus dem Gedächtnis; eine durchgerechnete Tabelle wurde gelesen";
    "the plan whose parts are worth most, all cuts gone through (Bellman's recurrence, textbook); held against brute force"
        => "der Plan, dessen Teile am meisten wert sind, alle Schnitte durchprobiert (Bellmans Rekursion, Lehrbuch); mit vollständigem Durchprobieren verglichen";
    "A part as it comes off the saw" => "Ein Teil, wie es von der Säge kommt";
    "planed, across the width" => "gehobelt, quer zur Breite";
    "planing off each face" => "Hobelabtrag je Seite";
    "rounded up to a whole step" => "auf einen ganzen Schritt aufgerundet";
    "{} × {} mm of wood, {} mm off each end and {} mm off each edge; rows of {} mm, kerf {} mm, defects cut round. Of all such cuts that one whose parts are worth most together, as their rings are wanted."
        => "{} × {} mm Holz, {} mm Abschnitt je Ende und {} mm Besäumung je Kante; Reihen von {} mm, Schnittfuge {} mm, Fehler umgangen. Von allen solchen Schnitten der, dessen Teile zusammen am meisten wert sind, je nachdem, welche Jahrringe gewünscht sind.";
    "Parts row by row from the near end: {} = {}. The fullest row takes {} of {} mm of width with its parts, {} % of it."
        => "Teile Reihe für Reihe vom nahen Ende: {} = {}. Die vollste Reihe nutzt mit ihren Teilen {} von {} mm Breite, {} % davon.";
    "Only an angle was read: its rings are taken as at mid-width."
        => "Nur ein Winkel wurde gemessen: Seine Jahrringe gelten so wie in der Mitte der Breite.";
    "How its rings stand is not known." => "Wie seine Jahrringe stehen, ist nicht bekannt.";
    "It lies from {} to {} mm across the width; cuts fall on steps of {} mm."
        => "Es liegt in der Breite von {} bis {} mm; Schnitte fallen auf Schritte von {} mm.";
    "Give it a mark." => "Gib ihm ein Zeichen.";
    "{} is the mark of something else: give it another."
        => "{} ist das Zeichen von etwas anderem: gib ihm ein anderes.";
    "“{}…” is too long for a mark: {} letters at most."
        => "„{}…“ ist zu lang für ein Zeichen: höchstens {} Buchstaben.";
    "{} stands on two of them." => "{} steht auf zweien davon.";
    "once" => "einmal";
    "twice" => "zweimal";
    "{#} times" => "{}-mal";
    "checked {} in {}" => "{} geprüft, über {} hinweg";
    "{}, largest change {}" => "{}, größte Änderung {}";
    "{}, nothing to compare yet" => "{}, noch nichts zu vergleichen";
    "Checked {}: {}. From {} to {} is {}." => "Geprüft {}: {}. Von {} bis {}: {}.";
    "Of all shapes and checks this is the largest: {} on {}."
        => "Unter allen Verformungen und Prüfungen ist das die größte: {} am {}.";
    "your own checks" => "deine eigenen Prüfungen";
    "It counts from {}, when it was made flat." => "Gezählt wird ab {}, als es abgerichtet wurde.";
    "By eye nothing has changed, which takes nothing from what was measured on {}: {} still."
        => "Nach Augenmaß hat sich nichts geändert; das nimmt nichts von dem, was am {} gemessen wurde: weiterhin {}.";
    "It counts from {}, the first check that has it."
        => "Gezählt wird ab {}, der ersten Prüfung, in der es gemessen ist.";
    "wood" => "Holz";
    "yard" => "Holzhof";
    "1:{} or better" => "1:{} oder besser";
    "1:{} to 1:{}" => "1:{} bis 1:{}";
    "steeper than 1:{}" => "steiler als 1:{}";
    "{#} to {#} kg/m³" => "{} bis {} kg/m³";
    "{#} to {#} lb/ft³" => "{} bis {} lb/ft³";
    "not looked at" => "nicht angesehen";
    "of several" => "aus mehreren";
    "ring angle in the part" => "Jahrringwinkel im Teil";
    "density at 12 %" => "Dichte bei 12 %";
    "moisture when bought" => "Holzfeuchte beim Kauf";
    "remaining bow in the part" => "restliche Flachkrümmung im Teil";
    "remaining crook in the part" => "restliche Kantenkrümmung im Teil";
    "straight slab left" => "verbleibende nutzbare Dicke";
    "score" => "Punkte";
    "All its laminates across the glue lines" => "Alle seine Lamellen quer zu den Leimfugen";
    "movement of each through its thickness" => "Quellen und Schwinden jeder in ihrer Dicke";
    "each free to move" => "jede frei beweglich";
    "the air of its room was not read" => "das Raumklima seines Raums wurde nicht abgelesen";
    "of the last twelve months of its room {} were read: it takes {}"
        => "von den letzten zwölf Monaten seines Raums wurden {} abgelesen: nötig sind {}";
    "the sizes of its laminates are not known" => "die Maße seiner Lamellen sind nicht bekannt";
    "how the rings of {} stand was not looked at" => "wie die Jahrringe von {} stehen, wurde nicht angesehen";
    "how {} shrinks is not known" => "wie {} schwindet, ist nicht bekannt";
    "The mean air of each month, {} of the last twelve read: driest {}; dampest {}. Wood is taken to follow it fully; thick wood lags behind and moves less."
        => "Das mittlere Raumklima jedes Monats, {} der letzten zwölf abgelesen: am trockensten {}; am feuchtesten {}. Angenommen ist, dass das Holz ihm ganz folgt; dickes Holz hinkt nach und arbeitet weniger.";
    "Along the glue lines it is the laminate that moves most: {} mm. Each is taken to be free of its neighbours."
        => "Entlang der Leimfugen zählt die Lamelle, die am meisten arbeitet: {} mm. Angenommen ist, dass die Nachbarn keine behindern.";
    "cut" => "zugeschnitten";
    "glued" => "verleimt";
    "found still, or kept or used sooner" => "für ruhig befunden, oder vorher reserviert oder verwendet";
    "Of {} {} whose least rest is over, {} were {}, on {} different days; {} wait still, {} left another way."
        => "{} {} mit abgelaufener kürzester Ruhezeit: davon {} {}, an {} verschiedenen Tagen; {} warten noch, {} schieden anders aus.";
    "{} went on before their least rest was over, and count as no day longer."
        => "{} gingen weiter, bevor ihre kürzeste Ruhezeit vorbei war, und zählen mit 0 Tagen.";
    "{}: plans keep to the least rest here. It takes {} that went on, and half of all."
        => "{}: Pläne rechnen hier mit der kürzesten Ruhezeit. Nötig sind {}, die weitergingen, und die Hälfte von allen.";
    "your own record" => "deine eigene Aufzeichnung";
    "Not in the pieces" => "Nicht in den Stücken";
    "as weighed last before the cut" => "wie zuletzt vor dem Zuschnitt gewogen";
    "all pieces, as weighed first" => "alle Stücke, wie zuerst gewogen";
    "dust, waste and the water that went between the weighings"
        => "Sägespäne, Verschnitt und das Wasser, das zwischen den Wägungen verdunstet ist";
    "a difference" => "eine Differenz";
    "Weight of all together" => "Gewicht aller zusammen";
    "each, as weighed last" => "jede, wie zuletzt gewogen";
    "before it was glued and planed" => "bevor er verleimt und gehobelt wurde";
    "{} {}, worked out over {} pieces: too many to be told one by one. What was cut is its part by volume of what it was cut from, a blank all its laminates together."
        => "{} {}, über {} Stücke berechnet: zu viele, um sie einzeln zu nennen. Was geschnitten wurde, ist nach Volumen ein Anteil von dem, woraus es geschnitten wurde, ein Rohling alle seine Lamellen zusammen.";
    "the bills, each told on its plank's sheet" => "die Rechnungen, jede auf dem Blatt ihrer Bohle erklärt";
    "As weighed last and as the meter showed last." => "Wie zuletzt gewogen, und wie das Messgerät zuletzt anzeigte.";
    "The scales leave it open by ± {} kg (JCGM 100:2008, 95 of 100 cases)."
        => "Die Waagen lassen ± {} kg offen (JCGM 100:2008, 95 von 100 Fällen).";
    "the record: what was measured, machined or laid out"
        => "die Aufzeichnung: was gemessen, abgerichtet oder eingeteilt wurde";
    "{} {#} − {#} = {#} mm" => "{} {} − {} = {} mm";
    "{} all of it" => "{} ganz";
    "As laid out in {}: {}, {}, {}. What was measured or machined since takes its place: {}."
        => "Wie eingeteilt in {}: {}, {}, {}. Was seither gemessen oder abgerichtet wurde, gilt stattdessen: {}.";
    "its parent" => "seinem Ursprung";
    "along" => "längs";
    "across" => "quer";
    "through" => "durch";
    "The shortest length, the least width and all thicknesses together of {}; what was measured on the blank itself takes their place."
        => "Die kürzeste Länge, die kleinste Breite und alle Dicken zusammen von {}; was am Rohling selbst gemessen wurde, gilt stattdessen.";
    "As measured: {}. Of several widths the mean, of several thicknesses the mean."
        => "Wie gemessen: {}. Bei mehreren Breiten oder Dicken jeweils das Mittel.";
    "{} kg, as weighed last." => "{} kg, wie zuletzt gewogen.";
    "the scale's reading" => "die Anzeige der Waage";
    "In the order of {}. Glue and planing are not in it." => "In der Reihenfolge {}. Leim und Hobelabtrag sind nicht enthalten.";
    "{} cost {} {}, tax included." => "{} hat {} {} gekostet, mit Steuer.";
    "{#} of {#}" => "{} von {}";
    "Step by step: {}. Like parts are told once." => "Schritt für Schritt: {}. Gleiche Teile sind einmal genannt.";
    "Density at 12 % of each laminate by its own weight, size and moisture; where it was not weighed, its plank's."
        => "Dichte bei 12 % jeder Lamelle aus eigenem Gewicht, Maß und Holzfeuchte; wo sie nicht gewogen wurde, die ihrer Bohle.";
    "The usual stiffness of each wood at 12 %, as the table of woods has it: none of these was measured."
        => "Der übliche E-Modul jedes Holzes bei 12 %, wie er in der Tabelle der Hölzer steht: Keines davon wurde gemessen.";
    "Each twist counts by how hard its laminate alone is to twist. The glued blank is harder to twist than all of them together, and keeps as much less: {}."
        => "Jede Verdrehung zählt danach, wie schwer sich ihre Lamelle allein verdrehen lässt. Der verleimte Rohling lässt sich schwerer verdrehen als alle zusammen und behält entsprechend weniger: {}.";
    "torsion of a layered rectangle, no creep: derived here"
        => "Torsion eines geschichteten Rechtecks, ohne Kriechen: hier hergeleitet";
    "The shortest length, the least width, all thicknesses together: {}."
        => "Die kürzeste Länge, die kleinste Breite, alle Dicken zusammen: {}.";
    "all planed to the narrowest and cut to the shortest"
        => "alle auf die schmalste gehobelt und auf die kürzeste abgelängt";
    "set to rest anew {}" => "ruht neu seit {}";
    "downgraded" => "abgestuft";
    "Rest over: {} {} set to rest {}" => "Ruhezeit vorbei: {} {}, ruht seit {}";
    "Gone: {} set to rest {}" => "Entfällt: {}, ruht seit {}";
    "From one side to the other: {}; {} mm deep. As last measured or machined; what was planed off the blank since is taken off both sides alike."
        => "Von einer Seite zur anderen: {}; {} mm tief. Wie zuletzt gemessen oder abgerichtet; was seither vom Rohling gehobelt wurde, ist auf beiden Seiten gleich abgezogen.";
    "more than {}" => "mehr als {}";
    "Your counts leave {} to {} planks open (95 of 100 cases)."
        => "Deine Zählungen lassen {} bis {} Bohlen offen (95 von 100 Fällen).";
    "{} For each of the 256 places by itself the least number of planks that is enough; the least and the most 2.5 % are left out."
        => "{} Für jede der 256 Stellen einzeln die kleinste Zahl von Bohlen, die reicht; die kleinsten und die größten 2,5 % sind weggelassen.";
    "0: fewer than two planks of which any is decided, or all of them alike."
        => "0: weniger als zwei Bohlen, bei denen etwas entschieden ist, oder alle gleich.";
    "the maker's own counts" => "deine eigenen Zählungen";
    "What it weighed before it came into its room on {} is left out." => "Was es wog, bevor es am {} in seinen Raum kam, zählt nicht mit.";
    "The stick counts from {}." => "Die Leiste zählt ab {}.";
    "{} is before {}, when it begins. Really?" => "{} ist vor {}, wo es beginnt. Stimmt das?";
    "That is before {}, the last day in its history. Really?"
        => "Das ist vor {}, dem letzten Tag in seinem Verlauf. Stimmt das?";
    "heavier" => "schwerer";
    "lighter" => "leichter";
    "{#}, but {#} on {#}: {#} % {}?" => "{}, aber {} am {}: {} % {}?";
    "Its weight and size make {}, lighter than wood for necks is?" => "Aus Gewicht und Maßen ergeben sich {}: leichter, als Holz für Hälse ist?";
    "The stick weighs {}, but {} on {}: is it that stick?"
        => "Die Leiste wiegt {}, aber {} am {}: Ist es diese Leiste?";
    "{}, but it was {} before it was machined?" => "{}, aber vor dem Abrichten war es {}?";
    "{}, where your limit is {}?" => "{}, wo deine Grenze {} ist?";
    "{#} in {#}?" => "{} auf {}?";
    "{}: is there a room with such air?" => "{}: Gibt es einen Raum mit solcher Luft?";
    "{}: was it read in the other unit?" => "{}: in der anderen Einheit gelesen?";
    "{} hours in clamps?" => "{} Stunden in Zwingen?";
    "Possible" => "Möglich";
    "Likely" => "Wahrscheinlich";
    "the place in the pile" => "der Platz im Stapel";
    "measurement" => "Messung";
    "defect" => "Fehler";
    "nothing that was measured" => "nichts Gemessenes";
    "Mark" => "Zeichen";
    "Yard" => "Holzhof";
    "Day" => "Tag";
    "Size" => "Maß";
    "Density at 12 %" => "Dichte bei 12 %";
    "Score" => "Punkte";
    "Verdict" => "Urteil";
    "Weakest" => "Am schwächsten";
    "Decision" => "Entscheidung";
    "Reasons" => "Gründe";
    "Cost with tax" => "Kosten mit Steuer";
    "Cost a part" => "Kosten je Teil";
    "What it cost is told beside its cost; the parts are those that it holds."
        => "Was sie gekostet hat, ist bei ihren Kosten erklärt; die Teile sind die, die sie ergibt.";
    "{}, as supplied" => "{}, wie mitgeliefert";
    "Left of the budget" => "Vom Budget übrig";
    "the visit's budget" => "das Budget des Besuchs";
    "to pay, with tax" => "zu zahlen, mit Steuer";
    "less than nothing: over the budget" => "kleiner als 0: über dem Budget";
    "For the planks still needed" => "Für die noch benötigten Bohlen";
    "planks still needed" => "noch benötigte Bohlen";
    "mean of the planks so far" => "Mittel der Bohlen bisher";
    "planks like those so far" => "Bohlen wie die bisherigen";
    "taken on this visit" => "bei diesem Besuch gekauft";
    "ever taken, for none of this visit has a price yet"
        => "je gekauft, denn bei diesem Besuch hat noch keine einen Preis";
    "The mean is that of {} planks {}." => "Das Mittel ist das von {} Bohlen, {}.";
    "Tax" => "Steuer";
    "with tax" => "mit Steuer";
    "without tax" => "ohne Steuer";
    "both to the cent" => "beide auf den Cent";
    "Gap: theirs less ours" => "Differenz: Händler minus du";
    "Their total as the prices are" => "Summe des Händlers, wie die Preise sind";
    "their total, as they say it" => "Summe des Händlers, wie er sie nennt";
    "tax by which it differs from the prices" => "Steuer, um die sie von den Preisen abweicht";
    "any; the tax is less than 0 where the prices hold it and the total does not" => "beliebig; die Steuer ist kleiner als 0, wo die Preise sie enthalten und die Summe nicht";
    "by the yard's tally" => "nach dem Aufmaß des Händlers";
    "by the agreed rule" => "nach der vereinbarten Regel";
    "The yard's money is not known here: the gap is what so much wood costs by the visit's terms."
        => "Der Betrag des Händlers ist hier nicht bekannt: Die Differenz ist, was so viel Holz zu den Bedingungen des Besuchs kostet.";
    "a sum over the planks taken" => "eine Summe über die gekauften Bohlen";
    "Each to the cent. The total is rounded once, from the unrounded sum, so it may be a cent away from these."
        => "Jeder Betrag auf den Cent gerundet. Die Summe wird einmal gerundet, aus den ungerundeten Beträgen, und kann darum um einen Cent abweichen.";
    "not known, not in the sum" => "unbekannt, nicht in der Summe";
    "The sum of {}." => "Die Summe aus {}.";
};
