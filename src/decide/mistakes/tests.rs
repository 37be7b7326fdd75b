//! A case worked by hand for each kind of mistake, on Heron 8 with the job of `tests/version-1/jobs/2231.yaml`
//! unless another is named.
//!
//! Layout 7: pump 1 (240 V, two speeds) at J2 on W1, A; pump 2 (240 V) at J3 on W2, A; blower (120 V)
//! at J5 on W3, B; circulation (120 V) at J6 and ozonator (120 V) at J7 on W4, B; J8 stays empty. A
//! lies between T1 (L1) and T2 (L2), B between T1 (L1) and T3 (N).

use super::super::currents::Running;
use super::super::sample::{Case, JOB, group, header, heron};
use super::*;
use crate::board::{Allowance, Device};
use crate::units::{Amps, Volts};

impl Case {
    fn after(&self, mistake: Mistake) -> (State, Vec<Observation>) {
        let planned = self.planned();
        let built = AsBuilt::as_planned(&planned);
        let before = simulate(&planned, &built);
        let state = simulate(&planned, &built.with(&planned, mistake));
        let found = consequence(&planned, &built, &before, mistake);
        (state, found.map(|found| found.signs).unwrap_or_default())
    }

    #[track_caller]
    fn signs(&self, mistake: Mistake) -> Vec<Sign> {
        self.after(mistake).1.iter().map(|seen| seen.sign).collect()
    }
}

fn layout(number: u8) -> Mistake {
    Mistake::Layout(LayoutNumber::new(number).expect("not 0"))
}

#[track_caller]
fn volts(found: f64, expected: f64) {
    assert!((found - expected).abs() < 0.01, "{found} V, not {expected} V");
}

const CIRCULATION: Device = Device::Circulation;
const BLOWER: Device = Device::Blower;
const PUMP_1: Device = Device::Pump(1);
const PUMP_2: Device = Device::Pump(2);
const OZONATOR: Device = Device::Ozonator;

#[test]
fn a_plan_without_a_mistake_works() {
    let case = Case::new(JOB);
    let planned = case.planned();
    let state = simulate(&planned, &AsBuilt::as_planned(&planned));
    for (device, plan) in state.devices.iter().zip(&planned.wiring.devices) {
        assert_eq!(device.role, Some(plan.device));
        let high = device.on(Command::High).expect("it can be on").measured;
        volts(high.high.least.0, plan.volts.0);
        volts(high.high.most.0, plan.volts.0);
    }
    // The plan says 44.37 A, 37.07 A and 7.30 A; its own test has them by hand.
    for (found, planned) in state.loads.conductors.iter().zip(&planned.wiring.conductors) {
        assert_eq!((found.conductor, &found.running), (planned.conductor, &planned.running));
        assert!((found.amps.0 - planned.amps.0).abs() < 1e-6, "{found:?} {planned:?}");
    }
    assert_eq!(state.allowance, Some(Allowance::Loads(4)));
    assert_eq!(state.water, Some(true));
}

/// Under layout 6 J6 is idle: the circulation pump is dead, and pump 1 on low moves the water.
#[test]
fn a_layout_without_the_circulation_pump() {
    assert_eq!(Case::new(JOB).signs(layout(6)), [Sign::DoesNothing(CIRCULATION)]);
}

/// Under layout 9 J5 drives pump 3: its button runs the blower. Nothing else is another.
#[test]
fn a_layout_that_takes_the_blower_for_a_pump() {
    let signs = Case::new(JOB).signs(layout(9));
    assert_eq!(signs, [Sign::OtherButton(BLOWER, Device::Pump(3))]);
}

/// Under layout 3 pump 1 has one speed, and J3 is idle.
#[test]
fn a_layout_with_one_speed_for_two() {
    let signs = Case::new(JOB).signs(layout(3));
    assert_eq!(signs, [Sign::DoesNothing(PUMP_2), Sign::OnlyHigh(PUMP_1)]);
}

/// Under layout 12 pump 2 has two speeds, which this one has not: J3 is asked for low first. J5 is
/// pump 3, and J8, which is empty, the blower.
#[test]
fn a_layout_with_two_speeds_for_one() {
    let signs = Case::new(JOB).signs(layout(12));
    assert_eq!(signs, [Sign::OnlyHigh(PUMP_2), Sign::OtherButton(BLOWER, Device::Pump(3))]);
}

