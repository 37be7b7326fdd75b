//! What stands in the tables of a board.

use super::rows::{
    AllowanceRow, GroupRow, HeaderRow, LayoutRow, LimitRow, PinRow, ServiceRow, SettingRow,
    VoltageRow,
};
use super::{Row, Table};
use crate::board::{
    Allowance, Bank, Board, Effect, Feed, Field, GroupId, GroupSource, HeaderId, Layout, Meaning,
    Speeds, SupplyId, effect_word,
};
use crate::decide::headroom::{HeadroomLimit, HeaterCase, HeaterOn, Outcome};
use crate::decide::jumpers::allowances;
use crate::decide::{
    GroupVoltage, PinOrder, ReadFrom, Rules, group_voltage, headrooms, limits, pin_order,
    pin_order_for, service,
};

/// Every decision table of a board, in the order of [`super::kinds`].
pub fn tables(board: &Board) -> [Table; 9] {
    [
        table(board.header_ids().map(|header| header_row(board, header))),
        table(of_supplies(board, |supply| {
            board.handles().map(|group| group_row(board, supply, group)).collect()
        })),
        table(of_supplies(board, |supply| {
            let headers = board.header_ids();
            headers.flat_map(|header| voltage_rows(board, supply, header)).collect()
        })),
        table(board.layouts.iter().flat_map(|layout| layout_rows(board, layout))),
        table(board.header_ids().flat_map(|header| service_rows(board, header))),
        table(setting_rows(board).into_iter()),
        table(heaters(board).iter().flat_map(|heater| allowance_rows(board, heater))),
        table(limit_rows(board).into_iter()),
        table(board.header_ids().flat_map(|header| pin_rows(board, header))),
    ]
}

fn table<R: Row>(rows: impl Iterator<Item = R>) -> Table {
    Table { kind: R::KIND, rows: rows.map(R::cells).collect() }
}

fn of_supplies<R>(board: &Board, rows: impl Fn(SupplyId) -> Vec<R>) -> impl Iterator<Item = R> {
    board.handles().flat_map(rows)
}

fn jumper(board: &Board, header: HeaderId) -> Option<String> {
    match board[header].feed {
        Feed::Group(_) => None,
        Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
    }
}

fn header_row(board: &Board, id: HeaderId) -> HeaderRow {
    let header = &board[id];
    let socket = &board[header.socket];
    let place = board.place(header.part, header.at);
    let fuse = header.fuse.map(|fuse| &board[fuse]);
    HeaderRow {
        header: header.code.clone(),
        title: header.title.clone(),
        part: board[header.part].name.clone(),
        x_mm: place.x,
        y_mm: place.y,
        socket: socket.name.clone(),
        socket_title: socket.title.clone(),
        pitch_mm: socket.pitch.0,
        pins: u8::try_from(socket.pins.len()).unwrap_or(u8::MAX),
        key: header.key.map(|side| side.word()),
        jumper: jumper(board, id),
        group: board[board.shipped_group(id)].code.clone(),
        fuse: fuse.map(|fuse| fuse.code.clone()),
        fuse_amps: fuse.map(|fuse| fuse.rating.0),
        fuse_speed: fuse.and_then(|fuse| fuse.speed.clone()),
        max_amps: header.max.map(|max| max.0),
    }
}

fn group_row(board: &Board, supply: SupplyId, id: GroupId) -> GroupRow {
    let group = &board[id];
    let voltage = group_voltage(board, supply, id);
    let [first, common] = match &voltage {
        GroupVoltage::Between { conductors, .. } => conductors.map(|it| Some(it.to_string())),
        GroupVoltage::Isolated { .. } | GroupVoltage::NotAvailable { .. } => [None, None],
    };
    GroupRow {
        supply: board[supply].name.clone(),
        group: group.code.clone(),
        part: board[group.part].name.clone(),
        tabs: group.tabs,
        isolated: matches!(group.source, GroupSource::Isolated(_)),
        volts: voltage.volts().map(|volts| volts.0),
        conductor: first,
        common_conductor: common,
        common_live: voltage.live_common().is_some(),
    }
}

fn voltage_rows(board: &Board, supply: SupplyId, header: HeaderId) -> Vec<VoltageRow> {
    let row = |group: GroupId| {
        let voltage = group_voltage(board, supply, group);
        VoltageRow {
            supply: board[supply].name.clone(),
            header: board[header].code.clone(),
            jumper: jumper(board, header),
            group: board[group].code.clone(),
            shipped: group == board.shipped_group(header),
            volts: voltage.volts().map(|volts| volts.0),
            common_live: voltage.live_common().is_some(),
        }
    };
    board.groups_of(header).into_iter().map(row).collect()
}

fn layout_rows(board: &Board, layout: &Layout) -> Vec<LayoutRow> {
    let row = |(device, speeds): (&crate::board::Device, &Speeds)| LayoutRow {
        layout: layout.number.get(),
        device: device.to_string(),
        speeds: speeds.number(),
    };
    board.columns.iter().zip(&layout.speeds).map(row).collect()
}

fn service_rows(board: &Board, header: HeaderId) -> Vec<ServiceRow> {
    let served = service(board, header).served;
    let row = |layout: &Layout| {
        let here = served.iter().find(|served| served.layouts.contains(layout.number));
        ServiceRow {
            header: board[header].code.clone(),
            layout: layout.number.get(),
            device: here.map(|served| served.device.to_string()),
            speeds: here.map(|served| served.speeds.number()),
        }
    };
    board.layouts.iter().map(row).collect()
}

