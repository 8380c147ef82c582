//! Labels and hints of fields, and the names of what can be done with a piece: by their stored names, which never
//! change, while what is shown is free to.

/// A field's label and the hint below it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FieldLabel {
    /// Its label.
    pub label: &'static str,
    /// The hint; often empty.
    pub hint: &'static str,
}

/// Stored name, label, hint.
pub type FieldLine = (&'static str, &'static str, &'static str);

/// In English. A field that is not in the list is called as it is stored.
pub const ENGLISH: &[FieldLine] = &[
    ("tool length", "Length, mm", ""),
    ("tool width", "Width, mm", ""),
    ("tool thickness", "Thickness, mm", ""),
    ("tool scale", "Scale, kg", ""),
    ("tool place", "Bearer's place, mm", ""),
    ("tool meter", "Moisture meter, %", ""),
    ("tool temperature", "Thermometer, °C", ""),
    ("tool gap", "Gap under the string, mm", ""),
    ("tool slope", "Grain over 300 mm, mm", ""),
    ("tool ring angle", "Ring angle, degrees", ""),
    ("tool ring dip", "Ring dip, mm", ""),
    ("Good blanks wanted", "Blanks needed", ""),
    ("Laminates in a blank", "Laminates in a blank", ""),
    ("Ready by", "Ready by", ""),
    ("how sure", "How sure", ""),
    ("wood", "Of which wood", ""),
    ("Name of the wood", "Name of the wood", "As the yard says it. Planks recorded under this name get its numbers."),
    ("Botanical name", "Botanical name", "If it is known."),
    ("Note on the wood", "Note on the wood", ""),
    ("Shelf", "Rack", "It arrived, was moved, or was found again."),
    ("Step of the scale", "Step of the scale", "The least that it shows, as 1 g."),
    ("Witness stick", "Witness stick", "A stick of the same wood that lies with it."),
    ("Depth of the pins", "Depth of the pins", ""),
    ("Marked face and edge", "Marked face and edge", "Signs refer to them from here on."),
    ("Rings on the near end", "Rings on the near end", "It stands on edge: marked edge up, marked face to the right, as it stood in its plank."),
    ("Grain on the marked face", "Grain on the marked face", "The near end to the left, the marked edge up."),
    ("Gap", "Gap", "Plus: it opens, or the prongs spread. Minus: they close."),
    ("chosen", "Which", ""),
    ("reasons", "Why", "The first is the main reason."),
    ("measure", "Footage", ""),
    ("width", "Width", ""),
    ("length", "Length", ""),
    ("thickness", "Thickness", ""),
    ("basis", "Prices are per", ""),
    ("gross", "Prices include tax", ""),
    ("spec", "What the wood is for", ""),
    ("wood chosen", "Wood in the table", ""),
    ("has rule", "It has billing rules of its own", ""),
    ("Moisture, %", "Moisture of the pile", ""),
    ("What it became", "Used for", ""),
    ("For whom", "Reserved for", ""),
    ("Until, the last day", "Until, the last day", ""),
    ("To what use", "Downgrade to", ""),
];

/// In English: stored name of a command, what it is called.
pub const ENGLISH_COMMANDS: &[(&str, &str)] = &[
    ("Put on a shelf", "Put on a rack"),
    ("Throw out", "Discard"),
    ("Another use", "Downgrade"),
    ("Not found", "Missing"),
    ("Keep for somebody", "Reserve"),
    ("Let it go", "Release"),
];

/// In English: stored name of a choice, what it is called.
pub const ENGLISH_CHOICES: &[(&str, &str)] = &[
    ("board_foot", "board foot"),
    ("cubic_metre", "m³"),
    ("piece", "piece"),
    ("kilogram", "kg"),
    ("exact", "exact"),
    ("surface_measure", "surface measure"),
    ("nominal", "as sold"),
    ("measured", "as measured"),
    ("none", "not rounded"),
    ("down", "rounded down"),
    ("nearest", "rounded to the nearest"),
    ("up", "rounded up"),
];
