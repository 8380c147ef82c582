//! The wood of 2024, from three planks to the first blanks.
//!
//! Part of the tale of the seasons, which goes on from there.

use anyhow::{Result, ensure};
use stillwood_core::plank::Reason;
use stillwood_core::record::{Downgraded, Event, StageSet};
use stillwood_core::season::{Limit, Stage, StageLimits};

use super::seasons::{LOFT, SHELF_A, SHELF_B, Tale};
use super::yards::FIRST_DAY;

impl Tale {
    /// From the first planks to laminates at rest. Gives the laminates, those of walnut last.
    pub(super) fn first_wood(&mut self) -> Result<Vec<String>> {
        self.bench.day("2024-03-25")?;
        let planks = self.arrive(&FIRST_DAY.date)?;
        self.bench.day("2024-04-20")?;
        let mut pieces = Vec::new();
        for (n, plank) in planks.iter().enumerate() {
            let sprang = (n == 1).then_some("+4");
            pieces.extend(self.bench.crosscut(plank, 2, sprang)?);
        }
        self.discard(&mut pieces, &[3], Reason::Sprang)?;
        self.rest_and_weigh(&pieces, SHELF_A)?;
        self.bench.day("2024-07-13")?;
        let shapes = [
            ["+0.2", "+0.1", "0.2 L"],
            ["-0.1", "0", "0.1 R"],
            ["+0.3", "-0.2", "0"],
            ["+0.2", "+0.2", "0.1 L"],
            ["+0.4", "+1.6", "0.3 R"],
        ];
        self.check_and_weigh(&pieces, &shapes)?;
        self.bench.day("2024-10-19")?;
        let shapes = [
            ["+0.3", "+0.1", "0.3 L"],
            ["-0.1", "+0.1", "0.1 R"],
            ["+0.4", "-0.3", "0.1 L"],
            ["+0.2", "+0.2", "0.2 L"],
            ["+0.6", "+3.1", "0.5 R"],
        ];
        self.check_and_weigh(&pieces, &shapes)?;
        self.discard(&mut pieces, &[4], Reason::Moved)?;
        self.bench.day("2024-10-26")?;
        let mut laminates = Vec::new();
        for piece in &pieces {
            laminates.extend(self.bench.rip(piece, 6)?);
        }
        self.discard(&mut laminates, &[5, 6], Reason::Sprang)?;
        self.rest(&laminates, SHELF_B)?;
        self.bench.weigh_all(&laminates)?;
        self.bench.day("2024-11-30")?;
        self.bench.weigh_all(&laminates)?;
        Ok(laminates)
    }

    /// The first wood's laminates, checked in a batch and glued to three blanks.
    pub(super) fn first_blanks(&mut self, mut laminates: Vec<String>) -> Result<()> {
        self.bench.day("2025-01-25")?;
        self.bench.none_moved(&laminates)?;
        self.bench.weigh_all(&laminates)?;
        self.set_terms_for_blanks()?;
        self.bench.day("2025-05-10")?;
        let moved = [3, 12, 20];
        let usual = [
            ["+0.2", "+0.1", "0.1 L"],
            ["-0.1", "-0.1", "0"],
            ["+0.1", "+0.15", "0.2 R"],
            ["+0.3", "0", "0.1 L"],
        ];
        for (n, mark) in laminates.iter().enumerate() {
            let shape = match moved.iter().position(|at| *at == n) {
                Some(0) => ["+0.4", "+0.6", "0.2 L"],
                Some(1) => ["+0.2", "-0.1", "0.9 R"],
                Some(_) => ["+0.5", "-0.7", "0.1 R"],
                None => usual[n % usual.len()],
            };
            self.bench.check(mark, shape)?;
        }
        self.bench.weigh_all(&laminates)?;
        self.discard(&mut laminates, &moved, Reason::Moved)?;
        // Fourteen of sycamore and five of walnut are left; one of them is too lively for a neck.
        let lively = laminates.remove(7);
        let downgraded = Downgraded {
            reasons: vec![Reason::Figure],
            to: "headstock veneer".to_owned(),
        };
        self.bench.record(&lively, Event::Downgraded(downgraded))?;
        ensure!(laminates.len() == 18, "{} laminates", laminates.len());
        let mut walnut = laminates.split_off(13);
        self.bench.day("2025-05-17")?;
        for places in ["SWSWS", "SWSWS", "SSSSS"] {
            let members = drawn(places, &mut laminates, &mut walnut)?;
            let blank = self.bench.glue(&members, "0412", 24.0)?;
            self.blanks.push(blank);
        }
        self.last_three = drawn("SWS", &mut laminates, &mut walnut)?;
        self.bench.day("2025-05-19")?;
        let blanks = self.blanks.clone();
        self.bench.read_the_room()?;
        self.rest_and_weigh(&blanks, LOFT)?;
        self.bench.day("2025-08-16")?;
        self.bench.read_the_room()?;
        let shapes = [
            ["+0.1", "+0.05", "0"],
            ["0", "-0.05", "0"],
            ["+0.1", "0", "0"],
        ];
        self.check_and_weigh(&blanks, &shapes)
    }

    /// Blanks are held to a bow as well.
    fn set_terms_for_blanks(&mut self) -> Result<()> {
        let terms = StageLimits {
            bow: Some(Limit::watched(0.3, 0.6)),
            ..StageLimits::supplied(Stage::Blanks)
        };
        let stage = Stage::Blanks;
        let about = self.bench.phone.id();
        let set = Event::StageSet(Box::new(StageSet { stage, terms }));
        self.bench.phone.write(about, set).map(|_| ())
    }
}

/// Laminates for the places of a blank, S of sycamore and W of walnut.
fn drawn(
    places: &str,
    sycamore: &mut Vec<String>,
    walnut: &mut Vec<String>,
) -> Result<Vec<String>> {
    let mut members = Vec::new();
    for place in places.chars() {
        let from = if place == 'W' {
            &mut *walnut
        } else {
            &mut *sycamore
        };
        ensure!(!from.is_empty(), "too few laminates for {places}");
        members.push(from.remove(0));
    }
    Ok(members)
}
