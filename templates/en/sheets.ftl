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
allowance_is = Heater allowance { $number }.
moved_way = { $bank } way { $way } { $on ->
        [yes] on
       *[no] off
    }

## The intake form.
form_pump = with jets
form_circulation = no jets, one speed

## The lid insert.
conductor_amps = { $conductor }{"\u00A0"}{ $amps }
fuses_listed = { $kind }: { $codes }
element_at = { $watts } at { $volts }
why_breaker = An allowance of { $next } would need { $amps } of the breaker.
why_board = An allowance of { $next } would load a supply wire with { $amps }, more than the board may carry.
allowance_none = { $count ->
        [1] With the heater on, { DEVICE($devices, form: "the") } may not run on high.
       *[other] With the heater on, none of { DEVICE($devices, form: "the") } may run on high.
    }
allowance_all = { $count ->
        [1] With the heater on, { DEVICE($devices, form: "the") } may run on high too.
        [2] With the heater on, { DEVICE($devices, form: "the") } may both run on high.
       *[other] With the heater on, { DEVICE($devices, form: "the") } may all run on high.
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
    } of { DEVICE($devices, form: "the") } may run on high.

## The wiring sheets.

# Stands for the number in the steps of a panel.
any_layout_number = the layout number

## The list of sheets.
index_title = Wiring sheets and lid inserts
index_sheets = Wiring sheets, PDF
index_form = Intake form, PDF
index_insert = Lid insert, PDF
index_handout = Course handout, PDF
index_answers = Answers of the course, PDF
index_cards = Cards of the course, PDF
index_job = Job { $job }
index_job_of = Job { $job }, { $customer }
index_board = { $name }, { $part }
index_about = { $maker }, { $part }, revision { $revision }, { $date }
index_earlier = Made by an earlier build
