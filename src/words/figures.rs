//! Words in figures.

use super::key::phrases;
use crate::board::Pin;

phrases! {
    /// `ground`: a pin of a socket.
    pin_name(pin: Pin);
}
