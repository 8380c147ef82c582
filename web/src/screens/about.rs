//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn About() -> impl IntoView {
    view! { <Frame title="About" back=Route::Home>"to be written"</Frame> }
}
