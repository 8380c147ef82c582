//! How many planks to start. The search for it takes long where many blanks are wanted: a short one is done at once, a
//! long one beside the page, one at a time, for the screen that is shown. What was found is kept.

use crate::action::Action as AppAction;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::Ui;
use crate::start_job::{Answer, Job, Says};
use crate::words::fill;
use crate::work;
use maud::{Markup, html};
use std::cell::RefCell;
use std::collections::VecDeque;
use stillwood_core::record::{
    ShortQuestion, StartAnswer, StartQuestion, StillToBuy, TargetAnswer, TargetQuestion,
    TargetShort, ToBuyQuestion,
};
use stillwood_core::season::{StartFound, StartSearch, StartTask};

/// About the multiplications that are done at once, whatever waits: some 20 ms of a laptop, and the answer to ten
/// blanks.
const AT_ONCE: u64 = 10_000_000;
/// So many searches are kept.
const KEPT: usize = 16;

/// What may be done.
#[derive(Debug, Clone, Copy)]
pub enum Action {
    /// Stop the search.
    Stop,
    /// Search after all.
    Search,
}

/// The searches.
#[derive(Debug, Default)]
pub struct Starts {
    /// What was found; nothing of a search that is too long to be done at once.
    known: RefCell<VecDeque<(StartTask, Option<StartFound>)>>,
    under_way: Option<UnderWay>,
    /// Nothing is searched for as long as this is what is asked first.
    stopped: Option<StartTask>,
    /// It was not the maker who stopped it.
    broke_down: bool,
    job_number: u32,
}

#[derive(Debug)]
struct UnderWay {
    task: StartTask,
    planks: u32,
}

/// What a search found; none while that is being worked out.
fn found(model: &Model, task: &StartTask) -> Option<StartFound> {
    let mut known = model.starts.known.borrow_mut();
    if let Some((_, found)) = known.iter().find(|(of, _)| of == task) {
        return found.clone();
    }
    // A task that makes no sense is told by the worker, which breaks down.
    let mut search = StartSearch::new(task.clone()).ok()?;
    search.go_on(AT_ONCE);
    let found = search.is_done().then(|| search.finish());
    known.push_back((task.clone(), found.clone()));
    if known.len() > KEPT {
        known.pop_front();
    }
    found
}

/// The answer; none while it is not worked out.
pub fn answer(model: &Model, question: &StartQuestion) -> Option<StartAnswer> {
    let found = found(model, question.task())?;
    Some(question.answered(found))
}

/// What a search found, where there is anything to search for; none while that is being worked out.
fn found_of(model: &Model, task: Option<&StartTask>) -> Option<Option<StartFound>> {
    match task {
        Some(task) => found(model, task).map(Some),
        None => Some(None),
    }
}

/// The same of a target.
pub fn target_answer(model: &Model, question: &TargetQuestion) -> Option<TargetAnswer> {
    Some(question.answered(found_of(model, question.task())?))
}

/// The same of a visit.
pub fn to_buy_answer(model: &Model, question: &ToBuyQuestion) -> Option<StillToBuy> {
    Some(question.answered(found_of(model, question.task())?))
}

/// The same of the target that is kept.
pub fn short_answer(model: &Model, question: &ShortQuestion) -> Option<TargetShort> {
    Some(question.answered(found_of(model, question.task())?))
}

/// After every action: searches for what the screen asks and does not know, and for nothing else.
pub fn go_on(model: &mut Model, asked: &[StartTask], effects: &mut Vec<Effect>) {
    let missing = asked.iter().find(|task| found(model, task).is_none());
    let starts = &mut model.starts;
    let is_asked = |task: &StartTask| Some(task) == missing;
    if starts
        .under_way
        .take_if(|one| !is_asked(&one.task))
        .is_some()
    {
        // Before whatever else is to be worked out beside the page.
        effects.insert(0, Effect::StopWork);
    }
    starts.stopped.take_if(|task| !is_asked(task));
    let Some(task) = missing else { return };
    if starts.under_way.is_some() || starts.stopped.is_some() {
        return;
    }
    starts.job_number = starts.job_number.wrapping_add(1);
    starts.broke_down = false;
    starts.under_way = Some(UnderWay {
        task: task.clone(),
        planks: 0,
    });
    effects.push(Effect::Work(work::Job::Start(Box::new(Job {
        number: starts.job_number,
        task: task.clone(),
    }))));
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let starts = &mut model.starts;
    match action {
        Action::Stop => {
            let Some(under_way) = starts.under_way.take() else {
                return Vec::new();
            };
            starts.stopped = Some(under_way.task);
            vec![Effect::StopWork]
        }
        Action::Search => {
            starts.stopped = None;
            Vec::new()
        }
    }
}

/// Takes what the work beside the page gave.
pub fn answered(model: &mut Model, answer: Answer) {
    let starts = &mut model.starts;
    if answer.number != starts.job_number {
        return;
    }
    let Some(under_way) = &mut starts.under_way else {
        return;
    };
    match answer.says {
        Says::Planks(planks) => under_way.planks = planks,
        Says::Found(found) => {
            let known = starts.known.get_mut();
            known.retain(|(task, _)| *task != under_way.task);
            known.push_back((under_way.task.clone(), Some(found)));
            starts.under_way = None;
        }
        Says::BrokeDown => {
            starts.stopped = Some(under_way.task.clone());
            starts.broke_down = true;
            starts.under_way = None;
        }
    }
}

/// How far the search is, with a key that stops it; or that it was stopped, with a key that searches after all.
pub fn view(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.common;
    let (says, does) = match is_stopped(ui) {
        true => (words.work_it_out, Action::Search),
        false => (words.stop, Action::Stop),
    };
    let under_way = ui.model.starts.under_way.as_ref();
    let said = match under_way {
        Some(UnderWay { task, planks }) => {
            fill(words.planks_looked_at, &[("n", planks), ("of", &task.most)])
        }
        None => in_a_word(ui).to_owned(),
    };
    html! {
        div.progress role="status" {
            span { (said) }
            button.key type="button" data-press=(ui.press(AppAction::Starts(does))) { (says) }
        }
        @if let Some(UnderWay { task, planks }) = under_way {
            progress value=(planks) max=(task.most) aria-label=(said) {}
        }
    }
}

fn is_stopped(ui: &Ui<'_>) -> bool {
    ui.model.starts.stopped.is_some()
}

/// The same in a word, where the key stands elsewhere.
pub fn in_a_word(ui: &Ui<'_>) -> &'static str {
    let words = &ui.w.common;
    match (is_stopped(ui), ui.model.starts.broke_down) {
        (false, _) => words.being_worked_out,
        (true, true) => words.work_broke_down,
        (true, false) => words.work_stopped,
    }
}
