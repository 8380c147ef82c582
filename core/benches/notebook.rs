//! How long reading, folding and writing a record take.
fn main() {}
