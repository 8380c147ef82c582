//! German: what core says of the numbers of woods.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "No special report." => "Keine besonderen Berichte.";
    "Reported to irritate skin, eyes or airways." => "Reizt nach Berichten Haut, Augen oder Atemwege.";
    "Reported as a sensitiser: once allergic, a little is enough to bring it on."
        => "Löst nach Berichten Allergien aus: Wer einmal allergisch ist, dem genügt schon wenig.";
    "Not known here: treat it as a sensitiser." => "Hier nicht bekannt: Behandle ihn, als löse er Allergien aus.";
    "{} All wood dust harms: catch it where it is made, and follow your local rules and your doctor."
        => "{} Jeder Holzstaub schadet: Saug ihn ab, wo er entsteht, halte dich an die Vorschriften bei dir, und frag deinen Arzt.";
    "CITES Appendix {} ({}), as of {}, {}." => "CITES-Anhang {} ({}), Stand {}, {}.";
    "No CITES listing known here." => "Hier ist keine CITES-Listung bekannt.";
    "CITES listing not known: no data." => "CITES-Listung unbekannt: keine Daten.";
    "{} Lists change: check before you buy or ship."
        => "{} Listen ändern sich: Prüfe das, bevor du kaufst oder versendest.";
    "a width of {} mm: it has to be more than nothing" => "eine Breite von {} mm: sie muss größer als 0 sein";
    "the pith {} mm off: a board that holds it splits rather than cups"
        => "die Markröhre {} mm entfernt: ein solches Brett reißt eher, als dass es schüsselt";
    "a change of {} of the size is not that of wood" => "eine Änderung um {} des Maßes gibt es bei Holz nicht";
    "A line {} mm wide, the pith {} mm below it. Every point at radius r and angle a about the pith goes to r · (1 + eR) and a · (1 + eT) / (1 + eR), with eR = {} and eT = {}, what the radius and the ring change by between the two moistures."
        => "Eine Linie, {} mm breit, die Markröhre {} mm darunter. Jeder Punkt im Radius r und Winkel a um die Markröhre geht nach r · (1 + eR) und a · (1 + eT) / (1 + eR), mit eR = {} und eT = {}, worum Radius und Jahrring sich zwischen den beiden Holzfeuchten ändern.";
    "geometry: derived here, held against integration of the strains; shrinkage: Wood Handbook"
        => "Geometrie: hier hergeleitet, mit der Integration der Dehnungen verglichen; Schwinden: Wood Handbook";
    "The straight line between its ends is then {} mm long; the largest gap under it, {} mm, is looked for by thirds, sixty times."
        => "Die gerade Linie zwischen ihren Enden ist dann {} mm lang; der größte Spalt darunter, {} mm, wird durch Dritteln gesucht, sechzigmal.";
    "wood at {} % is too wet: density can be carried over only below 30 %"
        => "Holz mit {} % ist zu feucht: Dichte lässt sich nur unter 30 % umrechnen";
    "{} % is not a moisture content" => "{} % ist keine Holzfeuchte";
    "specific gravity {} is not that of wood: solid cell wall, the heaviest it could be, is 1.54"
        => "eine relative Dichte (Darrmasse) von {} gibt es bei Holz nicht: reine Zellwand, das Schwerste, was möglich ist, hat 1,54";
    "Specific gravity at the moisture measured" => "Relative Dichte (Darrmasse) bei der gemessenen Holzfeuchte";
    "density as measured" => "Dichte, wie gemessen";
    "0 to 30 % moisture" => "0 bis 30 % Holzfeuchte";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-14 turned round (read in a transcription)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-14 umgestellt (in einer Abschrift gelesen)";
    "Basic specific gravity" => "Raumdichtezahl";
    "specific gravity at that moisture" => "relative Dichte (Darrmasse) bei dieser Holzfeuchte";
    "0 to 30 % moisture; within 0.02 for most woods"
        => "0 bis 30 % Holzfeuchte; bei den meisten Hölzern auf 0,02 genau";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-13 turned round (read in two transcriptions)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-13 umgestellt (in zwei Abschriften gelesen)";
    "Specific gravity at the moisture wanted" => "Relative Dichte (Darrmasse) bei der gewünschten Holzfeuchte";
    "basic specific gravity" => "Raumdichtezahl";
    "moisture wanted" => "gewünschte Holzfeuchte";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-13 (read in two transcriptions)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-13 (in zwei Abschriften gelesen)";
    "Density at the moisture wanted" => "Dichte bei der gewünschten Holzfeuchte";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-14 (read in a transcription)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-14 (in einer Abschrift gelesen)";
    "{} °C is outside the published table, which runs from -1 to 93 °C"
        => "{} °C liegt außerhalb der veröffentlichten Tabelle, die von -1 bis 93 °C geht";
    "{} % relative humidity is outside the published table (0 to 98 %)"
        => "{} % relative Luftfeuchte liegt außerhalb der veröffentlichten Tabelle (0 bis 98 %)";
    "no humidity between 0 and 98 % keeps wood at {} %" => "bei keiner Luftfeuchte zwischen 0 und 98 % bleibt Holz bei {} %";
    "Molar weight of the wood that binds one molecule" => "Molmasse des Holzes, das ein Molekül bindet";
    "temperature" => "Temperatur";
    "−1 to 93 °C" => "−1 bis 93 °C";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-5 (in einer Abschrift gelesen)";
    "Dissolved water against the air's" => "Gelöstes Wasser gegen das der Luft";
    "First hydrate" => "Erstes Hydrat";
    "Second hydrate" => "Zweites Hydrat";
    "Moisture that wood settles at" => "Ausgleichsfeuchte";
    "from the temperature" => "aus der Temperatur";
    "relative humidity, as a share" => "relative Luftfeuchte, als Anteil";
    "0 to 98 % relative humidity; for a real piece claim no better than ±1 %"
        => "0 bis 98 % relative Luftfeuchte; bei einem wirklichen Stück nicht genauer als ±1 %";
    "Scale, from the temperature" => "Maßstab, aus der Temperatur";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-6 (coefficients read in a transcription)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-6 (Koeffizienten in einer Abschrift gelesen)";
    "Exponent, from the temperature" => "Exponent, aus der Temperatur";
    "Moisture that wood settles at, by the newer equation"
        => "Ausgleichsfeuchte, nach der neueren Gleichung";
    "scale" => "Maßstab";
    "exponent" => "Exponent";
    "0 to 98 % relative humidity" => "0 bis 98 % relative Luftfeuchte";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-6, after Glass and others 2014, FPL-GTR-229"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-6, nach Glass und anderen 2014, FPL-GTR-229";
    "Humidity that keeps it, by the newer equation" => "Luftfeuchte, bei der sie bleibt, nach der neueren Gleichung";
    "moisture to keep" => "zu haltende Holzfeuchte";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-7 (read in a transcription)"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-7 (in einer Abschrift gelesen)";
    "{} %: above 30 the meter only says wet" => "{} %: über 30 zeigt das Messgerät nur noch „nass“";
    "{} %: below 6 a pin meter can't tell how dry it is"
        => "{} %: unter 6 kann ein Einstechmessgerät nicht zeigen, wie trocken es ist";
    "wood at {} °C: the correction holds from -20 to 60 °C"
        => "Holz bei {} °C: die Korrektur gilt von -20 bis 60 °C";
    "Moisture, corrected for the wood's temperature" => "Holzfeuchte, für die Holztemperatur korrigiert";
    "what the meter shows" => "was das Messgerät zeigt";
    "temperature of the calibration" => "Temperatur der Kalibrierung";
    "temperature of the wood" => "Temperatur des Holzes";
    "6 to 30 %, wood from −20 to 60 °C" => "6 bis 30 %, Holz von −20 bis 60 °C";
    "Wood Handbook, FPL-GTR-190 (2010), chapter 13: about 0.5 % for 5.6 °C (read)"
        => "Wood Handbook, FPL-GTR-190 (2010), Kapitel 13: etwa 0,5 % je 5,6 °C (gelesen)";
    "a mass of {} kg: it has to be more than nothing" => "eine Masse von {} kg: sie muss größer als 0 sein";
    "{} kg is lighter than its oven-dry mass of {} kg: were the two mixed up?"
        => "{} kg ist leichter als die Darrmasse von {} kg: wurden beide verwechselt?";
    "Moisture by oven-drying" => "Holzfeuchte durch Darren";
    "as it was" => "vor dem Darren";
    "oven-dry" => "darrtrocken";
    "dried at 103 °C until it loses no more" => "bei 103 °C getrocknet, bis es nicht mehr leichter wird";
    "Wood Handbook, FPL-GTR-282 (2021), equation 4-1 (its number from memory); ASTM D4442"
        => "Wood Handbook, FPL-GTR-282 (2021), Gleichung 4-1 (ihre Nummer aus dem Gedächtnis); ASTM D4442";
    "{} is not that of wood: it lies between {} and {}" => "{} gibt es bei Holz nicht: der Wert liegt zwischen {} und {}";
    "Mass and volume at 12 % moisture." => "Masse und Volumen bei 12 % Holzfeuchte.";
    "Usual density from" => "Übliche Dichte von";
    "Where most densities at 12 % begin." => "Wo die meisten Dichten bei 12 % beginnen.";
    "Usual density to" => "Übliche Dichte bis";
    "Where most densities at 12 % end." => "Wo die meisten Dichten bei 12 % enden.";
    "Oven-dry mass over green volume, over water."
        => "Darrmasse durch Volumen in saftfrischem Zustand, bezogen auf Wasser.";
    "Radial shrinkage" => "Schwindmaß radial";
    "Green to oven-dry, across the rings." => "Saftfrisch bis darrtrocken, quer zu den Jahrringen.";
    "Tangential shrinkage" => "Schwindmaß tangential";
    "Green to oven-dry, along the rings." => "Saftfrisch bis darrtrocken, entlang der Jahrringe.";
    "Volumetric shrinkage" => "Volumenschwindmaß";
    "Green to oven-dry, of the volume." => "Saftfrisch bis darrtrocken, vom Volumen.";
    "Stiffness E at 12 %" => "E-Modul bei 12 %";
    "Modulus of elasticity along the grain, at 12 %." => "E-Modul längs der Faser, bei 12 %.";
    "kg/m³, or with its unit" => "kg/m³, oder mit Einheit";
    "lb/ft³, or with its unit" => "lb/ft³, oder mit Einheit";
    "as 0.56" => "etwa 0,56";
    "%, green to oven-dry" => "%, saftfrisch bis darrtrocken";
    "GPa, or with MPa, psi, Mpsi" => "GPa, oder mit MPa, psi, Mpsi";
    "{} % is not a total shrinkage of wood" => "{} % ist kein gesamtes Schwindmaß von Holz";
    "{} %: change coefficients hold only from 6 to 14 % moisture"
        => "{} %: Änderungszahlen gelten nur von 6 bis 14 % Holzfeuchte";
    "{} %: wood shrinks and swells between 0 and 30 % moisture only"
        => "{} %: Holz schwindet und quillt nur zwischen 0 und 30 % Holzfeuchte";
    "{} is not a change coefficient of wood" => "{} ist keine Änderungszahl von Holz";
    "a ring angle lies between 0 and 90 degrees" => "ein Jahrringwinkel liegt zwischen 0 und 90 Grad";
    "Change of the dimension" => "Änderung des Maßes";
    "the dimension" => "das Maß";
    "change coefficient at this ring angle" => "Änderungszahl bei diesem Jahrringwinkel";
    "6 to 14 % moisture; the straight line is out by about 5 % of the change"
        => "6 bis 14 % Holzfeuchte; die gerade Linie liegt um etwa 5 % der Änderung daneben";
    "Wood Handbook, FPL-GTR-190 (2010), equation 13-2 (read)"
        => "Wood Handbook, FPL-GTR-190 (2010), Gleichung 13-2 (gelesen)";
    "total shrinkage at this ring angle" => "gesamtes Schwindmaß bei diesem Jahrringwinkel";
    "Wood Handbook, FPL-GTR-190 (2010), equation 13-3 (its use read, its printed form from memory)"
        => "Wood Handbook, FPL-GTR-190 (2010), Gleichung 13-3 (ihr Gebrauch gelesen, ihre gedruckte Form aus dem Gedächtnis)";
    "Between radial and tangential" => "Zwischen radial und tangential";
    "radially" => "radial";
    "tangentially" => "tangential";
    "of the angle from the log's radius" => "des Winkels vom Radius des Stamms";
    "any ring angle" => "jeder Jahrringwinkel";
    "textbook, from memory" => "Lehrbuch, aus dem Gedächtnis";
    "your data" => "deine Daten";
    "middle of the range" => "Mitte des Bereichs";
    "computed from the specific gravity at 12 %" => "aus der relativen Dichte (Darrmasse) bei 12 % berechnet";
    "computed from the basic specific gravity" => "aus der Raumdichtezahl berechnet";
    "computed from the total shrinkage" => "aus dem gesamten Schwindmaß berechnet";
    "computed from the change coefficient" => "aus der Änderungszahl berechnet";
    "read" => "gelesen";
    "a frequency, Hz," => "eine Frequenz, Hz,";
    "a slope" => "eine Neigung";
    "Strength left, of that of straight grain" => "Verbleibende Festigkeit, im Vergleich zu geradem Faserverlauf";
    "slope of the grain" => "Faserabweichung";
    "the row's slope that is just straighter" => "die Faserabweichung der Zeile, die gerade noch flacher ist";
    "the row's slope that is just steeper" => "die Faserabweichung der Zeile, die gerade schon steiler ist";
    "left at s₁" => "bleibt bei s₁";
    "left at s₂" => "bleibt bei s₂";
    "straight grain to 1 in 5; on a straight line between the rows"
        => "gerader Faserverlauf bis 1 zu 5; auf einer geraden Linie zwischen den Zeilen";
    "Wood Handbook, FPL-GTR-190 (2010), Table 5-12 (read)"
        => "Wood Handbook, FPL-GTR-190 (2010), Tabelle 5-12 (gelesen)";
    "{} of {}: it has to be more than nothing" => "{} von {}: der Wert muss größer als 0 sein";
    "{} of {}: it lies between {} and {}" => "{} von {}: es liegt zwischen {} und {}";
    "a stiffness, GPa," => "eine Steifigkeit, GPa,";
    "a length, mm," => "eine Länge, mm,";
    "Speed of sound along the grain" => "Schallgeschwindigkeit längs der Faser";
    "the first note along the length" => "der erste Längston";
    "a bar free at both ends" => "ein Stab, an beiden Enden frei";
    "standard theory of the free bar, from memory" => "übliche Theorie des freien Stabs, aus dem Gedächtnis";
    "density as rung" => "Dichte beim Anklopfen";
    "speed of sound" => "Schallgeschwindigkeit";
    "a bar thin beside the wavelength; above what a slow bend gives"
        => "ein Stab, dünn gegen die Wellenlänge; liegt über dem, was langsames Biegen ergibt";
    "standard theory of the thin bar, from memory" => "übliche Theorie des dünnen Stabs, aus dem Gedächtnis";
};