/// The blower on A: 240 V for 120 V. Its current doubles to 11 A, within F3 (15 A) and J5 (12 A). In
/// L1 flow 44.37 - 5.5 + 11 = 49.87 A, within 50 A. By the rules 48.98 - 5.5 + 11 = 54.48 A count, but
/// what counts is no current, and heats no wire.
#[test]
fn a_jumper_on_the_higher_group_destroys() {
    let case = Case::new(JOB);
    let mistake = Mistake::Jumper { jumper: case.jumper("W3"), on: group(&case.board, "A") };
    let (state, seen) = case.after(mistake);
    let run = state.devices[case.device(BLOWER)].on(Command::High).expect("it runs").measured;
    volts(run.high.most.0, 240.0);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    // The board may carry 48 A: a few per cent too much.
    assert_eq!(signs, [Sign::Destroyed(BLOWER), Sign::Overload(Heat::Ages)]);
    assert_eq!(seen[1].limit, Some(Limit::Board));
    let overload = seen[1].amps.expect("it has its amps");
    assert!((overload.0.0 - 49.87).abs() < 0.01 && overload.1 == Amps(48.0), "{overload:?}");
    let l1 = state.loads.conductors.iter().map(|load| load.amps.0).fold(0.0, f64::max);
    assert!((l1 - 49.87).abs() < 0.01, "{l1}");
}

/// Pump 2 on B: 120 V for 240 V.
#[test]
fn a_jumper_on_the_lower_group_lets_a_motor_hum() {
    let case = Case::new(JOB);
    let mistake = Mistake::Jumper { jumper: case.jumper("W2"), on: group(&case.board, "B") };
    let (state, seen) = case.after(mistake);
    let run = state.devices[case.device(PUMP_2)].on(Command::High).expect("it runs").measured;
    volts(run.high.most.0, 120.0);
    assert_eq!(seen[0].sign, Sign::RunsHot(PUMP_2));
    assert_eq!(seen.len(), 1);
}

/// W2 and W3 swapped: pump 2 hums on 120 V, the blower gets 240 V.
#[test]
fn two_jumpers_swapped() {
    let case = Case::new(JOB);
    let mistake = Mistake::JumpersSwapped([case.jumper("W2"), case.jumper("W3")]);
    let signs = case.signs(mistake);
    assert!(signs.contains(&Sign::Destroyed(BLOWER)) && signs.contains(&Sign::RunsHot(PUMP_2)));
}

/// Layout 7 leaves J8 idle.
#[test]
fn a_plug_in_the_idle_header() {
    let case = Case::new(JOB);
    let into = header(&case.board, "J8");
    let mistake = Mistake::Plug { device: case.device(BLOWER), into };
    assert_eq!(case.signs(mistake), [Sign::DoesNothing(BLOWER)]);
}

/// The circulation pump at J5 follows the blower's button, the blower at J6 runs as the circulation
/// pump. Both have 120 V. F4 carries 5 A and J6 4 A, the blower draws 5.5 A. No water is moved for
/// the heater.
#[test]
fn two_plugs_swapped() {
    let case = Case::new(JOB);
    let mistake = Mistake::PlugsSwapped([case.device(BLOWER), case.device(CIRCULATION)]);
    let f4 = case.board.headers[header(&case.board, "J6").0].fuse.expect("it has one");
    assert_eq!(
        case.signs(mistake),
        [
            Sign::HeaderHot(header(&case.board, "J6"), Heat::Ages),
            // 1.18 times its rating: it may.
            Sign::FuseMayBlow(f4),
            Sign::OtherButton(CIRCULATION, BLOWER),
            Sign::OtherButton(BLOWER, CIRCULATION),
            Sign::HeaterNever,
        ]
    );
}

/// Ways 1 and 2 on mean 4; way 1 off leaves 2. Three are fitted.
#[test]
fn a_way_flipped_lowers_the_allowance() {
    let case = Case::new(JOB);
    let bank = BankId(0);
    let (state, seen) = case.after(Mistake::Way { bank, way: 1 });
    assert_eq!(state.allowance, Some(Allowance::Loads(2)));
    assert_eq!(seen.len(), 1);
    assert_eq!(seen[0].sign, Sign::HeaterGoesOff);
    assert_eq!(case.signs(Mistake::Way { bank, way: 3 }), [Sign::SetOtherwise(bank, 1)]);
    // Ways 6 and 7 are not used.
    let planned = case.planned();
    assert!(!single_mistakes(&planned).contains(&Mistake::Way { bank, way: 6 }));
    assert!(single_mistakes(&planned).contains(&Mistake::BankAsShipped(bank)));
}

