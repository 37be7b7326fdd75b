//! The largest sum where some currents may turn: a device whose power factor nobody knows can lag
//! by any angle of an arc.
//!
//! The sum that is largest has a direction. Along it each device does its best by itself, as in
//! [`super::currents`], and one that may turn takes the angle of its arc that is nearest to it. Let
//! F(d) be the best along d. Between two neighbouring directions of [`breaks`] neither the choice
//! of devices changes nor which of them are at an end of their arc, so there
//! F(d) = (amps inside their arcs) + (sum of the others) · d. That is largest at one of the two
//! directions or along the sum of the others. All of these are tried, so the result is exact.

use num_complex::Complex;

use super::currents::{
    AllowanceClass, Draw, Running, Together, always_high, beside_heater, cross, dot, heats_or_not,
    kind, pick, running, size,
};
use crate::board::Allowance;

/// What a device draws here, and how far it may turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turning {
    /// What it draws, in the direction that it has at the earliest.
    pub draw: Draw,
    /// The direction that it has at the latest, of the same length and less than half a turn behind;
    /// the same direction if its angle is known.
    pub latest: Complex<f64>,
}

impl Turning {
    /// Whether its arc holds a direction.
    fn holds(&self, direction: Complex<f64>) -> bool {
        dot(self.draw.along + self.latest, direction) > 0.0
            && cross(self.latest, direction) >= 0.0
            && cross(direction, self.draw.along) >= 0.0
    }

    /// It with the angle of its arc that is nearest to a direction of length 1.
    fn nearest(&self, direction: Complex<f64>) -> Draw {
        let along = if self.holds(direction) {
            direction * size(self.draw.along)
        } else if dot(self.latest, direction) > dot(self.draw.along, direction) {
            self.latest
        } else {
            self.draw.along
        };
        Draw { along, ..self.draw }
    }

    fn ends(&self) -> [Complex<f64>; 2] {
        [self.draw.along, self.latest]
    }
}

/// The largest sum, and a state that has it.
#[derive(Clone, Debug, PartialEq)]
pub struct LargestSum {
    /// The size of the sum.
    pub amount: f64,
    /// How each device runs, in the order of the draws.
    pub running: Vec<Running>,
    /// The direction that each has then.
    pub along: Vec<Complex<f64>>,
}

/// The largest sum over every allowed state and every angle of the arcs. No `allowance` means that
/// all may run on high beside the heater.
pub fn largest_sum(draws: &[Turning], allowance: Option<Allowance>) -> LargestSum {
    let mut best = Found::nothing(draws.len(), &[]).best;
    for case in Together::cases(draws, |turning: &mut Turning| &mut turning.draw) {
        let found = largest_of(&case, allowance);
        if found.amount > best.amount * (1.0 + 1e-12) + 1e-12 {
            best = found;
        }
    }
    for (running, turning) in best.running.iter_mut().zip(draws) {
        if size(turning.draw.along) <= 0.0 {
            *running = Running::Off;
        }
    }
    best
}

/// The same where nothing is tied to another.
fn largest_of(draws: &[Turning], allowance: Option<Allowance>) -> LargestSum {
    let flat: Vec<Draw> = draws.iter().map(|turning| turning.draw).collect();
    let (allowance, keeping) = kind(&flat, allowance);
    let found = over_directions(draws, allowance, heats_or_not(&flat, allowance, keeping));
    let Some(budget) = keeping else { return found };
    // With the heater on, each state that keeps to the budget by itself: what is fixed in it is on or
    // off whatever the heater does.
    let fixed = |states: &[Running]| -> Vec<Turning> {
        let one = |(turning, running): (&Turning, &Running)| {
            let high = match running {
                Running::Off => 0.0,
                Running::Low => turning.draw.low,
                Running::High => turning.draw.high,
            };
            let together = match running {
                Running::Off => Together::Alone,
                Running::Low | Running::High => turning.draw.together,
            };
            let class = AllowanceClass::Free;
            let draw = Draw { low: 0.0, high, class, together, ..turning.draw };
            Turning { draw, ..*turning }
        };
        draws.iter().zip(states).map(one).collect()
    };
    let value = &mut |states: &[Running]| over_directions(&fixed(states), None, &[false]).amount;
    let Some((_, states)) = beside_heater(&flat, budget, found.amount, value) else { return found };
    let mut beside = over_directions(&fixed(&states), None, &[false]);
    for (running, state) in beside.running.iter_mut().zip(states) {
        if *running != Running::Off {
            *running = state;
        }
    }
    beside
}

