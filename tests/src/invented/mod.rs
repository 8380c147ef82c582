//! Invented records, the same for the same seed: no wood in them is real.

pub mod bought;
pub mod hostile;
pub mod years;

pub use crate::dice::Dice;
pub use crate::phone::{Phone, day_of, pile_terms, taken, visit_terms, wood};
use stillwood_core::plank::{DefectFound, DefectKind, Field, Readings, Reason};
use stillwood_core::record::{
    Decision, Entry, Event, Id, Judged, Measured, Noted, PassedOver, YardFigures,
};

impl Phone {
    /// A plank from the quick sort to the yard's line: seven entries.
    pub fn whole_plank(&mut self, pile: Id) -> Id {
        let count = 1 + self.dice.below(4) as u32;
        let reasons = vec![*self.dice.pick(Reason::ALL)];
        self.say(pile, Event::PassedOver(PassedOver { count, reasons }));
        let piece = self.mark(pile);
        let readings = plank_readings(&mut self.dice);
        self.measure(piece, readings);
        let later = Measured {
            readings: Readings::from([(Field::Moisture, taken(self.dice.tenth(8, 12), "%"))]),
            defects: vec![DefectFound {
                kind: DefectKind::EndCheck,
                from: Some(taken(0.0, "mm")),
                to: Some(taken(self.dice.tenth(10, 90), "mm")),
                note: String::new(),
            }],
            species: None,
        };
        self.say(piece, Event::Measured(later));
        let score = Some(self.dice.tenth(0, 100));
        self.say(piece, Event::Judged(judged(Decision::Take, score)));
        let line = YardFigures {
            board_feet: Some(rust_decimal::Decimal::new(self.dice.below(300) as i64, 1)),
            ..YardFigures::default()
        };
        self.say(piece, Event::YardLine(line));
        let text = "rings dead at the far end, ask for the next one <b>".to_owned();
        self.say(piece, Event::Noted(Noted { text }));
        piece
    }
}

pub fn judged(decision: Decision, score: Option<f64>) -> Judged {
    Judged {
        decision,
        proposed: Some(Decision::Take),
        reasons: Vec::new(),
        score,
        weakest: None,
    }
}

pub fn plank_readings(dice: &mut Dice) -> Readings {
    Readings::from([
        (Field::Length, taken(dice.tenth(1800, 3200), "mm")),
        (Field::WidthNear, taken(dice.tenth(150, 260), "mm")),
        (Field::WidthMiddle, taken(dice.tenth(150, 260), "mm")),
        (Field::WidthFar, taken(dice.tenth(150, 260), "mm")),
        (Field::ThicknessNear, taken(dice.tenth(48, 56), "mm")),
        (Field::WeightFirst, taken(dice.tenth(8, 12), "kg")),
        (Field::WeightSecond, taken(dice.tenth(8, 12), "kg")),
        (Field::Bow, taken(dice.tenth(0, 12), "mm")),
        (Field::Twist, taken(dice.tenth(0, 12), "mm")),
        (Field::GrainFace, taken(0.04, "tan")),
    ])
}

/// A record of about so many entries: seven for each plank, fifty planks a pile, five piles a visit.
pub fn record(entries: usize, seed: u64) -> Vec<Entry> {
    let mut phone = Phone::seeded("K7", seed);
    let (mut visit, mut pile) = (Id::nil(), Id::nil());
    let mut planks = 0;
    while phone.written.len() < entries {
        if planks % 250 == 0 {
            visit = phone.open_visit("North");
        }
        if planks % 50 == 0 {
            pile = phone.open_pile(visit, "hard_maple");
        }
        phone.whole_plank(pile);
        planks += 1;
    }
    phone.written
}