fn setting_rows(board: &Board) -> Vec<SettingRow> {
    let banks = board.banks.iter();
    let of_bank = |bank: &Bank| -> Vec<SettingRow> {
        bank.fields.iter().flat_map(|field| field_rows(bank, field)).collect()
    };
    let mut rows: Vec<SettingRow> = banks.flat_map(of_bank).collect();
    for selector in &board.selectors {
        for (at, position) in selector.positions.iter().enumerate() {
            rows.push(SettingRow {
                switch: selector.code.clone(),
                kind: "selector",
                first_way: None,
                last_way: None,
                effect: Some(effect_word(&Effect::LayoutNumber).to_owned()),
                used: true,
                setting: position.name.clone(),
                shipped: at == selector.shipped,
                meaning: None,
                allowance_loads: None,
                allowance_amps: None,
                layout: position.layout.map(|layout| layout.get()),
            });
        }
    }
    rows
}

fn field_rows(bank: &Bank, field: &Field) -> Vec<SettingRow> {
    let row = |positions: &[bool], meaning: Option<&Meaning>| {
        let words = positions.iter().map(|on| if *on { "on" } else { "off" });
        let allowance = match meaning {
            Some(Meaning::Allowance(allowance)) => Some(*allowance),
            _ => None,
        };
        SettingRow {
            switch: bank.code.clone(),
            kind: "bank",
            first_way: Some(field.first),
            last_way: Some(field.last),
            effect: field.effect.as_ref().map(|effect| effect_word(effect).to_owned()),
            used: !field.unused(),
            setting: words.collect::<Vec<_>>().join(" "),
            shipped: *positions == field.shipped,
            meaning: match meaning {
                Some(Meaning::Words(text)) => Some(text.clone()),
                _ => None,
            },
            allowance_loads: match allowance {
                Some(Allowance::Loads(count)) => Some(count),
                _ => None,
            },
            allowance_amps: match allowance {
                Some(Allowance::Amps(amps)) => Some(amps.0),
                _ => None,
            },
            layout: match meaning {
                Some(Meaning::Layout(layout)) => layout.map(|layout| layout.get()),
                _ => None,
            },
        }
    };
    if field.unused() {
        return vec![row(&field.shipped, None)];
    }
    field.settings.iter().map(|it| row(&it.positions, Some(&it.meaning))).collect()
}

/// A heater that heats, with what is decided about it.
struct Heating {
    supply: SupplyId,
    rules: Rules,
    header: HeaderId,
    group: GroupId,
    on: HeaterOn,
}

fn heaters(board: &Board) -> Vec<Heating> {
    let mut all = Vec::new();
    for headroom in headrooms(board) {
        let (supply, rules) = (headroom.supply, headroom.rules.rules);
        for HeaterCase { header, group, outcome } in headroom.cases {
            if let Outcome::On(on) = outcome {
                all.push(Heating { supply, rules, header, group, on });
            }
        }
    }
    all
}

fn allowance_rows(board: &Board, heater: &Heating) -> Vec<AllowanceRow> {
    let mut rows = Vec::new();
    for breaker in &heater.on.rows {
        for left in &breaker.left {
            rows.push(AllowanceRow {
                supply: board[heater.supply].name.clone(),
                header: board[heater.header].code.clone(),
                group: board[heater.group].code.clone(),
                rules: heater.rules.word(),
                heater_volts: heater.on.volts.0,
                heater_watts: heater.on.watts.0,
                heater_amps: heater.on.amps.0,
                heater_counted_amps: heater.on.counted.0,
                breaker_amps: breaker.breaker.0,
                line: left.line.to_string(),
                left_amps: left.amps.0,
                limited_by: match left.limit {
                    HeadroomLimit::Breaker => "breaker",
                    HeadroomLimit::Board => "board",
                },
            });
        }
    }
    rows
}

fn limit_rows(board: &Board) -> Vec<LimitRow> {
    let mut rows = Vec::new();
    let heaters = heaters(board);
    // The decisions have the highest first, the sheets the lowest.
    for allowance in allowances(board).into_iter().rev().flatten() {
        let Allowance::Amps(setting) = allowance else { continue };
        for heater in &heaters {
            rows.push(LimitRow {
                allowance_amps: setting.0,
                supply: board[heater.supply].name.clone(),
                header: board[heater.header].code.clone(),
                group: board[heater.group].code.clone(),
                smallest_breaker_amps: limits::breaker_for(setting, heater.rules).map(|it| it.0),
                left_amps: limits::left_beside(setting, heater.on.amps).map(|it| it.0),
            });
        }
    }
    rows
}

fn pin_rows(board: &Board, id: HeaderId) -> Vec<PinRow> {
    let header = &board[id];
    let socket = &board[header.socket];
    let mut cords: Vec<Speeds> = Vec::new();
    for served in service(board, id).served {
        if !cords.contains(&served.speeds) {
            cords.push(served.speeds);
        }
    }
    cords.sort_by_key(|speeds| std::cmp::Reverse(speeds.number()));
    let order = |speeds: Speeds| pin_order_for(socket, header.key, speeds);
    let mut orders: Vec<(Option<u8>, PinOrder)> =
        cords.into_iter().map(|speeds| (Some(speeds.number()), order(speeds))).collect();
    if orders.is_empty() {
        orders.push((None, pin_order(socket, header.key)));
    }
    let mut rows = Vec::new();
    for (cord_speeds, order) in orders {
        for (place, (pin, wire)) in (1..).zip(order.cavities()) {
            rows.push(PinRow {
                header: header.code.clone(),
                cord_speeds,
                read_from: match order.read_from {
                    ReadFrom::Top => "top",
                    ReadFrom::Left => "left",
                },
                place,
                pin: pin.map(|pin| pin.to_string()),
                wire: wire.map(|wire| wire.letters),
            });
        }
    }
    rows
}
