//! Whether the conductors of the supply run suit their breaker and what they carry.
//!
//! A conductor is right if its breaker protects it and if it carries what counts of the load. What it
//! may carry follows from its size and from what the job tells of the run: a capacity that somebody
//! states, or for sizes in AWG the column that its terminals allow, or for sizes in mm² the method of
//! installation. Terminals up to 100 A allow the column of 60 °C unless they are marked for more; a
//! conductor that is right at 75 °C alone is told, with the marks to look for. What cannot be judged
//! is said to be unjudged.

use super::rules::carries;
use crate::board::{Board, Conductor, Job, SupplyRun, Terminals};
use crate::source::Spanned;
use crate::standards::conductors::{Metal, Wire, WireSize};
use crate::standards::iec::{self, Insulation, Method};
use crate::standards::{Clause, nec};
use crate::units::Amps;

/// What was found about the conductors of a supply run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireCheck {
    /// What one conductor may carry, by what the job tells; `None` if that is not known.
    pub capacity: Option<Capacity>,
    /// Whether it suits.
    pub verdict: WireVerdict,
}

/// What a conductor may carry, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    /// So much.
    pub amps: Amps,
    /// By this.
    pub basis: CapacityBasis,
}

/// What a capacity follows from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CapacityBasis {
    /// The column of NEC table 310.16 that terminals of this temperature allow.
    Terminals(Terminals),
    /// A table of IEC 60364-5-52.
    Method {
        /// How the run is installed.
        method: Method,
        /// What its conductors are insulated with.
        insulation: Insulation,
        /// Whether three of them are loaded, else two.
        three: bool,
        /// The table.
        clause: Clause,
    },
    /// The job states it.
    Stated,
}

/// Whether conductors suit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WireVerdict {
    /// They suit.
    Suits,
    /// They suit only if both terminals are marked for 75 °C, and the job does not say so.
    OnlyAt75 {
        /// What they may carry at 60 °C.
        at_60: Amps,
        /// The smallest size that suits at 60 °C; `None` if no size in the tables does.
        would_do: Option<Wire>,
    },
    /// They are too thin.
    TooThin(TooThin),
    /// Nobody can say.
    Unjudged(Unjudged),
}

/// Why conductors are too thin, and which would do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooThin {
    /// Why.
    pub why: ThinReason,
    /// The smallest size that suits; `None` if no size in the tables does, or if the job states the
    /// capacity of its own.
    pub would_do: Option<Wire>,
}

/// Why conductors are too thin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ThinReason {
    /// The breaker is larger than this, the largest that protects them.
    Breaker(Amps),
    /// The same, by the rule for small conductors.
    SmallConductor(Amps),
    /// What counts of the load is more than they may carry.
    Load(Amps),
}

/// Why conductors cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unjudged {
    /// The job tells of no run.
    NoRun,
    /// The job tells neither a method of installation nor a capacity.
    NoMethod,
    /// No table here holds conductors of this metal and size; a stated capacity would do.
    NoTable,
}

/// What is found about the run of a job that carries `load`; without one, only whether the breaker
/// protects it is asked.
pub fn wire(board: &Board, job: &Job, load: Option<Amps>) -> WireCheck {
    let Some(run) = &job.run else {
        return WireCheck { capacity: None, verdict: WireVerdict::Unjudged(Unjudged::NoRun) };
    };
    let case = Case { breaker: job.breaker.value, three: three_loaded(board, job), load };
    judge(run, case)
}

/// The most that the load of a conductor of the run may be, if the terminals are as good as the job
/// allows for; `None` if that is not known, or if the run is refused whatever it carries.
pub fn load_limit(board: &Board, job: &Job) -> Option<Amps> {
    let run = job.run.as_ref()?;
    let found = wire(board, job, None);
    match found.verdict {
        WireVerdict::TooThin(_) | WireVerdict::Unjudged(_) => None,
        WireVerdict::Suits | WireVerdict::OnlyAt75 { .. } => {
            // The job did not say that the terminals are for 60 °C.
            let best = SupplyRun { terminals: run.terminals.or(Some(Terminals::C75)), ..*run };
            let case =
                Case { breaker: job.breaker.value, three: three_loaded(board, job), load: None };
            Some(judge(&best, case).capacity?.amps)
        }
    }
}