/// On a breaker of 40 A the plan takes a lower allowance; all on gives 44.37 A. That is 1.109 times
/// its rating, between 1 and 1.35: it may trip, and need not.
#[test]
fn a_way_flipped_raises_the_allowance() {
    let case = Case::new(&JOB.replace("breaker: 50 A", "breaker: 40 A"));
    let planned = case.planned();
    let all = consequences(&planned);
    let worse: Vec<_> = all
        .iter()
        .filter(|found| matches!(found.mistake, Mistake::Way { .. }))
        .filter(|found| found.state.allowance == Some(Allowance::Loads(4)))
        .collect();
    let [found] = worse.as_slice() else { panic!("{worse:?}") };
    assert_eq!(found.signs[0].sign, Sign::BreakerMayTrip);
    assert!((found.signs[0].amps.expect("it has").0.0 - 44.37).abs() < 0.005);
}

/// 208 V for the heater: (208/240)^2 of its heat, three quarters. The 240 V pumps are 13 % low.
#[test]
fn another_supply() {
    let case = Case::new(JOB);
    let (state, seen) = case.after(Mistake::Supply(case.supply("wye")));
    let heater =
        state.devices[DeviceId(0)].on(Command::High).expect("it is on").measured.high.least;
    volts(heater.0, 207.846);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(signs, [Sign::RunsHot(PUMP_1), Sign::RunsHot(PUMP_2), Sign::HeaterSlow]);
}

/// Without the neutral B has no return: all on B are dead, and so the heater waits for water. Their
/// common wires take the potential of L1 as soon as one of them is on.
#[test]
fn the_neutral_is_missing() {
    let case = Case::new(JOB);
    let signs = case.signs(Mistake::Missing(case.terminal("T3")));
    assert_eq!(
        signs,
        [
            Sign::StaysLive(CIRCULATION),
            Sign::StaysLive(BLOWER),
            Sign::StaysLive(OZONATOR),
            Sign::DoesNothing(CIRCULATION),
            Sign::DoesNothing(BLOWER),
            Sign::DoesNothing(OZONATOR),
            Sign::HeaterNever,
        ]
    );
}

/// The neutral on T2 and L2 on T3: A gives 120 V, B gives 240 V. The heater draws half, and gives a
/// quarter of its heat.
#[test]
fn the_neutral_is_on_a_line() {
    let case = Case::new(JOB);
    let swapped = Mistake::Swapped([case.terminal("T2"), case.terminal("T3")]);
    let (state, seen) = case.after(swapped);
    volts(
        state.devices[DeviceId(0)].on(Command::High).expect("it is on").measured.high.most.0,
        120.0,
    );
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    for device in [CIRCULATION, BLOWER, OZONATOR] {
        assert!(signs.contains(&Sign::Destroyed(device)), "{signs:?}");
    }
    for device in [PUMP_1, PUMP_2] {
        assert!(signs.contains(&Sign::RunsHot(device)), "{signs:?}");
    }
    assert!(signs.contains(&Sign::HeaterSlow), "{signs:?}");
}

/// The two lines swapped change nothing that anybody could notice or be hurt by.
#[test]
fn the_lines_swapped_change_nothing() {
    let case = Case::new(JOB);
    let swapped = Mistake::Swapped([case.terminal("T1"), case.terminal("T2")]);
    assert_eq!(case.signs(swapped), []);
}

/// Nobody notices a missing ground, so it comes first of all.
#[test]
fn the_ground_is_missing() {
    let case = Case::new(JOB);
    let missing = Mistake::Missing(case.terminal("TG"));
    assert_eq!(case.signs(missing), [Sign::AllUngrounded]);
    let first = &consequences(&case.planned())[0];
    assert!(first.unnoticed() && first.danger() == Danger::Deadly, "{first:?}");
}

/// A line on the ground terminal: all metalwork has 120 V.
#[test]
fn a_line_on_the_ground_terminal() {
    let case = Case::new(JOB);
    let swapped = Mistake::Swapped([case.terminal("T1"), case.terminal("TG")]);
    let (state, seen) = case.after(swapped);
    assert_eq!((seen[0].sign, seen[0].house), (Sign::AllMetalLive, House::Bare));
    volts(seen[0].volts.expect("it has").0, 120.0);
    assert!(matches!(state.ground, Metal::Live(_)));
    // The ground is on T1, so B gives nothing: no water, and the heater is never turned on. What
    // trips can be everything but the heater: bonded metal at once.
    let trips = seen
        .iter()
        .find(|seen| seen.sign == Sign::GroundFaultTrips(Trip::AtOnce))
        .expect("it trips");
    assert_eq!((trips.house, trips.running.len()), (House::Bonded, 0));
    assert!(seen.iter().any(|seen| seen.sign == Sign::HeaterNever));
    assert_eq!(state.water, Some(false));
    assert!(state.devices[DeviceId(0)].on(Command::High).is_none());
}

