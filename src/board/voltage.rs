//! Stand-in until the `spec` branch is merged: on a conflict take that branch's file whole.
use super::*;
use crate::units::{Angle, Volts};
use num_complex::Complex;
impl Board {
    /// The phasor of a point under a supply; `None` if no conductor reaches it.
    pub fn potential(&self, supply: SupplyId, node: Node) -> Option<Complex<f64>> {
        let s = &self[supply];
        let t = match node {
            Node::Terminal(t) => t,
            Node::Link(l) => s.links[l.0],
        };
        let c = s.lands[t.0]?;
        let (v, step) = match s.system {
            System::SplitPhase { to_neutral } => (to_neutral.0, 180.0),
            System::Wye { to_neutral } => (to_neutral.0, -120.0),
            System::SinglePhase { to_neutral } => (to_neutral.0, 0.0),
        };
        let k = match c {
            Conductor::L1 | Conductor::L => 0.0,
            Conductor::L2 => 1.0,
            Conductor::L3 => 2.0,
            Conductor::N | Conductor::Pe => return Some(Complex::new(0.0, 0.0)),
        };
        let a = Angle::degrees(step * k);
        Some(Complex::new(v * a.cos(), v * a.sin()))
    }
    /// The voltage of a group under a supply; `None` if a conductor is missing.
    pub fn group_volts(&self, supply: SupplyId, group: GroupId) -> Option<Volts> {
        match self[group].source {
            GroupSource::Isolated(v) => Some(v),
            GroupSource::Between { nodes: [a, b], .. } => {
                let d = self.potential(supply, a)? - self.potential(supply, b)?;
                Some(Volts(libm::hypot(d.re, d.im)))
            }
        }
    }
}
