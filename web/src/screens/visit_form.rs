//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn VisitForm(id: Option<uuid::Uuid>) -> impl IntoView {
    let _ = id;
    view! { <Frame title="x" back=Route::Home>"to be written"</Frame> }
}