/// The neutral on the ground terminal and the ground on T3: whatever runs on B sends its current
/// through the ground.
#[test]
fn the_neutral_and_the_ground_swapped() {
    let case = Case::new(JOB);
    let swapped = Mistake::Swapped([case.terminal("T3"), case.terminal("TG")]);
    let (_, seen) = case.after(swapped);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    let [at_once, running] = [Trip::AtOnce, Trip::Running].map(Sign::GroundFaultTrips);
    assert_eq!(signs, [Sign::AllUngrounded, at_once, running]);
    // Bonded metal on the neutral is found by class A protection without a load.
    assert_eq!((seen[1].house, seen[1].amps), (House::Bonded, None));
    // The board starts the circulation pump by itself, before anything else on B can run.
    assert_eq!(seen[2].running, [(CIRCULATION, Running::High)]);
    assert_eq!(seen[2].house, House::Protected);
    // Where nothing can trip, nobody notices that nothing is grounded.
    assert!(unnoticed(&seen));
}

/// Pump 2 brings ground, common, nothing, high. Turned round its ground wire meets *high*, its
/// common wire *low*, its high wire *ground*: on high the metalwork has L1's 120 V, and the motor
/// nothing. Off, the metalwork hangs on nothing.
#[test]
fn a_cord_turned_round() {
    let case = Case::new(JOB);
    let (state, seen) =
        case.after(Mistake::Cord { device: case.device(PUMP_2), fit: CordFit::Turned });
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(
        signs,
        [
            Sign::MetalLive(PUMP_2),
            Sign::Ungrounded(PUMP_2),
            Sign::GroundFaultTrips(Trip::Running),
            Sign::DoesNothing(PUMP_2)
        ]
    );
    // Two houses: bonded and protected, it trips as the pump is turned on; else it stays live.
    assert_eq!((seen[0].house, seen[2].house), (House::Bare, House::Bonded));
    assert_eq!(seen[2].running, [(PUMP_2, Running::High)]);
    volts(seen[0].volts.expect("it has").0, 120.0);
    assert_eq!(state.devices[case.device(PUMP_2)].runs[0].measured.metal, Metal::Loose);
}

/// Three wires side by side: the high wire meets *low*, which a one-speed layout never feeds.
#[test]
fn a_cord_without_its_gap() {
    let case = Case::new(JOB);
    let closed = Mistake::Cord { device: case.device(PUMP_2), fit: CordFit::Closed };
    assert_eq!(case.signs(closed), [Sign::DoesNothing(PUMP_2)]);
}

/// Three wires one pin down: the ground wire meets *common*, which on A is L2, at all times.
#[test]
fn a_cord_one_pin_off() {
    let case = Case::new(JOB);
    let down = Mistake::Cord { device: case.device(PUMP_2), fit: CordFit::OneDown };
    let (state, seen) = case.after(down);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(
        signs,
        [Sign::MetalLive(PUMP_2), Sign::GroundFaultTrips(Trip::AtOnce), Sign::DoesNothing(PUMP_2)]
    );
    assert_eq!(seen[1].running, [(PUMP_2, Running::Off)]);
    let off = state.devices[case.device(PUMP_2)].runs[0].measured.metal;
    assert_eq!(off, Metal::Live(seen[0].volts.expect("it has")));
}

/// Two speeds turned round: ground meets *high*, common *low*, low *common*, high *ground*. On low
/// the common wire has L1; the low winding lies between L1 and L2 and has its 240 V, the other
/// between L1 and the ground and has 120 V: both at once, and a current into the ground.
#[test]
fn a_cord_with_two_speeds_turned_round() {
    let case = Case::new(JOB);
    let (state, seen) =
        case.after(Mistake::Cord { device: case.device(PUMP_1), fit: CordFit::Turned });
    let low = state.devices[case.device(PUMP_1)].on(Command::Low).expect("it can").measured;
    volts(low.low.most.0, 240.0);
    volts(low.high.most.0, 120.0);
    // 10.8 A at 240 V is 22.2 ohm: 5.4 A at 120 V.
    assert!((low.earth.0 - 5.4).abs() < 0.01, "{low:?}");
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert!(
        signs.contains(&Sign::GroundFaultTrips(Trip::AtOnce))
            && signs.contains(&Sign::MetalLive(PUMP_1))
    );
}

