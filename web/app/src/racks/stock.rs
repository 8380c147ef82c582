//! The racks as the screens draw them, and the tile of a piece.

use crate::drawings::{UNDYED, tile};
use crate::model::Model;
use crate::parts::Judged;
use crate::words::RacksWords;
use maud::Markup;
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::order;
use stillwood_core::quantity::{Mass, kg, mm};
use stillwood_core::record::queries::{self, Rack, RackPiece, RestSign};
use stillwood_core::record::{Due, Id, Piece, Waits};
use stillwood_core::season::FEELER_MM;

/// How far the maker's scale may be off.
pub fn scale(model: &Model) -> Mass {
    kg(model.settings.instruments.scale_kg)
}

/// All wood at hand that is the maker's.
pub struct Stock {
    racks: Arc<Vec<Rack>>,
}

impl Stock {
    /// As it is today.
    pub fn of(model: &Model) -> Self {
        let racks = queries::racks(model.state(), model.now.date(), mm(FEELER_MM), scale(model));
        Self { racks }
    }

    /// Rack by rack.
    pub fn racks(&self) -> &[Rack] {
        &self.racks
    }

    /// The rack of that name.
    pub fn rack(&self, place: &str) -> Option<&Rack> {
        self.racks.iter().find(|rack| rack.place == place)
    }

    /// All pieces.
    pub fn pieces(&self) -> impl Iterator<Item = &RackPiece> {
        self.racks.iter().flat_map(|rack| &rack.pieces)
    }

    /// One of them.
    pub fn piece(&self, id: Id) -> Option<&RackPiece> {
        self.pieces().find(|one| one.piece == id)
    }

    /// The pieces by their ids.
    pub fn by_id(&self) -> BTreeMap<Id, &RackPiece> {
        order::map_of(self.pieces().map(|one| (one.piece, one)))
    }

    /// All that waits for a day, that of the first day in front. Wood that was put to another use waits for nothing.
    pub fn due(&self) -> Vec<Due> {
        let mut due: Vec<Due> = self.pieces().filter_map(|one| one.due.clone()).collect();
        queries::in_order_of_days(&mut due);
        due
    }
}

/// One piece as it lies on its rack.
pub fn on_its_rack(model: &Model, piece: &Piece) -> Option<RackPiece> {
    queries::on_its_rack(
        model.state(),
        piece,
        model.now.date(),
        mm(FEELER_MM),
        scale(model),
    )
}

/// The judgement that a sign stands for.
pub fn judged(sign: RestSign) -> Judged {
    match sign {
        RestSign::Still => Judged::Good,
        RestSign::Watch => Judged::Doubt,
        RestSign::Moved => Judged::Bad,
        RestSign::NotKnown => Judged::Unknown,
    }
}

/// What a sign is called.
pub fn sign_word(words: &RacksWords, sign: RestSign) -> &'static str {
    match sign {
        RestSign::Still => words.still,
        RestSign::Watch => words.watch,
        RestSign::Moved => words.moved,
        RestSign::NotKnown => words.not_known,
    }
}

/// The tile of a piece: what rests still and was not looked at is drawn as resting.
pub fn tile_of(piece: &RackPiece) -> Markup {
    let standing = match piece.sign() {
        Some(RestSign::NotKnown) if !piece.is_over() => None,
        Some(sign) => Some(judged(sign)),
        None => None,
    };
    tile(
        &dyed(&piece.colours),
        piece.passed.unwrap_or_default(),
        standing,
    )
}

fn dyed(colours: &[Option<String>]) -> Vec<&str> {
    let colours = colours.iter();
    colours
        .map(|colour| colour.as_deref().unwrap_or(UNDYED))
        .collect()
}

/// The tile of a piece that lies on no rack any more.
pub fn plain_tile(model: &Model, piece: &Piece) -> Markup {
    tile(&dyed(&queries::colours_of(model.state(), piece)), 0.0, None)
}

/// What a piece that is there waits for; nothing where it was put to another use.
pub fn waits(model: &Model, piece: &Piece) -> Option<Waits> {
    let work = &piece.work;
    if !piece.is_at_hand() || work.missing.is_some() || work.downgraded.is_some() {
        return None;
    }
    let (state, today) = (model.state(), model.now.date());
    if let Some(line) = queries::rest_line(state, piece, today, mm(FEELER_MM), scale(model)) {
        return Some(Waits::Rest(line.stage, line.ready));
    }
    queries::resting_in_room(state, piece, today, scale(model)).map(Waits::Room)
}

/// The name of a rack; words where none was said.
pub fn rack_name(words: &RacksWords, place: &str) -> String {
    if place.is_empty() {
        words.no_rack.to_owned()
    } else {
        crate::parts::capital(place)
    }
}
