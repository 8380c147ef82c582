//! German: what core says of the numbers of woods.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = &[
    (
        "Wood Handbook, FPL-GTR-190 (2010), Table 5-12 (read)",
        "Wood Handbook, FPL-GTR-190 (2010), Tabelle 5-12 (gelesen)",
    ),
    (
        "{} of {}: it has to be more than nothing",
        "{} von {}: es muss mehr als nichts sein",
    ),
    (
        "a bar {} times as long as it is thick: the formula holds from {} times",
        "ein Stab, {}-mal so lang wie dick: die Formel gilt ab {}-mal",
    ),
    (
        "bent by {} of the span: the formula holds up to a twentieth",
        "um {} der Stützweite gebogen: die Formel gilt bis zu einem Zwanzigstel",
    ),
    (
        "{} of {}: it lies between {} and {}",
        "{} von {}: es liegt zwischen {} und {}",
    ),
    (
        "{} %: stiffness can be carried over only between 6 and {} % moisture",
        "{} %: Steifigkeit lässt sich nur zwischen 6 und {} % Holzfeuchte umrechnen",
    ),
    ("bent by a weight", "durch ein Gewicht gebogen"),
    ("tapped, rung in bending", "geklopft, in Biegung schwingend"),
    (
        "tapped on the end, rung along its length",
        "am Ende geklopft, der Länge nach schwingend",
    ),
    ("timed with ultrasound", "mit Ultraschall gemessen"),
    ("a value at 12 %", "ein Wert bei 12 %"),
    ("a green value", "ein Wert in frischem Zustand"),
    ("a stiffness, GPa,", "eine Steifigkeit, GPa,"),
    (
        "a green stiffness, GPa,",
        "eine Steifigkeit in frischem Zustand, GPa,",
    ),
    ("an intersection moisture, %,", "eine Übergangsfeuchte, %,"),
    ("a length, mm,", "eine Länge, mm,"),
    (
        "Speed of sound along the grain",
        "Schallgeschwindigkeit längs der Faser",
    ),
    (
        "the first note along the length",
        "der erste Ton der Länge nach",
    ),
    ("a bar free at both ends", "ein Stab, an beiden Enden frei"),
    (
        "standard theory of the free bar, from memory",
        "übliche Theorie des freien Stabs, aus dem Gedächtnis",
    ),
    ("density as rung", "Dichte beim Klopfen"),
    ("speed of sound", "Schallgeschwindigkeit"),
    (
        "a bar thin beside the wavelength; above what a slow bend gives",
        "ein Stab, dünn gegen die Wellenlänge; über dem, was langsames Biegen ergibt",
    ),
    (
        "standard theory of the thin bar, from memory",
        "übliche Theorie des dünnen Stabs, aus dem Gedächtnis",
    ),
];
