//! The compiler as a module for the field page: a text in, a text or a file out.
//!
//! The page and the module share memory. The page asks for room, writes there what it asks, calls [`answer`],
//! and reads as many bytes as that says from where [`answer_start`] says. Both texts belong to the module and
//! are given out anew with every call, so nothing is handed over that somebody must give back, and no pointer
//! is ever read here: there is no `unsafe` block.

mod answers;
mod files;

use std::cell::RefCell;

use answers::Desk;

#[derive(Default)]
struct Module {
    asked: Vec<u8>,
    answer: Vec<u8>,
    desk: Desk,
}

thread_local! {
    static MODULE: RefCell<Module> = RefCell::default();
}

/// Makes room for a question of so many bytes, and gives its first place. It holds until the next call.
// The name is exported for the page; nothing else in the module has it.
#[allow(unsafe_code)]
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    MODULE.with_borrow_mut(|module| {
        module.asked.clear();
        module.asked.resize(bytes, 0);
        module.asked.as_mut_ptr()
    })
}

/// The answer to a question, for who shares no memory with the module.
pub fn answer_to(question: &[u8]) -> Vec<u8> {
    MODULE.with_borrow_mut(|module| module.desk.answer(question))
}

/// Answers what was written into the room; gives the number of bytes of the answer.
#[allow(unsafe_code)]
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> usize {
    MODULE.with_borrow_mut(|module| {
        module.answer = module.desk.answer(&module.asked);
        module.answer.len()
    })
}

/// The first place of the last answer. It holds until the next call.
#[allow(unsafe_code)]
#[unsafe(no_mangle)]
pub extern "C" fn answer_start() -> *const u8 {
    MODULE.with_borrow(|module| module.answer.as_ptr())
}
