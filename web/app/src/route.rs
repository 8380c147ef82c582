//! Which screen is shown: kept in the part of the address after `#`, so that the browser's own back key works
//! and every screen can be reloaded. Addresses that an earlier version wrote lead to the right screen.

use stillwood_core::record::Id;

/// One of the five places that the bar holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// What is to be done now.
    Today,
    /// Visits, piles, planks, the bill.
    Yard,
    /// Pieces at rest.
    Racks,
    /// Laminates to match, blanks.
    Blanks,
    /// Track record, plan, woods, files, settings.
    Book,
}

impl Place {
    /// All of them, as the bar shows them.
    pub const ALL: [Place; 5] = [
        Place::Today,
        Place::Yard,
        Place::Racks,
        Place::Blanks,
        Place::Book,
    ];

    /// Its first screen.
    pub fn first(self) -> Route {
        match self {
            Place::Today => Route::Today,
            Place::Yard => Route::Yard,
            Place::Racks => Route::Racks,
            Place::Blanks => Route::Blanks,
            Place::Book => Route::Book,
        }
    }
}

/// A screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Route {
    /// What is to be done now.
    Today,
    /// A search by mark, wood or reason.
    Find,
    /// The visits.
    Yard,
    /// A new visit.
    NewVisit,
    /// A visit to change.
    EditVisit(Id),
    /// A visit: its piles and planks.
    Visit(Id),
    /// What is wanted on a visit.
    Spec(Id),
    /// A new pile of a visit.
    NewPile(Id),
    /// A pile to change.
    EditPile(Id),
    /// The quick sort of a pile.
    Sort(Id),
    /// What a pile came to.
    PileSummary(Id),
    /// A plank being measured.
    Measure(Id),
    /// The verdict on a plank that is being measured.
    Verdict(Id),
    /// A plank's whole sheet.
    Plank(Id),
    /// A plank's mark, large, to be chalked.
    Mark(Id),
    /// Tally and bill of a visit.
    Tally(Id),
    /// What the seller may see.
    Seller(Id),
    /// All planks.
    Planks,
    /// The blanks needed, of a visit.
    Target(Id),
    /// The racks.
    Racks,
    /// One rack, by the id of its first piece.
    Rack(Id),
    /// A piece of wood in the workshop.
    Piece(Id),
    /// Something done with a piece, typed in.
    Deed(Id),
    /// A rack looked over for movement.
    LookOver,
    /// Rest times, limits and rooms.
    RestTimes,
    /// A plank or piece being cut.
    Cut(Id),
    /// A piece's label, to print.
    Label(Id),
    /// The label of the rack that a piece lies on, to print.
    RackLabel(Id),
    /// Laminates being matched and glued.
    Match,
    /// The gluing itself, of the laminates in hand.
    GlueUp,
    /// How far laminates that are glued together may be off.
    GluingLimits,
    /// The blanks.
    Blanks,
    /// A blank.
    Blank(Id),
    /// Blanks side by side, to be chosen from.
    SideBySide,
    /// The papers of a blank.
    Papers(Id),
    /// What the book holds.
    Book,
    /// Save and share.
    Share,
    /// What was brought in.
    BroughtIn,
    /// What was deleted.
    Deleted,
    /// What is to be settled.
    Settle,
    /// Quick questions, without a plank.
    QuickQuestions,
    /// The table of woods.
    Woods,
    /// A new wood of the maker's own.
    NewWood,
    /// A wood of the maker's own, to change.
    EditWood(Id),
    /// Units, tools, looks, storage.
    Settings,
    /// Cautions, sources, how the numbers are meant.
    About,
    /// What came through, by what was seen in the yard.
    TrackRecord,
    /// Plans forward and back.
    Plan,
}

impl Route {
    /// The address of the screen.
    pub fn address(self) -> String {
        let (word, id) = self.parts();
        match id {
            Some(id) => format!("#/{word}/{id}"),
            // An older version knows the form of a new visit by these words.
            None if self == Route::NewVisit => "#/visit/new".to_owned(),
            None => format!("#/{word}"),
        }
    }

    /// The id that it holds.
    pub fn id(self) -> Option<Id> {
        self.parts().1
    }