/// The same with an allowance that is a count, in states with the heater on or off or both.
fn over_directions(draws: &[Turning], allowance: Option<u8>, heats: &'static [bool]) -> LargestSum {
    let mut found = Found::nothing(draws.len(), heats);
    let breaks = breaks(draws, allowance);
    let next = breaks.iter().skip(1).copied();
    let next = next.chain(breaks.first().map(|first| first + std::f64::consts::TAU));
    for (from, to) in breaks.iter().copied().zip(next) {
        found.try_along(draws, allowance, unit(from));
        for heating in heats {
            let others = found.others(draws, allowance, unit((from + to) / 2.0), *heating);
            let length = size(others);
            if length > 1e-12 {
                found.try_along(draws, allowance, others / length);
            }
        }
    }
    found.best
}

/// The best so far, and room that is used again.
struct Found {
    best: LargestSum,
    heats: &'static [bool],
    flat: Vec<Draw>,
    gains: Vec<(f64, usize)>,
}

impl Found {
    fn nothing(count: usize, heats: &'static [bool]) -> Self {
        let along = vec![Complex::new(0.0, 0.0); count];
        let best = LargestSum { amount: 0.0, running: vec![Running::Off; count], along };
        Self { best, heats, flat: Vec::new(), gains: Vec::new() }
    }

    /// The best sum along a direction; what was chosen stays in `flat` and `gains`.
    fn along(
        &mut self,
        draws: &[Turning],
        allowance: Option<u8>,
        direction: Complex<f64>,
        heating: bool,
    ) -> Complex<f64> {
        self.flat.clear();
        self.flat.extend(draws.iter().map(|draw| draw.nearest(direction)));
        pick(&self.flat, allowance, direction, heating, &mut self.gains)
    }

    fn try_along(&mut self, draws: &[Turning], allowance: Option<u8>, direction: Complex<f64>) {
        for heating in self.heats.iter().copied() {
            let amount = size(self.along(draws, allowance, direction, heating));
            // What differs in the last digits is the same, and the first found is kept.
            if amount > self.best.amount * (1.0 + 1e-12) + 1e-12 {
                self.best = LargestSum {
                    amount,
                    running: running(&self.flat, direction, heating, &self.gains),
                    along: self.flat.iter().map(|draw| draw.along).collect(),
                };
            }
        }
    }

    /// The best sum along a direction without what is inside its arc.
    fn others(
        &mut self,
        draws: &[Turning],
        allowance: Option<u8>,
        direction: Complex<f64>,
        heating: bool,
    ) -> Complex<f64> {
        let sum = self.along(draws, allowance, direction, heating);
        let states = running(&self.flat, direction, heating, &self.gains);
        let inside = draws.iter().zip(&self.flat).zip(states);
        let inside = inside.filter(|((turning, _), _)| turning.holds(direction));
        sum - inside
            .map(|((_, flat), running)| match running {
                Running::Off => flat.along * 0.0,
                Running::Low => flat.along * flat.low,
                Running::High => flat.along * flat.high,
            })
            .sum::<Complex<f64>>()
    }
}

