//! The fault finder of a board: right is what its plates and its layout ask for.

use super::super::super::words::{expected, has_button, pins, way_numbers};
use super::super::layout_words;
use super::hidden::HiddenCheck;
use super::row::{CheckRow, CheckWords, Key, SignRow};
use super::volts::terminals_of;
use super::{Finder, FinderCase, Place, gathered, voltage_check};
use crate::board::{
    Bank, BankId, Board, Device, Effect, Feed, Field, GroupId, HeaderId, Heater, LayoutSet,
    Meaning, Speeds, Supply, SupplyId,
};
use crate::decide::faults::{Check, CheckTarget, Fault, Instance};
use crate::decide::heater::watts_on;
use crate::decide::mistakes::{Mistake, Sign};
use crate::decide::usual::{Symptom, moments};
use crate::decide::{board_faults, pin_order, pin_order_for, services};
use crate::units::{Amps, Watts};
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

    /// The layouts under which one of `headers` serves `device`, with that number of speeds or any.
    fn layouts(
        &self,
        device: Device,
        headers: &[HeaderId],
        speeds: Option<Speeds>,
    ) -> Option<String> {
        let ours = self.served.iter().filter(|(d, h, s, _)| {
            *d == device && headers.contains(h) && speeds.is_none_or(|wanted| wanted == *s)
        });
        let mut ranges = Vec::new();
        for (.., set) in ours {
            match set {
                LayoutSet::All => return None,
                LayoutSet::Ranges(these) => ranges.extend(these.iter().copied()),
            }
        }
        ranges.sort();
        // Neighbouring ranges of one and of two speeds, or of two headers, are one range.
        let mut joined: Vec<(crate::board::LayoutNumber, crate::board::LayoutNumber)> = Vec::new();
        for (first, last) in ranges {
            match joined.last_mut() {
                Some((_, end)) if u16::from(end.get()) + 1 >= u16::from(first.get()) => {
                    *end = last.max(*end);
                }
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
    fn layout_correct(&self, own: Option<Device>, sign: Sign) -> String {
        let under = |device: Device, speeds: Option<Speeds>| -> Option<String> {
            let listed = self.layouts(device, &self.headers(device), speeds)?;
            Some(listed).filter(|listed| !listed.is_empty())
        };
        let by_speeds = own.filter(|_| matches!(sign, Sign::OnlyHigh(_) | Sign::OnlyLow(_)));
        let both = by_speeds.and_then(|device| {
            let one = under(device, Some(Speeds::One))?;
            let two = under(device, Some(Speeds::Two))?;
            Some(self.words.layout_by_speeds(&two, &one))
        });
        let any = || Some(self.words.layout_one_of(&under(own?, None)?));
        both.or_else(any).unwrap_or_else(|| self.words.layout_of_equipment())
    }

    /// `in J5 (layouts 2–7) or in J8 (layouts 10–12)`; of more headers the layouts stand in the table
    /// of headers alone.
    fn plug_correct(&self, device: Device) -> String {
        let headers = self.headers(device);
        let one = |header: &HeaderId| {
            let code = &self.board[*header].code;
            match self.layouts(device, &[*header], None) {
                Some(layouts) if headers.len() == 2 => self.words.in_header_under(code, &layouts),
                _ => self.words.in_header(code),
            }
        };
        self.words.or(&headers.iter().map(one).collect::<Vec<_>>())
    }

    /// `from the top: ground, common, low, high; with one speed: ground, common, empty, high`.
    fn cord_correct(&self, device: Device) -> String {
        let (words, speeds) = (self.words, self.speeds(device));
        let mut all: Vec<(String, Vec<String>)> = Vec::new();
        for header in self.headers(device) {
            let it = &self.board[header];
            let socket = &self.board[it.socket];
            let full = pin_order(socket, it.key);
            let short = pin_order_for(socket, it.key, Speeds::One);
            let said = match (speeds.contains(&Speeds::One), speeds.contains(&Speeds::Two)) {
                (true, true) if short != full => {
                    let short = words.commas(&super::super::headers::pin_words(words, &short));
                    words.pins_by_speeds(&pins(words, &full), &short)
                }
                (_, true) => pins(words, &full),
                _ => pins(words, &short),
            };
            match all.iter_mut().find(|(known, _)| *known == said) {
                Some((_, codes)) => codes.push(it.code.clone()),
                None => all.push((said, vec![it.code.clone()])),
            }
        }
        match all.as_slice() {
            [(only, _)] => only.clone(),
            several => several
                .iter()
                .map(|(said, codes)| words.correct_at(&words.or(codes), said))
                .reduce(|listed, next| words.semicolon(&listed, &next))
                .unwrap_or_default(),
        }
    }

    /// The groups that can feed a header.
    fn groups(&self, header: HeaderId) -> Vec<GroupId> {
        match self.board[header].feed {
            Feed::Group(group) => vec![group],
            Feed::Jumper(jumper) => self.board[jumper].groups.clone(),
        }
    }

    /// The close-ups of a device's headers.
    fn close_ups(&self, device: Device) -> Vec<String> {
        let headers = self.headers(device).into_iter();
        headers.map(|header| self.see(Place::Header(&self.board[header].code))).collect()
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

    fn headers(&self, device: Device) -> Vec<HeaderId> {
        let ours = self.served.iter().filter(|(known, ..)| *known == device);
        let mut headers: Vec<HeaderId> = ours.map(|(_, header, ..)| *header).collect();
        headers.dedup();
        headers
    }

    fn has_neutral(&self) -> bool {
        self.board.supplies.iter().any(Supply::has_neutral)
    }

    fn element(&self) -> Option<Heater> {
        self.board.heater
    }

    fn heats(&self) -> Vec<Watts> {
        let (Some(element), board) = (self.board.heater, self.board) else { return Vec::new() };
        let groups =
            self.headers(Device::Heater).into_iter().flat_map(|header| self.groups(header));
        let groups: Vec<GroupId> = groups.collect();
        let volts = board.handles().flat_map(|supply: SupplyId| {
            groups.iter().filter_map(move |group| board.group_volts(supply, *group))
        });
        let mut all: Vec<Watts> =
            volts.filter(|volts| volts.0 > 1.0).map(|volts| watts_on(element, volts)).collect();
        all.sort_by(|a, b| b.0.total_cmp(&a.0));
        all.dedup_by(|a, b| (a.0 - b.0).abs() < 1.0);
        all
    }

    fn breaker(&self) -> Option<Amps> {
        None
    }

    fn can_be_turned(&self, device: Device) -> bool {
        let headers = self.headers(device);
        headers.into_iter().any(|header| !super::is_keyed(self.board, header))
    }

    fn see(&self, place: Place<'_>) -> String {
        let words = self.words;
        match place {
            Place::Plan => words.see_plan(),
            Place::Supply => words.see_supply(),
            Place::Voltages => words.see_voltages(),
            Place::Layouts => words.see_layouts(),
            Place::Header(code) | Place::Bank(code) => code.to_owned(),
        }
    }

    fn expected(&self, devices: &[Device]) -> String {
        let supplies: Vec<SupplyId> = self.board.handles().collect();
        let headers = devices.iter().flat_map(|device| self.headers(*device));
        let groups = headers.flat_map(|header| self.groups(header));
        let pairs: Vec<_> = groups
            .flat_map(|group| supplies.iter().map(move |supply| (group, *supply)))
            .filter_map(|(group, supply)| terminals_of(self.board, supply, group))
            .collect();
        expected(self.words, self.board, &supplies, &pairs)
    }

    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<Instance>) -> (Key, CheckWords) {
        let (words, board) = (self.words, self.board);
        let (key, what, correct, see) = match check.target {
            CheckTarget::Layout => {
                let layouts = self.layout_correct(own, sign);
                (Key::Layout, words.check_layout(), layouts, Place::Layouts)
            }
            CheckTarget::Jumper(jumper) => {
                let code = board[jumper].code.clone();
                (Key::Jumper, words.check_jumper_by_nameplate(), code, Place::Voltages)
            }
            CheckTarget::Plug(device) => {
                let (key, what) = super::plug_what(words, own, device);
                (key, what, self.plug_correct(device), Place::Plan)
            }
            CheckTarget::Cord(device) => {
                let (key, what) = super::cord_what(words, own, device);
                let correct = self.cord_correct(device);
                let see = self.close_ups(device);
                return (key, CheckWords { what, correct, see });
            }
            CheckTarget::Bank(id) => {
                let see = Place::Bank(&board[id].code);
                let switches = words.switches_as_planned(&self.ways_of(id, &check.mistakes));
                (Key::Bank(id), words.check_bank(), switches, see)
            }
            CheckTarget::Link(link) => {
                let on = words.link_by_supply(&board[link].code);
                (Key::Link(link), words.check_link(), on, Place::Supply)
            }
            CheckTarget::Landing => {
                let mistakes = check.mistakes.iter().map(|instance| instance.mistake);
                let terminals = super::terminal_ids(mistakes);
                let codes: Vec<String> =
                    terminals.iter().map(|id| board[*id].code.clone()).collect();
                let lands = words.landing_by_supply(&words.and(&codes));
                (Key::Landing, words.check_landing(), lands, Place::Supply)
            }
            CheckTarget::NeutralPath => return super::neutral_path(self),
            CheckTarget::NeutralGround => return super::neutral_ground(self),
            CheckTarget::House => return voltage_check(own, Some(sign), self),
        };
        (key, CheckWords { what, correct, see: vec![self.see(see)] })
    }

    fn check_all(&self, thing: CheckTarget) -> HiddenCheck {
        let words = self.words;
        let (check, see) = match thing {
            CheckTarget::Layout => (words.all_layout_fits(), self.see(Place::Layouts)),
            CheckTarget::Jumper(_) => (words.all_jumpers(), self.see(Place::Voltages)),
            CheckTarget::Plug(_) => (words.all_plugs(), self.see(Place::Plan)),
            CheckTarget::Cord(_) => (words.all_cords_drawn(), words.see_headers()),
            CheckTarget::Bank(id) => {
                (words.all_switches(), self.see(Place::Bank(&self.board[id].code)))
            }
            CheckTarget::Link(_) => (words.all_links(), self.see(Place::Supply)),
            CheckTarget::Landing => {
                let grounds = self.board.terminals.iter().filter(|terminal| terminal.ground);
                let codes: Vec<String> = grounds.map(|terminal| terminal.code.clone()).collect();
                (words.all_landed(&words.and(&codes)), self.see(Place::Supply))
            }
            CheckTarget::NeutralPath => (words.all_neutral_path(), self.see(Place::Supply)),
            CheckTarget::NeutralGround => (words.all_neutral_ground(), self.see(Place::Supply)),
            CheckTarget::House => (words.all_voltage(&self.expected(&[])), self.see(Place::Supply)),
        };
        HiddenCheck { check, see: vec![see], live: thing == CheckTarget::House }
    }

    /// The samples leave out some layouts, so that a list of devices would not be whole.
    fn spare(&self, devices: &[Device]) -> String {
        match devices.iter().any(|device| has_button(self.board, *device)) {
            true => self.words.some_spare_button(),
            false => self.words.some_spare_call(),
        }
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
                    Meaning::Allowance(_) | Meaning::Layout(_) => None,
                }));
            }
            if !mistakes.is_empty() {
                rows.push(self.settings_row(id, &says, &mistakes));
            }
        }
        rows
    }

    /// A breaker that trips under a load depends on the plates: the way to look is common practice.
    fn by_hand(&self, symptom: Symptom) -> Vec<CheckRow> {
        if symptom != Symptom::Seen(Sign::BreakerTrips) {
            return Vec::new();
        }
        let words = self.words;
        let banks = self.board.banks.iter().enumerate();
        let fields = banks.flat_map(|(index, bank)| {
            let sets = |field: &&Field| field.effect == Some(Effect::HeaterAllowance);
            bank.fields.iter().filter(sets).map(move |field| (index, bank, field))
        });
        let check = |(index, bank, field): (usize, &Bank, &Field)| {
            let all: Vec<u8> = (field.first..=field.last).collect();
            let ways = words.ways_of(all.len(), &way_numbers(words, &all), &bank.code);
            let check = CheckWords {
                what: words.check_allowance(),
                correct: words.switches_as_planned(&ways),
                see: vec![self.see(Place::Bank(&bank.code))],
            };
            let key = Key::Bank(BankId(index));
            CheckRow::new(key, moments(symptom, false, CheckTarget::Bank(BankId(index))), check)
                .of_practice()
        };
        fields.map(check).collect()
    }
}

impl OfBoard<'_> {
    /// What a bank does if some way stands otherwise: the meanings that were not wanted.
    fn settings_row(&self, id: BankId, says: &[String], mistakes: &[Instance]) -> SignRow {
        let words = self.words;
        let quoted: Vec<String> = says.iter().map(|says| words.quoted(says)).collect();
        let check = CheckWords {
            what: words.check_bank(),
            correct: words.switches_as_planned(&self.ways_of(id, mistakes)),
            see: vec![self.see(Place::Bank(&self.board[id].code))],
        };
        let check = CheckRow::new(Key::Bank(id), super::of_bank(id), check);
        SignRow {
            noticed: words.one_of_these_holds(&quoted.join(" ")),
            checks: super::in_order(vec![check]),
        }
    }
}
