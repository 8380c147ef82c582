//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn Carry() -> impl IntoView {
    view! { <Frame title="Carry" back=Route::Home>"to be written"</Frame> }
}
