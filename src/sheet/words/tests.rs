//! The words of the job of `tests/version-1/jobs/2231.yaml` on Heron 8, and of a few others.

use super::*;
use crate::board::{BankId, Device, LayoutNumber, SupplyId};
use crate::decide::faults::CheckTarget;
use crate::decide::mistakes::{
    AsBuilt, Consequence, CordFit, Mistake, Sign, consequence, simulate,
};
use crate::decide::sample::{Case, JOB};

impl Case {
    fn found(&self, mistake: Mistake) -> Consequence {
        let planned = self.planned();
        let built = AsBuilt::as_planned(&planned);
        let before = simulate(&planned, &built);
        consequence(&planned, &built, &before, mistake).expect("it changes something")
    }

    /// The mistake, and what is noticed.
    fn says(&self, mistake: Mistake) -> (String, Vec<String>) {
        let (planned, found) = (self.planned(), self.found(mistake));
        let seen = found
            .signs
            .iter()
            .map(|seen| observed(&Words::english(), &planned, &found.state, seen));
        let plain = |words: String| words.replace('\u{a0}', " ");
        (plain(super::mistake(&Words::english(), &planned, mistake)), seen.map(plain).collect())
    }

    fn look(&self, thing: CheckTarget) -> String {
        super::look(&Words::english(), &self.planned(), thing).replace('\u{a0}', " ")
    }
}

fn layout(number: u8) -> Mistake {
    Mistake::Layout(LayoutNumber::new(number).expect("not 0"))
}

#[track_caller]
fn check_words(case: &Case, mistake: Mistake, wrong: &str, seen: &[&str]) {
    let (said, noticed) = case.says(mistake);
    assert_eq!(said, wrong);
    assert_eq!(noticed, seen);
}

#[test]
fn layouts() {
    let case = Case::new(JOB);
    let is = "the layout number is 6";
    check_words(&case, layout(6), is, &["the circulation pump does nothing"]);
    let is = "the layout number is 9";
    check_words(&case, layout(9), is, &["the button of pump 3 runs the blower"]);
    let seen = [
        "pump 2 starts only at the second press of its button",
        "the button of pump 3 runs the blower",
    ];
    check_words(&case, layout(12), "the layout number is 12", &seen);
    let seen = ["pump 2 does nothing", "pump 1 runs at high speed only"];
    check_words(&case, layout(3), "the layout number is 3", &seen);
    assert_eq!(case.look(CheckTarget::Layout), "layout number 7");
}

/// The blower's case is worked by hand in `decide::mistakes::tests`.
#[test]
fn jumpers() {
    let case = Case::new(JOB);
    let on = case.board[case.jumper("W1")].groups[0];
    let mistake = Mistake::Jumper { jumper: case.jumper("W3"), on };
    let (said, noticed) = case.says(mistake);
    assert_eq!(said, "W3 is on group A");
    assert_eq!(noticed[0], "the blower gets 240 V in place of 120 V and burns out");
    assert!(
        noticed[1].starts_with("the current in L1 is 49.9 A when the heater, "),
        "{}",
        noticed[1]
    );
    let both = Mistake::JumpersSwapped([case.jumper("W2"), case.jumper("W3")]);
    let (said, noticed) = case.says(both);
    assert_eq!(said, "W2 and W3 have changed places");
    let hums = "pump 2 hums, overheats or is weak, on 120 V in place of 240 V".to_owned();
    assert!(noticed.contains(&hums), "{noticed:?}");
    assert_eq!(case.look(CheckTarget::Jumper(case.jumper("W3"))), "W3 on group B");
}

#[test]
fn plugs() {
    let case = Case::new(JOB);
    let mistake = Mistake::Plug { device: case.device(Device::Blower), into: case.header("J8") };
    check_words(&case, mistake, "the plug of the blower is in J8", &["the blower does nothing"]);
    let swapped = [case.device(Device::Blower), case.device(Device::Circulation)];
    let seen = [
        "J6 overheats: 5.5 A, limit 4 A",
        "fuse F4 may blow after a while: 5.9 A, rating 5 A",
        "the button of the blower runs the circulation pump",
        "the blower runs in place of the circulation pump",
        "the heater never comes on",
    ];
    let said = "the plug of the blower is in J6 and that of the circulation pump in J5";
    check_words(&case, Mistake::PlugsSwapped(swapped), said, &seen);
    assert_eq!(case.look(CheckTarget::Plug(Device::Pump(2))), "plug of pump 2 in J3");
}

#[test]
fn switches() {
    let case = Case::new(JOB);
    let bank = BankId(0);
    let seen = ["the heater stops when more than 2 pumps and blowers run at high speed"];
    check_words(&case, Mistake::Way { bank, way: 1 }, "switch 1 of S1 is OFF", &seen);
    let seen =
        ["switch 3 of S1 is in the wrong position; it should be: \u{201c}60 Hz supply.\u{201d}"];
    check_words(&case, Mistake::Way { bank, way: 3 }, "switch 3 of S1 is ON", &seen);
    let (said, _) = case.says(Mistake::BankAsShipped(bank));
    assert_eq!(said, "switches 1 and 2 of S1 are as shipped");
    assert_eq!(case.look(CheckTarget::Bank(bank)), "S1: switches 1 and 2 ON, all others OFF");
}

