//! What the maker has to settle, found in one place: the first screen counts it, with a press to where it
//! is settled. It is reported, never mended: the maker knows more.

use super::settle::about;
use crate::app::App;
use crate::parts::{CollectAny, after_pause, live};
use crate::record::Record;
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use std::time::Duration;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{State, pairs};

/// A pause in what changes, before it is looked for anew.
const PAUSE: Duration = Duration::from_millis(150);
/// From so many entries on looking takes a while: the screen is drawn first.
const MANY_ENTRIES: usize = 20_000;

/// The word on the offline copy when all is well with it.
const READY_OFFLINE: &str = "Ready to work without a network.";

/// Where something is settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum SettledAt {
    /// In a part of its own, under "Save and share".
    Part,
    /// In the list of what the record says of itself, on the same screen.
    Listed,
    /// Under "Settings".
    Settings,
}

/// Something to settle.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ToSettle {
    /// The part of the screen where it is settled.
    pub(crate) id: &'static str,
    /// In a line, with its count.
    pub(crate) line: String,
    /// Where it is settled.
    pub(crate) at: SettledAt,
    /// It may be as it should.
    pub(crate) calm: bool,
    /// Its heading where it is listed.
    pub(crate) name: &'static str,
    /// What it means.
    pub(crate) meaning: &'static str,
    /// What there is, with planks to look at.
    pub(crate) found: Vec<(String, Vec<(Id, String)>)>,
}

impl ToSettle {
    fn part(id: &'static str, line: String) -> Self {
        Self {
            id,
            line,
            at: SettledAt::Part,
            calm: false,
            name: "",
            meaning: "",
            found: Vec::new(),
        }
    }

    fn settings(id: &'static str, line: String) -> Self {
        Self {
            at: SettledAt::Settings,
            ..Self::part(id, line)
        }
    }

    fn href(&self) -> String {
        let screen = match self.at {
            SettledAt::Part | SettledAt::Listed => Route::Carry,
            SettledAt::Settings => Route::Settings,
        };
        format!("{}/{}", screen.href(), self.id)
    }
}

/// All that is to be settled.
pub(crate) fn to_settle(app: App) -> Vec<ToSettle> {
    app.changed.track();
    let mut all = Vec::new();
    app.record.with_value(|record| {
        all.extend(apart(record));
        all.extend(of_devices(record.state()));
        all.extend(listed(record));
    });
    if app.identity_notice.with(Option::is_some) {
        let line = "This device took a new identity".to_owned();
        all.push(ToSettle::settings("device", line));
    }
    if app.offline.get().is_some_and(|word| word != READY_OFFLINE) {
        all.push(ToSettle::settings(
            "version",
            "Stillwood is not kept here for use without a network".to_owned(),
        ));
    }
    all
}

/// What was recorded apart and does not fit together.
fn apart(record: &Record) -> Vec<ToSettle> {
    let state = record.state();
    let conflicts = record.log().conflicts();
    let conflicts = conflicts.iter().filter(|one| !one.settled).count();
    let disputes = state.disputes().len();
    let offered = pairs(state).len();
    [
        (
            "conflicts",
            conflicts,
            counted(conflicts, "entry has two texts", "entries have two texts"),
        ),
        (
            "disputes",
            disputes,
            counted(
                disputes,
                "entry was corrected on two devices",
                "entries were corrected on two devices",
            ),
        ),
        (
            "pairs",
            offered,
            counted(
                offered,
                "pair of planks may be one plank",
                "pairs of planks may be one plank each",
            ),
        ),
    ]
    .into_iter()
    .filter(|(_, count, _)| *count > 0)
    .map(|(id, _, line)| ToSettle::part(id, line))
    .collect()
}

/// Devices that can't be told apart.
fn of_devices(state: &State) -> Vec<ToSettle> {
    let shared = queries::shared_signs(state);
    let signs: Vec<&str> = shared.iter().map(|one| one.sign.as_str()).collect();
    let mut all = Vec::new();
    if !signs.is_empty() {
        let line = format!(
            "Several devices begin their marks with {}",
            signs.join(", ")
        );
        all.push(ToSettle::settings("device", line));
    }
    let clones = queries::cloned_devices(state);
    let devices: std::collections::BTreeSet<&str> =
        clones.iter().map(|one| one.by.as_str()).collect();
    if !devices.is_empty() {
        let devices: Vec<&str> = devices
            .into_iter()
            .map(|by| queries::device_shown(state, by))
            .collect();
        let line = format!("Two devices write under one name: {}", devices.join(", "));
        all.push(ToSettle::settings("device", line));
    }
    all
}

