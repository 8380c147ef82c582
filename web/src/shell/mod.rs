//! What the app asks of the browser: a place to keep things, files in and out, a clock, the
//! service worker. One small module for each. Nothing here knows what an entry or a plank is,
//! nothing here draws, and no type of the screen framework comes in: async functions and plain
//! callbacks only, so that the screens above can be replaced.

pub(crate) mod background_worker;
pub(crate) mod bytes;
pub(crate) mod channel;
pub(crate) mod clock;
pub(crate) mod code_reader;
pub(crate) mod files_in;
pub(crate) mod files_out;
pub(crate) mod listen;
pub(crate) mod locks;
pub(crate) mod platform;
pub(crate) mod second_copy;
pub(crate) mod store;
pub(crate) mod timer;
pub(crate) mod worker;
