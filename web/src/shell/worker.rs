//! The page's side of the service worker: register it, look for a newer version now and then, say
//! when one is ready, and change over only when the maker asks in this tab. It never reloads a page
//! by itself: a half-measured plank may be on it. Where there is no service worker it is silent.

use super::listen::{Listener, on_return};
use super::store::name_and_message;
use super::timer;
use js_sys::Reflect;
use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    RegistrationOptions, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration,
    ServiceWorkerState, ServiceWorkerUpdateViaCache,
};

/// Asking more often gains nothing: the maker is told at the next return to the app anyway.
const ASK_EVERY_MS: f64 = 10.0 * 60.0 * 1000.0;

/// A version that is asked to take over does so within this time, or is asked again.
const TAKES_OVER_WITHIN_MS: i32 = 4000;
const ASKED_AT_MOST: usize = 4;

/// What there is to tell the maker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum News {
    /// The first installation is done: from now on the app starts without a network.
    ReadyOffline,
    /// A newer version waits for [`Bridge::take_over`].
    NewVersionReady,
    /// The app runs, but will not start without a network.
    NotInstalled(WorkerError),
}

/// What [`Bridge::check_now`] found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Checked {
    UpToDate,
    /// Found and being fetched; [`News::NewVersionReady`] follows.
    Coming,
    /// Waiting for [`Bridge::take_over`].
    Ready,
    /// This browser keeps no version of its own: what is open is what the server has.
    NoWorker,
}

/// The service worker did not do as asked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum WorkerError {
    #[error("Stillwood could not be kept on this device for use without a network ({0}).")]
    Registering(String),
    #[error("Stillwood could not look for a newer version ({0}). Is there a network?")]
    LookingUp(String),
    #[error("The newer version did not take over ({0}). Close every Stillwood window instead.")]
    TakingOver(String),
}

/// The page's hold on its service worker. Cheap to clone.
#[derive(Clone)]
pub(crate) struct Bridge(Rc<Inner>);

struct Inner {
    container: Option<ServiceWorkerContainer>,
    tell: Box<dyn Fn(News)>,
    /// The maker asked in this tab to change over.
    asked: Cell<bool>,
    asked_last: Cell<Option<f64>>,
    listeners: RefCell<Vec<Listener>>,
}

impl Bridge {
    /// Registers `script` (as `./sw.js`) and keeps looking for newer ones. `tell` is called with
    /// what there is to tell.
    pub(crate) fn start(script: &str, tell: impl Fn(News) + 'static) -> Self {
        let inner = Rc::new(Inner {
            container: container(),
            tell: Box::new(tell),
            asked: Cell::new(false),
            asked_last: Cell::new(None),
            listeners: RefCell::default(),
        });
        if let Some(container) = inner.container.clone() {
            inner.listen(&container);
            let script = script.to_owned();
            let this = Rc::clone(&inner);
            spawn_local(async move {
                if let Err(thrown) = this.register(&container, &script).await {
                    let error = WorkerError::Registering(reason(&thrown));
                    (this.tell)(News::NotInstalled(error));
                }
            });
        }
        Self(inner)
    }

    /// Changes over to the waiting version and reloads this tab when that is done. Where none waits any more, another
    /// tab has changed over, or no tab held the newer one back: only this page is still the old one.
    pub(crate) async fn take_over(&self) -> Result<(), WorkerError> {
        let not_taken = |thrown: JsValue| WorkerError::TakingOver(reason(&thrown));
        for _ in 0..ASKED_AT_MOST {
            // Looked up at each turn: a version that waited may have been replaced by a newer one.
            let registration = self.0.registration().await.map_err(not_taken)?;
            let Some(waiting) = registration.and_then(|registration| registration.waiting()) else {
                return reload().map_err(not_taken);
            };
            self.0.asked.set(true);
            let sent = message("take-over").and_then(|text| waiting.post_message(&text));
            if let Err(thrown) = sent {
                self.0.asked.set(false);
                return Err(not_taken(thrown));
            }
            timer::sleep(TAKES_OVER_WITHIN_MS).await;
            if !self.0.asked.get() {
                return Ok(()); // it has taken over, and the page is being loaded anew
            }
            // A page that no worker serves, as after a forced reload, is not told that one took over.
        }
        self.0.asked.set(false);
        let waits = "it goes on waiting".to_owned();
        Err(WorkerError::TakingOver(waits))
    }

    /// Looks for a newer version now, whenever the last look was.
    pub(crate) async fn check_now(&self) -> Result<Checked, WorkerError> {
        let not_reached = |thrown: JsValue| WorkerError::LookingUp(reason(&thrown));
        let Some(registration) = self.0.registration().await.map_err(not_reached)? else {
            return Ok(Checked::NoWorker);
        };
        self.0.asked_last.set(Some(js_sys::Date::now()));
        let update = registration.update().map_err(not_reached)?;
        JsFuture::from(update).await.map_err(not_reached)?;
        Ok(if registration.waiting().is_some() {
            Checked::Ready
        } else if registration.installing().is_some() {
            Checked::Coming
        } else {
            Checked::UpToDate
        })
    }
}

