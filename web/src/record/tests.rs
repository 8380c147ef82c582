//! What becomes of deeds that can't be written down, of damage, and of a store that was emptied.
