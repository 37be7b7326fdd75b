### Short texts of wiring sheets, lid inserts, forms and the list of sheets.

## Names that several sheets use.

# A circuit board that has no title: by its name.
part_named = { $name } board
layout_range = { $first }–{ $last }
serves_layouts = { $several ->
        [yes] layouts { $layouts }
       *[no] layout { $layouts }
    }
all_layouts = all

# An edge.
side_name = { $side ->
        [up] top
        [right] right
        [down] bottom
       *[left] left
    }

# The foot of every page. The mark is eight letters and digits.
foot_and_mark = { $foot } · Mark { $mark }

# Under the title, in the language and in English, while `checked_by` in language.ftl is `no`.
words_unchecked = No person of the trade has checked the words of this language. If they and the English sheet disagree, the English sheet counts.
# Under the title, where the specification lacks words in the language of the sheet.
stand_in_words = † These words are in { $languages }. The specification does not give them in the language of this sheet.
# The name of a language, within a sentence.
language_name = { $tag ->
    [en] English
    [de] German
    [es] Spanish
    [fr] French
   *[other] another language ({ $tag })
}

## Signal words of ANSI Z535; in other languages as ISO 3864-2 has them.
signal_danger = DANGER
signal_warning = WARNING
signal_caution = CAUTION
signal_notice = NOTICE

## Supplies.
conductor_and_name = { $letters }, { $name }
split_phase = { $volts } V, split phase
wye = { $volts } V, wye
single_phase = { $volts } V, single phase

## Switches.
copper_wire = { $size } copper
aluminum_wire = { $size } aluminum
heater_counts = The load counts the heater at { $nameplate }, the current of its nameplate. It draws { $drawn } on this supply.
wire_suits_terminals = This size suits a breaker of { $breaker } on terminals for { $celsius }{"\u00A0"}°C. The air is 30{"\u00A0"}°C at most, and no other circuit is beside it.
wire_suits_method = This size suits a breaker of { $breaker }: method { $method }, { $insulation } insulation, { $loaded } loaded wires. The air is 30{"\u00A0"}°C at most, and no other circuit is beside it.
wire_suits_stated = This size suits a breaker of { $breaker }. Its capacity was stated for this job.
wire_needs_75 = This size suits a breaker of { $breaker } only if the terminals at both ends are marked 75{"\u00A0"}°C.
wire_unjudged = Its size for this breaker was not judged here.
allowance_is = Heater allowance { $number }.
layout_is = Layout { $number }.
layout_set = { $number } ({ $how })
selector_at = { $selector } at { $position }
switches_at = { $bank }: { $ways }

## The intake form.
form_pump = with jets
form_circulation = no jets, one speed

## The work card and the lid insert.
links_counted = { $count ->
        [one] { $count } link
       *[other] { $count } links
    }
measured_between = { $one }{"\u00A0"}to{"\u00A0"}{ $other }
nameplate_says = { $speeds ->
        [two] two speeds, { $volts }, { $load }
        [one] one speed, { $volts }, { $load }
       *[none] { $volts }, { $load }
    }
load_high_and_low = { $high } at high speed, { $low } at low speed
pump_by_load = { $speeds ->
        [two] The pump with two speeds and { $load } on its nameplate is { DEVICE($device, form: "the") }.
       *[one] The pump with one speed and { $load } on its nameplate is { DEVICE($device, form: "the") }.
    }
pump_by_nameplate = The pump with this nameplate is { DEVICE($device, form: "the") }: { $plate }.
pump_alike = { $any ->
        [yes] The nameplates of { DEVICE($all, form: "the") } are the same. Each of these pumps can be { DEVICE($device, form: "the") }.
       *[no] The nameplates of { DEVICE($all, form: "the") } are the same. Find out which one is { DEVICE($device, form: "the") }.
    }
set_way = { $way }{"\u00A0"}{ $on ->
        [yes] ON
       *[no] OFF
    }

## Warnings of a plan.
warn_heater_weak = The heater gets { $volts }, nameplate { $plate }. It gives { $watts } instead of { $full }. The water heats more slowly.
warn_voltage_edge = The voltage is near the limit for { DEVICE($device, form: "the") }. The device gets { $volts }. The supply can bring it to { $end }. The nameplate permits { $low } to { $high }. Measure the voltage under load (trained person only).
warn_odd_breaker = A breaker of { $breaker } is not a standard size. Read the rating on the breaker.
warn_wire_needs_75 = { $any ->
    [yes] The supply wires ({ $wire }) are thick enough only if the terminals at both ends are marked 75{"\u00A0"}°C. Read the marks at the breaker and at the control box. If one mark is missing, { $size } is necessary.
   *[no] The supply wires ({ $wire }) are thick enough only if the terminals at both ends are marked 75{"\u00A0"}°C. Read the marks at the breaker and at the control box.
}
warn_capacity_above_tables = The stated capacity of the supply wires is { $stated }. No table gives more than { $most } for this size. A licensed electrician must confirm the value.
warn_mark_below_load = { $largest_breaker ->
    [yes] The equipment draws { $amps } in { $line }. The nameplate permits a breaker of { $marked } at most. The nameplate can belong to older equipment. These devices run then: { DEVICE($devices) }.
   *[no] The equipment draws { $amps } in { $line }. The minimum circuit ampacity on the nameplate is { $marked }. The nameplate can belong to older equipment. These devices run then: { DEVICE($devices) }.
}
warn_run_drop = The supply run loses up to { $drop }, or { $percent } of the voltage; a usual limit is { $limit }.
warn_factor_unknown = { $any ->
        [yes] The power factor of a device is not known. The current can then be up to { $currents }.
       *[no] The power factor of a device is not known.
    }
