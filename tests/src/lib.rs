//! What the checks share: how a table of published values is read.