/// Angles of the directions at which something changes, ascending: a device comes to an end of its
/// arc, or to a right angle with one, where it begins to count; or two devices that the allowance
/// chooses between gain the same.
fn breaks(draws: &[Turning], allowance: Option<u8>) -> Vec<f64> {
    let mut out: Vec<f64> = Vec::new();
    let mut add = |w: Complex<f64>| {
        if size(w) > 1e-12 {
            out.push(libm::atan2(w.im, w.re));
        }
    };
    let mut on_both_sides = |w: Complex<f64>| {
        let across = Complex::new(-w.im, w.re);
        add(across);
        add(-across);
    };
    for draw in draws {
        draw.ends().into_iter().for_each(&mut on_both_sides);
        if draw.draw.together == Together::On {
            // It counts also where it is behind: there the other end becomes the nearer one.
            on_both_sides(draw.latest - draw.draw.along);
        }
    }
    let gain = |turning: &Turning| turning.draw.base_and_gain().1;
    let limited: Vec<&Turning> = draws.iter().filter(|draw| gain(draw) != 0.0).collect();
    let heats = draws.iter().any(|draw| draw.draw.class == AllowanceClass::Heater);
    let flat: Vec<Draw> = draws.iter().map(|turning| turning.draw).collect();
    let asked = limited.len() + always_high(&flat);
    let chooses = heats && allowance.is_some_and(|most| usize::from(most) < asked);
    let pairs = limited
        .iter()
        .enumerate()
        .flat_map(|(index, a)| limited.iter().skip(index + 1).map(move |b| (**a, **b)));
    let pairs: Vec<(Turning, Turning)> = if chooses { pairs.collect() } else { Vec::new() };
    for (a, b) in &pairs {
        for p in a.ends() {
            for q in b.ends() {
                on_both_sides(p * gain(a) - q * gain(b));
            }
        }
    }
    draws.iter().flat_map(Turning::ends).for_each(&mut add);
    // One is inside its arc and gains all that it can; the other gains as much beside its own.
    let both_ways = pairs.iter().flat_map(|(a, b)| [(a, b), (b, a)]);
    for (inside, beside) in both_ways.filter(|(a, _)| a.latest != a.draw.along) {
        let full = gain(inside) * size(inside.draw.along);
        for end in beside.ends() {
            let cos = full / (gain(beside) * size(end));
            if cos.abs() <= 1.0 {
                let turn = Complex::new(cos, (1.0 - cos * cos).sqrt());
                add(end * turn);
                add(end * turn.conj());
            }
        }
    }
    out.sort_unstable_by(f64::total_cmp);
    out.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
    out
}

