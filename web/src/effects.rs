//! Effects, carried out in the browser.

use crate::app::App;
use crate::kept_elsewhere::KEPT;
use crate::page::told;
use crate::shell::files_in;
use crate::shell::files_out::{self, Pieces};
use crate::shell::timer;
use crate::steps_behind::steps_behind;
use stillwood_app::effect::MarkFor;
use stillwood_app::{Action, Effect, Route};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{HtmlElement, Window};

fn window() -> Option<Window> {
    web_sys::window()
}

fn element(id: &str) -> Option<HtmlElement> {
    // nothing lost: what is not there is not focused
    window()?.document()?.get_element_by_id(id)?.dyn_into().ok()
}

/// A short buzz, where the platform has one.
fn buzz() {
    let navigator = window().map(|window| window.navigator());
    let can = |navigator: &web_sys::Navigator| {
        // nothing lost: then there is no buzz
        js_sys::Reflect::has(navigator, &"vibrate".into()).unwrap_or(false)
    };
    if let Some(navigator) = navigator.filter(can) {
        navigator.vibrate_with_duration(20);
    }
}

impl App {
    /// Carries out an effect.
    pub(crate) fn carry_out(&self, effect: Effect) {
        let app = self.clone();
        match effect {
            Effect::Record { events, after } => {
                spawn_local(async move { app.record_events(events, after).await });
            }
            Effect::KeepDraft(key, json) => {
                // What was saved from there stands apart from what is typed there now.
                app.keeping(|keeping| keeping.unsaved.drafts.remove(&key));
                if let Some(store) = self.store() {
                    store.put_draft(&key, &json);
                }
            }
            Effect::RemoveDraft(key) => {
                if let Some(store) = self.store() {
                    store.remove_draft(&key);
                }
            }
            Effect::KeepSetting(KEPT, json) => {
                spawn_local(async move { app.keep_what_is_elsewhere(&json).await });
            }
            // The settings of this window are those supplied: they would be written over the maker's own.
            Effect::KeepSetting(..) if app.keeping(|keeping| keeping.start_anew) => {
                app.say("The settings are not kept: they could not be read at the start. Load the page again.");
            }
            Effect::KeepSetting(key, json) => self.keep_setting(key, json),
            Effect::TakeMark(wanted) => spawn_local(async move {
                if let MarkFor::Measuring(pile) = wanted
                    && let Some(piece) = app.left_to_take_up(pile).await
                {
                    return app.act(Action::Go(Route::Measure(piece)));
                }
                let mark = app.next_mark().await;
                app.act(Action::MarkTaken { wanted, mark });
            }),
            Effect::Go(route) => self.go(route, false),
            Effect::Replace(route) => self.go(route, true),
            Effect::Back => {
                // nothing lost: where there is nothing to go back to, the place's first screen is shown
                let history = window().and_then(|window| window.history().ok());
                match history
                    .filter(|history| steps_behind(history).is_some_and(|steps| steps > 0.0))
                {
                    Some(history) => told(history.back()),
                    None => self.go(self.model(|model| model.route.place().first()), true),
                }
            }
            Effect::Focus(id) => {
                if let Some(element) = element(&id) {
                    told(element.focus());
                }
            }
            Effect::ScrollTo(id) => {
                if let Some(element) = element(&id) {
                    let options = web_sys::ScrollIntoViewOptions::new();
                    options.set_block(web_sys::ScrollLogicalPosition::Nearest);
                    element.scroll_into_view_with_scroll_into_view_options(&options);
                }
            }
            Effect::After(0, action) => spawn_local(async move {
                timer::next_task().await;
                app.act(*action);
            }),
            Effect::After(millis, action) => spawn_local(async move {
                // nothing lost: a delay beyond the range is as long as one can be
                timer::sleep(i32::try_from(millis).unwrap_or(i32::MAX)).await;
                app.act(*action);
            }),
            Effect::Buzz => buzz(),
            Effect::Print => self.said(files_out::print().map_err(|why| why.to_string())),
            Effect::WritePiece(piece) => self.keeping(|keeping| keeping.file_out.push(&piece)),
            Effect::DropFile => self.keeping(|keeping| keeping.file_out = Pieces::default()),
            Effect::Download(file) => self.download(&file),
            Effect::Share(file) => self.share(&file),
            Effect::AskForFile => self.ask_for_file(),
            Effect::ReadLabel => self.read_label(),
            Effect::OpenSample(open) => self.said(crate::start::open_sample(open)),
            Effect::DropShared(addresses) => spawn_local(async move {
                let dropped = files_in::drop_shared(&addresses).await;
                app.said(dropped.map_err(|why| why.to_string()));
            }),
            Effect::StartNewVersion => spawn_local(async move { app.start_new_version().await }),
            Effect::LookForNewVersion => self.look_for_new_version(),
            Effect::TryAgain => self.try_again(),
            Effect::AskToPersist => self.ask_to_keep(),
            Effect::Work(job) => self.work(job),
            Effect::StopWork => self.keeping(|keeping| keeping.working = None),
            Effect::BringIn(bring) => spawn_local(async move { app.bring_in_file(*bring).await }),
            Effect::StopBringIn => self.keeping(|keeping| keeping.stops_bringing_in = true),
            Effect::AskStorage => self.tell_storage(),
            Effect::DeleteEverything => self.delete_everything(),
        }
    }

    fn keep_setting(&self, key: &'static str, json: String) {
        let Some(store) = self.store() else { return };
        self.keeping(|keeping| keeping.settings_on_their_way += 1);
        let app = self.clone();
        spawn_local(async move {
            let put = store.put_setting(key, &json).await;
            app.keeping(|keeping| keeping.settings_on_their_way -= 1);
            match put {
                Ok(()) => app.tell_tabs(),
                Err(why) => app.say(format!("The settings are not kept: {why}")),
            }
        });
    }

    /// Says something to the maker.
    pub(crate) fn say(&self, text: impl Into<String>) {
        self.act(Action::Say(text.into()));
    }

    fn said(&self, done: Result<(), String>) {
        if let Err(why) = done {
            self.say(why);
        }
    }

    fn go(&self, route: Route, in_place: bool) {
        let Some(window) = window() else { return };
        let address = route.address();
        if window.location().hash().is_ok_and(|now| now == address) {
            return self.act(Action::Shown(route));
        }
        // nothing lost: without the history the way back leads to the place's first screen
        let history = window.history().ok();
        // nothing lost: a screen without a note was not gone to in the app
        let behind = history.as_ref().and_then(steps_behind).unwrap_or(0.0);
        told(match in_place {
            true => window.location().replace(&address),
            false => window.location().set_hash(&address),
        });
        if let Some(history) = history {
            let behind = if in_place { behind } else { behind + 1.0 };
            told(history.replace_state(&behind.into(), ""));
        }
    }

    /// Starts the newer version once what is half typed is kept.
    async fn start_new_version(&self) {
        if let Some(store) = self.store()
            && let Err(why) = store.drafts_kept().await
        {
            return self.say(format!(
                "Not updated: what is half typed can't be kept ({why})."
            ));
        }
        let bridge = self.keeping(|keeping| keeping.bridge.clone());
        let Some(bridge) = bridge else { return };
        if let Err(why) = bridge.take_over().await {
            self.say(why.to_string());
        }
    }
}
