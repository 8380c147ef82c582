//! To be written.

use crate::parts::Frame;
use crate::route::Route;
use leptos::prelude::*;

#[component]
pub(crate) fn Seller(id: uuid::Uuid) -> impl IntoView {
    let _ = id;
    view! { <Frame title="Seller" back=Route::Home>"to be written"</Frame> }
}
