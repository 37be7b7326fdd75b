### Mistakes, what is noticed of them, and what to check.

## Mistakes: a clause that begins small and has no full stop.
layout_number_is = the layout number is { $number }
selector_is_at = selector { $selector } is at { $position }
jumper_is_on = { $jumper } is on group { $group }
jumpers_swapped = { $first } and { $second } have changed places
plug_is_in = the plug of { DEVICE($device, form: "the") } is in { $header }
plugs_swapped = the plug of { DEVICE($first, form: "the") } is in { $first_in } and that of { DEVICE($second, form: "the") } in { $second_in }
way_is = switch { $way } of { $bank } is { $on ->
        [yes] ON
       *[no] OFF
    }
ways_as_shipped = { $count ->
        [one] switch { $ways } of { $bank } is as shipped
       *[other] switches { $ways } of { $bank } are as shipped
    }
house_gives = the incoming supply is { $supply }
lines_are_one = { $line } and { $taken } come from one line of the panelboard
neutral_is_past = the neutral (N) is on a neutral bar, not on the ground-fault protection
neutral_is_grounded = the neutral (N) touches the ground (PE) behind the ground-fault protection

# A wire that has no letters.
a_wire = the wire

# In place of a wire.
no_wire = nothing

# A supply conductor with its word, where letters alone say too little.
wire_name = { $conductor ->
        [N] the neutral (N)
        [PE] the ground (PE)
       *[other] { $conductor }
    }
wire_not_landed = { $wire } is not connected to { $terminal }
wire_is_on = { $wire } is on { $terminal }
link_is_on = { $link } is on { $terminal }
cord_is_right = the plug of { DEVICE($device, form: "the") } is correct at { $header }
wires_changed_ends = the wires of { DEVICE($device, form: "the") } have changed ends at { $header }
cord_is_turned = the plug of { DEVICE($device, form: "the") } is in end for end at { $header }
cord_has_no_gap = the empty cavity is missing in the plug of { DEVICE($device, form: "the") } at { $header }: the wires are in the wrong cavities
wires_as_before = in the plug of { DEVICE($device, form: "the") } at { $header }, the wires are in their old cavities
plug_is_out = the plug of { DEVICE($device, form: "the") } is not in { $header }
plug_is_off = the plug of { DEVICE($device, form: "the") } is shifted one pin toward the { $side ->
        [up] top
        [right] right
        [down] bottom
       *[left] left
    } at { $header }

## What is noticed: clauses.
spare_button = the panel shows { DEVICE($device, form: "the") }, which is not installed

# The board itself runs what is not fitted.
spare_call = the layout includes { DEVICE($device, form: "the") }, which is not installed
metal_is_live = the metal of { DEVICE($device, form: "the") } is live
button_runs = the button of { DEVICE($role, form: "the") } runs { DEVICE($device, form: "the") }

# A device with what it does: one of the phrases `does_…`.
device_does = { DEVICE($device, form: "the") } { $does }
all_metal_is_live = the metal of all equipment is live
nothing_is_grounded = nothing is grounded
metal_on_neutral = the neutral touches the ground: if the neutral opens, all metal is live
board_burns = the circuit board burns out (voltage too high)
panel_is_dead = the panel shows nothing

# The same of a board without a panel.
board_is_dead = nothing runs
panel_is_weak = the panel may show nothing

# The same of a board without a panel.
board_is_weak = the board may not start
ground_fault_at_once = the ground-fault protection trips at once
ground_fault_with_heat = the ground-fault protection trips when the heater comes on
ground_fault_with_device = the ground-fault protection trips when another device comes on
ground_fault_trips = the ground-fault protection trips
overloaded = the current in the supply wires is too high, and nothing trips
header_is_hot = { $header } overheats: its current is above its limit
breaker_trips_at_once = the breaker trips at once
breaker_trips = the breaker trips when several devices run at once
breaker_trips_later = the breaker trips after a while
fuse_may_blow = fuse { $fuse } may blow after a while
fuse_blows = fuse { $fuse } blows
ways_mean_otherwise = { $count ->
        [one] switch { $ways } of { $bank } is in the wrong position
       *[other] switches { $ways } of { $bank } are in the wrong positions
    }
