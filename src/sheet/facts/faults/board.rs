//! The fault finder of a board: right is what its plates and its layout ask for.

use super::super::super::words::way_numbers;
use super::super::layout_words;
use super::{CheckText, DevicePlace, Finder, FinderCase, SignRow, gathered, group_words, place};
use crate::board::{
    BankId, Board, Device, Effect, Feed, HeaderId, LayoutSet, Meaning, Speeds, SupplyId,
};
use crate::decide::faults::{Check, CheckTarget, Fault, Instance};
use crate::decide::mistakes::{Mistake, Sign};
use crate::decide::{board_faults, pin_order, pin_order_for, services};
use crate::words::Words;

/// The fault finder of a board; `None` if none of its layouts can be planned with sample plates.
pub fn finder(words: &Words, board: &Board) -> Option<Finder> {
    let faults = board_faults(board);
    (!faults.is_empty()).then(|| gathered(&faults, &OfBoard::new(words, board)))
}

struct OfBoard<'a> {
    words: &'a Words,
    board: &'a Board,
    /// Where each device is served, with how many speeds under which layouts.
    served: Vec<(Device, HeaderId, Speeds, LayoutSet)>,
}

impl<'a> OfBoard<'a> {
    fn new(words: &'a Words, board: &'a Board) -> Self {
        let mut served: Vec<_> = services(board)
            .into_iter()
            .flat_map(|service| {
                let header = service.header;
                service.served.into_iter().map(move |s| (s.device, header, s.speeds, s.layouts))
            })
            .collect();
        served.sort_by_key(|(device, header, ..)| (*device, *header));
        Self { words, board, served }
    }

    fn headers(&self, device: Device) -> Vec<HeaderId> {
        let ours = self.served.iter().filter(|(known, ..)| *known == device);
        let mut headers: Vec<HeaderId> = ours.map(|(_, header, ..)| *header).collect();
        headers.dedup();
        headers
    }

    fn codes(&self, device: Device) -> String {
        let headers = self.headers(device).into_iter();
        self.words.or(&headers.map(|header| self.board[header].code.clone()).collect::<Vec<_>>())
    }

    /// The layouts under which `header` serves `device`, with that number of speeds or any.
    fn layouts(&self, device: Device, header: HeaderId, speeds: Option<Speeds>) -> Option<String> {
        let ours = self.served.iter().filter(|(d, h, s, _)| {
            *d == device && *h == header && speeds.is_none_or(|wanted| wanted == *s)
        });
        let mut ranges = Vec::new();
        for (.., set) in ours {
            match set {
                LayoutSet::All => return None,
                LayoutSet::Ranges(these) => ranges.extend(these.iter().copied()),
            }
        }
        ranges.sort();
        // Neighbouring ranges of one and of two speeds are one range.
        let mut joined: Vec<(crate::board::LayoutNumber, crate::board::LayoutNumber)> = Vec::new();
        for (first, last) in ranges {
            match joined.last_mut() {
                Some((_, end)) if u16::from(end.get()) + 1 == u16::from(first.get()) => *end = last,
                _ => joined.push((first, last)),
            }
        }
        let whole = self
            .board
            .layouts
            .iter()
            .all(|layout| joined.iter().any(|(a, b)| (*a..=*b).contains(&layout.number)));
        if whole { None } else { layout_words(self.words, &LayoutSet::Ranges(joined)) }
    }

    /// The layouts under which a device is there; with each number of speeds, where the sign is
    /// about them.
    fn layout_check(&self, own: Option<Device>, sign: Sign) -> CheckText {
        let under = |device: Device, speeds: Option<Speeds>| -> Option<String> {
            let all = self.headers(device).into_iter();
            let served = all.filter(|header| {
                self.served.iter().any(|(d, h, s, _)| {
                    *d == device && h == header && speeds.is_none_or(|wanted| wanted == *s)
                })
            });
            let all: Option<Vec<String>> =
                served.map(|header| self.layouts(device, header, speeds)).collect();
            Some(self.words.commas(&all?)).filter(|listed| !listed.is_empty())
        };
        let by_speeds = own.filter(|_| matches!(sign, Sign::OnlyHigh(_) | Sign::OnlyLow(_)));
        let both = by_speeds.and_then(|device| {
            let one = under(device, Some(Speeds::One))?;
            let two = under(device, Some(Speeds::Two))?;
            Some(self.words.check_layout_speeds(&two, &one))
        });
        let any = || {
            let layouts = under(own?, None)?;
            Some(self.words.check_layout_of(&layouts))
        };
        let words = both.or_else(any).unwrap_or_else(|| self.words.check_layout());
        CheckText { words, live: false, late: false }
    }

    fn ways_of(&self, bank: BankId, mistakes: &[Instance]) -> String {
        let mut found: Vec<u8> = Vec::new();
        for instance in mistakes {
            match instance.mistake {
                Mistake::Way { way, .. } => found.push(way),
                Mistake::BankAsShipped(_) => {
                    let fields = self.board[bank].fields.iter();
                    let sets = fields.filter(|f| f.effect == Some(Effect::HeaterAllowance));
                    sets.for_each(|field| found.extend(field.first..=field.last));
                }
                _ => {}
            }
        }
        found.sort_unstable();
        found.dedup();
        let ways = way_numbers(self.words, &found);
        self.words.ways_of(found.len(), &ways, &self.board[bank].code)
    }
}

