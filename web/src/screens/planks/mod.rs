//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn Planks() -> impl IntoView {
    view! { <Frame title="Planks" back=Route::Home>"to be written"</Frame> }
}
