//! What is fitted, as it is written behind `--with`.

use crate::board::{Board, Device, Role, Speeds};
use crate::decide::Wanted;

/// The most devices in one question; a board has no more headers.
const MOST: usize = 24;

/// Reads `circulation, pump:2, pump:1, blower`.
///
/// # Errors
/// A sentence about the first entry that cannot be read.
pub fn parse(text: &str, board: Option<&Board>) -> Result<Vec<Wanted>, String> {
    if text.trim().is_empty() {
        return Err("nothing is named behind `--with`; write such as `pump:2, blower`".to_owned());
    }
    let all = text.split(',').map(|entry| one(entry, board)).collect::<Result<Vec<_>, _>>()?;
    if all.len() > MOST {
        return Err(format!("more than {MOST} devices are named behind `--with`"));
    }
    let twice = all.iter().enumerate().find_map(|(index, one)| match one.role {
        Role::Named(device) if all.iter().take(index).any(|w| w.role == one.role) => Some(device),
        _ => None,
    });
    match twice {
        Some(device) => Err(format!("`{device}` is named twice; a board drives one")),
        None => Ok(all),
    }
}

fn one(entry: &str, board: Option<&Board>) -> Result<Wanted, String> {
    let (word, speeds) = match entry.split_once(':') {
        Some((word, speeds)) => (word.trim(), Some(speeds.trim())),
        None => (entry.trim(), None),
    };
    let role = match word {
        "pump" => Role::AnyPump,
        word => {
            let device = board.map_or_else(|| Device::parse(word), |board| board.device(word));
            Role::Named(device.ok_or_else(|| unknown(word, board))?)
        }
    };
    let pump = matches!(role, Role::AnyPump | Role::Named(Device::Pump(_)));
    let speeds = match speeds {
        Some("1") => Speeds::One,
        Some("2") => Speeds::Two,
        None if !pump => Speeds::One,
        None => {
            return Err(format!("say how many speeds it has: `{word}:1` or `{word}:2`"));
        }
        Some(other) => {
            return Err(format!("`{}` is no number of speeds; write 1 or 2", shown(other)));
        }
    };
    let has_two = matches!(role, Role::AnyPump)
        || matches!(role, Role::Named(device) if device.counts_for_allowance());
    if speeds == Speeds::Two && !has_two {
        let mut message = format!("a device of the kind `{word}` has one speed");
        if role == Role::Named(Device::Circulation) {
            message.push_str("; a pump that filters on low is a `pump:2`");
        }
        return Err(message);
    }
    if role == Role::Named(Device::Heater) {
        return Err("the heater is part of the board; leave it out".to_owned());
    }
    Ok(Wanted { role, speeds })
}

fn unknown(word: &str, board: Option<&Board>) -> String {
    let own = board.into_iter().flat_map(|board| &board.devices);
    let own: String = own.map(|own| format!("{}, ", own.device)).collect();
    format!(
        "`{}` is not a device; the devices are {own}circulation, pump, blower, ozonator, light \
         and sound, and `pump 1` for a jet pump that must have this number",
        shown(word)
    )
}

/// A word of the command line, short, and nothing in it steers a terminal.
fn shown(word: &str) -> String {
    word.chars().take(24).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

/// How an entry reads: `pump with two speeds`, `blower`.
pub fn words(wanted: Wanted) -> String {
    let several = matches!(wanted.role, Role::AnyPump | Role::Named(Device::Pump(_)));
    match wanted.speeds {
        Speeds::Two => format!("{} with two speeds", wanted.role),
        _ if several => format!("{} with one speed", wanted.role),
        _ => wanted.role.to_string(),
    }
}

/// How it is written: `pump:2`, `blower`.
pub fn short(wanted: Wanted) -> String {
    let several = matches!(wanted.role, Role::AnyPump | Role::Named(Device::Pump(_)));
    match wanted.speeds {
        Speeds::Two => format!("{}:2", wanted.role),
        _ if several => format!("{}:1", wanted.role),
        _ => wanted.role.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_fitted_is_read() {
        let all = parse(" circulation,pump:2 , pump 3 : 1,blower:2, blower", None).unwrap_err();
        assert!(all.contains("`blower` is named twice"), "{all}");
        let all = parse(" circulation,pump:2 , pump 3 : 1,blower:2,ozonator", None).unwrap();
        let short: Vec<String> = all.iter().map(|one| short(*one)).collect();
        assert_eq!(short, ["circulation", "pump:2", "pump 3:1", "blower:2", "ozonator"]);
    }

    #[test]
    fn what_cannot_be_read_is_told() {
        for (text, words) in [
            ("", "nothing is named"),
            ("pump", "`pump:1` or `pump:2`"),
            ("pump 2", "`pump 2:1` or `pump 2:2`"),
            ("pump:3", "`3` is no number of speeds"),
            ("circulation:2", "a pump that filters on low is a `pump:2`"),
            ("pump:2, heater", "leave it out"),
            ("pump:2,,blower", "`` is not a device"),
            ("fan\u{1b}[2J", "`fan\u{fffd}[2J` is not a device"),
        ] {
            let message = parse(text, None).unwrap_err();
            assert!(message.contains(words), "{text}: {message}");
        }
        assert!(parse(&"pump:1,".repeat(30), None).is_err());
    }
}
