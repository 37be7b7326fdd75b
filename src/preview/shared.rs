//! What the threads of the preview share: what is shown, and who looks at it.

use std::collections::BTreeMap;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

use super::desk::Asked;
use super::shown::{Choices, Shown};

/// What the threads share.
pub struct Shared {
    state: Mutex<State>,
    /// Somebody wants something else.
    pub wish: Condvar,
    /// Something else is shown.
    pub news: Condvar,
}

/// What is shown, and who looks at it.
pub struct State {
    /// How many wait for news of each wish.
    pub wanted: BTreeMap<Asked, usize>,
    /// What is shown for each wish.
    pub shown: BTreeMap<Asked, Arc<Shown>>,
    /// All that can be chosen.
    pub choices: Arc<Choices>,
    /// The pages that are shown, and those before: whoever was just told of them may still fetch them.
    pub pages: BTreeMap<String, Arc<str>>,
    /// How many are there.
    pub connections: usize,
}

impl Shared {
    /// Nothing is shown yet, and nobody looks.
    pub fn new(choices: Arc<Choices>) -> Self {
        let state = State {
            wanted: BTreeMap::new(),
            shown: BTreeMap::new(),
            choices,
            pages: BTreeMap::new(),
            connections: 0,
        };
        Self { state: Mutex::new(state), wish: Condvar::new(), news: Condvar::new() }
    }

    /// The state. A thread that stopped half-way left nothing in it that others could trip over.
    pub fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
