### Mistakes, what is noticed of them, and what to check.

## Mistakes: a clause that begins small and has no full stop.
layout_number_is = the layout number is { $number }
jumper_is_on = { $jumper } is on group { $group }
jumpers_swapped = { $first } and { $second } have changed places
plug_is_in = the plug of { DEVICE($device, form: "the") } is in { $header }
plugs_swapped = the plug of { DEVICE($first, form: "the") } is in { $first_in } and that of { DEVICE($second, form: "the") } in { $second_in }
way_is = way { $way } of { $bank } is { $on ->
        [yes] on
       *[no] off
    }
ways_as_shipped = { $count ->
        [one] way
       *[other] ways
    } { $ways } of { $bank } stand as shipped
house_gives = the house gives { $supply }

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
wire_not_landed = { $wire } is not landed on { $terminal }
wire_is_on = { $wire } is on { $terminal }
link_is_on = { $link } is on { $terminal }
cord_is_right = the plug of { DEVICE($device, form: "the") } is correct at { $header }
wires_changed_ends = the wires of { DEVICE($device, form: "the") } have changed ends at { $header }
cord_is_turned = the cord of { DEVICE($device, form: "the") } is turned round at { $header }
cord_has_no_gap = the cord of { DEVICE($device, form: "the") } has no gap at { $header }: its wires lie side by side
plug_is_off = the plug of { DEVICE($device, form: "the") } sits one pin too far { $side ->
        [up] up
        [right] to the right
        [down] down
       *[left] to the left
    } at { $header }

## What is noticed: clauses.
spare_button = there is a button for { DEVICE($device, form: "the") }, which is not fitted

# The board itself runs what is not fitted.
spare_call = the board calls for { DEVICE($device, form: "the") }, which is not fitted
metal_is_live = the metal of { DEVICE($device, form: "the") } is live
button_runs = the button of { DEVICE($role, form: "the") } runs { DEVICE($device, form: "the") }

# A device with what it does: one of the phrases `does_…`.
device_does = { DEVICE($device, form: "the") } { $does }
all_metal_is_live = the metal of all equipment is live
nothing_is_grounded = nothing is grounded
ground_fault_trips = the ground-fault protection trips
overloaded = the supply wires carry too much, and nothing trips
header_is_hot = { $header } carries too much and overheats
breaker_trips_at_once = the breaker trips at once
breaker_trips = the breaker trips when much runs together
fuse_blows = fuse { $fuse } blows
ways_mean_otherwise = { $count ->
        [one] way { $ways } of { $bank } means something else
       *[other] ways { $ways } of { $bank } mean something else
    }
bank_means_otherwise = { $bank } means something else

## What a device does: the end of a sentence that begins with the device.
does_live_metal = has live metal
does_no_ground = is not grounded
does_stay_live = is off, but all its wires are live
does_burn_out = burns out, its voltage is too high
does_hum = hums, overheats or is weak
does_work_weakly = works weakly or not at all
does_never_stop = cannot be turned off
does_nothing = does nothing
does_high_only_or_second_press = runs on high only, or on every second press only
does_high_only = runs on high only
does_second_press = runs on every second press only
does_low_only = runs on low only
does_swap_speeds = runs on high for low, and on low for high
does_run_on_button = runs on the button of { DEVICE($role, form: "the") }
does_run_on_another_button = runs on another button
does_run_in_place = runs in place of { DEVICE($role, form: "the") }
does_never_come_on = never comes on
does_heat_slowly = heats slowly
does_go_off = goes off while pumps or blowers are on high
does_lack = is not fitted

## The same with the numbers of a case. `$what` is one of the clauses above.
with_volts = { $what }: { $volts }
with_volts_to_ground = { $what }: { $volts } to ground
burns_out_on = { DEVICE($device, form: "the") } gets { $swings ->
        [yes] up to { $volts }
       *[no] { $volts }
    } in place of { $plate } and burns out
