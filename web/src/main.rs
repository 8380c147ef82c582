//! The app in the browser. It carries what is typed into core and draws what core derives.

use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <p>"Stillwood"</p> });
}
