//! What the record shows of its own gaps, in plain words, and only when there is something to say. It is
//! reported, never mended: the maker knows more.

use super::settle::about;
use crate::app::App;
use crate::route::Route;
use leptos::prelude::*;
use uuid::Uuid;

/// A trouble: a heading, what it means, what there is, and planks to look at.
#[derive(Clone, PartialEq)]
struct Trouble {
    id: &'static str,
    name: &'static str,
    meaning: &'static str,
    found: Vec<(String, Vec<(Uuid, String)>)>,
}

/// Lines shown of one trouble.
const SHOWN: usize = 20;

/// The part of the screen; nothing when all is well.
#[component]
pub(super) fn Troubles() -> impl IntoView {
    let app = expect_context::<App>();
    let troubles = Memo::new(move |_| found(app));
    let list = move || troubles.get().into_iter().map(one).collect_view();
    view! {
        <Show when=move || troubles.with(|troubles| !troubles.is_empty())>
            <h2>"What the record says of itself"</h2>
            <div id="troubles">{list}</div>
        </Show>
    }
}

fn found(app: App) -> Vec<Trouble> {
    let plain = |text: String| (text, Vec::new());
    let mut troubles = app.book(|book| {
        vec![
            Trouble {
                id: "trouble-orphans",
                name: "The beginning is missing",
                meaning: "Something is said about a plank, a pile or a visit whose own beginning is not here. Bring in the file that holds it.",
                found: book
                    .orphans()
                    .into_iter()
                    .map(|orphan| {
                        plain(format!(
                            "{} entries wait for the beginning of {}",
                            orphan.entries.len(),
                            about(book, orphan.missing)
                        ))
                    })
                    .collect(),
            },
            Trouble {
                id: "trouble-missing",
                name: "Entries that have not come",
                meaning: "Every device numbers its entries. A gap is normal where only one visit was brought in; otherwise a file is still to come.",
                found: book
                    .missing()
                    .into_iter()
                    .map(|run| {
                        plain(if run.from == run.to {
                            format!("device {}: number {}", run.by, run.from)
                        } else {
                            format!("device {}: numbers {} to {}", run.by, run.from, run.to)
                        })
                    })
                    .collect(),
            },
            Trouble {
                id: "trouble-clones",
                name: "A device that was copied",
                meaning: "One number was used twice: two devices, or two copies of one, write under the same name. Nothing is lost.",
                found: book
                    .clones()
                    .into_iter()
                    .map(|clone| plain(format!("device {}, number {}", clone.by, clone.seq)))
                    .collect(),
            },
            Trouble {
                id: "trouble-marks",
                name: "One mark on several planks",
                meaning: "Look at the wood: one of them was misread, or both are one plank.",
                found: book
                    .doubled_marks()
                    .into_iter()
                    .map(|doubled| {
                        let planks = doubled.pieces.iter().filter_map(|id| {
                            let piece = book.piece(*id)?;
                            Some((*id, format!("{}, {}", piece.mark, piece.recorded.on)))
                        });
                        (doubled.mark.clone(), planks.collect())
                    })
                    .collect(),
            },
            Trouble {
                id: "trouble-newer",
                name: "From a newer version",
                meaning: "This version carries these entries along and writes them back unharmed. Update to see them.",
                found: match book.newer().len() {
                    0 => Vec::new(),
                    count => vec![plain(format!("{count} entries"))],
                },
            },
        ]
    });
    let (damaged, pages) = app.record.with_value(|record| {
        let damaged: Vec<Uuid> = record.notebook().damaged().keys().copied().collect();
        (damaged, record.damaged_pages())
    });
    troubles.push(Trouble {
        id: "trouble-damaged",
        name: "Damaged entries",
        meaning: "Two different entries came under one number. Both are kept aside and neither counts.",
        found: damaged.iter().map(|id| plain(format!("entry {id}"))).collect(),
    });
    troubles.push(Trouble {
        id: "trouble-pages",
        name: "Pages that can't be read",
        meaning: "Part of what this browser kept is damaged. It is left as it is; bring in your last file.",
        found: match pages {
            0 => Vec::new(),
            count => vec![plain(format!("{count} pages"))],
        },
    });
    troubles.retain(|trouble| !trouble.found.is_empty());
    troubles
}

fn one(trouble: Trouble) -> impl IntoView {
    let more = trouble.found.len().saturating_sub(SHOWN);
    let line = |(text, planks): (String, Vec<(Uuid, String)>)| {
        let plank = |(id, name): (Uuid, String)| {
            view! { <a class="button" href=Route::Sheet(id).href()>{name}</a> }
        };
        view! {
            <li>{text} " " {planks.into_iter().map(plank).collect_view()}</li>
        }
    };
    view! {
        <section class="note doubt" id=trouble.id aria-label=trouble.name>
            <h3>{trouble.name}</h3>
            <p>{trouble.meaning}</p>
            <ul>{trouble.found.into_iter().take(SHOWN).map(line).collect_view()}</ul>
            {(more > 0).then(|| view! { <p>{format!("… and {more} more.")}</p> })}
        </section>
    }
}