fn unit(angle: f64) -> Complex<f64> {
    Complex::new(libm::cos(angle), libm::sin(angle))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::currents::worst;
    use super::*;
    use crate::units::Amps;

    fn degrees(angle: f64) -> Complex<f64> {
        unit(angle.to_radians())
    }

    fn turned(draw: Draw, arc: f64) -> Turning {
        Turning { draw, latest: draw.along * degrees(-arc) }
    }

    /// Every allowed state: what each device draws then.
    fn states(draws: &[Turning], allowance: Option<Allowance>) -> Vec<Vec<f64>> {
        let mut all = Vec::new();
        for number in 0..3_usize.pow(draws.len() as u32) {
            let (mut heating, mut high, mut there, mut added) = (false, 0, true, 0.0);
            let mut amounts = Vec::new();
            for (index, Turning { draw, .. }) in draws.iter().enumerate() {
                match number / 3_usize.pow(index as u32) % 3 {
                    0 => amounts.push(0.0),
                    1 => {
                        there &= draw.class == AllowanceClass::Limited;
                        amounts.push(draw.low);
                        added += draw.adds[0];
                    }
                    _ => {
                        heating |= draw.class == AllowanceClass::Heater;
                        high += usize::from(draw.class == AllowanceClass::Limited);
                        amounts.push(draw.high);
                        added += draw.adds[1];
                    }
                }
            }
            let allowed = !heating || may_run(allowance, high, added);
            if there && allowed {
                all.push(amounts);
            }
        }
        all
    }

    fn may_run(allowance: Option<Allowance>, high: usize, added: f64) -> bool {
        match allowance {
            None => true,
            Some(Allowance::Loads(most)) => high <= usize::from(most),
            Some(Allowance::Amps(Amps(most))) => added <= most * (1.0 + 1e-9),
        }
    }

    /// How many parts an arc is cut into.
    const PARTS: usize = 12;

    /// The largest sum over all states and over arcs cut into parts.
    fn by_angles(draws: &[Turning], allowance: Option<Allowance>) -> f64 {
        let arcs: Vec<Vec<Complex<f64>>> = draws
            .iter()
            .map(|turning| {
                let (from, to) = (turning.draw.along, turning.latest);
                let arc = libm::acos((dot(from, to) / dot(from, from)).clamp(-1.0, 1.0));
                let cut = |part: usize| from * unit(-arc * part as f64 / PARTS as f64);
                if arc < 1e-9 { vec![from] } else { (0..=PARTS).map(cut).collect() }
            })
            .collect();
        let mut most: f64 = 0.0;
        for amounts in states(draws, allowance) {
            let mut sums = vec![Complex::new(0.0, 0.0)];
            for (arc, amount) in arcs.iter().zip(&amounts) {
                if *amount > 0.0 {
                    sums = sums
                        .iter()
                        .flat_map(|sum| arc.iter().map(move |along| sum + along * *amount))
                        .collect();
                }
            }
            most = sums.into_iter().map(size).fold(most, f64::max);
        }
        most
    }

    /// How many directions are tried.
    const DIRECTIONS: usize = 3600;

    /// The best along many directions, over all states: never more than the largest sum, and less
    /// by the cosine of half a step at the most, because the direction of the largest sum is no
    /// farther from one of them.
    fn by_directions(draws: &[Turning], allowance: Option<Allowance>) -> f64 {
        let states = states(draws, allowance);
        let mut most: f64 = 0.0;
        for step in 0..DIRECTIONS {
            let direction = degrees(step as f64 * 360.0 / DIRECTIONS as f64);
            let gains: Vec<f64> = draws
                .iter()
                .map(|turning| {
                    let (from, to) = (turning.draw.along, turning.latest);
                    let angle = |a, b| libm::acos((dot(a, b) / size(a) / size(b)).clamp(-1.0, 1.0));
                    let (arc, ahead, behind) =
                        (angle(from, to), angle(from, direction), angle(to, direction));
                    let inside = ahead + behind <= arc + 1e-6;
                    let off = if inside { 0.0 } else { ahead.min(behind) };
                    size(from) * libm::cos(off)
                })
                .collect();
            for amounts in &states {
                most = most.max(amounts.iter().zip(&gains).map(|(a, g)| a * g).sum());
            }
        }
        most
    }

    /// A draw along one of a few directions, as real supplies give them, or along any; half of them
    /// may turn.
    fn turning() -> impl Strategy<Value = Turning> {
        let angle = prop_oneof![
            3 => prop::sample::select(vec![0.0, 180.0, 30.0, -30.0, 120.0, -120.0, 150.0]),
            1 => -180.0..180.0,
        ];
        let arc =
            prop_oneof![Just(0.0), Just(60.0), prop::sample::select(vec![10.0, 30.0, 45.0, 90.0]),];
        let class = prop_oneof![
            Just(AllowanceClass::Free),
            Just(AllowanceClass::Limited),
            Just(AllowanceClass::Limited)
        ];
        (angle, arc, 0_u32..40, 1_u32..120, class).prop_map(|(angle, arc, low, high, class)| {
            let low = if class == AllowanceClass::Limited { f64::from(low) / 10.0 } else { 0.0 };
            let (along, high) = (degrees(angle), f64::from(high) / 10.0);
            turned(
                Draw {
                    along,
                    low,
                    high,
                    class,
                    adds: [low * 0.8, high * 0.8],
                    together: Together::Alone,
                },
                arc,
            )
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(600)
        })]

        #[test]
        fn no_state_and_no_angle_is_worse(
            mut draws in prop::collection::vec(turning(), 0..5),
            heater in prop::option::of(turning()),
            allowance in prop::option::of(prop_oneof![
                (0_u8..3).prop_map(Allowance::Loads),
                (1_u32..300).prop_map(|tenths| Allowance::Amps(Amps(f64::from(tenths) / 10.0))),
            ]),
        ) {
            draws.extend(heater.map(|heater| {
                turned(Draw { class: AllowanceClass::Heater, low: 0.0, ..heater.draw }, 0.0)
            }));
            let found = largest_sum(&draws, allowance);
            let angles = by_angles(&draws, allowance);
            prop_assert!(found.amount >= angles - 1e-9, "{} {angles}", found.amount);
            let step = 180.0_f64.to_radians() / DIRECTIONS as f64;
            let directions = by_directions(&draws, allowance);
            prop_assert!(found.amount >= directions - 1e-5, "{} {directions}", found.amount);
            let most = directions / libm::cos(step);
            prop_assert!(found.amount <= most + 1e-5, "{} {most}", found.amount);

            // The state that it names has this sum, is allowed, and turns nothing beyond its arc.
            let mut sum = Complex::new(0.0, 0.0);
            let (mut heating, mut high, mut added) = (false, 0, 0.0);
            for ((turning, running), along) in draws.iter().zip(&found.running).zip(&found.along) {
                let apart = |end: Complex<f64>| size(end - along);
                let arc = size(turning.draw.along - turning.latest);
                let ends = [apart(turning.draw.along), apart(turning.latest)];
                let inside = ends.into_iter().all(|end| end <= arc + 1e-9);
                prop_assert!(*running == Running::Off || inside, "{found:?}");
                let turned = *running != Running::Off;
                prop_assert!(!turned || (size(*along) - size(turning.draw.along)).abs() < 1e-9);
                heating |= turning.draw.class == AllowanceClass::Heater && *running == Running::High;
                high += usize::from(
                    turning.draw.class == AllowanceClass::Limited && *running == Running::High
                );
                let [low, full] = turning.draw.adds;
                added += match running {
                    Running::Off => 0.0,
                    Running::Low => low,
                    Running::High => full,
                };
                sum += match running {
                    Running::Off => along * 0.0,
                    Running::Low => along * turning.draw.low,
                    Running::High => along * turning.draw.high,
                };
            }
            prop_assert!((size(sum) - found.amount).abs() < 1e-9, "{found:?}");
            prop_assert!(!heating || may_run(allowance, high, added));
        }

        /// Pumps between which the allowance chooses: which ones gain most changes within what is
        /// otherwise one piece.
        #[test]
        fn the_allowance_goes_to_those_that_gain_most(
            pumps in prop::collection::vec((-90.0..90.0, 0..4_usize, 80_u32..120), 2..6),
            heater in 0_u32..60,
            allowance in (0_u8..4).prop_map(Allowance::Loads),
        ) {
            let mut draws = vec![turned(
                Draw { class: AllowanceClass::Heater, ..free(0.0, f64::from(heater)) },
                0.0,
            )];
            for (angle, arc, amps) in pumps {
                let high = f64::from(amps) / 10.0;
                let pump = Draw { class: AllowanceClass::Limited, ..free(angle, high) };
                draws.push(turned(pump, [0.0, 0.0, 10.0, 60.0][arc]));
            }
            let found = largest_sum(&draws, Some(allowance)).amount;
            let directions = by_directions(&draws, Some(allowance));
            let step = 180.0_f64.to_radians() / DIRECTIONS as f64;
            prop_assert!(found >= directions - 1e-5, "{found} {directions}");
            prop_assert!(found <= directions / libm::cos(step) + 1e-5, "{found} {directions}");
        }

        /// Where nothing turns it is the search of `currents`.
        #[test]
        fn without_arcs_it_is_the_worst(
            draws in prop::collection::vec(turning(), 0..6),
            heater in any::<bool>(),
            allowance in prop::option::of((0_u8..4).prop_map(Allowance::Loads)),
        ) {
            let mut plain: Vec<Draw> = draws.iter().map(|turning| turning.draw).collect();
            if let Some(first) = plain.first_mut().filter(|_| heater) {
                *first = Draw { class: AllowanceClass::Heater, low: 0.0, ..*first };
            }
            let fixed: Vec<Turning> = plain.iter().map(|draw| turned(*draw, 0.0)).collect();
            let (found, known) = (largest_sum(&fixed, allowance).amount, worst(&plain, allowance));
            prop_assert!((found - known.amount()).abs() < 1e-6, "{found} {}", known.amount());
        }
    }

    fn free(angle: f64, high: f64) -> Draw {
        Draw {
            along: degrees(angle),
            low: 0.0,
            high,
            class: AllowanceClass::Free,
            adds: [0.0, high],
            together: Together::Alone,
        }
    }

    /// By hand: 10 A to the neutral in step, and a motor of 10 A between L1 and L2, whose voltage is
    /// 30 degrees ahead. In step that is 20 cos 15 = 19.319 A; 30 degrees late it is all of 20 A.
    #[test]
    fn a_motor_between_lines_falls_in_step_with_the_neutral() {
        let loads = [turned(free(0.0, 10.0), 0.0), turned(free(30.0, 10.0), 60.0)];
        let plain: Vec<Draw> = loads.iter().map(|turning| turning.draw).collect();
        assert!((worst(&plain, None).amount() - 19.3185).abs() < 1e-4);
        assert!((largest_sum(&loads, None).amount - 20.0).abs() < 1e-12);
    }

    /// By hand: a load in step on L2 and a motor on L1 that lags 60 degrees are 60 degrees apart in
    /// the neutral: 20 cos 30 = 17.321 A, where in step no more than 10 A flow.
    #[test]
    fn two_lines_add_up_in_the_neutral() {
        let loads = [turned(free(180.0, 10.0), 60.0), turned(free(60.0, 10.0), 0.0)];
        let plain: Vec<Draw> = loads.iter().map(|turning| turning.draw).collect();
        assert!((worst(&plain, None).amount() - 10.0).abs() < 1e-9);
        assert!((largest_sum(&loads, None).amount - 300.0_f64.sqrt()).abs() < 1e-9);
    }

    fn pump(angle: f64, high: f64) -> Draw {
        Draw { class: AllowanceClass::Limited, ..free(angle, high) }
    }

    fn heater(sum: Complex<f64>) -> Turning {
        turned(
            Draw { along: sum / size(sum), class: AllowanceClass::Heater, ..free(0.0, size(sum)) },
            0.0,
        )
    }

    /// Of three pumps one may run on high. The middle one gains most between -1 and 3 degrees only,
    /// and there the largest sum stands: neither an end of the piece nor its middle would choose it.
    /// By hand: the heater is what the middle one lacks to 70 A at 1 degree.
    #[test]
    fn equal_gains_part_a_piece() {
        let middle = Complex::new(10.0, 10.0);
        let ahead = middle + degrees(93.0) * 3.66;
        let behind = middle - degrees(89.0) * 3.66;
        let mut draws = vec![heater(degrees(1.0) * 70.0 - middle)];
        for sum in [middle, ahead, behind] {
            let plain = Draw { along: sum / size(sum), ..pump(0.0, size(sum)) };
            draws.push(turned(plain, 0.0));
        }
        assert!((largest_sum(&draws, Some(Allowance::Loads(1))).amount - 70.0).abs() < 1e-9);
    }

    /// The same where the middle one may turn from 28 to -12 degrees, and gains most between -1 and 2
    /// degrees. By hand: heater and light have their sum at 0 degrees, and it falls in step.
    #[test]
    fn equal_gains_inside_an_arc_part_a_piece() {
        let (middle, light) = (10.0 * degrees(7.6).re, 15.0 / degrees(35.0).im);
        let draws = [
            heater(degrees(-30.0) * 30.0),
            turned(free(35.0, light), 0.0),
            turned(pump(-8.6, 10.0), 0.0),
            turned(pump(17.4, middle / degrees(15.4).re), 0.0),
            turned(pump(28.0, middle), 40.0),
        ];
        let all = 30.0 * degrees(30.0).re + light * degrees(35.0).re + middle;
        assert!((largest_sum(&draws, Some(Allowance::Loads(1))).amount - all).abs() < 1e-9);
    }
}