/// Wires in the cavities of an old order: with ground and common changed, the metalwork is on what *common*
/// joins (L2, on A) and the winding between L1 and the ground. Wires that are all turned are a plug that is.
#[test]
fn a_cord_that_was_made_for_another_order() {
    let case = Case::new(JOB);
    let device = case.device(PUMP_1);
    let as_placed = |places: &[usize]| {
        let places: Vec<Option<usize>> = places.iter().copied().map(Some).collect();
        case.after(Mistake::Cord { device, fit: CordFit::Rearranged(Cavities::new(&places)) })
    };
    // Ground, common, low, high, as the socket lists them.
    let (state, seen) = as_placed(&[1, 0, 2, 3]);
    let high = state.devices[device].on(Command::High).expect("it can").measured;
    volts(high.high.most.0, 120.0);
    assert!(matches!(high.metal, Metal::Live(_)), "{high:?}");
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    let expected = [Sign::MetalLive(PUMP_1), Sign::GroundFaultTrips(Trip::AtOnce)];
    assert!(expected.iter().all(|sign| signs.contains(sign)), "{signs:?}");
    let same = |places: &[usize], fit: CordFit| {
        let (_, placed) = as_placed(places);
        assert_eq!(placed, case.after(Mistake::Cord { device, fit }).1, "{fit:?}");
    };
    same(&[0, 1, 2, 3], CordFit::Correct);
    same(&[3, 2, 1, 0], CordFit::Turned);
    // A place that no socket has is none.
    assert_eq!(Cavities::new(&[Some(300), None]), Cavities::new(&[]));
}

/// What is first in the list is dangerous and nobody notices it; nothing in it changes nothing.
#[test]
fn the_list_begins_with_what_nobody_notices() {
    let case = Case::new(JOB);
    let all = consequences(&case.planned());
    assert!(all.iter().all(|found| !found.signs.is_empty()));
    let hidden = |found: &Consequence| found.unnoticed() && found.danger() > Danger::None;
    let first = all.iter().position(|found| !hidden(found)).expect("most are noticed");
    assert!(first > 0 && all[first..].iter().all(|found| !hidden(found)));
    // 11 layouts, of which none is like 7 in everything.
    let layouts = all.iter().filter(|found| matches!(found.mistake, Mistake::Layout(_)));
    assert_eq!(layouts.count(), 11);
}

/// Layout 11 makes J5 pump 3 and J8 the blower: with the blower's plug there nothing is wrong but
/// that the panel has a button for pump 3. W5 is shipped on the blower's 120 V.
#[test]
fn one_mistake_can_make_up_for_another() {
    let case = Case::new(JOB);
    let planned = case.planned();
    let into = header(&case.board, "J8");
    let wanted = [layout(11), Mistake::Plug { device: case.device(BLOWER), into }];
    let all = pairs(&planned, &mut |_, _| {});
    let pair = all.iter().find(|pair| pair.mistakes == wanted).expect("it is listed");
    let signs: Vec<Sign> = pair.signs.iter().map(|seen| seen.sign).collect();
    assert_eq!(signs, [Sign::SpareButton(Device::Pump(3))]);
}

/// Two speeds one pin up: the ground wire hangs free, *common* meets *ground*, low meets *common*,
/// which on A is L2, and high meets *low*. So the low winding lies between L2 and the ground at all
/// times: 120 V, 3.1 A / 2 into the ground.
#[test]
fn a_cord_one_pin_up() {
    let case = Case::new(JOB);
    let (state, seen) =
        case.after(Mistake::Cord { device: case.device(PUMP_1), fit: CordFit::OneUp });
    let off = state.devices[case.device(PUMP_1)].on(Command::Off).expect("it can").measured;
    volts(off.low.most.0, 120.0);
    assert!((off.earth.0 - 1.55).abs() < 0.01, "{off:?}");
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    let expected =
        [Sign::Ungrounded(PUMP_1), Sign::GroundFaultTrips(Trip::AtOnce), Sign::NeverStops(PUMP_1)];
    assert!(expected.iter().all(|sign| signs.contains(sign)), "{signs:?}");
}

/// Ways 1 and 2 stand off as shipped: 0 pumps and blowers on high beside the heater, not 4.
#[test]
fn a_bank_that_nobody_set() {
    let case = Case::new(JOB);
    let (state, seen) = case.after(Mistake::BankAsShipped(BankId(0)));
    assert_eq!(state.allowance, Some(Allowance::Loads(0)));
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(signs, [Sign::HeaterGoesOff]);
}