impl FinderCase<Instance> for OfBoard<'_> {
    fn words(&self) -> &Words {
        self.words
    }

    fn board(&self) -> &Board {
        self.board
    }

    fn devices(&self) -> Vec<Device> {
        let mut all: Vec<Device> = self.served.iter().map(|(device, ..)| *device).collect();
        all.dedup();
        all
    }

    fn speeds(&self, device: Device) -> Vec<Speeds> {
        let ours = self.served.iter().filter(|(known, ..)| *known == device);
        ours.map(|(_, _, speeds, _)| *speeds).collect()
    }

    fn places(&self, device: Device) -> Vec<DevicePlace> {
        let board = self.board;
        let speeds = self.speeds(device);
        let one = |header: HeaderId| {
            let it = &board[header];
            let socket = &board[it.socket];
            let full = pin_order(socket, it.key);
            let short = pin_order_for(socket, it.key, Speeds::One);
            let two = speeds.contains(&Speeds::Two);
            let mixed = two && speeds.contains(&Speeds::One) && short != full;
            let pins = if two { &full } else { &short };
            let groups = match it.feed {
                Feed::Group(group) => vec![group],
                Feed::Jumper(jumper) => board[jumper].groups.clone(),
            };
            DevicePlace {
                layouts: self.layouts(device, header, None),
                groups: groups
                    .into_iter()
                    .map(|group| {
                        let volts = board.group_volts(SupplyId(0), group);
                        group_words(self.words, board, group, volts)
                    })
                    .collect(),
                one_speed_pins: mixed.then(|| super::super::headers::pin_words(self.words, &short)),
                ..place(self.words, board, header, pins)
            }
        };
        self.headers(device).into_iter().map(one).collect()
    }

    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<Instance>) -> CheckText {
        let board = self.board;
        let words = match check.target {
            CheckTarget::Layout => return self.layout_check(own, sign),
            CheckTarget::Jumper(jumper) => self.words.check_group_of_plate(&board[jumper].code),
            CheckTarget::Plug(device) => {
                super::plug_check(self.words, own, device, &self.codes(device))
            }
            CheckTarget::Cord(device) => {
                super::cord_check(self.words, own, device, &self.codes(device))
            }
            CheckTarget::Bank(bank) => self.ways_of(bank, &check.mistakes),
            CheckTarget::Link(link) => self.words.check_link(&board[link].code),
            CheckTarget::Landing => {
                let mistakes = check.mistakes.iter().map(|instance| instance.mistake);
                self.words.check_wires(&super::terminals(self.words, board, mistakes))
            }
            CheckTarget::House => self.words.check_house(),
        };
        let late = matches!(check.target, CheckTarget::Landing | CheckTarget::House);
        CheckText { words, live: check.target == CheckTarget::House, late }
    }

    fn check_all(&self, thing: CheckTarget) -> CheckText {
        let words = match thing {
            CheckTarget::Layout => self.words.all_layout_fits(),
            CheckTarget::Jumper(_) => self.words.all_jumpers(),
            CheckTarget::Plug(_) => self.words.all_plugs(),
            CheckTarget::Cord(_) => self.words.all_cords(),
            CheckTarget::Bank(_) => self.words.all_switches(),
            CheckTarget::Link(_) => self.words.all_links(),
            CheckTarget::Landing => {
                let grounds = self.board.terminals.iter().filter(|terminal| terminal.ground);
                let codes: Vec<String> = grounds.map(|terminal| terminal.code.clone()).collect();
                self.words.all_landed(&self.words.and(&codes))
            }
            CheckTarget::House => self.words.all_house(),
        };
        CheckText { words, live: thing == CheckTarget::House, late: false }
    }

    /// The samples leave out some layouts, so that a list of devices would not be whole.
    fn spare(&self, _: &[Device]) -> String {
        self.words.some_spare_button()
    }

    fn settings(&self, faults: &[Fault<Instance>]) -> Vec<SignRow> {
        let mut rows = Vec::new();
        for (index, bank) in self.board.banks.iter().enumerate() {
            let id = BankId(index);
            let mut says = Vec::new();
            let mut mistakes = Vec::new();
            for fault in faults {
                let Sign::SetOtherwise(known, field) = fault.sign else { continue };
                if known != id {
                    continue;
                }
                mistakes.extend(fault.checks.iter().flat_map(|check| check.mistakes.clone()));
                let Some(field) = bank.fields.get(field) else { continue };
                let other = field.settings.iter().filter(|set| set.positions != field.shipped);
                says.extend(other.filter_map(|set| match &set.meaning {
                    Meaning::Words(words) => Some(words.clone()),
                    Meaning::Allowance(_) => None,
                }));
            }
            if !mistakes.is_empty() {
                rows.push(settings_row(
                    self.words,
                    &says,
                    CheckText { words: self.ways_of(id, &mistakes), live: false, late: false },
                ));
            }
        }
        rows
    }

    /// A breaker that trips under a load depends on the plates: the way to look is common practice.
    fn by_hand(&self) -> Vec<SignRow> {
        let mut checks = Vec::new();
        for bank in &self.board.banks {
            for field in &bank.fields {
                if field.effect == Some(Effect::HeaterAllowance) {
                    let all: Vec<u8> = (field.first..=field.last).collect();
                    let ways = way_numbers(self.words, &all);
                    let words = self.words.check_allowance(all.len(), &ways, &bank.code);
                    checks.push(CheckText { words, live: false, late: false });
                }
            }
        }
        if checks.is_empty() {
            return Vec::new();
        }
        vec![SignRow { noticed: self.words.much_runs_together(), checks, by_hand: true }]
    }
}

/// What a bank does if some way stands otherwise: the meanings that were not wanted.
fn settings_row(words: &Words, says: &[String], check: CheckText) -> SignRow {
    let quoted: Vec<String> = says.iter().map(|says| words.quoted(says)).collect();
    let noticed = words.one_of_these_holds(&quoted.join(" "));
    SignRow { noticed, checks: vec![check], by_hand: false }
}
