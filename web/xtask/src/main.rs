//! The project's chores: build, serve, test, bench.

fn main() {}