    fn parts(self) -> (&'static str, Option<Id>) {
        match self {
            Route::Today => ("", None),
            Route::Find => ("find", None),
            Route::Yard => ("yard", None),
            Route::NewVisit => ("visit", None),
            Route::EditVisit(id) => ("visit-form", Some(id)),
            Route::Visit(id) => ("visit", Some(id)),
            Route::Spec(id) => ("spec", Some(id)),
            Route::NewPile(id) => ("new-pile", Some(id)),
            Route::EditPile(id) => ("pile-form", Some(id)),
            Route::Sort(id) => ("pile", Some(id)),
            Route::PileSummary(id) => ("pile-summary", Some(id)),
            Route::Measure(id) => ("measure", Some(id)),
            Route::Verdict(id) => ("verdict", Some(id)),
            Route::Plank(id) => ("plank", Some(id)),
            Route::Mark(id) => ("mark", Some(id)),
            Route::Tally(id) => ("tally", Some(id)),
            Route::Seller(id) => ("seller", Some(id)),
            Route::Planks => ("planks", None),
            Route::Target(id) => ("target", Some(id)),
            Route::Racks => ("workshop", None),
            Route::Rack(id) => ("rack", Some(id)),
            Route::Piece(id) => ("wood", Some(id)),
            Route::Deed(id) => ("deed", Some(id)),
            Route::LookOver => ("check", None),
            Route::RestTimes => ("rests", None),
            Route::Cut(id) => ("cut", Some(id)),
            Route::Label(id) => ("label", Some(id)),
            Route::RackLabel(id) => ("rack-label", Some(id)),
            Route::Match => ("glue", None),
            Route::GlueUp => ("glue-up", None),
            Route::GluingLimits => ("gluing-limits", None),
            Route::Blanks => ("blanks", None),
            Route::Blank(id) => ("blank", Some(id)),
            Route::SideBySide => ("choice", None),
            Route::Papers(id) => ("papers", Some(id)),
            Route::Book => ("book", None),
            Route::Share => ("carry", None),
            Route::BroughtIn => ("brought-in", None),
            Route::Deleted => ("deleted", None),
            Route::Settle => ("settle", None),
            Route::QuickQuestions => ("ask", None),
            Route::Woods => ("woods", None),
            Route::NewWood => ("own-wood", None),
            Route::EditWood(id) => ("own-wood", Some(id)),
            Route::Settings => ("settings", None),
            Route::About => ("about", None),
            Route::TrackRecord => ("learn", None),
            Route::Plan => ("plan", None),
        }
    }

    /// The place that it belongs to.
    pub fn place(self) -> Place {
        match self {
            Route::Today | Route::Find => Place::Today,
            Route::Yard
            | Route::NewVisit
            | Route::EditVisit(_)
            | Route::Visit(_)
            | Route::Spec(_)
            | Route::NewPile(_)
            | Route::EditPile(_)
            | Route::Sort(_)
            | Route::PileSummary(_)
            | Route::Measure(_)
            | Route::Verdict(_)
            | Route::Plank(_)
            | Route::Mark(_)
            | Route::Tally(_)
            | Route::Seller(_)
            | Route::Planks
            | Route::Target(_) => Place::Yard,
            Route::Racks
            | Route::Rack(_)
            | Route::Piece(_)
            | Route::Deed(_)
            | Route::LookOver
            | Route::RestTimes
            | Route::Cut(_)
            | Route::Label(_)
            | Route::RackLabel(_) => Place::Racks,
            Route::Match
            | Route::GlueUp
            | Route::GluingLimits
            | Route::Blanks
            | Route::Blank(_)
            | Route::SideBySide
            | Route::Papers(_) => Place::Blanks,
            Route::Book
            | Route::Share
            | Route::BroughtIn
            | Route::Deleted
            | Route::Settle
            | Route::QuickQuestions
            | Route::Woods
            | Route::NewWood
            | Route::EditWood(_)
            | Route::Settings
            | Route::About
            | Route::TrackRecord
            | Route::Plan => Place::Book,
        }
    }