warn_neutral_unseen = The current in N can be above the breaker rating, { $breaker }. The breaker does not measure N.
warn_breaker_lag = The load on the breaker can be { $amps }. The breaker is { $breaker }. It can trip.
warn_board_lag = The current in { $conductor } can be { $amps }. The board does not permit that.

conductor_amps = { $conductor }{"\u00A0"}{ $amps }
fuses_listed = { $kind }: { $codes }
element_at = { $watts } at { $volts }
why_breaker = Allowance { $next } needs a breaker of { $amps } or more.
why_wire = With allowance { $next }, the load on the supply wires is { $amps }. The wires do not permit that.
why_board = With allowance { $next }, a supply wire carries { $amps }. The board does not permit that.
# Where the allowance is a current.
allowance_amps = With the heater on, the board keeps the sum of all currents to { $amps }. With the heater and its pump on, { $remains } remains. Above that the heater waits.
allowance_amps_all = With the heater on, the board keeps the sum of all currents to { $amps }. All installed devices together do not exceed that.
further_plug = { DEVICE($device, form: "the") } has more than one plug. Connect all of them: { $headers }.
cord_of = { DEVICE($cord, form: "the") } is a further cord of { DEVICE($device, form: "the") }, with its own plug. Connect both.
runs_with = { DEVICE($device, form: "the") } runs whenever { DEVICE($leader, form: "the") } runs.
allowance_amps_waits = With the heater on, the board keeps the sum of all currents to { $amps }. The heater waits while these run together: { $sets }.
allowance_none = { $count ->
        [1] With the heater on, { DEVICE($devices, form: "the") } may not run at high speed.
       *[other] With the heater on, none of { DEVICE($devices, form: "the") } may run at high speed.
    }
allowance_all = { $count ->
        [1] With the heater on, { DEVICE($devices, form: "the") } may run at high speed too.
        [2] With the heater on, { DEVICE($devices, form: "the") } may both run at high speed.
       *[other] With the heater on, { DEVICE($devices, form: "the") } may all run at high speed.
    }
allowance_some = With the heater on, { $allowed ->
        [1] one
        [2] two
        [3] three
        [4] four
        [5] five
        [6] six
        [7] seven
        [8] eight
        [9] nine
       *[other] { $allowed }
    } of { DEVICE($devices, form: "the") } may run at high speed.

## The wiring sheets.

# Stands for the number in the steps of a panel.
any_layout_number = the layout number

## The list of sheets.
index_title = Wiring sheets, work cards and lid inserts
index_job = job { $job }
index_sheets_of = Wiring sheets of { $of }
index_form_of = Intake form of { $of }
index_work_card_of = Work card of { $of }
index_insert_of = Lid insert of { $of }
index_finder_of = Fault finder of { $of }
index_handout_of = Course handout of { $of }
index_answers_of = Course answers of { $of }
index_cards_of = Course cards of { $of }
index_plan_of = Board plan of { $of }
index_drawing_of = Drawing { $drawing } of { $of }
index_drawings_of = Drawings of { $of }
index_pdf = { $pages ->
    [0] { $what }, PDF
    [one] { $what }, PDF, { $pages } page
   *[other] { $what }, PDF, { $pages } pages
}
index_svg = { $what }, SVG
index_skip = Skip to the sheets
index_empty = There are no sheets yet.
index_boards = Boards
index_jobs = Jobs
index_others = Other folders
index_board = Board
index_plan = Plan
index_maker = Maker
index_part = Part number
index_revision_head = Revision
index_mark = Mark
index_in_language = { $what }, { $language }
index_revision = { $revision }, { $date }
index_files = Sheets
index_job_head = Job
index_place = Place
index_layout = Layout
index_supply = Supply
index_folder = Folder
index_unknown = –
index_refused = { $sheets ->
    [yes] { $errors ->
        [one] Refused: { $errors } error. These sheets are from an earlier build.
       *[other] Refused: { $errors } errors. These sheets are from an earlier build.
    }
   *[no] { $errors ->
        [one] Refused: { $errors } error. No sheets were made.
       *[other] Refused: { $errors } errors. No sheets were made.
    }
}
index_earlier = Made by an earlier build

# The change sheet.
width_by_height = { $width } by { $height }
place_on_plan = { $x } from the left, { $y } from the top
