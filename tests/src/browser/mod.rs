//! The built app in a real browser: a server for it, a driver with a profile of its own, a page that
//! is touched as a thumb would. Nothing here looks inside the app: what it asks is what is on the
//! screen.
//!
//! `cargo xtask test --only browser-tests` builds the app and starts what uses this. As many browsers run at a time as
//! the test harness has threads; each has a server, a driver and a profile of its own.

mod chrome;
mod dist;
mod driver;
mod engine;
mod page;
mod place;
mod processes;
pub mod screens;
mod server;
pub mod steps;

pub use chrome::{BROKEN, Browser, Device, broken, downloaded};
pub use dist::{Dist, is_packed};
pub use driver::Driver;
pub use engine::{Engine, skipped};
pub use page::Page;
pub use place::{Folder, program};
pub use server::Server;
pub use steps::{HOPPLE, Pile};

use std::time::{Duration, Instant};

/// How long a condition may take to come true, on a slow machine that builds something else as well.
pub const PATIENCE: Duration = Duration::from_secs(60);

/// How long one test may take in all.
const WHOLE_TEST: Duration = Duration::from_secs(400);

/// How often a condition is looked at.
const LOOK_EVERY: Duration = Duration::from_millis(40);

/// Runs a test, for at most so long as one may take.
pub fn run(test: impl Future<Output = ()>) {
    run_within(WHOLE_TEST, test);
}

/// The same with another limit.
pub fn run_within(limit: Duration, test: impl Future<Output = ()>) {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    let started = Instant::now();
    let ended = runtime.block_on(async { tokio::time::timeout(limit, test).await });
    assert!(
        ended.is_ok(),
        "not over after {} s",
        started.elapsed().as_secs()
    );
}

/// Asks until there is an answer; `None` after [`PATIENCE`].
pub async fn until<T>(mut ask: impl AsyncFnMut() -> Option<T>) -> Option<T> {
    let end = Instant::now() + PATIENCE;
    loop {
        if let Some(answer) = ask().await {
            return Some(answer);
        }
        if Instant::now() > end {
            return None;
        }
        tokio::time::sleep(LOOK_EVERY).await;
    }
}
