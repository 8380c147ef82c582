//! How long a match of laminates takes.
fn main() {}
