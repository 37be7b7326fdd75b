### Short texts of the course handout, its answers and cards.

device_speeds = { $speeds ->
        [two] dos velocidades
       *[other] una velocidad
    }

# Without an article: in tables, and before a number of speeds.
device_noun = { $device ->
        [circulation] bomba de circulación
        [sound] sistema de audio
       *[other] { DEVICE($device) }
    }

# What is installed on a spa, in a list.
fitted_jet_pump = una bomba de jets de { device_speeds }
fitted_numbered_jet_pump = la bomba de jets { $number }, de { device_speeds }
fitted_device = { $device ->
        [blower] un soplador de { device_speeds }
       *[other] { DEVICE($device, form: "un") }
    }

served_with_speeds = { device_noun }, { device_speeds }


key_side = { $side ->
        [up] arriba
        [right] a la derecha
        [down] abajo
       *[left] a la izquierda
    }

# The templates put it after “desde”.
pins_read_from = { $from ->
        [top] arriba
       *[left] la izquierda
    }


all_ways_off = todos los microinterruptores en OFF
bank_ways_on = { $ways } en ON, todos los demás en OFF

# In the sum of a line.
device_runs = { $running ->
        [off] en reposo
        [low] a velocidad baja
       *[high] { $two_speeds ->
            [yes] a velocidad alta
           *[no] en marcha
        }
    }

# Where a trainee looks an answer up: a table of the handout and its row, or the wiring sheets.
row_of_layout = tabla de configuraciones, fila{"\u00A0"}{ $layout }
row_of_header = tabla de conectores, fila{"\u00A0"}{ $header }
row_of_jumper = tabla de puentes, fila{"\u00A0"}{ $jumper }
row_of_group = tabla de grupos, grupo{"\u00A0"}{ $group }
row_of_pins = listas de pines, fila “{ $socket }”
row_of_settings = { $ways ->
        [one] tabla de ajustes de { $bank }, microinterruptor{"\u00A0"}{ $label }
       *[other] tabla de ajustes de { $bank }, microinterruptores{"\u00A0"}{ $label }
    }
settings_table = tabla de ajustes de { $bank }
column_of_supply = tabla de grupos, columna “{ $supply }”
picture_of_terminal = hojas de cableado, alimentación, borne{"\u00A0"}{ $terminal }
picture_of_link = hojas de cableado, alimentación, pletina{"\u00A0"}{ $link }
