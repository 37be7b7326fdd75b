//! Usual causes that no mistake of wiring makes, and what is noticed of them.

use super::key::phrases;

phrases! {
    // Symptoms that no mistake is simulated for, as sentences without a full stop.
    /// `Metal or water tingles: all out of the water, supply off at the panelboard`
    symptom_tingles();
    /// `It smells of burning, or a plug is brown: supply off first`
    symptom_burnt();
    /// `TEST does not trip the ground-fault protection: do not use the spa`
    symptom_test();
    /// `Several devices do nothing at once`
    symptom_several();
    /// `A pump runs but moves no water`
    symptom_no_water();
    /// `The water is hotter than its setting: stay out of it`
    symptom_too_hot();
    /// `A pump or the control box is noisy`
    symptom_noise();
    /// `The ground-fault protection trips at random`
    symptom_trips_at_random();
    /// `The ground-fault protection trips after rain or splashing`
    symptom_trips_when_wet();
    /// `The breaker trips when the heater comes on`
    symptom_breaker_with_heat();
    // What to check, and what is correct.
    /// `settings on the panel`
    usual_as_set();
    /// `as wanted; filter time and freeze guard are normal`
    usual_as_set_correct();
    /// `filter, valves, water level`
    usual_flow();
    /// `works with filter out, valves open, enough water`
    usual_flow_correct();
    /// `air in the pump: loosen its union`
    usual_air();
    /// `water without air. Dry the area before power.`
    usual_air_correct();
    /// `water level, unions on the suction side`
    usual_air_leak();
    /// `inlets covered, unions tight, no bubbles`
    usual_air_leak_correct();
    /// `heater element, wires off: stud to metal`
    usual_heater_leak();
    /// `no reading, cold and wet. A leak can kill.`
    usual_heater_leak_correct();
    /// `heater element, wires off: stud to stud`
    usual_heater_open();
    /// `about {ohms}, {amps} when on`
    usual_heater_open_correct(ohms: &str, amps: &str);
    /// `thermal cut-out of the heater, cold`
    usual_cut_out();
    /// `stays in after one reset. Never bridge it.`
    usual_cut_out_correct();
    /// `flow or pressure switch, pump stopped`
    usual_flow_switch();
    /// `no continuity. Never bridge it.`
    usual_flow_switch_correct();
    /// `thermometer beside the sensor`
    usual_sensor();
    /// `same as the panel within 2 °F (1 °C)`
    usual_sensor_correct();
    /// `rise in one hour, spa cover on, {watts}`
    usual_heat_rate(watts: &str);
    /// `{fahrenheit} ÷ gallons in °F, or {celsius} ÷ liters in °C`
    usual_heat_rate_correct(celsius: &str, fahrenheit: &str);
    /// `hot motor: wait one hour`
    usual_motor_cut_out();
    /// `starts when cold. It starts by itself: hands off.`
    usual_motor_cut_out_correct();
    /// `shaft of the motor, turned by hand`
    usual_shaft();
    /// `turns freely, without noise`
    usual_shaft_correct();
    /// `rotor of the circulation pump`
    usual_rotor();
    /// `turns freely, no scale`
    usual_rotor_correct();
    /// `motor capacitor. Discharge it first.`
    usual_capacitor();
    /// `no bulge; within 10 % of its print. It can kill.`
    usual_capacitor_correct();
    /// `motor plug out: common to speed pins`
    usual_winding();
    /// `a few ohms`
    usual_winding_correct();
    /// `motor plugs out: each pin to ground`
    usual_motor_leak();
    /// `no reading. A leak can kill.`
    usual_motor_leak_correct();
    /// `frequency on the motor nameplate`
    usual_frequency();
    /// `that of the supply`
    usual_frequency_correct();
    /// `blower and its air loop`
    usual_blower_wet();
    /// `no water inside`
    usual_blower_wet_correct();
    /// `hose of the ozonator, plug out`
    usual_ozonator_wet();
    /// `dry; check valve above the water`
    usual_ozonator_wet_correct();
    /// `ozone bubbles while it is on`
    usual_ozonator_old();
    /// `bubbles; an ozonator lasts two to four years`
    usual_ozonator_old_correct();
    /// `contacts of the plug and the header`
    usual_hot_plug();
    /// `clean, tight, not brown. Else replace both halves.`
    usual_hot_plug_correct();
    /// `all plugs and circuit boards`
    usual_wet_plug();
    /// `dry, without green spots`
    usual_wet_plug_correct();
    /// `all cords, whole length`
    usual_cord();
    /// `no cut, no pinch, no bite`
    usual_cord_correct();
    /// `sound of the relay on command`
    usual_relay_open();
    /// `one click`
    usual_relay_open_correct();
    /// `plug out: fuse or jumper to pin high`
    usual_relay_welded();
    /// Of a board without jumpers: `plug out: fuse or group tab to pin high`
    usual_relay_welded_fixed();
    /// `no continuity`
    usual_relay_welded_correct();
    /// `plug of the panel`
    usual_panel_plug();
    /// `dry, pushed fully in`
    usual_panel_plug_correct();
    /// `part number of the panel`
    usual_panel_other();
    /// `a panel for this board`
    usual_panel_other_correct();
    /// `buttons of the panel`
    usual_button();
    /// `each clicks, and the panel answers`
    usual_button_correct();
    /// `breaker, shut-off switch, GFCI or RCD`
    usual_off();
    /// `on. Reset once only. If it trips again, leave it off.`
    usual_off_correct();
    /// `fuse of the transformer, taken out`
    usual_transformer();
    /// `continuity`
    usual_transformer_correct();
    /// `surge part on the circuit board`
    usual_surge_part();
    /// `whole, no split disc`
    usual_surge_part_correct();
    /// `each pole and wire of the supply run`
    usual_line_open();
    /// `continuity. An open line can still be live.`
    usual_line_open_correct();
    /// `neutral at box, switch and panelboard`
    usual_neutral_loose();
    /// `tight and bright`
    usual_neutral_loose_correct();
    /// `supply terminals and heater studs`
    usual_terminal_loose();
    /// `tight, insulation not brown`
    usual_terminal_loose_correct();
    /// `lights of the building while a motor starts`
    usual_volts_low();
    /// `do not dim`
    usual_volts_low_correct();
    /// `other loads on this breaker`
    usual_other_loads();
    /// `none, and no extension cord`
    usual_other_loads_correct();
    /// `breaker, cold, little load`
    usual_breaker_worn();
    /// `does not trip. Never install a larger one.`
    usual_breaker_worn_correct();
    /// `rating on the breaker`
    usual_breaker_size();
    /// `{breaker}, not larger`
    usual_breaker_size_correct(breaker: &str);
    /// `as planned, not larger`
    usual_breaker_size_planned();
    /// `GFCI or RCD, load wires off and capped, cover closed`
    usual_protection_worn();
    /// `supply on: resets, and TEST trips it. Never bridge it.`
    usual_protection_worn_correct();
    /// `neutral at the ground-fault breaker`
    usual_neutral_bypass();
    /// `on its load neutral, not on the neutral bar`
    usual_neutral_bypass_correct();
    /// `N off at the breaker, plugs out: N to PE`
    usual_neutral_grounded();
    /// `no reading`
    usual_neutral_grounded_correct();
    /// `white lead of the ground-fault breaker`
    usual_pigtail();
    /// `tight on the neutral bar`
    usual_pigtail_correct();
    /// `one plug out at a time, cover closed`
    usual_divide();
    /// `supply on: still trips. If not, that device leaks.`
    usual_divide_correct();
    /// `shut-off switch, conduit, joint boxes`
    usual_outdoor_wet();
    /// `dry inside`
    usual_outdoor_wet_correct();
    /// `voltage from outside, supply off`
    usual_stray();
    /// `an electrician measures it; until then all stay out`
    usual_stray_correct();
    /// `feet, pipes and blocks of the pumps`
    usual_mount();
    /// `nothing touches the shell`
    usual_mount_correct();
    /// `PE terminal to ground bar and to metal`
    usual_ground_open();
    /// `below 1 Ω`
    usual_ground_open_correct();
}
