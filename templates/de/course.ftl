### Short texts of the course handout, its answers and cards.

device_speeds = { $speeds ->
        [two] zwei Stufen
       *[other] eine Stufe
    }

# Without an article: in tables, and before a number of speeds.
device_noun = { $device ->
        [circulation] Zirkulationspumpe
        [sound] Audioanlage
       *[other] { DEVICE($device) }
    }

# What is installed on a spa, in a list.
fitted_jet_pump = eine Massagepumpe, { device_speeds }
fitted_numbered_jet_pump = Massagepumpe { $number }, { device_speeds }
fitted_device = { $device ->
        [blower] { DEVICE($device, form: "ein") }, { device_speeds }
       *[other] { DEVICE($device, form: "ein") }
    }

served_with_speeds = { device_noun }, { device_speeds }


key_side = { $side ->
        [up] oben
        [right] rechts
        [down] unten
       *[left] links
    }

# The templates put it after “Von”.
pins_read_from = { $from ->
        [top] oben
       *[left] links
    }


all_ways_off = alle Schalter OFF
bank_ways_on = { $ways } ON, alle anderen OFF

# In the sum of a line.
device_runs = { $running ->
        [off] aus
        [low] auf niedriger Stufe
       *[high] { $two_speeds ->
            [yes] auf hoher Stufe
           *[no] ein
        }
    }

# Where a trainee looks an answer up: a table of the handout and its row, or the wiring sheets.
row_of_layout = Variantentabelle, Zeile{"\u00A0"}{ $layout }
row_of_header = Steckplatztabelle, Zeile{"\u00A0"}{ $header }
row_of_jumper = Steckbrückentabelle, Zeile{"\u00A0"}{ $jumper }
row_of_group = Gruppentabelle, Gruppe{"\u00A0"}{ $group }
row_of_pins = Stiftlisten, Zeile „{ $socket }“
row_of_settings = { $ways ->
        [one] Einstelltabelle von { $bank }, Schalter{"\u00A0"}{ $label }
       *[other] Einstelltabelle von { $bank }, Schalter{"\u00A0"}{ $label }
    }
settings_table = Einstelltabelle von { $bank }
column_of_supply = Gruppentabelle, Spalte „{ $supply }“
picture_of_terminal = Verdrahtungsblätter, Einspeisung, Klemme{"\u00A0"}{ $terminal }
picture_of_link = Verdrahtungsblätter, Einspeisung, Lasche{"\u00A0"}{ $link }