impl Inner {
    fn listen(self: &Rc<Self>, container: &ServiceWorkerContainer) {
        let mut listeners = self.listeners.borrow_mut();
        let weak = Rc::downgrade(self);
        listeners.extend(Listener::new(container, "controllerchange", move |_| {
            if let Some(this) = weak.upgrade() {
                this.controller_changed();
            }
        }));
        let weak = Rc::downgrade(self);
        listeners.extend(on_return(move || look(&weak)));
        let weak = Rc::downgrade(self);
        if let Some(window) = web_sys::window() {
            listeners.extend(Listener::new(&window, "online", move |_| look(&weak)));
        }
    }

    /// A worker has taken over: at the first installation, on this tab's word, or on another's.
    fn controller_changed(&self) {
        if self.asked.replace(false)
            && let Err(thrown) = reload()
        {
            let error = WorkerError::TakingOver(reason(&thrown));
            (self.tell)(News::NotInstalled(error));
        }
    }

    async fn register(
        self: &Rc<Self>,
        container: &ServiceWorkerContainer,
        script: &str,
    ) -> Result<(), JsValue> {
        let options = RegistrationOptions::new();
        options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
        let registration: ServiceWorkerRegistration =
            JsFuture::from(container.register_with_options(script, &options))
                .await?
                .dyn_into()?;
        // Registering has looked at the script just now.
        self.asked_last.set(Some(js_sys::Date::now()));
        if registration.waiting().is_some() && registration.active().is_some() {
            (self.tell)(News::NewVersionReady);
        }
        if let Some(installing) = registration.installing() {
            self.watch(&registration, &installing);
        }
        let weak = Rc::downgrade(self);
        let found = registration.clone();
        let listener = Listener::new(&registration, "updatefound", move |_| {
            if let (Some(this), Some(installing)) = (weak.upgrade(), found.installing()) {
                this.watch(&found, &installing);
            }
        });
        self.listeners.borrow_mut().extend(listener);
        Ok(())
    }

    /// Tells when `installing` is installed.
    fn watch(
        self: &Rc<Self>,
        registration: &ServiceWorkerRegistration,
        installing: &ServiceWorker,
    ) {
        let weak = Rc::downgrade(self);
        let worker = installing.clone();
        // Not the controller but the active worker tells a first installation: a forced reload has
        // no controller, yet an active worker.
        let first = registration.active().is_none();
        let mut installed = false;
        let changed = Closure::<dyn FnMut()>::new(move || {
            let Some(this) = weak.upgrade() else {
                return;
            };
            match worker.state() {
                ServiceWorkerState::Installed => {
                    installed = true;
                    (this.tell)(if first {
                        News::ReadyOffline
                    } else {
                        News::NewVersionReady
                    });
                }
                // A later version that fails to install leaves the present one working.
                ServiceWorkerState::Redundant if first && !installed => {
                    let error = WorkerError::Registering("a part was not fetched".to_owned());
                    (this.tell)(News::NotInstalled(error));
                }
                _ => {}
            }
        });
        // Set, not added: watching the same worker twice tells once.
        installing.set_onstatechange(Some(changed.into_js_value().unchecked_ref()));
    }

    async fn registration(&self) -> Result<Option<ServiceWorkerRegistration>, JsValue> {
        let Some(container) = &self.container else {
            return Ok(None);
        };
        let found = JsFuture::from(container.get_registration()).await?;
        Ok(found.dyn_into().ok())
    }

    /// The clock only spaces the looks. Where it was set back, it is time again.
    fn is_time(&self, now: f64) -> bool {
        self.asked_last
            .get()
            .is_none_or(|last| now < last || now - last >= ASK_EVERY_MS)
    }
}

/// Looks for a newer version unless that was done lately. Without a network nothing is found,
/// which is no fault: the next return looks again.
fn look(weak: &Weak<Inner>) {
    let Some(this) = weak.upgrade() else {
        return;
    };
    let now = js_sys::Date::now();
    if !this.is_time(now) {
        return;
    }
    this.asked_last.set(Some(now));
    spawn_local(async move {
        if let Ok(Some(registration)) = this.registration().await
            && let Ok(update) = registration.update()
            && JsFuture::from(update).await.is_err()
        {
            this.asked_last.set(None);
        }
    });
}

/// `navigator.serviceWorker`, absent in old browsers, private windows and on unsafe addresses.
fn container() -> Option<ServiceWorkerContainer> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    Reflect::get(&navigator, &JsValue::from_str("serviceWorker"))
        .ok()?
        .dyn_into()
        .ok()
}

/// What is said to the worker.
#[derive(serde::Serialize)]
struct Said<'a> {
    r#type: &'a str,
}

/// `{ type: kind }`.
fn message(kind: &str) -> Result<JsValue, JsValue> {
    serde_wasm_bindgen::to_value(&Said { r#type: kind }).map_err(JsValue::from)
}

fn reload() -> Result<(), JsValue> {
    web_sys::window()
        .ok_or_else(|| JsValue::from_str("no page"))?
        .location()
        .reload()
}

fn reason(thrown: &JsValue) -> String {
    let (name, message) = name_and_message(thrown);
    format!("{name}: {message}")
}
