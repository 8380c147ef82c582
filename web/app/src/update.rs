//! What an action does to what the app knows, and what the shell is to carry out.

use crate::action::Action;
use crate::effect::{AfterRecorded, Effect, MarkFor};
use crate::model::{Dialog, Explained, Model, Saving, Texts, Toast};
use crate::route::{Place, Route};
use crate::tell::{choose, say, toast};
use crate::words::{Spoken, fill, speaking};
use crate::work::Answer;
use crate::worked_out::worked_out;
use crate::{blanks, book, form, racks, starts, taken_up, today, yard};
use stillwood_core::record::Id;
use stillwood_core::record::commands::delete;
use stillwood_core::season::StartTask;

/// What an action does; what is said of it is in the language of the settings.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let language = model.settings.language;
    speaking(language, || {
        let mut effects = act(model, action);
        effects.extend(yard::table_work::go_on(model));
        let asked = starts_asked(model);
        starts::go_on(model, &asked, &mut effects);
        effects
    })
}

/// The searches for the planks to start that the screen needs.
fn starts_asked(model: &Model) -> Vec<StartTask> {
    match model.route {
        Route::Plan => book::plan::tasks(model),
        Route::TrackRecord => book::start::task(model).into_iter().collect(),
        Route::Visit(id) | Route::Tally(id) => yard::needed::task(model, id).into_iter().collect(),
        Route::Today => today::home::task(model).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Go(route) => {
            yard::asked_for(model, route);
            vec![Effect::Go(route)]
        }
        Action::Replace(route) => {
            yard::asked_for(model, route);
            vec![Effect::Replace(route)]
        }
        Action::Back => vec![Effect::Back],
        // The way back leads past the planks that were decided.
        Action::Shown(route) if yard::is_behind(model, route) => vec![Effect::Back],
        Action::Shown(route) => {
            model.route = route;
            model.dialog = None;
            model.form = None;
            let effects = opened(model);
            // Over another form the word on what was done would cover its keys.
            let open = model.form.as_ref().map(|form| &form.key);
            let of_this = |toast: &Toast| toast.form.as_ref().map(|(key, _)| key) == open;
            model
                .toast
                .take_if(|toast| open.is_some() && !toast.undo.is_empty() && !of_this(toast));
            effects
        }
        Action::Key(key) if key == "Escape" && model.dialog.is_some() => {
            model.dialog = None;
            Vec::new()
        }
        // What lies over the screen waits for an answer: the screen below it hears no key.
        Action::Key(_) if model.dialog.is_some() => Vec::new(),
        Action::Key(key) if model.route.place() == Place::Blanks => blanks::key(model, &key),
        Action::Key(key) if model.route.place() == crate::route::Place::Racks => {
            racks::key(model, &key)
        }
        Action::Key(key) => yard::key(model, &key),
        Action::Typed(name, text) => typed(model, name, text),
        Action::GoOn(key) => taken_up::go_on(model, key),
        Action::Reopen(key, kept) => taken_up::reopen(model, &key, kept),
        Action::Form(action) => {
            let mut effects = form::update(model, action);
            effects.extend(racks::follow_form(model));
            effects
        }
        Action::Today(action) => today::update(model, action),
        Action::Yard(action) => yard::update(model, action),
        Action::Racks(action) => racks::update(model, action),
        Action::Blanks(action) => blanks::update(model, action),
        Action::Book(action) => book::update(model, action),
        Action::Starts(action) => starts::update(model, action),
        Action::Explain { name, figure, of } => {
            let Some(derivation) = worked_out(model, &of) else {
                return Vec::new();
            };
            model.dialog = Some(Dialog::Explained(Box::new(Explained {
                name,
                figure,
                derivation,
            })));
            vec![Effect::Focus("dialog".to_owned())]
        }
        Action::Ask {
            question,
            yes,
            action,
        } => {
            model.dialog = Some(Dialog::Ask {
                question,
                yes,
                action,
            });
            vec![Effect::Focus("dialog".to_owned())]
        }
        Action::CloseDialog => {
            model.dialog = None;
            Vec::new()
        }
        Action::Undo => undo(model),
        Action::ToastOver(turn) => {
            model.toast.take_if(|toast| toast.turn == turn);
            Vec::new()
        }
        Action::Choose {
            screen,
            name,
            value,
        } => choose(model, screen, name, value),
        Action::EmptiedIsKnown => {
            model.shell.emptied = false;
            Vec::new()
        }
        Action::Started => {
            model.shell.starting = false;
            Vec::new()
        }
        Action::TryAgain => vec![Effect::TryAgain],
        Action::StartNewVersion => vec![Effect::StartNewVersion],
        Action::OpenSample(open) => vec![Effect::OpenSample(open)],
        Action::Print => vec![Effect::Print],
        Action::SharedUnread(why, lie) => {
            let why: Vec<String> = why.iter().map(Spoken::spoken).collect();
            let words = &model.words().share;
            model.dialog = Some(Dialog::Ask {
                question: fill(words.drop_shared_question, &[("why", &why.join(" "))]),
                yes: words.drop_shared.to_owned(),
                action: Box::new(Action::DropShared(lie)),
            });
            vec![Effect::Focus("dialog".to_owned())]
        }
        Action::DropShared(lie) => {
            model.dialog = None;
            vec![Effect::DropShared(lie)]
        }
        Action::Recorded { entries, after } => recorded(model, entries, after),
        Action::NotRecorded { why, after } => not_recorded(model, why, after),
        Action::MarkTaken { wanted, mark } => match wanted {
            MarkFor::Measuring(pile) => yard::measure_marked(model, pile, mark),
            MarkFor::Maybe(pile) => yard::maybe_marked(model, pile, mark),
            MarkFor::Blank => blanks::mark_taken(model, mark),
        },
        Action::Saving(saving) => {
            // What is not kept is told until it is: a new try alone does not take the notice away.
            model.shell.saving = match (saving, &model.shell.saving) {
                (Saving::Busy, Saving::Failed(why) | Saving::Again(why)) => {
                    Saving::Again(why.clone())
                }
                (saving, _) => saving,
            };
            Vec::new()
        }
        Action::DraftTrouble(trouble) => {
            model.shell.draft_trouble = trouble;
            Vec::new()
        }
        Action::Wide(wide) => {
            model.shell.wide = wide;
            Vec::new()
        }
        Action::Printing(printing) => {
            model.shell.printing = printing;
            Vec::new()
        }
        Action::Clock(now) => {
            model.now = now;
            Vec::new()
        }
        Action::WorkDone(Answer::Match(answer)) => blanks::answered(model, answer),
        Action::WorkDone(Answer::Start(answer)) => {
            starts::answered(model, answer);
            Vec::new()
        }
        Action::HalfTyped { drafts, forms } => {
            taken_up::half_typed(model, drafts, forms);
            Vec::new()
        }
        Action::Say(text) => say(model, text.spoken()),
    }
}