on_changing_volts = { $what }, on a voltage that changes with what else runs
on_wrong_volts = { $what }, on { $volts } in place of { $plate }
both_speeds_at_once = { $what }: both speeds at once
even_while_off = even while { DEVICE($device, form: "the") } is off
when_put_on_low = when { DEVICE($device, form: "the") } is put on low
when_put_on_high = when { DEVICE($device, form: "the") } is put on high
when_turned_on = when { DEVICE($device, form: "the") } is turned on
trips_when = { $what } { $when }
device_on_low = { DEVICE($device, form: "the") } on low
device_on_high = { DEVICE($device, form: "the") } on high
when_one_runs = when { $what } runs
when_all_run = when { $all } run together
overload_by_rules = { $amps } count in { $conductor } { $when }, and the breaker has { $allowed }: the wires get hot
overload_of_board = { $amps } flow in { $conductor } { $when }, and the board may carry { $allowed }
breaker_trips_on = the breaker of { $breaker } trips { $when }: { $amps } in { $conductor }
header_carries = { $header } carries { $amps } and overheats; it may carry { $allowed }
fuse_carries = { $what }: { $amps } flow, and it has { $allowed }
high_only = { DEVICE($device, form: "the") } runs on high only
second_press_only = { DEVICE($device, form: "the") } runs on every second press of its button only
watts_in_place_of = { $what }: { $watts } in place of { $full }
heater_goes_off = { $most ->
        [0] the heater goes off when any pump or blower is on high
        [1] the heater goes off when more than one pump or blower is on high
       *[other] the heater goes off when more than { $most } pumps and blowers are on high
    }
should_mean = { $what }; it should be: “{ $meaning }”

## What to check, and what right looks like: clauses.
layout_number = layout number { $number }
jumper_on = { $jumper } on group { $group }
plug_of_in = plug of { DEVICE($device, form: "the") } in { $header }
cord_seen = { DEVICE($device, form: "the") } at { $header }: { $keyed ->
        [yes] key to key; { $pins }
       *[no] { $pins }
    }
link_on = { $link } on { $terminal }
pins_from = from the { $from ->
        [top] top
       *[left] left
    }: { $pins }
bank_all_off = { $bank }: all ways off
bank_all_on = { $bank }: all ways on
bank_some_on = { $bank }: { $count ->
        [one] way { $ways }
       *[other] ways { $ways }
    } on, all others off
wire_on = { $wire } on { $terminal }
volts_between = { $volts } { $pairs }

# One list after another.
semicolon = { $first }; { $rest }
ways_of = { $count ->
        [one] way { $ways } of { $bank }
       *[other] ways { $ways } of { $bank }
    }
count_of_ways = { $count ->
        [one] way { $ways }
       *[other] ways { $ways }
    }

## The fault finder: checks, one to a line.
check_layout_speeds = layout number: two speeds in { $two }, one in { $one }
check_layout_of = layout number: one of { $layouts }
check_layout = layout number
check_group_of_plate = { $jumper } on the group of the plate
check_plug = plug in { $header }
check_plug_of = plug of { DEVICE($device, form: "the") } in { $header }
check_cord = cord at { $header }
check_cord_of = cord of { DEVICE($device, form: "the") } at { $header }
check_link = link { $link }
check_wires = wires on { $terminals }
check_house = incoming supply voltage
check_jumper = { $jumper } on { $group }
check_fuse = fuse { $fuses }
check_allowance = heater allowance, { $count ->
        [one] way { $ways } of { $bank }
       *[other] ways { $ways } of { $bank }
    }

## The fault finder: what to check even if all works.
all_layout_fits = The layout number fits the equipment
all_layout_number = Layout number { $number }
all_jumpers = Each jumper is on the group of the plate
all_plugs = Each plug is in its header
all_plugs_short = Each plug in its header
all_cords = Each cord sits as under its device below
all_cords_short = Each cord as under its device below
all_switches = The switches stand as the sum says
all_links = Each link is on its terminal
all_landed = The ground wire is on { $terminals }, each other wire on its terminal
all_house = the house gives the supply that was landed

## The fault finder: what is so otherwise, as sentences.
otherwise_all_live = All metal is live.
otherwise_live = The metal of { $devices } is live.
otherwise_nothing_grounded = Nothing is grounded.
otherwise_no_ground = The metal of { $devices } has no ground.
otherwise_no_ground_or_live = The metal of { $devices } has no ground or is live.
otherwise_stays_live = The wires of { $devices } stay live when it is stopped.
otherwise_overload = The supply wires carry too much and can burn.
otherwise_header_hot = { $headers } carries too much and can burn.

## The fault finder: rows that gather several signs.
some_fuse_blows = Fuse { $fuses } blows
spare_buttons = the panel has a button for { $devices }, which is not fitted
spare_calls = the board calls for { $devices }, which is not fitted
spare_buttons_and_calls = the panel has a button for { $devices }, or the board calls for { $called }, which is not fitted
some_spare_button = the panel has a button for what is not fitted
one_of_these_holds = One of these holds, but should not: { $meanings }
quoted = “{ $words }”
some_setting_holds = A setting holds that was not wanted
much_runs_together = The breaker trips when much runs together
group_and_volts = { $group }{"\u00A0"}{ $volts }
fuse_rating = { $rating } { $kind }
fuse_and_rating = { $fuse }, { $rating }
