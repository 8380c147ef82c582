//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn TallyScreen(id: uuid::Uuid) -> impl IntoView {
    let _ = id;
    view! { <Frame title="TallyScreen" back=Route::Home>"to be written"</Frame> }
}