bank_means_otherwise = { $bank } is in the wrong position

## What a device does: the end of a sentence that begins with the device.
does_live_metal = has live metal
does_no_ground = is not grounded
does_stay_live = is off, but all its wires are live
does_burn_out = burns out (voltage above nameplate)
does_hum = hums, overheats or is weak
does_work_weakly = works weakly or not at all
does_never_stop = cannot be turned off
does_nothing = does nothing
does_high_only_or_second_press = runs at high speed only, or starts only at the second press of its button
does_high_only = runs at high speed only
does_second_press = starts only at the second press of its button

# A device without a button: the board commands it.
does_high_only_or_on_command = runs at high speed only, or starts only when the board commands high speed
does_on_command = starts only when the board commands high speed
does_low_only = runs at low speed only
does_swap_speeds = runs with low and high speed reversed
does_run_on_button = starts when you press the button of { DEVICE($role, form: "the") }
does_run_on_another_button = starts when you press another button
does_run_in_place = runs in place of { DEVICE($role, form: "the") }
does_never_come_on = never comes on
does_heat_slowly = heats slowly
does_go_off = stops while pumps or blowers run at high speed
does_wait = waits while other devices run
does_lack = is not installed

## The same with the numbers of a case. `$what` is one of the clauses above.
unless_it_trips = { $what }: { $volts }, unless the ground-fault protection trips
if_bonded = { $what }, if the metal is bonded
at_once = at once
with_volts_to_ground = { $what }: { $volts } to ground
and_nothing_runs = { $what }, and nothing runs
with_volts = { $what }: { $volts }
burns_out_on = { DEVICE($device, form: "the") } gets { $swings ->
        [yes] up to { $volts }
       *[no] { $volts }
    } in place of { $plate } and burns out
on_changing_volts = { $what }, on a voltage that changes with what else runs
on_wrong_volts = { $what }, on { $volts } in place of { $plate }
both_speeds_at_once = { $what }: both speeds at once
even_while_off = even while { DEVICE($device, form: "the") } is off
when_put_on_low = when { DEVICE($device, form: "the") } is set to low speed
when_put_on_high = when { DEVICE($device, form: "the") } is set to high speed
when_turned_on = when { DEVICE($device, form: "the") } is turned on
trips_when = { $what } { $when }
device_on_low = { DEVICE($device, form: "the") } at low speed
device_on_high = { DEVICE($device, form: "the") } at high speed
when_one_runs = when { $what } runs
when_all_run = when { $all } run together
overload_of_wire = the current in { $conductor } is { $amps } { $when }, limit of the wires { $allowed }, and nothing trips
overload_of_board = the current in { $conductor } is { $amps } { $when }, limit of the board { $allowed }
breaker_trips_on = the breaker of { $breaker } trips { $when }: { $amps } in { $conductor }
breaker_may_trip_on = the breaker of { $breaker } may trip after a while { $when }: { $amps } in { $conductor }
header_carries = { $header } overheats: { $amps }, limit { $allowed }
fuse_carries = { $what }: { $amps }, rating { $allowed }
high_only = { DEVICE($device, form: "the") } runs at high speed only
second_press_only = { DEVICE($device, form: "the") } starts only at the second press of its button
on_command_only = { DEVICE($device, form: "the") } starts only when the board commands high speed
watts_in_place_of = { $what }: { $watts } in place of { $full }
heater_goes_off = { $most ->
        [0] the heater stops when any pump or blower runs at high speed
        [1] the heater stops when more than one pump or blower runs at high speed
       *[other] the heater stops when more than { $most } pumps and blowers run at high speed
    }
