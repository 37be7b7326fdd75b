//! What is possible and hardly meant: found on the sound board, so that each is one remark.

use super::super::{Allowance, Board, Device, Effect, HeaderId, Heater, Layout, Meaning, SupplyId};
use super::cords;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{Spec, Use};
use crate::units::Amps;

/// Warns of values that contradict what else the board says.
pub fn check(spec: &Spec, board: &Board, problems: &mut Problems) {
    allowances(spec, board, problems);
    below_heater(spec, board, problems);
    fuses(spec, board, problems);
    heater(spec, board, problems);
    cords::neutrals(spec, board, problems);
    super::roles::unused(board, problems);
}

/// A heater allowance above the number of pumps and blowers that any layout has.
fn allowances(spec: &Spec, board: &Board, problems: &mut Problems) {
    let counted = |layout: &Layout| {
        let served = board.header_ids().filter_map(|header| board.device_at(header, layout));
        served.filter(|device| device.counts_for_allowance()).count()
    };
    let Some((most, layout)) =
        board.layouts.iter().map(|layout| (counted(layout), layout)).max_by_key(|(most, _)| *most)
    else {
        return;
    };
    for (bank, written) in board.banks.iter().zip(&spec.switches.entries) {
        let sets = bank.fields.iter().filter(|f| f.effect == Some(Effect::HeaterAllowance));
        for field in sets {
            let above: Vec<u8> = field
                .settings
                .iter()
                .filter_map(|setting| match setting.meaning {
                    Meaning::Allowance(Allowance::Loads(number)) if usize::from(number) > most => {
                        Some(number)
                    }
                    _ => None,
                })
                .collect();
            let Some(highest) = above.iter().max() else { continue };
            let numbers: Vec<String> = above.iter().map(u8::to_string).collect();
            let message = format!(
                "a heater allowance of {highest} is more than can run: no layout has more than {}",
                counted_loads(most)
            );
            problems.warning(
                Problem::new(
                    Code::AllowanceTooHigh,
                    meaning(written, field.span, &numbers),
                    message,
                )
                .label("nothing holds the heater back here")
                .other(layout.span, format!("has {}", counted_loads(most)))
                .help(format!("write {most} where all may run, if that is what the board does")),
            );
        }
    }
}

fn counted_loads(count: usize) -> String {
    match count {
        0 => "no pump and no blower".to_owned(),
        1 => "one pump or blower".to_owned(),
        many => format!("{many} pumps and blowers"),
    }
}

/// The place of the first of `numbers` among the meanings of the ways at `ways`.
fn meaning(bank: &crate::spec::Bank, ways: Span, numbers: &[String]) -> Span {
    let field = bank.ways.entries.iter().find(|field| field.name.span == ways);
    let Some(Use::Field(field)) = field.map(|field| &field.purpose) else { return ways };
    let of_one = [&field.when_off, &field.when_on].into_iter().filter_map(|it| it.get());
    let of_many = field.settings.value().into_iter().flatten().map(|(_, meaning)| meaning);
    let mut all = of_one.chain(of_many);
    all.find(|meaning| numbers.contains(&*meaning.value)).map_or(ways, |meaning| meaning.span)
}

/// A header that may carry more than its fuse.
fn fuses(spec: &Spec, board: &Board, problems: &mut Problems) {
    for (header, written) in board.headers.iter().zip(&spec.headers.entries) {
        let (Some(max), Some(fuse)) = (header.max, header.fuse) else { continue };
        let fuse = &board[fuse];
        if fuse.rating.0 >= max.0 {
            continue;
        }
        let place = written.max.get().map_or(header.span, |max| max.span);
        let (code, of) = (&header.code, &fuse.code);
        problems.warning(
            Problem::new(
                Code::FuseBelowHeader,
                place,
                format!(
                    "header {code} may carry {max}, but its fuse {of} opens above {}",
                    fuse.rating
                ),
            )
            .label(format!("more than fuse {of}"))
            .other(fuse.span, format!("rated {}", fuse.rating))
            .note("a person who trusts the larger value fits a device that blows the fuse")
            .help("compare both with the print on the board"),
        );
    }
}

