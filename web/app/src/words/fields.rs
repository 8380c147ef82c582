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
pub const ENGLISH: &[FieldLine] = fields! {
    "tool length" => "Length, mm";
    "tool width" => "Width, mm";
    "tool thickness" => "Thickness, mm";
    "tool scale" => "Scale, kg";
    "tool place" => "Bearer's place, mm";
    "tool meter" => "Moisture meter, %";
    "tool temperature" => "Thermometer, °C";
    "tool gap" => "Gap under the string, mm";
    "tool slope" => "Grain over 300 mm, mm";
    "tool ring angle" => "Ring angle, degrees";
    "tool ring dip" => "Ring dip, mm";
    "Good blanks wanted" => "Blanks needed";
    "Laminates in a blank" => "Laminates in a blank";
    "Ready by" => "Ready by";
    "how sure" => "How sure";
    "wood" => "Of which wood";
    "Name of the wood" => "Name of the wood", "As the yard says it. Planks recorded under this name get its numbers.";
    "Botanical name" => "Botanical name", "If it is known.";
    "Note on the wood" => "Note on the wood";
    "Shelf" => "Rack", "Where it lies now.";
    "Step of the scale" => "Step of the scale", "The least that it shows, as 1 g.";
    "Witness stick" => "Witness stick", "A stick of the same wood that lies with it.";
    "Depth of the pins" => "Depth of the pins";
    "Marked face and edge" => "Marked face and edge", "Plus and minus refer to these from here on.";
    "Rings on the near end" => "Rings on the near end",
        "It stands on edge: marked edge up, marked face to the right, as it stood in its plank.";
    "Grain on the marked face" => "Grain on the marked face", "The near end to the left, the marked edge up.";
    "Gap" => "Gap", "Plus: it opens, or the prongs spread. Minus: they close.";
    "On the rack since" => "Since";
    "pieces left out" => "Which pieces";
    "chosen" => "Which rest";
    "reasons" => "Why", "The first is the main reason.";
    "measure" => "Footage";
    "width" => "Width";
    "length" => "Length";
    "thickness" => "Thickness";
    "basis" => "Prices are per";
    "gross" => "Prices include tax";
    "spec" => "What the wood is for";
    "wood chosen" => "Wood in the table";
    "has rule" => "It has billing rules of its own";
    "Moisture, %" => "Moisture of the pile";
    "kind" => "Cut to";
    "wanted" => "Rings worth a cut", "As the laminate stands on edge.";
    "width of a piece" => "Width, planed";
    "thickness of a laminate" => "Thickness of a laminate, planed";
    "planing" => "Planing off each face";
    "kerf" => "Kerf";
    "end trim" => "Trim off each end";
    "edge trim" => "Trim off each edge";
    "It sprang by" => "It sprang by", "How far the cut opened, plus, or closed, minus. Empty where it did neither.";
    "Over a length of" => "Over a length of";
    "Weeks in the room" => "Weeks in the room",
        "So long a plank lies on its rack before it is cut. Empty: as supplied.";
    "Bow: out beyond" => "Bow: reject over";
    "Bow: watched beyond" => "Bow: warn over";
    "Crook: out beyond" => "Crook: reject over";
    "Crook: watched beyond" => "Crook: warn over";
    "Twist: out beyond" => "Twist: reject over";
    "Twist: watched beyond" => "Twist: warn over";
    "Cup: out beyond" => "Cup: reject over";
    "Cup: watched beyond" => "Cup: warn over";
    "Limits hold over" => "Limits are for a length of", "A longer piece may bend by more.";
    "Room" => "Room", "Racks whose names begin so lie in it.";
    "Off by at most" => "Off by at most", "As 0.1 mm for a feeler. Empty: by eye.";
    "What it became" => "Used for";
    "For whom" => "Reserved for";
    "Until, the last day" => "Until, the last day";
    "To what use" => "Downgrade to";
    // A visit and a pile.
    "Yard" => "Yard";
    "Day" => "Day";
    "Currency" => "Currency", "Its code or sign, as EUR.";
    "Budget" => "Budget", "What may be spent, tax included.";
    "Tax, %" => "Tax, %";
    "Discount, %" => "Discount, %";
    "Percent added" => "Added by the yard, %";
    "Thickness it is sold as" => "Thickness it is sold as", "As 52, or 8/4.";
    "Price" => "Price";
    "Wood temperature" => "Wood temperature";
    "Invoice" => "Invoice", "Its number. It stands on the papers of what is made of this wood.";
    "Country of harvest" => "Country of harvest", "Where the trees were felled, for the papers.";
    "Name of the pile" => "Name of the pile", "As “back wall”.";
    // Sizes and limits, and the blanks needed.
    "laid" => "It lies in the plank";
    "a piece first" => "A piece is sawn and flattened first, ripped into parts later";
    "Blanks wanted" => "Blanks needed";
    "Saw cut, mm" => "Kerf, mm";
    "Cut off an end, mm" => "Trim off each end, mm";
    "Lost at the edges, mm" => "Trim off both edges together, mm";
    "Come through, %" => "Yield, %", "Of the parts that are begun, so many become good blanks.";
    "order" => "Order of the planks that pass";
    "limits follow the size" => "Limits follow from the part's size";
    "straight slab" => "Clean thickness";
    "crook" => "Remaining crook in the part";
    "density at 12 %" => "Density at 12 %";
    "slope of grain" => "Slope of grain";
    "ring angle" => "Ring angle";
    "moisture" => "Moisture";
    "size" => "Parts that a plank holds";
    "how sure" => "How sure", "So often the planks bought have to be enough.";
    "wood" => "Of which wood";
    "Adhesive" => "Glue";
    "Batch" => "Batch", "So that every blank of a bad batch can be found.";
    "Clamped, hours" => "Clamped, h";
    "Humidity, %" => "Room humidity, %";
    "Crook left, mm" => "Remaining crook, mm";
    "Twist, mm" => "Mean twist, mm";
    "Moisture apart, %" => "Difference in moisture, %";
    "Thickness apart, mm" => "Difference in thickness, mm";
    "Density apart, kg/m³" => "Difference in density, kg/m³";
    "Stiffness apart, a share" => "Difference in stiffness, as a share", "0.1 is a tenth.";
};

/// In English: stored name of a command, what it is called.
pub const ENGLISH_COMMANDS: &[(&str, &str)] = lines! {
    "Put on a shelf" => "Put on a rack";
    "Throw out" => "Discard";
    "Another use" => "Downgrade";
    "Not found" => "Missing";
    "Keep for somebody" => "Reserve";
    "Let it go" => "Release";
};

/// In English: stored name of a choice, what it is called.
pub const ENGLISH_CHOICES: &[(&str, &str)] = lines! {
    "board_foot" => "board foot";
    "cubic_metre" => "m³";
    "piece" => "piece";
    "kilogram" => "kg";
    "exact" => "exact";
    "surface_measure" => "surface measure";
    "nominal" => "as sold";
    "measured" => "as measured";
    "none" => "not rounded";
    "down" => "rounded down";
    "nearest" => "rounded to the nearest";
    "up" => "rounded up";
    "pieces" => "pieces";
    "laminates" => "laminates";
    "blanks" => "blanks";
    "laminate" => "laminates";
    "blank" => "one-piece blank";
    "Any" => "any";
    "NotFlat" => "quartersawn and rift";
    "Quartered" => "quartersawn only";
    "flat" => "flat";
    "on_edge" => "ripped and turned on edge";
    "score" => "by score";
    "cost_per_part" => "by the cost of a part";
};
