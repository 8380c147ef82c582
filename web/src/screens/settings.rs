//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn SettingsScreen() -> impl IntoView {
    view! { <Frame title="SettingsScreen" back=Route::Home>"to be written"</Frame> }
}