/// What a screen does when it opens.
fn opened(model: &mut Model) -> Vec<Effect> {
    let mut effects = yard::opened(model);
    effects.extend(racks::opened(model));
    effects.extend(blanks::opened(model));
    effects.extend(book::opened(model));
    effects.push(Effect::Focus("title".to_owned()));
    effects.extend(taken_up::arrived(model));
    effects
}

fn typed(model: &mut Model, name: String, text: String) -> Vec<Effect> {
    if model.form.is_some() {
        let of_cut = racks::cut::typed_mark(model, &name, &text);
        let texts = of_cut.unwrap_or_else(|| Texts::from([(name.clone(), text)]));
        let mut effects = form::typed(model, &name, texts);
        effects.extend(racks::follow_form(model));
        return effects;
    }
    match model.route.place() {
        crate::route::Place::Today => today::typed(model, &name, text),
        crate::route::Place::Yard => yard::typed(model, &name, text),
        crate::route::Place::Racks => racks::typed(model, &name, text),
        crate::route::Place::Blanks => blanks::typed(model, &name, text),
        crate::route::Place::Book => book::typed(model, &name, text),
    }
}

fn recorded(
    model: &mut Model,
    entries: Vec<stillwood_core::record::Entry>,
    after: AfterRecorded,
) -> Vec<Effect> {
    let undo: Vec<(Id, Id)> = entries.iter().map(|one| (one.id, one.about)).collect();
    model.record.merge(entries);
    // What the store refused stands there half typed until it is taken after all.
    let refused = model.shell.is_unsaved();
    let mut effects = Vec::new();
    if !refused {
        effects.push(Effect::Buzz);
    }
    if let Some(draft) = &after.draft {
        model.drafts.retain(|one| one.piece != draft.piece);
        if let Some(piece) = draft.piece.filter(|_| !refused) {
            effects.push(Effect::RemoveDraft(piece.to_string()));
        }
    }
    let mut form_was = None;
    if let Some(key) = &after.form {
        form_was = form::as_it_stands(model, key).map(|kept| (key.clone(), kept));
        form::recorded(model, key);
        if !refused {
            effects.push(Effect::RemoveDraft(format!("{}{key}", form::FORM)));
        }
    }
    if let Some(route) = after.go {
        effects.push(Effect::Replace(route));
    }
    let next = after.next.clone();
    // Of what is not kept nothing is acknowledged: the notice says so.
    if !after.said.is_empty() && !refused {
        effects.extend(toast(
            model,
            Toast {
                text: after.said.clone(),
                undo,
                after,
                form: form_was,
                ..Toast::default()
            },
        ));
    }
    if let Some(next) = next {
        effects.extend(update(model, *next));
    }
    effects
}

fn not_recorded(model: &mut Model, why: String, after: AfterRecorded) -> Vec<Effect> {
    if let Some(form) = &mut model.form
        && after.form.as_ref() == Some(&form.key)
    {
        form.busy = false;
        form.line.clone_from(&why);
    }
    if let Some(draft) = after.draft {
        yard::not_recorded(model, &draft);
    }
    let said = fill(
        model.words().common.not_saved_why,
        &[("why", &why.spoken())],
    );
    say(model, said)
}

/// Deletes what was recorded last.
fn undo(model: &mut Model) -> Vec<Effect> {
    let Some(toast) = model.toast.take_if(|toast| !toast.undo.is_empty()) else {
        return Vec::new();
    };
    let events = delete::undo(&toast.undo).events;
    let mut effects = Vec::new();
    if let Some(draft) = toast.after.draft {
        effects.extend(yard::undone(model, *draft));
    }
    // A form leads to its own screen, where it stands open again.
    let go = toast.after.go.filter(|_| toast.form.is_none());
    effects.push(Effect::Record {
        events,
        after: AfterRecorded {
            go: go.map(|_| model.route),
            next: toast
                .form
                .map(|(key, kept)| Box::new(Action::Reopen(key, kept))),
            ..AfterRecorded::default()
        },
    });
    effects
}