heater_waits = the heater waits when the sum of all currents would be above { $amps }
should_mean = { $what }; it should be: “{ $meaning }”

## What to check, and what right looks like: clauses.
layout_number = layout number { $number }
jumper_on = { $jumper } on group { $group }
jumper_on_volts = { $jumper } on group { $group }, { $volts }
plug_of_in = plug of { DEVICE($device, form: "the") } in { $header }
cord_seen = { DEVICE($device, form: "the") } at { $header }: { $keyed ->
        [yes] key to key; { $pins }
       *[no] { $pins }
    }
neutral_path = the neutral on the ground-fault protection, not on a neutral bar
neutral_ground = no path from the neutral to the ground behind the protection
link_on = { $link } on { $terminal }
pins_from = from the { $from ->
        [top] top
       *[left] left
    }: { $pins }
bank_all_off = { $bank }: all switches OFF
bank_all_on = { $bank }: all switches ON
bank_some_on = { $bank }: { $count ->
        [one] switch { $ways }
       *[other] switches { $ways }
    } ON, all others OFF
wire_on = { $wire } on { $terminal }

# One list after another.
semicolon = { $first }; { $rest }
ways_of = { $count ->
        [one] switch { $ways } of { $bank }
       *[other] switches { $ways } of { $bank }
    }
count_of_ways = { $count ->
        [one] switch { $ways }
       *[other] switches { $ways }
    }

## The fault finder: what to check. What is correct stands beside it.
check_layout = layout number
check_jumper = jumper
check_jumper_by_nameplate = jumper on the nameplate voltage
check_plug = plug
check_plug_of = plug of { DEVICE($device, form: "the") }
check_cord = wires in the plug
check_cord_of = wires in the plug of { DEVICE($device, form: "the") }
check_link = link
check_landing = supply wires
check_bank = switch bank
check_allowance = heater allowance
check_fuse = fuse, taken out: continuity and marking
check_voltage = supply voltage
check_voltage_running = voltage while it runs

## The fault finder: what is correct.
layout_by_speeds = with two speeds: { $two }; with one speed: { $one }
layout_one_of = one of { $layouts }
layout_of_equipment = the number for the installed equipment
in_header = in { $header }
in_header_under = in { $header } (layouts { $layouts })
pins_by_speeds = { $pins }; with one speed: { $one }
correct_at = at { $places }: { $correct }
switches_as_planned = { $switches }, as planned for this spa
link_by_supply = { $link } on the terminal for this supply
landing_by_supply = { $terminals }: each wire on its own terminal

# Two terminals between which a meter reads.
terminal_pair = { $from } to { $to }
pairs_and_volts = { $pairs }: { $volts }
volts_under = { $volts } (supply: { $supplies })
volts_not_under = { $volts } (not with { $supplies })

# A device with `in_header`.
plug_place = { $device } { $place }

## The fault finder: where it is drawn.
see_plan = plan
see_supply = supply
see_voltages = voltages
see_layouts = layouts
see_panel = panel
see_first_page = page 1
see_headers = headers

## The fault finder: what to check even if all works.
all_layout_fits = The layout number fits the installed equipment
all_layout_number = Layout number { $number }
all_jumpers = Each jumper is on the group with the nameplate voltage
all_plugs = Each plug is in its header
all_plugs_in = Plugs: { $places }
all_cords_drawn = Wires in each plug: in the order of the header
all_switches = Each switch is set as planned for this spa
all_links = Each link is on its terminal
all_landed = The ground wire (PE) is on { $terminals }, each other wire on its terminal
all_neutral_path = The neutral is on the ground-fault protection, not on a neutral bar
all_neutral_ground = N off at the breaker, all plugs out: no reading from N to PE
all_voltage = incoming supply voltage { $expected }

