//! Potentials of a circuit of a few nodes: what is wired right hangs between two conductors of the
//! supply, but a conductor that is missing or a wire on the wrong pin leaves a node to find its own.

use num_complex::Complex;

use crate::board::{Handle, HandleMap};

/// Which node of a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CircuitNode(usize);

impl Handle for CircuitNode {
    fn new(index: usize) -> Self {
        Self(index)
    }

    fn index(self) -> usize {
        self.0
    }
}

/// Nodes and what joins them.
#[derive(Clone, Debug)]
pub struct Circuit {
    /// The potential of each node against the neutral, volts; `None` where it is to be found.
    nodes: HandleMap<CircuitNode, Option<Complex<f64>>>,
    /// Two nodes and the admittance between them, siemens.
    branches: Vec<(CircuitNode, CircuitNode, Complex<f64>)>,
}

/// What every free node leaks to ground, siemens: far below anything that is wired, so that a node
/// that hangs on nothing has a potential, too.
pub const LEAK: f64 = 1e-12;

impl Default for Circuit {
    fn default() -> Self {
        Self { nodes: HandleMap::new(Vec::new()), branches: Vec::new() }
    }
}

impl Circuit {
    /// Adds a node: on a potential, or free.
    pub fn node(&mut self, potential: Option<Complex<f64>>) -> CircuitNode {
        self.nodes.push(potential)
    }

    /// Joins two nodes by an admittance.
    pub fn join(&mut self, a: CircuitNode, b: CircuitNode, siemens: Complex<f64>) {
        self.branches.push((a, b, siemens));
    }

    /// The potential of every node, volts: Kirchhoff's current law at each free one.
    pub fn solve(&self) -> HandleMap<CircuitNode, Complex<f64>> {
        let zero = Complex::new(0.0, 0.0);
        // What is known of each node: its potential, or which of the unknown ones it is.
        let mut count = 0;
        let known: HandleMap<CircuitNode, Result<Complex<f64>, usize>> = self
            .nodes
            .iter()
            .map(|potential| {
                potential.ok_or_else(|| {
                    count += 1;
                    count - 1
                })
            })
            .collect();
        // One row for each free node; the last column is the right side.
        let mut rows = vec![zero; count * (count + 1)];
        for (index, row) in rows.chunks_exact_mut(count + 1).enumerate() {
            add(row, index, Complex::new(LEAK, 0.0));
        }
        for (a, b, siemens) in &self.branches {
            for (here, there) in [(*a, *b), (*b, *a)] {
                let Err(index) = known[here] else { continue };
                let Some(row) = rows.chunks_exact_mut(count + 1).nth(index) else { continue };
                add(row, index, *siemens);
                match known[there] {
                    Err(other) => add(row, other, -*siemens),
                    Ok(potential) => add(row, count, *siemens * potential),
                }
            }
        }
        // The unknown ones stand in the order of the nodes, as what is found does.
        let mut found = Vec::with_capacity(count);
        eliminate(&mut rows, count, &mut found);
        let mut found = found.into_iter();
        known.iter().map(|known| known.unwrap_or_else(|_| found.next().unwrap_or(zero))).collect()
    }
}

fn add(row: &mut [Complex<f64>], at: usize, value: Complex<f64>) {
    if let Some(place) = row.get_mut(at) {
        *place += value;
    }
}

/// Gauss's elimination with the largest pivot of each column. Each of so many rows is an equation, its last
/// number the right side; they lie one behind the other. What is found takes the place of what was in
/// `found`.
pub fn eliminate(rows: &mut [Complex<f64>], count: usize, found: &mut Vec<Complex<f64>>) {
    let zero = Complex::new(0.0, 0.0);
    let width = count + 1;
    let at = |rows: &[Complex<f64>], row: usize, column: usize| {
        rows.get(row * width + column).copied().unwrap_or(zero)
    };
    for column in 0..count {
        let largest = (column..count).max_by(|a, b| {
            let size = |row: &usize| at(rows, *row, column).norm_sqr();
            size(a).total_cmp(&size(b))
        });
        let largest = largest.unwrap_or(column);
        if largest != column {
            (0..width).for_each(|place| rows.swap(column * width + place, largest * width + place));
        }
        let head = at(rows, column, column);
        if head.norm_sqr() <= 0.0 {
            continue;
        }
        for row in 0..count {
            let factor = at(rows, row, column) / head;
            if row == column || factor.norm_sqr() <= 0.0 {
                continue;
            }
            for place in 0..width {
                let value = at(rows, column, place);
                rows.get_mut(row * width + place).into_iter().for_each(|to| *to -= factor * value);
            }
        }
    }
    found.clear();
    found.extend((0..count).map(|row| {
        let head = at(rows, row, row);
        if head.norm_sqr() > 0.0 { at(rows, row, count) / head } else { zero }
    }));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn real(value: f64) -> Complex<f64> {
        Complex::new(value, 0.0)
    }

    /// The classic of a lost neutral (common practice of the trade): 120/240 V with 10 ohm on one
    /// side and 30 ohm on the other. In series they share 240 V as 60 V and 180 V.
    #[test]
    fn a_lost_neutral_shares_the_voltage_by_resistance() {
        let mut circuit = Circuit::default();
        let l1 = circuit.node(Some(real(120.0)));
        let l2 = circuit.node(Some(real(-120.0)));
        let n = circuit.node(None);
        circuit.join(l1, n, real(1.0 / 10.0));
        circuit.join(n, l2, real(1.0 / 30.0));
        let found = circuit.solve();
        assert!(((found[l1] - found[n]).re - 60.0).abs() < 1e-4, "{found:?}");
        assert!(((found[n] - found[l2]).re - 180.0).abs() < 1e-4, "{found:?}");
    }

    /// Millman's theorem for a star without its neutral, loads of 1, 2 and 3 siemens on 120/208 V:
    /// the star point is at the sum of Y V over the sum of Y.
    #[test]
    fn a_star_without_its_neutral_follows_millman() {
        let third = |k: f64| {
            let angle = crate::units::Angle::degrees(120.0 * k);
            Complex::new(120.0 * angle.cos(), 120.0 * angle.sin())
        };
        let mut circuit = Circuit::default();
        let star = circuit.node(None);
        for k in 0..3 {
            let line = circuit.node(Some(third(f64::from(k))));
            circuit.join(line, star, real(f64::from(k + 1)));
        }
        let millman = (third(0.0) + third(1.0) * 2.0 + third(2.0) * 3.0) / 6.0;
        assert!((circuit.solve()[star] - millman).norm() < 1e-6);
    }

    /// A bridge: two free nodes that hang on each other. By hand: 10 V over 1 and 2 ohm on the one
    /// side, 2 and 1 ohm on the other, 1 ohm across.
    #[test]
    fn two_free_nodes_are_found_together() {
        let mut circuit = Circuit::default();
        let top = circuit.node(Some(real(10.0)));
        let bottom = circuit.node(Some(real(0.0)));
        let (a, b) = (circuit.node(None), circuit.node(None));
        circuit.join(top, a, real(1.0));
        circuit.join(a, bottom, real(0.5));
        circuit.join(top, b, real(0.5));
        circuit.join(b, bottom, real(1.0));
        circuit.join(a, b, real(1.0));
        let found = circuit.solve();
        // a: (10 - a) - a/2 - (a - b) = 0, b: (10 - b)/2 - b - (b - a) = 0: a = 40/7, b = 30/7.
        assert!((found[a].re - 40.0 / 7.0).abs() < 1e-6, "{found:?}");
        assert!((found[b].re - 30.0 / 7.0).abs() < 1e-6, "{found:?}");
    }
}
