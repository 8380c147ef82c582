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

/// What a screen is about, where it is about something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A visit.
    Visit,
    /// A pile.
    Pile,
    /// A plank, half typed or in the record.
    Plank,
    /// A piece of wood in the workshop.
    Piece,
    /// A blank.
    Blank,
    /// A wood of the maker's own.
    Wood,
}

/// What every screen is about is known by its id.
macro_rules! id_of {
    ($about:ident) => {
        Id
    };
}

/// The screens: a line each, with the word of its address and the place that it belongs to.
macro_rules! screens {
    ($($(#[$doc:meta])* $name:ident $(($about:ident))?: $word:literal in $place:ident,)*) => {
        /// A screen.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Route {
            $($(#[$doc])* $name $((id_of!($about)))?,)*
        }

        impl Route {
            /// Every screen there is, once for each of the things that it can be about.
            pub fn every(ids: impl Fn(About) -> Vec<Id>) -> Vec<Route> {
                let every: Vec<Vec<Route>> = vec![$(screens!(@every ids $name $($about)?)),*];
                every.concat()
            }

            /// The word of its address.
            fn word(self) -> &'static str {
                match self {
                    $(Route::$name { .. } => $word,)*
                }
            }

            /// The id that it holds.
            pub fn id(self) -> Option<Id> {
                match self {
                    $(screens!(@pattern id $name $($about)?) => screens!(@id id $($about)?),)*
                }
            }

            /// The place that it belongs to.
            pub fn place(self) -> Place {
                match self {
                    $(Route::$name { .. } => Place::$place,)*
                }
            }
        }
    };
    (@every $ids:ident $name:ident) => { vec![Route::$name] };
    (@every $ids:ident $name:ident $about:ident) => {
        $ids(About::$about).into_iter().map(Route::$name).collect()
    };
    (@pattern $id:ident $name:ident) => { Route::$name };
    (@pattern $id:ident $name:ident $about:ident) => { Route::$name($id) };
    (@id $id:ident) => { None };
    (@id $id:ident $about:ident) => { Some($id) };
}

screens! {
    /// What is to be done now.
    Today: "" in Today,
    /// A search by mark, wood or reason.
    Find: "find" in Today,
    /// The visits.
    Yard: "yard" in Yard,
    /// A new visit.
    NewVisit: "visit" in Yard,
    /// A visit to change.
    EditVisit(Visit): "visit-form" in Yard,
    /// A visit: its piles and planks.
    Visit(Visit): "visit" in Yard,
    /// What is wanted on a visit.
    Spec(Visit): "spec" in Yard,
    /// A new pile of a visit.
    NewPile(Visit): "new-pile" in Yard,
    /// A pile to change.
    EditPile(Pile): "pile-form" in Yard,
    /// The quick sort of a pile.
    Sort(Pile): "pile" in Yard,
    /// What a pile came to.
    PileSummary(Pile): "pile-summary" in Yard,
    /// A plank being measured.
    Measure(Plank): "measure" in Yard,
    /// The verdict on a plank that is being measured.
    Verdict(Plank): "verdict" in Yard,
    /// A plank's whole sheet.
    Plank(Plank): "plank" in Yard,
    /// A plank's mark, large, to be chalked.
    Mark(Plank): "mark" in Yard,
    /// Tally and bill of a visit.
    Tally(Visit): "tally" in Yard,
    /// What the seller may see.
    Seller(Visit): "seller" in Yard,
    /// All planks.
    Planks: "planks" in Yard,
    /// The blanks needed, of a visit.
    Target(Visit): "target" in Yard,
    /// The racks.
    Racks: "workshop" in Racks,
    /// One rack, by the id of its first piece.
    Rack(Piece): "rack" in Racks,
    /// The planks of a visit that are put on a rack together.
    RackPlanks(Visit): "rack-planks" in Racks,
    /// The parts of a cut that are set to rest together.
    RestParts(Piece): "rest-parts" in Racks,
    /// A blank that was glued and is set to rest.
    RestBlank(Piece): "rest-blank" in Racks,
    /// A piece of wood in the workshop.
    Piece(Piece): "wood" in Racks,
    /// Something done with a piece, typed in.
    Deed(Piece): "deed" in Racks,
    /// A rack looked over for movement.
    LookOver: "check" in Racks,
    /// Rest times, limits and rooms.
    RestTimes: "rests" in Racks,
    /// A plank or piece being cut.
    Cut(Piece): "cut" in Racks,
    /// A piece's label, to print.
    Label(Piece): "label" in Racks,
    /// The label of the rack that a piece lies on, to print.
    RackLabel(Piece): "rack-label" in Racks,
    /// Laminates being matched and glued.
    Match: "glue" in Blanks,
    /// The gluing itself, of the laminates in hand.
    GlueUp: "glue-up" in Blanks,
    /// How far laminates that are glued together may be off.
    GluingLimits: "gluing-limits" in Blanks,
    /// The blanks.
    Blanks: "blanks" in Blanks,
    /// A blank.
    Blank(Blank): "blank" in Blanks,
    /// Blanks side by side, to be chosen from.
    SideBySide: "choice" in Blanks,
    /// The papers of a blank.
    Papers(Blank): "papers" in Blanks,
    /// What the book holds.
    Book: "book" in Book,
    /// Save and share.
    Share: "carry" in Book,
    /// What was brought in.
    BroughtIn: "brought-in" in Book,
    /// What was deleted.
    Deleted: "deleted" in Book,
    /// What is to be settled.
    Settle: "settle" in Book,
    /// Quick questions, without a plank.
    QuickQuestions: "ask" in Book,
    /// The table of woods.
    Woods: "woods" in Book,
    /// A new wood of the maker's own.
    NewWood: "own-wood" in Book,
    /// A wood of the maker's own, to change.
    EditWood(Wood): "own-wood" in Book,
    /// Units, tools, looks, storage.
    Settings: "settings" in Book,
    /// Cautions, sources, how the numbers are meant.
    About: "about" in Book,
    /// What came through, by what was seen in the yard.
    TrackRecord: "learn" in Book,
    /// Plans forward and back.
    Plan: "plan" in Book,
}

impl Route {
    /// The address of the screen.
    pub fn address(self) -> String {
        let word = self.word();
        match self.id() {
            Some(id) => format!("#/{word}/{id}"),
            // An older version knows the form of a new visit by these words.
            None if self == Route::NewVisit => "#/visit/new".to_owned(),
            None => format!("#/{word}"),
        }
    }

    /// The screen of an address; the first one for an address that is none.
    pub fn of_address(address: &str) -> Route {
        let mut parts = address.trim_start_matches(['#', '/']).splitn(2, '/');
        let word = parts.next().unwrap_or_default();
        let id: Option<Id> = parts.next().and_then(|id| id.parse().ok());
        let all = Route::every(|_| id.into_iter().collect());
        let find = |id| {
            let mut all = all.iter();
            all.find(|route| route.word() == word && route.id() == id)
        };
        // What stands behind the word of a screen that is about nothing is passed over.
        find(id)
            .or_else(|| find(None))
            .copied()
            .unwrap_or(Route::Today)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_is_found_again_by_its_address() {
        let id = Id::from_u128(0x017f_22e2_79b0_7cc3_98c4_dc0c_0c07_398f);
        let every = Route::every(|_| vec![id]);
        assert!(every.contains(&Route::Plan) && every.contains(&Route::Sort(id)));
        for route in every {
            assert_eq!(Route::of_address(&route.address()), route);
        }
        for lost in [
            "",
            "#",
            "#/nowhere",
            "#/pile/not-an-id",
            "#/pile",
            "#/../../etc",
        ] {
            assert_eq!(Route::of_address(lost), Route::Today, "{lost}");
        }
        assert_eq!(Route::of_address("#/find/anything"), Route::Find);
        assert_eq!(Route::of_address("#/own-wood/not-an-id"), Route::NewWood);
    }
}
