//! Signals that ask the program to stop.

use super::Status;

/// Whether somebody asked to stop. The first time the work in hand is finished and nothing else is begun;
/// the second time the program ends at once.
pub struct StopSignal {
    #[cfg(unix)]
    asked: Vec<(Status, std::sync::Arc<std::sync::atomic::AtomicBool>)>,
}

impl StopSignal {
    /// Begins to watch. Where the system does not let it, the program ends at once also the first time.
    #[cfg(unix)]
    pub fn watch() -> Self {
        use signal_hook::consts::{SIGINT, SIGTERM};
        use signal_hook::flag;
        let asked = [(SIGINT, Status::Interrupted), (SIGTERM, Status::Terminated)];
        let watch = |(signal, status): (i32, Status)| {
            let came = std::sync::Arc::default();
            let number = i32::from(status.number());
            // In this order: the first signal finds that none came before.
            flag::register_conditional_shutdown(signal, number, std::sync::Arc::clone(&came))
                .ok()?;
            flag::register(signal, std::sync::Arc::clone(&came)).ok()?;
            Some((status, came))
        };
        Self { asked: asked.into_iter().filter_map(watch).collect() }
    }

    /// Nothing is watched here: the system ends the program.
    #[cfg(not(unix))]
    pub fn watch() -> Self {
        Self {}
    }

    /// How the program then ends, if somebody asked.
    #[cfg(unix)]
    pub fn came(&self) -> Option<Status> {
        let came = |(_, flag): &&(Status, std::sync::Arc<std::sync::atomic::AtomicBool>)| {
            flag.load(std::sync::atomic::Ordering::Relaxed)
        };
        self.asked.iter().find(came).map(|(status, _)| *status)
    }

    /// How the program then ends, if somebody asked.
    #[cfg(not(unix))]
    pub fn came(&self) -> Option<Status> {
        None
    }
}
