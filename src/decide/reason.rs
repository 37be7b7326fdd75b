//! Why a decision is as it is, as data. A sheet words it in its reader's language.

use crate::board::{Allowance, Device, GroupId, LayoutNumber};
use crate::units::{Amps, Volts};

/// Why a layout is taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LayoutReason {
    /// No other fits.
    OnlyFit,
    /// Others fit, too, and this has the lowest number.
    LowestNumber,
    /// Those with a lower number fit the devices, but cannot be wired as the job asks.
    LowestThatWorks {
        /// Those that were passed over.
        passed: Vec<LayoutNumber>,
    },
}

/// Why a jumper goes where it goes.
#[derive(Clone, Debug, PartialEq)]
pub enum JumperReason {
    /// Nothing hangs on it; it stays where it is shipped.
    Unused,
    /// Nothing hangs on it, but another jumper needs the tab that it is shipped on.
    MakesRoom,
    /// Of its groups only this one gives its devices their voltage.
    OnlyVoltage {
        /// What it gives.
        volts: Volts,
    },
    /// Several of its groups give the voltage; all jumpers were chosen together, and this is its
    /// part in the best choice.
    Together {
        /// What it gives.
        volts: Volts,
        /// The others that give the voltage.
        others: Vec<GroupId>,
    },
}

/// Why a header stays empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EmptyReason {
    /// The layout leaves it idle: whatever is plugged in there stays dead, or is driven as
    /// something else.
    Idle,
    /// It would drive a device that is not fitted.
    NotFitted(Device),
}

/// Why a heater allowance is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AllowanceReason {
    /// No setting is higher.
    Highest,
    /// The next higher one asks more of the breaker than it carries.
    Breaker {
        /// The next higher setting.
        next: Allowance,
        /// What it needs.
        needed: Amps,
    },
    /// The next higher one loads the conductors of the supply run with more than they may carry.
    Wire {
        /// The next higher setting.
        next: Allowance,
        /// What it needs of them.
        needed: Amps,
    },
    /// The next higher one loads a supply conductor with more than the board may carry.
    Board {
        /// The next higher setting.
        next: Allowance,
        /// What the conductor would carry.
        amps: Amps,
    },
    /// No switch sets it.
    NoSwitch,
    /// No setting is carried; this is the lowest.
    NoneCarried,
}

/// Where the current comes from that is needed of the breaker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeededReason {
    /// It follows from the rules.
    Rules,
    /// It is marked on the equipment as its minimum circuit ampacity, and the plate governs.
    Marked,
}
