//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn Home() -> impl IntoView {
    view! { <Frame title="Home" back=Route::Home>"to be written"</Frame> }
}