## The fault finder: what is so otherwise, as sentences.
otherwise_all_live = All metal is live.
otherwise_live = The metal of { $devices } is live.
otherwise_nothing_grounded = Nothing is grounded.
otherwise_neutral_grounded = All metal is live when the neutral opens.
otherwise_no_ground = The metal of { $devices } has no ground.
otherwise_no_ground_or_live = The metal of { $devices } has no ground or is live.
otherwise_stays_live = The wires of { $devices } stay live when it is stopped.
otherwise_overload = The current in the supply wires is too high. { $burns ->
        [yes] They can burn.
       *[no] They overheat.
    }
otherwise_header_hot = { $headers } overheats{ $burns ->
        [yes] {" "}and can burn.
       *[no] .
    }

## The fault finder: rows that gather several signs.
some_fuse_blows = Fuse { $fuses } blows
spare_buttons = the panel shows { $devices }, which is not installed
spare_calls = the layout includes { $devices }, which is not installed
spare_buttons_and_calls = the panel shows { $devices }, or the layout includes { $called }, which is not installed
some_spare_button = the panel shows a device that is not installed
some_spare_call = the layout includes a device that is not installed
one_of_these_holds = A function does not work as wanted: { $meanings }
quoted = “{ $words }”
some_setting_holds = A function does not work as wanted
devices_do = { $devices } { $does }

# The kind of a fuse by the letters of IEC 60127; other letters are printed as they are.
fuse_rating = { $rating } { $kind ->
        [FF] super-quick-acting
        [F] quick-acting
        [M] medium time-lag
        [T] time-lag
        [TT] long time-lag
       *[other] { $kind }
    }
fuse_and_rating = { $fuse }, { $rating }

## The fault finder: symptoms that no mistake of wiring is simulated for.
symptom_tingles = Metal or water tingles: all out of the water, supply off at the panelboard
symptom_burnt = It smells of burning, or a plug is brown: supply off first
symptom_test = TEST does not trip the ground-fault protection: do not use the spa
symptom_several = Several devices do nothing at once
symptom_no_water = A pump runs but moves no water
symptom_too_hot = The water is hotter than its setting: stay out of it
symptom_noise = A pump or the control box is noisy
symptom_trips_at_random = The ground-fault protection trips at random
symptom_trips_when_wet = The ground-fault protection trips after rain or splashing
symptom_breaker_with_heat = The breaker trips when the heater comes on

