### Words in figures, and their descriptions for people who cannot see them.
### Letters of conductors, codes and the mark ON on a switch bank are printed on the things
### themselves; no language changes them.

## Where things are. Other phrases of this file put these in.

from_where = { $read_from ->
    [left] from the left
   *[top] from the top
}
key_where = { $key ->
    [up] at the top
    [right] to the right
    [left] to the left
   *[down] at the bottom
}
on_edge = { $on_side ->
    [up] top
    [right] right
    [left] left
   *[down] bottom
}

## What lands on which terminal.

terminals_heading = Terminals, { from_where }
voltages_heading = Voltage between conductors
supply_described = { $supply }. Terminals { from_where }: { $terminals }
terminal_takes = { $terminal } takes { $conductor }.
terminal_takes_nothing = { $terminal } takes nothing.
link_described = Link { $link } is on { $terminal }.
conductor_name = { $conductor ->
    [L1] line 1
    [L2] line 2
    [L3] line 3
    [N] neutral
    [PE] protective earth
   *[L] line
}
nothing_lands = nothing here
terminal_marked = marked { colour_and_letters }
colour_and_letters = { wire_colour } ({ $colour })

# By the letters of IEC 60757.
wire_colour = { $colour ->
    [BK] black
    [BN] brown
    [RD] red
    [OG] orange
    [YE] yellow
    [GN] green
    [BU] blue
    [VT] violet
    [GY] grey
    [WH] white
    [PK] pink
    [GD] gold
    [TQ] turquoise
    [SR] silver
    [GNYE] green and yellow
   *[other] { $colour }
}
group_gives = { $group } { $volts }
groups_give = Groups: { $groups }.
groups_not_available = Not available: { $groups }.

## Switch banks.

switch_bank_title = Switch bank { $bank }
switch_bank_described = ON is printed at the { on_edge } edge. As shipped: { $fields }
field_described = { $ways ->
    [one] Way { $head }: { $meaning }.
   *[other] Ways { $head }: { $meaning }.
}
ways_not_used = not used.
field_means = { effect_name }: { $meaning }

# What a specification writes in its own words comes as it is.
effect_name = { $effect ->
    [heater_allowance] heater allowance
    [frequency] frequency
    [restore] restore
    [layout_change] layout change
   *[other] { $effect }
}
allowance_meaning = { $allowance }.
way_position = { $on ->
    [yes] { $way } on
   *[no] { $way } off
}
way_moved = { way_position } (moved)
blank_bank_described = { $ways ->
    [one] { $bank } with { $ways } way and no sliders. ON is printed at the { on_edge } edge.
   *[other] { $bank } with { $ways } ways and no sliders. ON is printed at the { on_edge } edge.
}
switches_title = Switches
switches_described = { $bank }: { $positions }.

## The questions that find the layout.

questions_title = Questions that find the layout
questions_title_numbered = Questions that find the layout, { $number } of { $count }
questions_start = Start here
questions_go_on = { $part } begins here
question_about = { DEVICE($device) }?
speeds_fitted = { $speeds ->
    [none] not fitted
    [two] two speeds
   *[one] one speed
}
question_answered = { DEVICE($device) } { speeds_fitted }
layout_unasked = Layout { $layout }.
layout_after = Layout { $layout }: { $answers }.
part_after = Go on at { $part }: { $answers }.

## Sockets.

sockets_title = Sockets
sockets_title_numbered = Sockets, { $number } of { $count }
pin_name = { $pin ->
    [ground] ground
    [common] common
    [low] low
    [high] high
    [positive] positive
    [negative] negative
    [signal] signal
   *[screen] screen
}
cavity_empty = empty
key_mark = key
live_mark = live
can_be_live_mark = can be live
live_line_mark = live, { $line }
socket_reading = Key { key_where }. Read { from_where }.
socket_reading_without_key = No key. Read { from_where }.
whole_socket = { $two_speeds ->
    [yes] two speeds
   *[no] the socket
}
one_speed_cord = one speed
header_on_plan = { $header } on the board plan
socket_described = { $header }, { $title }: { $reading } { $pins }.
common_is_live = Common is live.
common_can_be_live = Common can be live.
common_is_live_on = Common is live: { $line }.
one_speed_cord_described = Cord with one speed: { $pins }.

## Steps of a work card.

lock_off_title = Lock off, tag and test
lock_off_described = A breaker that is off, a padlock on it, a tag, and a meter that reads 0{"\u00A0"}V.
off_mark = OFF
tag_mark = TAG
connections_title = Supply wires, ground wire first
first_mark = first
jumper_moves_title = Jumpers that move
jumper_moves_told = Jumper { $jumper } from group { $from } to group { $to }.
link_moves_title = Links that move
link_moves_told = Link { $link } from { $from } to { $to }.
seen_from_front = seen from the front
cord_described = { $speeds ->
    [two] { $header }: { DEVICE($device) }, two speeds, { $volts }.
   *[other] { $header }: { DEVICE($device) }, { $volts }.
}
cord_pins_described = Pins { from_where }: { $pins }.

## Exercises.

drawn_socket_title = Socket of { $header }
drawn_socket_described = { $read_from ->
    [left] From the left: { $pins }.
   *[top] From the top: { $pins }.
}
blank_socket_title = Socket of { $header }, not filled in
blank_socket_described = { $cavities ->
    [one] { $cavities } cavity to be named { from_where }.
   *[other] { $cavities } cavities to be named { from_where }.
}
turns_title = One list of pins, turned
turn_as_listed = as in the list
turn_turned = turned
turn_key = key { key_where }
turn_described = Key { key_where }: { from_where }, places { $places }.

## The board plan.

board_plan_of = { $board }: board plan
board_set_up = { $board }, set up
board_plan_described = Plan of { $board } seen from the front, to scale: { $counts }. The tables say the same in words.
parts_counted = { $count ->
    [one] { $count } circuit board
   *[other] { $count } circuit boards
}
headers_counted = { $count ->
    [one] { $count } header
   *[other] { $count } headers
}
groups_counted = { $count ->
    [one] { $count } voltage group
   *[other] { $count } voltage groups
}
jumpers_counted = { $count ->
    [one] { $count } jumper
   *[other] { $count } jumpers
}
fuses_counted = { $count ->
    [one] { $count } fuse
   *[other] { $count } fuses
}
banks_counted = { $count ->
    [one] { $count } switch bank
   *[other] { $count } switch banks
}
board_set_up_described = { $board } seen from the front, to scale, as this job sets it up.
header_takes = { $header }: { DEVICE($device) }.
header_stays_empty = { $header }: leave empty.
jumper_stands = { $moved ->
    [yes] Jumper { $jumper } on group { $group }, moved.
   *[no] Jumper { $jumper } on group { $group }.
}
see_socket = { $header } { $title }: see its socket
leave_empty = leave empty
no_voltage = runs nothing
moved_mark = moved

# A code and what it is about, on one line of a drawing.
code_and_words = { $code } { $words }
group_named = group { $group }

# The word that is printed on the bank itself: a language leaves it as it is.
on_mark = ON
legend_title = Legend
legend_lead_shipped = lead as shipped
legend_shipped = as shipped
legend_may_go = where it may be moved to
legend_moved = moved from shipped
legend_key = key side of a socket
legend_on = ON side of a switch bank
