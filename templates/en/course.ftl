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

# What is fitted to a spa, in a list.
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


all_ways_off = all ways off
bank_ways_on = { $ways } on, all others off

# In the sum of a line.
device_runs = { $running ->
        [off] off
        [low] on low
       *[high] { $two_speeds ->
            [yes] on high
           *[no] on
        }
    }

# Where something stands in the specification.
line_of_file = { $file }, line{"\u00A0"}{ $line }
