//! How long this thread computed. Where a system does not say, the clock on the wall has to do.

use std::time::Duration;

/// A moment in the time that the processor spent on this thread.
#[derive(Clone, Copy)]
pub(crate) struct ProcessorTime(
    #[cfg(unix)] rustix::time::Timespec,
    #[cfg(not(unix))] std::time::Instant,
);

impl ProcessorTime {
    #[cfg(unix)]
    pub(crate) fn now() -> Self {
        Self(rustix::time::clock_gettime(
            rustix::time::ClockId::ThreadCPUTime,
        ))
    }

    #[cfg(not(unix))]
    pub(crate) fn now() -> Self {
        Self(std::time::Instant::now())
    }

    #[cfg(unix)]
    pub(crate) fn elapsed(self) -> Duration {
        let since_boot =
            |at: rustix::time::Timespec| Duration::new(at.tv_sec as u64, at.tv_nsec as u32);
        since_boot(Self::now().0).saturating_sub(since_boot(self.0))
    }

    #[cfg(not(unix))]
    pub(crate) fn elapsed(self) -> Duration {
        self.0.elapsed()
    }
}
