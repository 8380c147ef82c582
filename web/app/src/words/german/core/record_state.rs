//! German: what core says of where a piece is in its life.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "it was cut, glued, discarded or used already"
        => "es wurde schon zugeschnitten, verleimt, ausgesondert oder verwendet";
    "where it comes from is itself in doubt" => "seine Herkunft ist selbst zweifelhaft";
    "its family goes in a circle: it would come from itself" => "seine Herkunft läuft im Kreis: es käme aus sich selbst";
    "it was deleted" => "es wurde gelöscht";
    "it has begun already" => "es hat schon begonnen";
    "it is reserved for somebody else" => "es ist für jemand anderen reserviert";
    "at the yard" => "auf dem Holzhof";
    "in the workshop" => "in der Werkstatt";
    "resting" => "ruht";
    "reserved" => "reserviert";
    "missing" => "vermisst";
    "glued up" => "verleimt";
    "discarded" => "ausgesondert";
    "in doubt" => "zweifelhaft";
};