/// A stated capacity that is above what any table gives such a conductor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AboveTables {
    /// What is stated.
    pub stated: Spanned<Amps>,
    /// The most that a table gives.
    pub most: Amps,
    /// That table, or the first of several.
    pub clause: Clause,
}

/// Whether the capacity that a job states is above every table's: for sizes in AWG the column of 90
/// degrees of NEC 310.16, for sizes in mm² the highest of all methods of installation. Copper of that
/// size stands for aluminum where the tables have none: it carries more.
pub fn above_tables(run: &SupplyRun) -> Option<AboveTables> {
    let stated = run.capacity?;
    let (most, clause) = match run.wire.size {
        WireSize::Awg(awg) => {
            let (_, copper, aluminum) =
                nec::AMPACITY_90.values.iter().find(|(known, ..)| *known == awg)?;
            let most = match run.wire.metal {
                Metal::Copper => *copper,
                Metal::Aluminum => (*aluminum)?,
            };
            (most, nec::AMPACITY_90.clause)
        }
        WireSize::Mm2(mm2) => {
            let column = iec::CAPACITY_MM2.iter().position(|known| *known == mm2)?;
            let cells = iec::CAPACITIES.iter().flat_map(|table| {
                table.amps.iter().filter_map(move |row| Some((*row.get(column)?, table.clause)))
            });
            cells.reduce(|a, b| if b.0 > a.0 { b } else { a })?
        }
    };
    (!carries(Amps(most), stated.value)).then_some(AboveTables { stated, most: Amps(most), clause })
}

/// What conductors are judged against.
#[derive(Clone, Copy)]
struct Case {
    breaker: Amps,
    /// Whether three conductors are loaded.
    three: bool,
    load: Option<Amps>,
}

/// Three lines are loaded; so are two lines of three and their neutral.
fn three_loaded(board: &Board, job: &Job) -> bool {
    let supply = &board[job.supply.value];
    let conductors = supply.conductors();
    let lines = conductors.iter().filter(|conductor| conductor.is_line()).count();
    let wye = matches!(supply.system, crate::board::System::Wye { .. });
    lines > 2 || wye && lines == 2 && conductors.contains(&Conductor::N)
}

fn judge(run: &SupplyRun, case: Case) -> WireCheck {
    let found = judge_as(run, case);
    let undecided = run.terminals.is_none() && run.capacity.is_none();
    match (found.verdict, found.capacity) {
        (WireVerdict::TooThin(thin), Some(capacity)) if undecided && is_awg(run.wire) => {
            let marked = SupplyRun { terminals: Some(Terminals::C75), ..*run };
            let better = judge_as(&marked, case);
            match better.verdict {
                WireVerdict::Suits => WireCheck {
                    verdict: WireVerdict::OnlyAt75 {
                        at_60: capacity.amps,
                        would_do: thin.would_do,
                    },
                    ..better
                },
                // Told by the reason that no marking mends.
                WireVerdict::TooThin(better) => {
                    let verdict = WireVerdict::TooThin(TooThin { why: better.why, ..thin });
                    WireCheck { verdict, ..found }
                }
                WireVerdict::OnlyAt75 { .. } | WireVerdict::Unjudged(_) => found,
            }
        }
        _ => found,
    }
}

/// The same by terminals of 60 °C where the job does not tell.
fn judge_as(run: &SupplyRun, case: Case) -> WireCheck {
    let capacity = match capacity(run, case) {
        Ok(capacity) => capacity,
        Err(unjudged) => {
            return WireCheck { capacity: None, verdict: WireVerdict::Unjudged(unjudged) };
        }
    };
    let verdict = match thin(run.wire, capacity.amps, case) {
        None => WireVerdict::Suits,
        Some(why) => WireVerdict::TooThin(TooThin { why, would_do: would_do(run, case) }),
    };
    WireCheck { capacity: Some(capacity), verdict }
}

