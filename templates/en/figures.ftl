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
supply_described = { $supply }. The picture shows the terminals { from_where }. { $terminals }
terminal_takes = Connect { $conductor } to { $terminal }.
terminal_takes_nothing = Connect nothing to { $terminal }.
link_moves = { $link }: move from { $from } to { $to }.
link_stays = { $link }: leave on { $terminal }.
step_and_words = { $step } { $words }
voltage_between = { $from } to { $to }: { $volts }.
connect_in_order = Connect the wires in the order of the numbers: the ground wire (PE) first.
connect_and_link_in_order = Follow the order of the numbers: the ground wire (PE) first, then the other wires, then the links.
conductor_name = { $conductor ->
    [L1] line wire 1
    [L2] line wire 2
    [L3] line wire 3
    [N] neutral
    [PE] ground wire
   *[L] line wire
}
nothing_lands = connect nothing
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
    [GY] gray
    [WH] white
    [PK] pink
    [GD] gold
    [TQ] turquoise
    [SR] silver
    [GNYE] green and yellow
    [bare] bare
   *[other] { $colour }
}
wire_letters = { $colour ->
    [bare] bare
   *[other] { $colour }
}
wire_colour_in_key = { $colour ->
    [bare] no insulation
   *[other] { wire_colour }
}
group_gives = { $group } { $volts }
groups_give = Groups: { $groups }.
groups_not_available = { $count ->
    [one] Group { $groups } runs no device with this supply. Its tabs can be live.
   *[other] Groups { $groups } run no device with this supply. Their tabs can be live.
}

## Switch banks.

switch_bank_title = Switch bank { $bank }
switch_bank_title_numbered = Switch bank { $bank }, { $number } of { $count }
switch_bank_described = Switch bank { $bank }. ON is printed at the { on_edge } edge. As shipped: { $positions }.
switch_bank_shipped = As shipped. ON is at the { on_edge } edge. The black slider shows the position. A hatched slider has no function.
switches_named = { $ways ->
    [one] Switch { $label }
   *[other] Switches { $label }
}
switches_and_effect = { switches_named }: { effect_name }
switches_not_used = { switches_named }: not used
allowance_alone = { $allowance }
layout_meant = layout { $layout }
no_layout_meant = no layout
setting_described = { $shipped ->
    [yes] { $positions }: { $meaning }, as shipped.
   *[no] { $positions }: { $meaning }.
}

# What a specification writes in its own words comes as it is.
effect_name = { $effect ->
    [heater_allowance] heater allowance
    [frequency] frequency
    [restore] restore
    [layout_change] layout change
    [layout_number] layout number
   *[other] { $effect }
}
way_position = { $on ->
    [yes] { $way } on
   *[no] { $way } off
}
way_moved = { way_position } (moved)
blank_bank_described = { $ways ->
    [one] { $bank } with { $ways } switch and no sliders. ON is printed at the { on_edge } edge.
   *[other] { $bank } with { $ways } switches and no sliders. ON is printed at the { on_edge } edge.
}
selector_title = Selector { $selector }
selector_described = { $moved ->
    [yes] Selector { $selector } at { $position } (moved).
   *[no] Selector { $selector } at { $position }.
} Its positions, clockwise from the top: { $positions }.
switches_title = Switches
switches_described = { $bank }: { $positions }.

## The questions that find the layout.

questions_title = Questions that find the layout
questions_title_numbered = Questions that find the layout, { $number } of { $count }
questions_start = Start here. A number in a heavy frame is the layout number.
questions_start_switches = Start here. A number in a heavy frame is the layout number. { $count ->
        [one] Set switch { $ways } of { $bank } as the table shows.
       *[other] Set switches { $ways } of { $bank } as the table shows.
    }
questions_start_selector = Start here. A number in a heavy frame is the layout number. Turn selector { $selector } as the table shows.
questions_go_on = { $part } goes on here
question_about = { DEVICE($device) }?
speeds_fitted = { $speeds ->
    [none] not installed
    [two] two speeds
   *[one] one speed
}
question_answered = { DEVICE($device) } { speeds_fitted }
layout_unasked = Layout { $layout }.
layout_after = Layout { $layout }: { $answers }.
part_after = Go on at { $part }: { $answers }.

## Sockets.

sockets_title = Headers from the front
sockets_title_numbered = Headers from the front, { $number } of { $count }
sockets_view = Each header is seen from the front, as it is mounted. The face of a loose plug is the mirror image.
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
pin_and_letters = { pin_name } { wire_letters }
pin_and_colour = { pin_name } ({ wire_colour })
cavity_empty = empty
key_mark = key
live_mark = live
can_be_live_mark = can be live
live_line_mark = live, { $line }
socket_reading = Key { key_where }. Read { from_where }.
socket_reading_without_key = No key. Read { from_where }.
whole_socket = { $two_speeds ->
    [yes] two speeds
   *[no] all pins
}
one_speed_cord = one speed
header_on_plan = { $header } on the board plan
socket_described = { $header }, { $title }: { $reading } { $pins }.
common_is_live = Common is live.
common_can_be_live = Common can be live.
common_is_live_on = Common is live: { $line }.
one_speed_cord_described = Plug of a one-speed device: { $pins }.

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

drawn_socket_title = Header { $header }, filled in
drawn_socket_described = { $read_from ->
    [left] From the left: { $pins }.
   *[top] From the top: { $pins }.
}
blank_socket_title = Header { $header }, not filled in
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
switches_counted = { $count ->
    [one] { $count } switch
   *[other] { $count } switches
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
see_socket = { $header } { $title }: see its pins
jumper_may_go = It may go to { $groups }.
leave_empty = leave empty
no_voltage = runs nothing
moved_mark = moved

# A code and what it is about, on one line of a drawing.
group_named = group { $group }

# The word that is printed on the bank itself: a language leaves it as it is.
on_mark = ON
legend_title = How to read the plan
legend_group = on group { $group }
legend_may_go = the jumper may go to these groups
legend_tag = the tab that { $jumper } is on
legend_shipped = as shipped
legend_moved = moved from shipped
legend_flags_alone = Where there is no line, the flag at the jumper says its group.
legend_part_of_board = This is a part of the board. Other pictures show the rest.
legend_key = key side of a header
legend_on = ON side of a switch bank
