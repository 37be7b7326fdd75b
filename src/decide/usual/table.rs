//! The data of usual causes: two Markdown tables, read once. What they say is checked in the tests.

use std::sync::LazyLock;

use super::{Cause, Share, Work};

/// What must be there for a cause to be possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// A neutral in the supply.
    Neutral,
    /// Ground-fault protection. Every spa may have it.
    Protection,
    /// A heater.
    Heater,
    /// A circulation pump.
    Circulation,
    /// An ozonator.
    Ozonator,
    /// A blower.
    Blower,
    /// A jet pump.
    Pump,
    /// Anything with a motor.
    Motor,
    /// A fuse in front of it.
    Fuse,
    /// A panel.
    Panel,
}

/// What a cause can do to people and things.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hazard {
    /// It can kill.
    Kills,
    /// It can start a fire.
    Burns,
    /// It can scald.
    Scalds,
    /// It breaks something.
    Breaks,
}

/// What the compiler itself finds by simulating mistakes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Found {
    /// The layout number.
    Layout,
    /// A jumper.
    Jumper,
    /// A plug.
    Plug,
    /// The wires in a plug.
    Cord,
    /// A switch bank.
    Bank,
    /// A link.
    Link,
    /// What lands on the terminals.
    Landing,
    /// What the house gives.
    House,
}

/// What can be behind a sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Listed {
    /// What the compiler finds.
    Found(Found),
    /// What it does not.
    Usual(Cause),
}

/// A cause as the file has it.
#[derive(Clone, Debug, PartialEq)]
pub struct CauseRow {
    /// The cause.
    pub listed: Listed,
    /// How it is looked for.
    pub work: Work,
    /// What must be there.
    pub needs: Vec<Need>,
    /// What it can do.
    pub hazards: Vec<Hazard>,
}

/// What is behind a sign, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub struct SignRow {
    /// Its key.
    pub key: String,
    /// On a board just fitted.
    pub new: Vec<(Listed, Share)>,
    /// In a spa that ran for years.
    pub years: Vec<(Listed, Share)>,
}

/// All that the files say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Every cause once.
    pub causes: Vec<CauseRow>,
    /// Every sign once.
    pub signs: Vec<SignRow>,
}

/// The built-in table; empty if a file cannot be read, which the tests refuse.
pub static TABLE: LazyLock<Table> =
    LazyLock::new(|| read(include_str!("causes.md"), include_str!("signs.md")).unwrap_or_default());

/// Reads both files.
///
/// # Errors
/// The first row, cell or word that means nothing.
pub fn read(causes: &str, signs: &str) -> Result<Table, String> {
    Ok(Table {
        causes: rows(causes, 4)?.iter().map(|row| cause(row)).collect::<Result<_, _>>()?,
        signs: rows(signs, 3)?.iter().map(|row| sign(row)).collect::<Result<_, _>>()?,
    })
}

/// The rows of a Markdown table below its head, each with so many cells.
fn rows(text: &str, cells: usize) -> Result<Vec<Vec<&str>>, String> {
    let lines = text.lines().filter(|line| line.starts_with('|')).skip(2);
    lines
        .map(|line| {
            let inner = line.trim().trim_start_matches('|').trim_end_matches('|');
            let row: Vec<&str> = inner.split('|').map(str::trim).collect();
            if row.len() == cells { Ok(row) } else { Err(line.to_owned()) }
        })
        .collect()
}

fn cause(row: &[&str]) -> Result<CauseRow, String> {
    let [key, work, needs, hazards] = row else { return Err(row.join(" ")) };
    Ok(CauseRow {
        listed: listed(key)?,
        work: word(work, &[("outside", Work::Outside), ("inside", Work::Inside)])?,
        needs: needs.split_whitespace().map(|need| word(need, &NEEDS)).collect::<Result<_, _>>()?,
        hazards: hazards
            .split_whitespace()
            .map(|hazard| word(hazard, &HAZARDS))
            .collect::<Result<_, _>>()?,
    })
}

fn sign(row: &[&str]) -> Result<SignRow, String> {
    let [key, new, years] = row else { return Err(row.join(" ")) };
    Ok(SignRow { key: (*key).to_owned(), new: list(new)?, years: list(years)? })
}

/// `heater_leak most, @landing often`.
fn list(cell: &str) -> Result<Vec<(Listed, Share)>, String> {
    let one = |entry: &str| {
        let (key, share) = entry.trim().split_once(' ').ok_or_else(|| entry.to_owned())?;
        Ok((listed(key)?, word(share, &SHARES)?))
    };
    cell.split(',').map(one).collect()
}

fn listed(key: &str) -> Result<Listed, String> {
    match key.strip_prefix('@') {
        Some(found) => Ok(Listed::Found(word(found, &FOUND)?)),
        None => Cause::parse(key).map(Listed::Usual).ok_or_else(|| key.to_owned()),
    }
}

fn word<T: Copy>(word: &str, known: &[(&str, T)]) -> Result<T, String> {
    let found = known.iter().find(|(name, _)| *name == word);
    found.map(|(_, value)| *value).ok_or_else(|| word.to_owned())
}