/// What trips, on a breaker of 40 A that the plan leaves at an allowance at which all may run: the
/// rules of the job say by which standard. 44.37 A is 1.109 times the rating: by IEC 60898 the breaker
/// must carry it (up to 1.13 times), so the wires are overloaded and nobody notices; by UL 489 it may
/// trip.
#[test]
fn a_breaker_trips_only_where_its_standard_says_so() {
    let job = JOB.replace("breaker: 50 A", "breaker: 40 A");
    let seen = |job: &str| {
        let case = Case::new(job);
        let all = consequences(&case.planned());
        let raised = |found: &&Consequence| {
            matches!(found.mistake, Mistake::Way { .. })
                && found.state.allowance == Some(Allowance::Loads(4))
        };
        let found = all.iter().find(raised).expect("a way raises it");
        found.signs[0].sign
    };
    assert_eq!(seen(&job), Sign::BreakerMayTrip);
    let iec = job.replace("breaker: 40 A", "breaker: 40 A\nrules: iec");
    assert_eq!(seen(&iec), Sign::Overload(Heat::Ages));
}

/// One scale: 2 % and 7 % too much are the same, whatever carries it; beyond 1.45 times it can burn.
#[test]
fn neighbouring_overloads_are_equally_bad() {
    let heat = |percent: f64| Heat::of(Amps(16.0 * percent / 100.0), Amps(16.0));
    assert_eq!([102.0, 107.0, 145.0].map(heat), [Heat::Ages; 3]);
    assert_eq!(heat(145.1), Heat::Burns);
    let same = [Sign::Overload(Heat::Ages), Sign::BreakerMayTrip, Sign::BreakerTrips];
    assert!(same.iter().all(|sign| sign.danger() == Danger::Damage));
    assert_eq!(Sign::Overload(Heat::Burns).danger(), Danger::Fire);
}

/// Both lines from one line of the house: A has no voltage, so both pumps and the heater are dead; B has
/// its own. The sum in a neutral is worked by hand for job 2237, in the tests of demo jobs.
#[test]
fn both_lines_from_one() {
    let case = Case::new(JOB);
    let (state, seen) = case.after(Mistake::SameLine([Conductor::L1, Conductor::L2]));
    let of = |device| state.devices[case.device(device)].on(Command::High).expect("it is on");
    volts(of(PUMP_1).measured.high.most.0, 0.0);
    volts(of(BLOWER).measured.high.most.0, 120.0);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(signs, [Sign::DoesNothing(PUMP_1), Sign::DoesNothing(PUMP_2), Sign::HeaterNever]);
}

/// The neutral past the protection: what flows back is missing there. The board starts the circulation
/// pump by itself, 1.4 A, which is the first. Without protection nothing is wrong.
#[test]
fn the_neutral_past_the_protection() {
    let case = Case::new(JOB);
    let (_, seen) = case.after(Mistake::NeutralPast);
    let [trips] = seen.as_slice() else { panic!("{seen:?}") };
    assert_eq!(
        (trips.sign, trips.house),
        (Sign::GroundFaultTrips(Trip::Running), House::Protected)
    );
    assert_eq!(trips.running, [(CIRCULATION, Running::High)]);
    assert!((trips.amps.expect("it has").0.0 - 1.4).abs() < 1e-9, "{trips:?}");
    assert!(!unnoticed(&seen));
    // Between two lines nothing flows back in the neutral.
    let pumps =
        "equipment:\n  - { device: pump, speeds: 2, volts: 240, amps: { low: 3.1, high: 10.8 } }";
    let (before, _) = JOB.split_once("equipment:").expect("it has some");
    assert_eq!(Case::new(&format!("{before}{pumps}\n")).signs(Mistake::NeutralPast), []);
}

/// The neutral on the ground at the spa. Class A protection finds it without a load; an RCD trips when
/// the first load sends half of its 1.4 A through the ground. Unprotected nobody notices anything, and
/// all metal is live as soon as the neutral opens.
#[test]
fn the_neutral_on_the_ground_at_the_spa() {
    let case = Case::new(JOB);
    let (_, seen) = case.after(Mistake::NeutralGrounded);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    assert_eq!(signs, [Sign::MetalOnNeutral, Sign::GroundFaultTrips(Trip::AtOnce)]);
    assert_eq!((seen[1].house, seen[1].running.len()), (House::Protected, 0));
    assert!(unnoticed(&seen));
    let iec = Case::new(&JOB.replace("breaker: 50 A", "breaker: 50 A\nrules: iec"));
    let (_, seen) = iec.after(Mistake::NeutralGrounded);
    assert_eq!(seen[1].running, [(CIRCULATION, Running::High)]);
    assert!((seen[1].amps.expect("it has").0.0 - 0.7).abs() < 1e-9, "{seen:?}");
}