/// A heater allowance, as a current, below what the heater draws on any supply.
fn below_heater(spec: &Spec, board: &Board, problems: &mut Problems) {
    let Some(heater) = board.heater else { return };
    let draws = (0..board.supplies.len()).flat_map(|supply| draws(board, heater, SupplyId(supply)));
    let Some(least) = draws.min_by(f64::total_cmp) else { return };
    for (bank, written) in board.banks.iter().zip(&spec.switches.entries) {
        for field in &bank.fields {
            let below = field.settings.iter().filter_map(|setting| match setting.meaning {
                Meaning::Allowance(Allowance::Amps(amps)) if amps.0 < least => Some(amps),
                _ => None,
            });
            let Some(lowest) = below.min_by(|a, b| a.0.total_cmp(&b.0)) else { continue };
            let place = current(written, field.span, lowest);
            let of_heater = spec.heater.get().map_or(field.span, |heater| heater.span);
            problems.warning(
                Problem::new(
                    Code::AllowanceBelowHeater,
                    place,
                    format!("a heater allowance of {lowest} never lets the heater run"),
                )
                .label("less than the heater alone")
                .other(of_heater, format!("draws {} or more", Amps(least)))
                .note("the heater is part of what the board adds up"),
            );
        }
    }
}

/// The place of a current among the meanings of the ways at `ways`.
fn current(bank: &crate::spec::Bank, ways: Span, amps: Amps) -> Span {
    let field = bank.ways.entries.iter().find(|field| field.name.span == ways);
    let Some(Use::Field(field)) = field.map(|field| &field.purpose) else { return ways };
    let of_one = [&field.when_off, &field.when_on].into_iter().filter_map(|it| it.get());
    let of_many = field.settings.value().into_iter().flatten().map(|(_, meaning)| meaning);
    let mut all = of_one.chain(of_many);
    let found = all.find(|meaning| Amps::parse(&meaning.value) == Some(amps));
    found.map_or(ways, |meaning| meaning.span)
}

/// What a heater draws on each group that can feed it under a supply. One that gets far more than its
/// voltage is another matter, and refused with the job.
fn draws(board: &Board, heater: Heater, supply: SupplyId) -> Vec<f64> {
    let serves = |header: &HeaderId| {
        board[*header].serves.iter().any(|(_, device)| *device == Device::Heater)
    };
    let groups = board.header_ids().filter(serves).flat_map(|header| board.groups_of(header));
    let volts = groups.filter_map(|group| board.group_volts(supply, group));
    volts
        .filter(|volts| volts.0 <= heater.at.0 * HIGHEST)
        .map(|volts| heater.watts.0 / heater.at.0 * volts.0 / heater.at.0)
        .collect()
}

/// A board that may carry less than its own heater draws.
fn heater(spec: &Spec, board: &Board, problems: &mut Problems) {
    let (Some(heater), Some(max)) = (board.heater, board.about.max_current) else { return };
    let supplies = (0..board.supplies.len()).map(SupplyId);
    let most = |supply: SupplyId| draws(board, heater, supply).into_iter().fold(0.0, f64::max);
    let worst = supplies.map(|supply| (most(supply), supply)).max_by(|a, b| a.0.total_cmp(&b.0));
    let Some((amps, supply)) = worst.filter(|(amps, _)| *amps > max.0) else { return };
    let place = spec.about.max_current.get().map(|max| max.span);
    let of_heater = spec.heater.get().map(|heater| heater.span);
    let (Some(place), Some(of_heater)) = (place, of_heater) else { return };
    problems.warning(
        Problem::new(
            Code::BoardBelowHeater,
            place,
            format!("the board may carry {max}, but its own heater draws {}", Amps(amps)),
        )
        .label("less than the heater alone")
        .other(of_heater, format!("draws {} on supply {}", Amps(amps), board[supply].name))
        .note("every job with this heater would be refused"),
    );
}

/// How far above its voltage a heater may lie, as a part of one.
const HIGHEST: f64 = 1.1;
