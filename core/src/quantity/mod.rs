//! Lengths, masses, densities, moisture as types.
