//! German. No native maker has read it yet. It speaks to the maker as "du".
//!
//! One word for one thing, after DIN EN 844 where the trade has no shorter one:
//!
//! | English | German |
//! |---|---|
//! | plank, rough piece, laminate, blank | Bohle, Rohstück (kurz: Stück), Lamelle, Rohling |
//! | face, edge; marked | Breitseite, Schmalseite (abgerichtet: Kante); angezeichnet |
//! | bow, crook | Flachkrümmung, Kantenkrümmung: the norm's Längskrümmung der Breitseite, der Schmalseite |
//! | cup, to cup; twist; rise of the corner | Querkrümmung, schüsseln; Verdrehung; Abheben |
//! | movement of the shape, it moved, it sprang | Verzug, verzogen, beim Sägen verzogen (gesprungen is cracked) |
//! | movement of the size | Quellen und Schwinden, Arbeiten |
//! | grain, slope of grain, runout | Faserverlauf (kurz: Faser), Faserabweichung, Faserauslauf |
//! | quartersawn, rift, flatsawn | stehende Jahrringe, Halbrift, liegende Jahrringe |
//! | rest, to rest, still, ready | Ruhezeit, ruhen, ruhig, bereit |
//! | what wood settles at; room air | Ausgleichsfeuchte; Raumklima |
//! | yard: the place, the seller | Holzhof, Händler |
//! | tally, piece tally, cut list | Aufmaß, Maßliste, Stückliste |
//! | buy, hold, reject, discard, downgrade | kaufen, vormerken, ablehnen, aussondern, abstufen |
//! | kerf, planing, trim of an end, of an edge | Schnittfuge, Hobelabtrag, Abschnitt, Besäumung |
//! | failed, came through, track record | ausgefallen, durchgekommen, Bilanz |
//! | basic specific gravity; specific gravity at a moisture | Raumdichtezahl; relative Dichte (Darrmasse) |
//! | save, bring in, correct (an entry, a reading) | sichern, einlesen, berichtigen, korrigieren |
//! | common practice, no source | gängige Praxis, ohne Quelle |

mod bill;
mod blanks;
mod book;
mod common;
pub mod core;
mod dates;
pub mod fields;
mod happened;
mod planks;
mod racks;
mod share;
pub mod table_file;
mod today;
mod track;
pub mod wood_names;
mod woods;
mod workshop;
mod yard;