fn is_awg(wire: Wire) -> bool {
    matches!(wire.size, WireSize::Awg(_))
}

/// The smallest size of the same metal that suits, installed in the same way.
fn would_do(run: &SupplyRun, case: Case) -> Option<Wire> {
    if run.capacity.is_some() {
        return None;
    }
    Wire::all()
        .into_iter()
        .filter(|wire| wire.metal == run.wire.metal && is_awg(*wire) == is_awg(run.wire))
        .find(|wire| {
            let other = SupplyRun { wire: *wire, ..*run };
            capacity(&other, case).is_ok_and(|found| thin(*wire, found.amps, case).is_none())
        })
}

fn capacity(run: &SupplyRun, case: Case) -> Result<Capacity, Unjudged> {
    if let Some(stated) = run.capacity {
        return Ok(Capacity { amps: stated.value, basis: CapacityBasis::Stated });
    }
    match run.wire.size {
        WireSize::Awg(awg) => {
            let large = case.breaker.0 > nec::SIXTY_DEGREES_UP_TO.0;
            let terminals = match run.terminals {
                Some(terminals) => terminals,
                None if large => Terminals::C75,
                None => Terminals::C60,
            };
            let row = nec::AMPACITY.values.iter().find(|row| row.awg == awg);
            let columns = row.and_then(|row| match run.wire.metal {
                Metal::Copper => Some(row.copper),
                Metal::Aluminum => row.aluminum,
            });
            let [at_60, at_75] = columns.ok_or(Unjudged::NoTable)?;
            let amps = match terminals {
                Terminals::C60 => at_60,
                Terminals::C75 => at_75,
            };
            Ok(Capacity { amps: Amps(amps), basis: CapacityBasis::Terminals(terminals) })
        }
        WireSize::Mm2(mm2) => {
            let method = run.method.ok_or(match run.wire.metal {
                Metal::Copper => Unjudged::NoMethod,
                Metal::Aluminum => Unjudged::NoTable,
            })?;
            if run.wire.metal != Metal::Copper {
                return Err(Unjudged::NoTable);
            }
            let (insulation, three) = (run.insulation, case.three);
            let table = iec::CAPACITIES
                .iter()
                .find(|table| table.insulation == insulation && table.three == three);
            let row = Method::ALL.iter().position(|known| *known == method);
            let column = iec::CAPACITY_MM2.iter().position(|known| *known == mm2);
            let found = (|| {
                let table = table?;
                let amps = Amps(*table.amps.get(row?)?.get(column?)?);
                let clause = table.clause;
                let basis = CapacityBasis::Method { method, insulation, three, clause };
                Some(Capacity { amps, basis })
            })();
            found.ok_or(Unjudged::NoTable)
        }
    }
}

/// Why conductors that may carry `amps` do not suit; `None` if they do.
fn thin(wire: Wire, amps: Amps, case: Case) -> Option<ThinReason> {
    if let WireSize::Awg(awg) = wire.size {
        let small = nec::SMALL_CONDUCTORS.values.iter().find(|(small, ..)| *small == awg);
        let largest = small.and_then(|(_, copper, aluminum)| match wire.metal {
            Metal::Copper => Some(*copper),
            Metal::Aluminum => *aluminum,
        });
        if let Some(largest) = largest.filter(|largest| !carries(*largest, case.breaker)) {
            return Some(ThinReason::SmallConductor(largest));
        }
    }
    let largest = match wire.size {
        WireSize::Awg(_) => next_size_up(amps),
        WireSize::Mm2(_) => amps,
    };
    if !carries(largest, case.breaker) {
        return Some(ThinReason::Breaker(largest));
    }
    case.load.filter(|load| !carries(amps, *load)).map(ThinReason::Load)
}

/// The largest breaker that protects a conductor of an ampacity: that size, or the next standard one.
fn next_size_up(amps: Amps) -> Amps {
    let sizes = nec::BREAKER_SIZES.values.iter().copied();
    match sizes.clone().find(|size| size.0 >= amps.0) {
        Some(size) if size.0 <= nec::NEXT_SIZE_UP_TO.0 => size,
        _ => amps,
    }
}
