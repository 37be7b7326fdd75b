//! Phasors: what potential each point of a board has under a supply.
//!
//! A supply system is a set of phasors against its neutral: split-phase is two half a turn apart,
//! wye three a third of a turn apart (IEC 60038 and ANSI C84.1 name the systems 120/240 V,
//! 120/208 V and 230/400 V after these). Nothing is looked up that can be computed.

use num_complex::Complex;

use super::{Board, Conductor, GroupId, GroupSource, Node, Supply, SupplyId, System};
use crate::units::{Amps, Angle, Volts};

impl System {
    /// The potential of `conductor` against the neutral, in volts; `None` if the system lacks the
    /// conductor. Protective earth is at the neutral's potential.
    pub fn phasor(&self, conductor: Conductor) -> Option<Complex<f64>> {
        let (volts, degrees) = match (self, conductor) {
            (_, Conductor::N | Conductor::Pe) => (Volts(0.0), 0.0),
            (System::SplitPhase { to_neutral }, Conductor::L1) => (*to_neutral, 0.0),
            (System::SplitPhase { to_neutral }, Conductor::L2) => (*to_neutral, 180.0),
            (System::Wye { to_neutral }, Conductor::L1) => (*to_neutral, 0.0),
            (System::Wye { to_neutral }, Conductor::L2) => (*to_neutral, -120.0),
            (System::Wye { to_neutral }, Conductor::L3) => (*to_neutral, 120.0),
            (System::SinglePhase { to_neutral }, Conductor::L) => (*to_neutral, 0.0),
            _ => return None,
        };
        let angle = Angle::degrees(degrees);
        Some(Complex::new(volts.0 * angle.cos(), volts.0 * angle.sin()))
    }

    /// The conductors that it can have, protective earth included.
    pub fn conductors(&self) -> &'static [Conductor] {
        use Conductor::{L, L1, L2, L3, N, Pe};
        match self {
            System::SplitPhase { .. } => &[L1, L2, N, Pe],
            System::Wye { .. } => &[L1, L2, L3, N, Pe],
            System::SinglePhase { .. } => &[L, N, Pe],
        }
    }
}

impl Supply {
    /// The conductor that lands at `node`: a terminal's own, or that of the terminal that a link
    /// is on. `None` if none does.
    pub fn conductor_at(&self, node: Node) -> Option<Conductor> {
        let terminal = match node {
            Node::Terminal(terminal) => terminal,
            Node::Link(link) => *self.links.get(link.0)?,
        };
        self.lands.get(terminal.0).copied().flatten()
    }

    /// The potential of `node` against the neutral, in volts; `None` if no conductor lands there.
    pub fn potential(&self, node: Node) -> Option<Complex<f64>> {
        self.system.phasor(self.conductor_at(node)?)
    }

    /// The voltage between two points: from the second to the first, as a phasor in volts.
    pub fn between(&self, nodes: [Node; 2]) -> Option<Complex<f64>> {
        let [first, second] = nodes;
        Some(self.potential(first)? - self.potential(second)?)
    }
}

impl Board {
    /// The potential of `node` against the neutral under `supply`, in volts; `None` if no
    /// conductor lands there.
    pub fn potential(&self, supply: SupplyId, node: Node) -> Option<Complex<f64>> {
        self[supply].potential(node)
    }

    /// The most that any one conductor of `supply` may carry: the board's limit or the supply's own,
    /// whichever is less; `None` if neither is given.
    pub fn max_current(&self, supply: SupplyId) -> Option<Amps> {
        let limits = [self.about.max_current, self[supply].max_current];
        limits.into_iter().flatten().reduce(|a, b| if b.0 < a.0 { b } else { a })
    }

    /// The voltage of `group` under `supply`; `None` if it is not available there.
    pub fn group_volts(&self, supply: SupplyId, group: GroupId) -> Option<Volts> {
        match self[group].source {
            GroupSource::Isolated(volts) => Some(volts),
            GroupSource::Between { nodes, .. } => self[supply].between(nodes).map(magnitude),
        }
    }
}

/// The magnitude of a phasor.
pub fn magnitude(phasor: Complex<f64>) -> Volts {
    Volts(libm::hypot(phasor.re, phasor.im))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line_to_line(system: System, a: Conductor, b: Conductor) -> f64 {
        let (a, b) = (system.phasor(a), system.phasor(b));
        magnitude(a.expect("has it") - b.expect("has it")).0
    }

    /// The nominal systems of ANSI C84.1 and IEC 60038 (check-values section 6): the second number
    /// of each name is the line-to-line voltage that follows from the first.
    #[test]
    fn systems_give_the_second_number_of_their_names() {
        let split = System::SplitPhase { to_neutral: Volts(120.0) };
        assert!((line_to_line(split, Conductor::L1, Conductor::L2) - 240.0).abs() < 1e-9);
        let wye = System::Wye { to_neutral: Volts(120.0) };
        let lines = [Conductor::L1, Conductor::L2, Conductor::L3];
        for (a, b) in [(0, 1), (1, 2), (2, 0)] {
            // sqrt(3) times 120 is 207.846, which the name rounds to 208.
            assert!((line_to_line(wye, lines[a], lines[b]) - 207.846).abs() < 0.001);
        }
        let wye = System::Wye { to_neutral: Volts(230.0) };
        // 398.372, named 400 (IEC 60038).
        assert!((line_to_line(wye, Conductor::L1, Conductor::L3) - 398.372).abs() < 0.001);
        assert!((line_to_line(wye, Conductor::L2, Conductor::N) - 230.0).abs() < 1e-9);
    }

    #[test]
    fn a_system_gives_exactly_the_conductors_that_it_lists() {
        let all = ["L1", "L2", "L3", "L", "N", "PE"];
        for system in [
            System::SplitPhase { to_neutral: Volts(120.0) },
            System::Wye { to_neutral: Volts(120.0) },
            System::SinglePhase { to_neutral: Volts(120.0) },
        ] {
            for conductor in all.iter().filter_map(|word| Conductor::parse(word)) {
                let listed = system.conductors().contains(&conductor);
                assert_eq!(system.phasor(conductor).is_some(), listed, "{system:?} {conductor}");
            }
        }
    }
}