/// The circulation pump's plug one pin down: its ground wire is on *common*, which is the neutral, and the
/// other wires are on nothing. Where its metal is bonded the neutral is then on the ground at the spa: class
/// A protection trips at once, an RCD when the first load that returns in the neutral, the ozonator with
/// 0.4 A, sends half of it by the bonding. Elsewhere nothing trips, and the pump has no ground.
#[test]
fn metal_on_the_neutral() {
    let fault = |text: &str| {
        let case = Case::new(text);
        let device = case.device(CIRCULATION);
        let (state, seen) = case.after(Mistake::Cord { device, fit: CordFit::OneDown });
        assert!(state.devices[device].runs.iter().all(|run| run.measured.metal_on_neutral));
        assert!(state.devices[device].runs.iter().all(|run| run.measured.metal == Metal::Loose));
        assert!(seen.iter().any(|seen| seen.sign == Sign::Ungrounded(CIRCULATION)), "{seen:?}");
        let trips = |seen: &Observation| matches!(seen.sign, Sign::GroundFaultTrips(_));
        let all: Vec<Observation> = seen.into_iter().filter(trips).collect();
        let [one] = all.as_slice() else { panic!("{all:?}") };
        assert_eq!(one.house, House::Bonded);
        one.clone()
    };
    let class_a = fault(JOB);
    assert_eq!((class_a.sign, class_a.amps), (Sign::GroundFaultTrips(Trip::AtOnce), None));
    let rcd = fault(&JOB.replace("breaker: 50 A", "breaker: 50 A\nrules: iec"));
    assert_eq!(rcd.sign, Sign::GroundFaultTrips(Trip::Running));
    assert_eq!(rcd.running, [(OZONATOR, Running::High)]);
    assert!((rcd.amps.expect("it has").0.0 - 0.2).abs() < 1e-9, "{rcd:?}");
}

/// A second ground terminal, and neutral and protective earth exchanged at the first: both meet at the
/// ground terminals. Between the two there is no voltage, so no breaker trips; the neutral is on the ground
/// at the spa. A line there is a short.
#[test]
fn the_neutral_beside_the_earth_is_no_short() {
    let second = super::super::sample::HERON
        .replacen(
            "supplies:",
            "  TH: { part: main, at: [10, 92], wire: green, ground: true }\nsupplies:",
            1,
        )
        .replace("TG: PE", "TG: PE, TH: PE");
    let case = Case::on(super::super::sample::board(&second), JOB);
    let swap = |code| Mistake::Swapped([case.terminal(code), case.terminal("TG")]);
    let (state, seen) = case.after(swap("T3"));
    assert_eq!((state.short, state.neutral), (false, NeutralPath::Grounded));
    let has = |sign| seen.iter().any(|seen| seen.sign == sign);
    assert!(has(Sign::MetalOnNeutral) && !has(Sign::BreakerTripsAtOnce), "{seen:?}");
    let (state, seen) = case.after(swap("T1"));
    assert!(state.short && seen.iter().any(|seen| seen.sign == Sign::BreakerTripsAtOnce));
}

/// Heron 8 without its three-wire supply, its electronics between these.
fn with_electronics(between: &str) -> Case {
    let three = super::super::sample::HERON;
    let start = three.find("  three-wire:").expect("it has it");
    let end = three.find("  wye:").expect("it has it");
    let without = format!("{}{}", &three[..start], &three[end..]);
    let electronics = format!("electronics: {{ between: [{between}] }}\ngroups:");
    Case::on(super::super::sample::board(&without.replacen("groups:", &electronics, 1)), JOB)
}

