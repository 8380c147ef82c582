//! The app in the browser. It carries what is typed into core and draws what core derives.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

// The screens that call the shell are not all here yet.
#[allow(dead_code, unused_imports)]
mod shell;

#[cfg(not(test))]
use leptos::prelude::*;

#[cfg(not(test))]
fn main() {
    mount_to_body(|| view! { <p>"Stillwood"</p> });
}

// Under test the harness decides what runs; the app itself stays out of the page.
#[cfg(test)]
fn main() {}
