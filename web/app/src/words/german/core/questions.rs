//! German: what core says of quick questions.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "Air temperature" => "Lufttemperatur";
    "Relative humidity" => "Relative Luftfeuchte";
    "Moisture to keep" => "Zu haltende Holzfeuchte";
    "Meter shows" => "Messgerät zeigt";
    "Holds from −1 to 93 °C and 0 to 98 % humidity; for a real piece claim no better than ±1 %. Wood Handbook, FPL-GTR-282 (2021), equation 4-5, the newer 4-6."
        => "Gilt von −1 bis 93 °C und 0 bis 98 % Luftfeuchte; bei einem wirklichen Stück nicht genauer als ±1 %. Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-5, die neuere 4-6.";
    "What moisture does wood settle at?" => "Welche Ausgleichsfeuchte nimmt Holz an?";
    "in this air" => "in dieser Luft";
    "air that keeps it" => "Luft, in der sie bleibt";
    "Wood settles at" => "Ausgleichsfeuchte";
    "by the newer equation" => "nach der neueren Gleichung";
    "{#} RH" => "{} rF";
    "The equation is solved for the humidity by halving; here it is with the humidity found."
        => "Die Gleichung wird durch Halbieren nach der Luftfeuchte gelöst; hier steht sie mit der gefundenen Luftfeuchte.";
    "Kept by a humidity of" => "Sie bleibt bei einer Luftfeuchte von";
    "What does the meter mean in cold wood?" => "Was bedeutet die Anzeige des Messgeräts in kaltem Holz?";
    "A pin meter calibrated at 20 °C, from 6 to 30 %; the meter's own paper decides. Wood Handbook, FPL-GTR-190 (2010), chapter 13."
        => "Ein Einstechmessgerät, bei 20 °C kalibriert, von 6 bis 30 %; maßgeblich ist die Anleitung des Geräts. Wood Handbook, FPL-GTR-190 (2010), Kapitel 13.";
    "Mass as it was" => "Masse vor dem Darren";
    "Mass oven-dry" => "Darrmasse";
    "What was the moisture, by oven-drying?" => "Wie hoch war die Holzfeuchte, nach der Darrprobe?";
    "Dried at 103 °C until it loses no more; mind the fire. A definition: ASTM D4442 (from memory)."
        => "Bei 103 °C getrocknet, bis es nichts mehr verliert; Vorsicht mit Feuer. Eine Definition: ASTM D4442 (aus dem Gedächtnis).";
    "Wood" => "Holz";
    "Width across the grain" => "Breite quer zur Faser";
    "Ring angle to the face" => "Jahrringwinkel zur Breitseite";
    "Moisture from" => "Holzfeuchte von";
    "Moisture to" => "Holzfeuchte bis";
    "Humidity from" => "Luftfeuchte von";
    "Humidity to" => "Luftfeuchte bis";
    "Density" => "Dichte";
    "Measured at moisture" => "Gemessen bei Holzfeuchte";
    "Wanted at moisture" => "Gewünscht bei Holzfeuchte";
    "How much does a width shrink or swell?" => "Wie viel schwindet oder quillt eine Breite?";
    "between moistures" => "zwischen Holzfeuchten";
    "between humidities" => "zwischen Luftfeuchten";
    "Wood settles from" => "Ausgleichsfeuchte von";
    "{} Air: {}" => "{} Luft: {}";
    "this wood" => "dieses Holz";
    "how {} shrinks is not known: add its radial and tangential shrinkage as your own data"
        => "wie {} schwindet, ist nicht bekannt: füge radiales und tangentiales Schwindmaß als deine eigenen Daten hinzu";
    "It shrinks by" => "Sie schwindet um";
    "It swells by" => "Sie quillt um";
    "Change coefficient, 6 to 14 % moisture, good to about 5 % of the change: Wood Handbook, FPL-GTR-190 (2010), equation 13-2."
        => "Änderungszahl, 6 bis 14 % Holzfeuchte, auf etwa 5 % der Änderung genau: Wood Handbook, FPL-GTR-190 (2010), Gleichung 13-2.";
    "Total shrinkage, 0 to 30 % moisture: Wood Handbook, FPL-GTR-190 (2010), equation 13-3."
        => "Gesamtes Schwindmaß, 0 bis 30 % Holzfeuchte: Wood Handbook, FPL-GTR-190 (2010), Gleichung 13-3.";
    "radial {}, tangential {}" => "radial {}, tangential {}";
    "{} Numbers of {}: {}." => "{} Zahlen von {}: {}.";
    "and is then" => "und misst dann";
    "What is the density at another moisture?" => "Wie groß ist die Dichte bei anderer Holzfeuchte?";
    "Both moistures from 0 to 30 %; mass and volume change together, specific gravity is oven-dry mass. Wood Handbook, FPL-GTR-282 (2021), equations 4-13 and 4-14."
        => "Beide Holzfeuchten von 0 bis 30 %; Masse und Volumen ändern sich zusammen, die relative Dichte rechnet mit der Darrmasse. Wood Handbook, FPL-GTR-282 (2021), Gleichungen 4-13 und 4-14.";
    "Density at {}" => "Dichte bei {}";
    "Specific gravity there" => "Relative Dichte (Darrmasse) dort";
    "Radius of the ring at mid-width" => "Radius des Jahrrings in der Mitte der Breite";
    "How much does a board cup as it dries?" => "Wie stark schüsselt ein Brett beim Trocknen?";
    "how this wood shrinks is not known" => "wie dieses Holz schwindet, ist nicht bekannt";
    "on the bark side" => "auf der Rindenseite";
    "on the pith side" => "auf der Markseite";
    "nowhere" => "nirgends";
    "A board sawn evenly about the pith, free to move, alike all over: every ring and every radius shrinks by its own share. Derived: geometry, with the shrinkage of the Wood Handbook."
        => "Ein symmetrisch zur Markröhre gesägtes Brett, frei beweglich, überall gleich: Jeder Jahrring und jeder Radius schwindet um seinen eigenen Anteil. Hergeleitet: Geometrie, mit den Schwindmaßen des Wood Handbook.";
    "It moves by" => "Änderung";
    "Cup, the gap under a straightedge" => "Querkrümmung, der Spalt unter einem Lineal";
    "Hollow" => "Hohl";
    "Its width is then" => "Seine Breite ist dann";
    "Coolest" => "Am kühlsten";
    "Warmest" => "Am wärmsten";
    "Least humid" => "Am trockensten";
    "Most humid" => "Am feuchtesten";
    "Moisture when planed" => "Holzfeuchte beim Hobeln";
    "What does the workshop's year do to a width?" => "Was macht das Jahr in der Werkstatt mit einer Breite?";
    "The least and the most of the four: warm and dry, cool and dry, warm and damp, cool and damp."
        => "Das kleinste und das größte der vier: warm und trocken, kühl und trocken, warm und feucht, kühl und feucht.";
    "Free to move, and long enough in each air to settle. Air: {} Movement: Wood Handbook, FPL-GTR-190 (2010), equations 13-2 and 13-3."
        => "Frei beweglich, und lange genug in jeder Luft, um sich anzugleichen. Luft: {} Quellen und Schwinden: Wood Handbook, FPL-GTR-190 (2010), Gleichungen 13-2 und 13-3.";
    "At the driest" => "Am trockensten";
    "At the dampest" => "Am feuchtesten";
    "Wood settles between" => "Ausgleichsfeuchte zwischen";
    "{#} and {#}" => "{} und {}";
    "Gap under the string" => "Spalt unter der Schnur";
    "over a length of" => "über eine Länge von";
    "Kink at, from an end" => "Knick bei, von einem Ende";
    "Length of the blank" => "Länge des Rohlings";
    "Thickness of the plank" => "Dicke der Bohle";
    "Planing, each face" => "Hobelabtrag je Seite";
    "Grain on the face" => "Faser auf der Breitseite";
    "Grain on the edge" => "Faser auf der Schmalseite";
    "What does a bow do to a blank?" => "Was macht eine Flachkrümmung mit einem Rohling?";
    "even curve" => "gleichmäßiger Bogen";
    "Gap with the kink inside" => "Spalt mit dem Knick im Stück";
    "The kink as near mid-blank as the plank allows, where it costs most. Derived: geometry of small angles."
        => "Der Knick so nahe an der Mitte des Rohlings, wie es die Bohle erlaubt; dort kostet er am meisten. Hergeleitet: Geometrie kleiner Winkel.";
    "Gap over the blank" => "Spalt auf der Länge des Rohlings";
    "An even curve, d (l/L)², within 0.2 % up to a gap of L/50. Derived: geometry."
        => "Ein gleichmäßiger Bogen, d (l/L)², auf 0,2 % genau bis zu einem Spalt von L/50. Hergeleitet: Geometrie.";
    "with the cut on the kink" => "mit dem Schnitt im Knick";
    "nothing" => "nichts";
    "Straight slab left, cut first" => "Verbleibende nutzbare Dicke, zuerst zugeschnitten";
    "the same, cut on the kink" => "dasselbe, mit dem Schnitt im Knick";
    "How steep is the grain over both faces?" => "Wie steil läuft die Faser, beide Seiten zusammen?";
    "The root of both squares, for any slopes. Derived: geometry."
        => "Die Wurzel aus beiden Quadraten, für jede Neigung. Hergeleitet: Geometrie.";
    "Slope of grain" => "Faserabweichung";
    "It runs out over the blank by" => "Auf der Länge des Rohlings läuft sie aus um";
    "Width" => "Breite";
    "How many" => "Wie viele";
    "Price" => "Preis";
    "How much wood is it, and what does it cost?" => "Wie viel Holz ist es, und was kostet es?";
    "price per bd ft" => "Preis je bd ft";
    "per m³" => "je m³";
    "per piece" => "je Stück";
    "Footage of all" => "Holzmenge zusammen";
    "of one piece" => "je Stück";
    "pieces" => "Stücke";
    "arithmetic" => "Rechnung";
    "more digits than any yard has wood" => "mehr Ziffern, als ein Händler Holz hat";
    "Nothing rounded, as measured; a yard's own rule may say otherwise. By definition: 1 bd ft is 1 ft × 12 in × 1 in, 1 m³ is 423.776 bd ft."
        => "Nichts gerundet, wie gemessen; die Regel eines Händlers kann anders sein. Nach Definition: 1 bd ft ist 1 ft × 12 in × 1 in, 1 m³ sind 423,776 bd ft.";
    "Board feet" => "Board Feet";
    "Cubic metres" => "Kubikmeter";
    "How heavy will it be?" => "Wie schwer wird es?";
    "Density × volume, at one moisture; a parallel plank. A definition."
        => "Dichte × Volumen, bei einer Holzfeuchte; eine parallel besäumte Bohle. Eine Definition.";
    "Angle of the head" => "Winkel der Kopfplatte";
    "Grain in side view" => "Faser in der Seitenansicht";
    "Which end is the headstock?" => "Welches Ende wird die Kopfplatte?";
    "Side view, fingerboard up, the head tilted back; an even slope. The less the grain slopes in the head, the farther its fibres run through it, and the harder it breaks. Derived: geometry."
        => "Seitenansicht, Griffbrett oben, die Kopfplatte nach hinten abgewinkelt; eine gleichmäßige Neigung. Je weniger die Faser in der Kopfplatte abweicht, desto weiter laufen die Fasern durch sie hindurch, und desto schwerer bricht sie. Hergeleitet: Geometrie.";
    "Put the head" => "Die Kopfplatte gehört dahin,";
    "at the end that the grain falls towards" => "an das Ende, zu dem hin die Faser abfällt";
    "either end" => "an eines von beiden, gleich welches";
    "Grain in the head there" => "Faser in der Kopfplatte dort";
    "Grain in the head at the other end" => "Faser in der Kopfplatte am anderen Ende";
    "Length of the bar" => "Länge des Stabs";
    "Its first note along the length" => "Sein erster Längston";
    "How stiff is a bar, by tapping its end?" => "Wie steif ist ein Stab, den man am Ende anklopft?";
    "Held loosely at mid-length and tapped on its end; the note found with any spectrum of a recording. It lies above what a slow bend would give: +22 % for Scots pine (Hassan 2013, read). Standard theory of the thin free bar, from memory."
        => "Locker in der Mitte gehalten und am Ende angeklopft; den Ton zeigt jedes Spektrum einer Aufnahme. Der Wert liegt über dem, was langsames Biegen ergäbe: +22 % bei Kiefer (Hassan 2013, gelesen). Übliche Theorie des dünnen freien Stabs, aus dem Gedächtnis.";
    "Modulus of elasticity" => "E-Modul";
    "Speed of sound" => "Schallgeschwindigkeit";
    "Stiffness for its weight" => "Steifigkeit im Verhältnis zum Gewicht";
};