    /// The screen of an address; the first one for an address that is none.
    pub fn of_address(address: &str) -> Route {
        let mut parts = address.trim_start_matches(['#', '/']).splitn(2, '/');
        let word = parts.next().unwrap_or_default();
        let id = parts.next().and_then(|id| id.parse().ok());
        match (word, id) {
            ("find", _) => Route::Find,
            ("yard", _) => Route::Yard,
            ("visit", None) => Route::NewVisit,
            ("visit-form", Some(id)) => Route::EditVisit(id),
            ("visit", Some(id)) => Route::Visit(id),
            ("spec", Some(id)) => Route::Spec(id),
            ("new-pile", Some(id)) => Route::NewPile(id),
            ("pile-form", Some(id)) => Route::EditPile(id),
            ("pile", Some(id)) => Route::Sort(id),
            ("pile-summary", Some(id)) => Route::PileSummary(id),
            ("measure", Some(id)) => Route::Measure(id),
            ("verdict", Some(id)) => Route::Verdict(id),
            ("plank", Some(id)) => Route::Plank(id),
            ("mark", Some(id)) => Route::Mark(id),
            ("tally", Some(id)) => Route::Tally(id),
            ("seller", Some(id)) => Route::Seller(id),
            ("planks", _) => Route::Planks,
            ("target", Some(id)) => Route::Target(id),
            ("workshop", _) => Route::Racks,
            ("rack", Some(id)) => Route::Rack(id),
            ("wood", Some(id)) => Route::Piece(id),
            ("deed", Some(id)) => Route::Deed(id),
            ("check", _) => Route::LookOver,
            ("rests", _) => Route::RestTimes,
            ("cut", Some(id)) => Route::Cut(id),
            ("label", Some(id)) => Route::Label(id),
            ("rack-label", Some(id)) => Route::RackLabel(id),
            ("glue", _) => Route::Match,
            ("glue-up", _) => Route::GlueUp,
            ("gluing-limits", _) => Route::GluingLimits,
            ("blanks", _) => Route::Blanks,
            ("blank", Some(id)) => Route::Blank(id),
            ("choice", _) => Route::SideBySide,
            ("papers", Some(id)) => Route::Papers(id),
            ("book", _) => Route::Book,
            ("carry", _) => Route::Share,
            ("brought-in", _) => Route::BroughtIn,
            ("deleted", _) => Route::Deleted,
            ("settle", _) => Route::Settle,
            ("ask", _) => Route::QuickQuestions,
            ("woods", _) => Route::Woods,
            ("own-wood", None) => Route::NewWood,
            ("own-wood", Some(id)) => Route::EditWood(id),
            ("settings", _) => Route::Settings,
            ("about", _) => Route::About,
            ("learn", _) => Route::TrackRecord,
            ("plan", _) => Route::Plan,
            _ => Route::Today,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_is_found_again_by_its_address() {
        let id = Id::from_u128(0x017f_22e2_79b0_7cc3_98c4_dc0c_0c07_398f);
        for route in [
            Route::Today,
            Route::Find,
            Route::Yard,
            Route::NewVisit,
            Route::EditVisit(id),
            Route::Visit(id),
            Route::Spec(id),
            Route::NewPile(id),
            Route::EditPile(id),
            Route::Sort(id),
            Route::PileSummary(id),
            Route::Measure(id),
            Route::Verdict(id),
            Route::Plank(id),
            Route::Mark(id),
            Route::Tally(id),
            Route::Seller(id),
            Route::Planks,
            Route::Target(id),
            Route::Racks,
            Route::Rack(id),
            Route::Piece(id),
            Route::Deed(id),
            Route::LookOver,
            Route::RestTimes,
            Route::Cut(id),
            Route::Label(id),
            Route::RackLabel(id),
            Route::Match,
            Route::GlueUp,
            Route::GluingLimits,
            Route::Blanks,
            Route::Blank(id),
            Route::SideBySide,
            Route::Papers(id),
            Route::Book,
            Route::Share,
            Route::BroughtIn,
            Route::Deleted,
            Route::Settle,
            Route::QuickQuestions,
            Route::Woods,
            Route::NewWood,
            Route::EditWood(id),
            Route::Settings,
            Route::About,
            Route::TrackRecord,
            Route::Plan,
        ] {
            assert_eq!(Route::of_address(&route.address()), route);
        }
        for lost in ["", "#", "#/nowhere", "#/pile/not-an-id", "#/../../etc"] {
            assert_eq!(Route::of_address(lost), Route::Today, "{lost}");
        }
    }
}