## The fault finder: usual causes that no mistake of wiring makes, what to check and what is correct.
## All of it is common practice.
usual_as_set = settings on the panel
usual_as_set_correct = as wanted; filter time and freeze guard are normal
usual_flow = filter, valves, water level
usual_flow_correct = works with filter out, valves open, enough water
usual_air = air in the pump: loosen its union
usual_air_correct = water without air. Dry the area before power.
usual_air_leak = water level, unions on the suction side
usual_air_leak_correct = inlets covered, unions tight, no bubbles
usual_heater_leak = heater element, wires off: stud to metal
usual_heater_leak_correct = no reading, cold and wet. A leak can kill.
usual_heater_open = heater element, wires off: stud to stud
usual_heater_open_correct = about { $ohms }; { $amps } while on
usual_cut_out = thermal cut-out of the heater, cold
usual_cut_out_correct = stays in after one reset. Never bridge it.
usual_flow_switch = flow or pressure switch, pump stopped
usual_flow_switch_correct = no continuity. Never bridge it.
usual_sensor = thermometer beside the sensor
usual_sensor_correct = same as the panel within 2 °F (1 °C)
usual_heat_rate = rise in one hour, spa cover on, { $watts }
usual_heat_rate_correct = { $fahrenheit } ÷ gallons in °F, or { $celsius } ÷ liters in °C
usual_motor_cut_out = hot motor: wait one hour
usual_motor_cut_out_correct = starts when cold. It starts by itself: hands off.
usual_shaft = shaft of the motor, turned by hand
usual_shaft_correct = turns freely, without noise
usual_rotor = rotor of the circulation pump
usual_rotor_correct = turns freely, no scale
usual_capacitor = motor capacitor. Discharge it first.
usual_capacitor_correct = no bulge; within 10 % of its print. It can kill.
usual_winding = motor plug out: common to speed pins
usual_winding_correct = a few ohms
usual_motor_leak = motor plugs out: each pin to ground
usual_motor_leak_correct = no reading. A leak can kill.
usual_frequency = frequency on the motor nameplate
usual_frequency_correct = that of the supply
usual_blower_wet = blower and its air loop
usual_blower_wet_correct = no water inside
usual_ozonator_wet = hose of the ozonator, plug out
usual_ozonator_wet_correct = dry; check valve above the water
usual_ozonator_old = ozone bubbles while it is on
usual_ozonator_old_correct = bubbles; an ozonator lasts two to four years
usual_hot_plug = contacts of the plug and the header
usual_hot_plug_correct = clean, tight, not brown. Else replace both halves.
usual_wet_plug = all plugs and circuit boards
usual_wet_plug_correct = dry, without green spots
usual_cord = all cords, whole length
usual_cord_correct = no cut, no pinch, no bite
usual_relay_open = sound of the relay on command
usual_relay_open_correct = one click
usual_relay_welded = plug out: fuse or jumper to pin high
usual_relay_welded_fixed = plug out: fuse or group tab to pin high
usual_relay_welded_correct = no continuity
usual_panel_plug = plug of the panel
usual_panel_plug_correct = dry, pushed fully in
usual_panel_other = part number of the panel
usual_panel_other_correct = a panel for this board
usual_button = buttons of the panel
usual_button_correct = each clicks, and the panel answers
usual_off = breaker, shut-off switch, GFCI or RCD
usual_off_correct = on. Reset once only. If it trips again, leave it off.
usual_transformer = fuse of the transformer, taken out
usual_transformer_correct = continuity
usual_surge_part = surge part on the circuit board
usual_surge_part_correct = whole, no split disc
usual_line_open = each pole and wire of the supply run
usual_line_open_correct = continuity. An open line can still be live.
usual_neutral_loose = neutral at control box, disconnect and panelboard
usual_neutral_loose_correct = tight and bright
usual_terminal_loose = supply terminals and heater studs
usual_terminal_loose_correct = tight, insulation not brown
usual_volts_low = lights of the building while a motor starts
usual_volts_low_correct = do not dim
usual_other_loads = other loads on this breaker
usual_other_loads_correct = none, and no extension cord
usual_breaker_worn = breaker, cold, little load
usual_breaker_worn_correct = does not trip. Never install a larger one.
usual_breaker_size = rating on the breaker
usual_breaker_size_correct = { $breaker }, not larger
usual_breaker_size_planned = as planned, not larger
usual_protection_worn = GFCI or RCD, load wires off and capped, cover closed
usual_protection_worn_correct = supply on: resets, and TEST trips it. Never bridge it.
usual_neutral_bypass = neutral at the ground-fault breaker
usual_neutral_bypass_correct = on its load neutral, not on the neutral bar
usual_neutral_grounded = N off at the breaker, plugs out: N to PE
usual_neutral_grounded_correct = no reading
usual_pigtail = white wire of the ground-fault breaker
usual_pigtail_correct = tight on the neutral bar
usual_divide = one plug out at a time, cover closed
usual_divide_correct = supply on: still trips. If not, that device leaks.
usual_outdoor_wet = shut-off switch, conduit, joint boxes
usual_outdoor_wet_correct = dry inside
usual_stray = voltage from outside, supply off
usual_stray_correct = an electrician measures it; until then all stay out
usual_mount = feet, pipes and blocks of the pumps
usual_mount_correct = nothing touches the shell
usual_ground_open = PE terminal to ground bar and to metal
usual_ground_open_correct = below 1 Ω