/// What the record shows of its own gaps and damage.
fn listed(record: &Record) -> Vec<ToSettle> {
    let plain = |text: String| (text, Vec::new());
    let state = record.state();
    let one = |id, name, meaning, found: Vec<(String, Vec<(Id, String)>)>, line| ToSettle {
        id,
        line,
        at: SettledAt::Listed,
        calm: false,
        name,
        meaning,
        found,
    };
    let orphans: Vec<_> = queries::orphans(state)
        .into_iter()
        .map(|orphan| {
            let entries = counted(orphan.entries.len(), "entry waits", "entries wait");
            let missing = about(state, orphan.missing);
            plain(format!("{entries} for the beginning of {missing}"))
        })
        .collect();
    let missing = queries::missing_runs(state);
    let gaps: Vec<_> = missing
        .iter()
        .map(|run| {
            let device = queries::device_shown(state, &run.by);
            plain(if run.from == run.to {
                format!("{device}: number {}", run.from)
            } else {
                format!("{device}: numbers {} to {}", run.from, run.to)
            })
        })
        .collect();
    let clones: Vec<_> = queries::cloned_devices(state)
        .iter()
        .map(|clone| {
            plain(format!(
                "{}, number {}",
                queries::device_shown(state, &clone.by),
                clone.seq
            ))
        })
        .collect();
    let marks: Vec<_> = queries::doubled_marks(state)
        .into_iter()
        .map(|doubled| {
            let planks = doubled.pieces.iter().filter_map(|id| {
                let piece = state.piece(*id)?;
                Some((*id, format!("{}, {}", piece.mark, piece.recorded.on)))
            });
            let planks = planks.collect();
            (doubled.mark, planks)
        })
        .collect();
    let numbering: Vec<_> = record
        .log()
        .damaged_numbering()
        .into_iter()
        .map(|entry| {
            let device = queries::device_shown(state, &entry.by);
            plain(format!(
                "{device}, number {}, {}: {}",
                entry.seq,
                entry.on,
                about(state, entry.about)
            ))
        })
        .collect();
    let newer = state.newer().len();
    let damage: Vec<_> = record
        .damage()
        .map(|damage| plain(damage.to_string()))
        .collect();
    let stored = damage.len();
    let gap_line = counted(
        gaps.len(),
        "gap in what has come from other devices",
        "gaps in what has come from other devices",
    );
    let mut all = vec![
        one(
            "trouble-marks",
            "One mark on several planks",
            "Look at the wood: one of them was misread, or both are one plank.",
            marks,
            String::new(),
        ),
        one(
            "trouble-clones",
            "A device that was copied",
            "One number was used twice: two devices, or two copies of one, write under the same name. Nothing is lost.",
            clones,
            String::new(),
        ),
        one(
            "trouble-pages",
            "What can't be read",
            "Part of what this browser kept is damaged. It is left as it is; bring in your last file.",
            damage,
            counted(
                stored,
                "stored thing can't be read",
                "stored things can't be read",
            ),
        ),
        one(
            "trouble-numbering",
            "Damaged numbering",
            "These entries carry numbers or days that no shop reaches. They count, after all others; entries written since are not moved by them.",
            numbering,
            String::new(),
        ),
        one(
            "trouble-newer",
            "From a newer version",
            "This version carries these entries along and writes them back unharmed. Update to see them.",
            match newer {
                0 => Vec::new(),
                count => vec![plain(counted(count, "entry", "entries"))],
            },
            counted(
                newer,
                "entry is from a newer version",
                "entries are from a newer version",
            ),
        ),
        one(
            "trouble-orphans",
            "The beginning is missing",
            "Something is said about a plank, a pile or a visit whose own beginning is not here. Bring in the file that holds it.",
            orphans,
            String::new(),
        ),
        one(
            "trouble-missing",
            "Entries that have not come",
            "Every device numbers its entries. A gap is normal where only one visit was brought in; otherwise a file is still to come.",
            gaps,
            format!("{gap_line}: normal where only a visit was brought in"),
        ),
    ];
    all.retain(|one| !one.found.is_empty());
    for one in &mut all {
        let count = one.found.len();
        match one.id {
            "trouble-marks" => {
                one.line = counted(
                    count,
                    "mark stands on more than one piece",
                    "marks stand on more than one piece",
                );
            }
            "trouble-numbering" => {
                one.line = counted(
                    count,
                    "entry has damaged numbering",
                    "entries have damaged numbering",
                );
            }
            "trouble-orphans" => {
                one.line = counted(
                    count,
                    "beginning is missing: a file is still to come",
                    "beginnings are missing: a file is still to come",
                );
            }
            "trouble-missing" => one.calm = true,
            _ => {}
        }
    }
    all
}

/// The block on the first screen; nothing when nothing is to be settled.
#[component]
pub(crate) fn ToSettleBlock() -> impl IntoView {
    let app = expect_context::<App>();
    let many = app.record.with_value(|record| record.log().len()) >= MANY_ENTRIES;
    let open = RwSignal::new(if many {
        Vec::new()
    } else {
        untrack(|| to_settle(app))
    });
    let watch = move || {
        app.changed.track();
        app.offline.track();
        app.identity_notice.track();
    };
    after_pause(PAUSE, watch, move || open.set(untrack(|| to_settle(app))));
    let line = |one: ToSettle| {
        let class = if one.calm { "calm" } else { "" };
        let href = one.href();
        view! {
            <li class=class>
                <a href=href>
                    <span>{one.line}</span>
                    <span aria-hidden="true">"›"</span>
                </a>
            </li>
        }
    };
    live(move || {
        // What has a line of its own elsewhere is not said twice.
        let open: Vec<ToSettle> = open
            .get()
            .into_iter()
            .filter(|one| !one.line.is_empty())
            .collect();
        (!open.is_empty()).then(|| {
            view! {
                <section class="to-settle" id="to-settle" aria-label="To settle">
                    <h2>"To settle"</h2>
                    <ul class="plain">{open.into_iter().map(line).collect_any()}</ul>
                </section>
            }
        })
    })
}