const SHARES: [(&str, Share); 4] = [
    ("most", Share::Most),
    ("often", Share::Often),
    ("seldom", Share::Seldom),
    ("rare", Share::Rare),
];

const FOUND: [(&str, Found); 8] = [
    ("layout", Found::Layout),
    ("jumper", Found::Jumper),
    ("plug", Found::Plug),
    ("cord", Found::Cord),
    ("bank", Found::Bank),
    ("link", Found::Link),
    ("landing", Found::Landing),
    ("house", Found::House),
];

const NEEDS: [(&str, Need); 10] = [
    ("neutral", Need::Neutral),
    ("protection", Need::Protection),
    ("heater", Need::Heater),
    ("circulation", Need::Circulation),
    ("ozonator", Need::Ozonator),
    ("blower", Need::Blower),
    ("pump", Need::Pump),
    ("motor", Need::Motor),
    ("fuse", Need::Fuse),
    ("panel", Need::Panel),
];

const HAZARDS: [(&str, Hazard); 4] = [
    ("kills", Hazard::Kills),
    ("burns", Hazard::Burns),
    ("scalds", Hazard::Scalds),
    ("breaks", Hazard::Breaks),
];

#[cfg(test)]
mod tests {
    use super::super::{Symptom, sign_keys};
    use super::*;

    const FILES: (&str, &str) = (include_str!("causes.md"), include_str!("signs.md"));

    /// 57 causes, each once; 28 signs, each once and each asked for; what a list names is a cause.
    #[test]
    fn every_cause_and_every_sign_is_there_once() {
        let table = read(FILES.0, FILES.1).expect("both files are read");
        assert_eq!(*TABLE, table);
        assert_eq!((table.causes.len(), table.signs.len()), (57, 28));
        let mut causes: Vec<Listed> = table.causes.iter().map(|row| row.listed).collect();
        causes.sort();
        causes.dedup();
        assert_eq!(causes.len(), 57);
        for cause in Cause::ALL {
            assert!(causes.contains(&Listed::Usual(*cause)), "{cause:?}");
            assert_eq!(Cause::parse(cause.key()), Some(*cause));
        }
        let mut keys: Vec<&str> = table.signs.iter().map(|row| row.key.as_str()).collect();
        keys.sort_unstable();
        keys.dedup();
        let mut asked = sign_keys();
        asked.sort_unstable();
        assert_eq!(keys, asked);
    }

    /// Each list is in order, has nothing twice and at most one that is behind most; every cause is in
    /// some list; what kills says so.
    #[test]
    fn the_lists_are_in_order() {
        let mut seen: Vec<Listed> = Vec::new();
        for row in &TABLE.signs {
            for list in [&row.new, &row.years] {
                assert!(!list.is_empty(), "{}", row.key);
                assert!(list.is_sorted_by_key(|(_, share)| *share), "{}", row.key);
                assert!(list.iter().filter(|(_, share)| *share == Share::Most).count() < 2);
                let mut once: Vec<Listed> = list.iter().map(|(listed, _)| *listed).collect();
                once.sort();
                once.dedup();
                assert_eq!(once.len(), list.len(), "{}", row.key);
                seen.extend(once);
            }
        }
        for row in &TABLE.causes {
            assert!(seen.contains(&row.listed), "{:?} is in no list", row.listed);
        }
        let kills = |cause: Cause| cause.hazards().contains(&Hazard::Kills);
        assert!(kills(Cause::GroundOpen) && kills(Cause::ProtectionWorn) && !kills(Cause::Mount));
    }

    /// In a spa that ran for years no mistake of wiring comes before what wears out, but for a number
    /// that somebody can have entered.
    #[test]
    fn mistakes_come_last_in_a_spa_that_ran_for_years() {
        for row in &TABLE.signs {
            let first = row.years.iter().position(|(it, _)| matches!(it, Listed::Found(_)));
            let found: Vec<_> = row.years.iter().skip(first.unwrap_or(usize::MAX)).collect();
            assert!(found.len() < 3, "{}: {found:?}", row.key);
            assert!(first != Some(0), "{}", row.key);
        }
    }

    #[test]
    fn a_word_that_means_nothing_is_told() {
        let (causes, signs) = FILES;
        let of = |causes: &str, signs: &str| read(causes, signs).expect_err("it is wrong");
        assert_eq!(of(&causes.replace("| inside |", "| insid |"), signs), "insid");
        assert_eq!(of(&causes.replace("heater_leak", "heater_leek"), signs), "heater_leek");
        assert_eq!(of(causes, &signs.replace("flow most", "flow mots")), "mots");
        assert!(of(causes, &signs.replace("| noise |", "| noise | noise |")).contains("noise"));
    }

    /// A symptom without a list would be an empty row.
    #[test]
    fn every_symptom_has_its_lists() {
        for symptom in super::super::WHOLE {
            let row = TABLE.signs.iter().find(|row| Some(row.key.as_str()) == symptom.key(true));
            assert!(row.is_some(), "{symptom:?}");
        }
        assert_eq!(Symptom::Tingles.key(false), Some("tingle"));
    }
}
