//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn PileForm(visit: uuid::Uuid, id: Option<uuid::Uuid>) -> impl IntoView {
    let _ = (visit, id);
    view! { <Frame title="x" back=Route::Home>"to be written"</Frame> }
}
