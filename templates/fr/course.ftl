### Short texts of the course handout, its answers and cards.

device_speeds = { $speeds ->
        [two] deux vitesses
       *[other] une vitesse
    }

# Without an article: in tables, and before a number of speeds.
device_noun = { $device ->
        [circulation] pompe de circulation
        [sound] système audio
       *[other] { DEVICE($device) }
    }

# What is installed on a spa, in a list.
fitted_jet_pump = une pompe à jets à { device_speeds }
fitted_numbered_jet_pump = la pompe à jets { $number }, à { device_speeds }
fitted_device = { $device ->
        [blower] une soufflante à { device_speeds }
       *[other] { DEVICE($device, form: "a") }
    }

served_with_speeds = { device_noun }, { device_speeds }


key_side = { $side ->
        [up] en haut
        [right] à droite
        [down] en bas
       *[left] à gauche
    }

# The templates put it after “depuis”.
pins_read_from = { $from ->
        [top] le haut
       *[left] la gauche
    }


all_ways_off = tous les interrupteurs sur OFF
bank_ways_on = { $ways } sur ON, tous les autres sur OFF

# In the sum of a line.
device_runs = { $running ->
        [off] à l’arrêt
        [low] à petite vitesse
       *[high] { $two_speeds ->
            [yes] à grande vitesse
           *[no] en marche
        }
    }

# Where a trainee looks an answer up: a table of the handout and its row, or the wiring sheets.
row_of_layout = tableau des configurations, ligne{"\u00A0"}{ $layout }
row_of_header = tableau des embases, ligne{"\u00A0"}{ $header }
row_of_jumper = tableau des cavaliers, ligne{"\u00A0"}{ $jumper }
row_of_group = tableau des groupes, groupe{"\u00A0"}{ $group }
row_of_pins = listes de broches, ligne « { $socket } »
row_of_settings = { $ways ->
        [one] tableau des réglages de { $bank }, interrupteur{"\u00A0"}{ $label }
       *[other] tableau des réglages de { $bank }, interrupteurs{"\u00A0"}{ $label }
    }
settings_table = tableau des réglages de { $bank }
column_of_supply = tableau des groupes, colonne « { $supply } »
picture_of_terminal = feuilles de câblage, alimentation, borne{"\u00A0"}{ $terminal }
picture_of_link = feuilles de câblage, alimentation, barrette{"\u00A0"}{ $link }