/// 208 V is (208/240)^2 of 4000 W: 3000 W.
#[test]
fn supplies() {
    let case = Case::new(JOB);
    let seen = [
        "pump 1 hums, overheats or is weak, on 208 V in place of 240 V",
        "pump 2 hums, overheats or is weak, on 208 V in place of 240 V",
        "the heater heats slowly: 3000 W in place of 4000 W",
    ];
    let said = "the incoming supply is 208 V, four wires, from a 120/208 V wye service";
    check_words(&case, Mistake::Supply(SupplyId(2)), said, &seen);
    let (said, _) = case.says(Mistake::Missing(case.terminal("T3")));
    assert_eq!(said, "the neutral (N) is not connected to T3");
    let missing = Mistake::Missing(case.terminal("TG"));
    let said = "the ground (PE) is not connected to TG";
    check_words(&case, missing, said, &["nothing is grounded"]);
    let (said, seen) = case.says(Mistake::Swapped([case.terminal("T1"), case.terminal("TG")]));
    assert_eq!(said, "the ground (PE) is on T1 and L1 is on TG");
    let live =
        "the metal of all equipment is live: 120 V, unless the ground-fault protection trips";
    assert_eq!(seen[0], live);
    assert_eq!(seen[1], "the ground-fault protection trips at once, if the metal is bonded");
    let lands = "L1 on T1, L2 on T2, the neutral (N) on T3, the ground (PE) on TG";
    assert_eq!(case.look(CheckTarget::Landing), lands);
    let reads = "T1 to T2: 240 V; T1 to T3, T1 to TG, T2 to T3, T2 to TG: 120 V";
    assert_eq!(case.look(CheckTarget::House), reads);
}

/// J3 has its key to the right: its pins are listed from the top down. J5 has it to the left: from
/// the bottom up.
#[test]
fn cords() {
    let case = Case::new(JOB);
    let cord = |device, fit| Mistake::Cord { device: case.device(device), fit };
    let pump = Device::Pump(2);
    let (said, seen) = case.says(cord(pump, CordFit::Turned));
    assert_eq!(said, "the plug of pump 2 is in end for end at J3");
    let live = "the metal of pump 2 is live: 120 V, unless the ground-fault protection trips";
    assert_eq!(seen[0], live);
    let trips =
        "the ground-fault protection trips when pump 2 is turned on, if the metal is bonded";
    assert_eq!(seen[2], trips);
    let (said, _) = case.says(cord(pump, CordFit::OneDown));
    assert_eq!(said, "the plug of pump 2 is shifted one pin toward the bottom at J3");
    let (said, _) = case.says(cord(Device::Blower, CordFit::OneDown));
    assert_eq!(said, "the plug of the blower is shifted one pin toward the top at J5");
    let (said, _) = case.says(cord(Device::Circulation, CordFit::OneUp));
    assert_eq!(said, "the plug of the circulation pump is shifted one pin toward the left at J6");
    let (said, _) = case.says(cord(pump, CordFit::Closed));
    assert_eq!(
        said,
        "the empty cavity is missing in the plug of pump 2 at J3: the wires are in the wrong cavities"
    );
    let look = "pump 2 at J3: key to key; from the top: ground, common, empty, high";
    assert_eq!(case.look(CheckTarget::Cord(pump)), look);
    let (_, seen) = case.says(cord(Device::Pump(1), CordFit::Turned));
    // Off, its windings lie in series between L2, on the low wire, and the ground, on the high one.
    let trips = "the ground-fault protection trips even while pump 1 is off".to_owned();
    assert!(seen.contains(&trips), "{seen:?}");
}

#[test]
fn a_breaker_that_trips() {
    let case = Case::new(&JOB.replace("breaker: 50 A", "breaker: 40 A"));
    let ways = (1..=2).map(|way| Mistake::Way { bank: BankId(0), way });
    let said: Vec<String> = ways.flat_map(|way| case.says(way).1).collect();
    let trips = said.iter().find(|words| words.contains("may trip")).expect("one may");
    let begins = "the breaker of 40 A may trip after a while when the heater, ";
    assert!(trips.starts_with(begins), "{trips}");
    assert!(trips.ends_with("run together: 44.4 A in L1"), "{trips}");
}

#[test]
fn a_clause_becomes_a_sentence() {
    assert_eq!(sentence(&Words::english(), "the blower does nothing"), "The blower does nothing.");
    assert_eq!(sentence(&Words::english(), "is W3 on group B?"), "Is W3 on group B?");
}

/// What has no motor does not hum; what has no button has none.
#[test]
fn devices_have_their_own_words() {
    let board = Case::new(JOB).board;
    let says = |sign| noticed(&Words::english(), &board, sign);
    let weak = says(Sign::RunsHot(Device::Ozonator));
    assert_eq!(weak, "the ozonator works weakly or not at all");
    let other = Sign::OtherButton(Device::Ozonator, Device::Circulation);
    assert_eq!(says(other), "the ozonator runs in place of the circulation pump");
    let spare = Sign::SpareButton(Device::Circulation);
    assert_eq!(says(spare), "the layout includes the circulation pump, which is not installed");
    assert_eq!(says(Sign::SetOtherwise(BankId(0), 1)), "switch 3 of S1 is in the wrong position");
    assert_eq!(
        says(Sign::SetOtherwise(BankId(0), 0)),
        "switches 1\u{2013}2 of S1 are in the wrong positions"
    );
}