/// Without T1 or T3 the board is dead: nothing is turned on, so nothing else is seen by turning it on.
/// Without the neutral T3 is joined to L1 through the electronics: what hangs on B has 120 V while off.
#[test]
fn the_electronics_lose_their_supply() {
    let case = with_electronics("T1, T3");
    assert_eq!(case.signs(Mistake::Missing(case.terminal("T1"))), [Sign::BoardDead]);
    let (state, seen) = case.after(Mistake::Missing(case.terminal("T3")));
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    let live = [CIRCULATION, BLOWER, OZONATOR].map(Sign::StaysLive);
    assert_eq!(signs, [live.as_slice(), &[Sign::BoardDead]].concat());
    volts(seen[0].volts.expect("it has").0, 120.0);
    assert!(state.devices.iter().all(|device| device.runs.len() == 1));
    // L2 is not theirs: the board runs, and so do the loads on B.
    let signs = case.signs(Mistake::Missing(case.terminal("T2")));
    assert!(!signs.contains(&Sign::BoardDead) && signs.contains(&Sign::HeaterNever), "{signs:?}");
    // Both lines from one: between these there is nothing.
    let across = with_electronics("T1, T2");
    let both = Mistake::SameLine([Conductor::L1, Conductor::L2]);
    assert_eq!(across.signs(both), [Sign::BoardDead]);
}

/// The neutral on T2 and L2 on T3: 240 V for 120 V. The board burns, and turns on nothing that could
/// burn with it.
#[test]
fn the_electronics_on_too_high_a_voltage() {
    let case = with_electronics("T1, T3");
    let swapped = Mistake::Swapped([case.terminal("T2"), case.terminal("T3")]);
    let (state, seen) = case.after(swapped);
    let signs: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    // Their common wires are on L2 now.
    let live = [CIRCULATION, BLOWER, OZONATOR].map(Sign::StaysLive);
    assert_eq!(signs, [live.as_slice(), &[Sign::BoardBurns, Sign::BoardDead]].concat());
    assert_eq!(state.power, Power::Burns(seen[3].volts.expect("it has")));
    volts(seen[3].volts.expect("it has").0, 240.0);
}

/// PE on T1 and L1 on TG: 120 V for 240 V, and whether the board starts is not known. 208 V is what
/// one of its own supplies gives.
#[test]
fn the_electronics_on_too_low_a_voltage() {
    let case = with_electronics("T1, T2");
    let swapped = Mistake::Swapped([case.terminal("T1"), case.terminal("TG")]);
    let (state, seen) = case.after(swapped);
    assert_eq!(state.power, Power::Weak(Volts(120.0)));
    assert!(seen.iter().any(|seen| seen.sign == Sign::BoardWeak));
    let (state, _) = case.after(Mistake::Supply(case.supply("wye")));
    assert_eq!(state.power, Power::Suits);
}

/// Electronics on the neutral draw from it at all times: with the neutral past the protection it trips
/// as soon as there is power.
#[test]
fn electronics_on_the_neutral_trip_at_once() {
    let running = |between| {
        let (_, seen) = with_electronics(between).after(Mistake::NeutralPast);
        seen.into_iter()
            .find(|seen| matches!(seen.sign, Sign::GroundFaultTrips(_)))
            .expect("it trips")
            .running
    };
    assert_eq!(running("T1, T3"), []);
    assert_eq!(running("T1, T2"), [(CIRCULATION, Running::High)]);
}

/// Heron 8 with allowances that are currents. Job 2231 adds up to 16.667 + 1.4 + 10.8 + 9.6 + 5.5 + 0.4
/// = 44.37 A, so at 48 A all may run and at 40 A the heater waits for some of them. At 17 A it waits for
/// ever: with the circulation pump it needs 18.07 A.
#[test]
fn a_way_flipped_makes_the_heater_wait() {
    let settings = "settings: { off off: 0, on off: 1, off on: 2, on on: 4 }";
    let with = |currents: &str| heron(&[(settings, &format!("settings: {{ {currents} }}"))]);
    let job = super::super::sample::JOB;
    let seen = |currents: &str| {
        let case = Case::on(with(currents), job);
        let (_, wiring) = case.plan.sound().expect("it is sound");
        assert_eq!(wiring.breaker.allowance, Some(Allowance::Amps(Amps(48.0))));
        assert_eq!(wiring.switches[0].positions[..2], [true, true]);
        let mistake = Mistake::Way { bank: BankId(0), way: 1 };
        let built = AsBuilt::as_planned(&case.planned());
        let before = simulate(&case.planned(), &built);
        let found = consequence(&case.planned(), &built, &before, mistake).expect("it is seen");
        found.signs.iter().map(|seen| seen.sign).collect::<Vec<_>>()
    };
    let waits = seen("off off: 24 A, on off: 32 A, off on: 40 A, on on: 48 A");
    assert_eq!(waits, [Sign::HeaterGoesOff]);
    let never = seen("off off: 24 A, on off: 32 A, off on: 17 A, on on: 48 A");
    assert_eq!(never, [Sign::HeaterNever]);
}
