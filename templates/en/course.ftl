### Short texts of the course handout, its answers and cards.

device_speeds = { $speeds ->
        [two] two speeds
       *[other] one speed
    }

# Without an article: in tables, and before a number of speeds.
device_noun = { $device ->
        [circulation] circulation pump
       *[other] { DEVICE($device) }
    }

# What is installed on a spa, in a list.
fitted_jet_pump = a jet pump with { device_speeds }
fitted_numbered_jet_pump = jet pump { $number } with { device_speeds }
fitted_device = { $device ->
        [circulation] a circulation pump
        [blower] a blower with { device_speeds }
        [ozonator] an ozonator
        [sound] a sound system
       *[other] a { DEVICE($device) }
    }

served_with_speeds = { device_noun }, { device_speeds }


key_side = { $side ->
        [up] at the top
        [right] at the right
        [down] at the bottom
       *[left] at the left
    }

# The templates put it after “from the”.
pins_read_from = { $from ->
        [top] top
       *[left] left
    }


all_ways_off = all switches off
bank_ways_on = { $ways } on, all others off

# In the sum of a line.
device_runs = { $running ->
        [off] off
        [low] at low speed
       *[high] { $two_speeds ->
            [yes] at high speed
           *[no] on
        }
    }

# Where a trainee looks an answer up: a table of the handout and its row, or the wiring sheets.
row_of_layout = layout table, row{"\u00A0"}{ $layout }
row_of_header = header table, row{"\u00A0"}{ $header }
row_of_jumper = jumper table, row{"\u00A0"}{ $jumper }
row_of_group = group table, group{"\u00A0"}{ $group }
row_of_pins = lists of pins, row “{ $socket }”
row_of_settings = { $ways ->
        [one] settings table of { $bank }, switch{"\u00A0"}{ $label }
       *[other] settings table of { $bank }, switches{"\u00A0"}{ $label }
    }
settings_table = settings table of { $bank }
column_of_supply = group table, column “{ $supply }”
picture_of_terminal = wiring sheets, supply, terminal{"\u00A0"}{ $terminal }
picture_of_link = wiring sheets, supply, link{"\u00A0"}{ $link }
