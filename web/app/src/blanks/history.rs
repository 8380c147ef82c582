//! What happened to a piece and still counts, as it goes on paper: in a line each, oldest first.

use super::row;
use crate::page::Ui;
use maud::{Markup, html};
use std::sync::Arc;
use stillwood_core::record::{Event, EventStatus, Piece};

/// One piece's entries that are in force, without what the yard charged; `hide` leaves out what is the maker's own:
/// names, notes, judgements.
pub fn of_piece(ui: &Ui<'_>, piece: &Piece, hide: bool) -> Markup {
    let log = ui.model.record.log();
    let lines = piece
        .history
        .iter()
        .filter(|line| line.standing == EventStatus::InForce);
    let entries = lines.filter_map(|line| log.entry(line.entry));
    let shown = entries.filter_map(|entry| Some((entry.on, on_paper(&entry.event, hide)?)));
    let units = ui.model.units();
    html! {
        ol.history {
            @for (on, event) in shown { li { span.below { (row::day(ui, on)) } " " (ui.w.events.event(units, &event)) } }
        }
    }
}

/// An event as it goes on paper; none where it does not.
fn on_paper(event: &Event, hide: bool) -> Option<Event> {
    Some(match event {
        Event::YardLine(_) | Event::YardTotal(_) => return None,
        shown if !hide => shown.clone(),
        Event::Reserved(_)
        | Event::Released(_)
        | Event::Used(_)
        | Event::Noted(_)
        | Event::Judged(_) => return None,
        Event::MovementChecked(check) => {
            let mut check = check.as_ref().clone();
            check.who.clear();
            Event::MovementChecked(Arc::new(check))
        }
        Event::Measured(measured) => {
            let mut measured = measured.clone();
            for found in &mut measured.defects {
                found.note.clear();
            }
            Event::Measured(measured)
        }
        Event::Downgraded(down) => {
            let mut down = down.clone();
            down.to.clear();
            Event::Downgraded(down)
        }
        other => other.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use stillwood_core::plank::{DefectFound, DefectKind};
    use stillwood_core::record::{
        Downgraded, Measured, MovementChecked, Reserved, Used, YardFigures,
    };

    #[test]
    fn paper_never_says_what_it_cost_and_where_that_is_hidden_no_name_and_no_note() {
        for hide in [false, true] {
            assert_eq!(
                on_paper(&Event::YardLine(YardFigures::default()), hide),
                None
            );
            assert_eq!(
                on_paper(&Event::YardTotal(YardFigures::default()), hide),
                None
            );
        }
        let own = "for J.";
        let check = MovementChecked {
            nothing_moved: true,
            who: own.to_owned(),
            ..MovementChecked::default()
        };
        let defect = DefectFound {
            from: None,
            kind: DefectKind::Knot,
            note: own.to_owned(),
            to: None,
        };
        let all = [
            Event::MovementChecked(Arc::new(check)),
            Event::Measured(Measured {
                defects: vec![defect],
                ..Measured::default()
            }),
            Event::Downgraded(Downgraded {
                to: own.to_owned(),
                ..Downgraded::default()
            }),
            Event::Used(Used {
                became: own.to_owned(),
            }),
            Event::Reserved(Reserved {
                name: own.to_owned(),
                ..Reserved::default()
            }),
        ];
        for event in all {
            assert_eq!(on_paper(&event, false).as_ref(), Some(&event));
            let hidden = format!("{:?}", on_paper(&event, true));
            assert!(!hidden.contains(own), "{hidden}");
        }
    }
}
