### Mistakes, what is noticed of them, and what to check.

## Mistakes: a clause that begins small and has no full stop.
layout_number_is = le numéro de configuration est { $number }
selector_is_at = le sélecteur { $selector } est sur { $position }
jumper_is_on = { $jumper } est sur le groupe { $group }
jumpers_swapped = { $first } et { $second } sont inversés
plug_is_in = la fiche { DEVICE($device, form: "du") } est dans { $header }
plugs_swapped = la fiche { DEVICE($first, form: "du") } est dans { $first_in } et celle { DEVICE($second, form: "du") } dans { $second_in }
way_is = l’interrupteur { $way } de { $bank } est sur { $on ->
        [yes] ON
       *[no] OFF
    }
ways_as_shipped = { $count ->
        [one] l’interrupteur { $ways } de { $bank } est en position d’usine
       *[other] les interrupteurs { $ways } de { $bank } sont en position d’usine
    }
house_gives = l’alimentation à l’arrivée est « { $supply } »
lines_are_one = { $line } et { $taken } viennent d’une même phase du tableau électrique
neutral_is_past = le neutre (N) est sur une barre de neutre, pas sur la protection différentielle
neutral_is_grounded = le neutre (N) touche la terre (PE) en aval de la protection différentielle

# A wire that has no letters.
a_wire = le fil

# In place of a wire.
no_wire = rien

# A supply conductor with its word, where letters alone say too little.
wire_name = { $conductor ->
        [N] le neutre (N)
        [PE] le fil de terre (PE)
       *[other] { $conductor }
    }
wire_not_landed = { $wire } n’a pas de raccordement à { $terminal }
wire_is_on = { $wire } est sur { $terminal }
link_is_on = { $link } est sur { $terminal }
cord_is_right = la fiche { DEVICE($device, form: "du") } est correcte à { $header }
wires_changed_ends = les fils { DEVICE($device, form: "du") } sont dans l’ordre inverse à { $header }
cord_is_turned = la fiche { DEVICE($device, form: "du") } est branchée à l’envers à { $header }
cord_has_no_gap = l’alvéole vide manque dans la fiche { DEVICE($device, form: "du") } à { $header } : les fils ne sont pas dans les bons alvéoles
wires_as_before = dans la fiche { DEVICE($device, form: "du") } à { $header }, les fils sont dans leurs anciens alvéoles
plug_is_out = la fiche { DEVICE($device, form: "du") } n’est pas branchée dans { $header }
plug_is_off = la fiche { DEVICE($device, form: "du") } est décalée d’une broche vers { $side ->
        [up] le haut
        [right] la droite
        [down] le bas
       *[left] la gauche
    } à { $header }

## What is noticed: clauses.
spare_button = le panneau affiche un appareil non installé : { DEVICE($device, form: "the") }

# The board itself runs what is not fitted.
spare_call = la configuration comprend un appareil non installé : { DEVICE($device, form: "the") }
metal_is_live = le métal { DEVICE($device, form: "du") } est sous tension
button_runs = la touche { DEVICE($role, form: "du") } met en marche { DEVICE($device, form: "the") }

# A device with what it does: one of the phrases `does_…`.
device_does = { DEVICE($device, form: "the") } { $does }
all_metal_is_live = le métal de tout l’équipement est sous tension
nothing_is_grounded = rien n’est relié à la terre
metal_on_neutral = le neutre touche la terre : si le neutre se coupe, tout le métal est sous tension
board_burns = la carte électronique grille (tension trop élevée)
panel_is_dead = le panneau n’affiche rien

# The same of a board without a panel.
board_is_dead = rien ne fonctionne
panel_is_weak = il est possible que le panneau n’affiche rien

# The same of a board without a panel.
board_is_weak = il est possible que la platine ne démarre pas
ground_fault_at_once = la protection différentielle se déclenche aussitôt
ground_fault_with_heat = la protection différentielle se déclenche quand le réchauffeur se met en marche
ground_fault_with_device = la protection différentielle se déclenche quand un autre appareil se met en marche
ground_fault_trips = la protection différentielle se déclenche
overloaded = le courant dans les fils d’alimentation est trop élevé, et rien ne se déclenche
header_is_hot = { $header } chauffe trop : son courant dépasse sa limite
breaker_trips_at_once = le disjoncteur se déclenche aussitôt
breaker_trips = le disjoncteur se déclenche quand plusieurs appareils fonctionnent en même temps
breaker_trips_later = le disjoncteur se déclenche après un certain temps
fuse_may_blow = le fusible { $fuse } peut fondre après un certain temps
fuse_blows = le fusible { $fuse } fond
ways_mean_otherwise = { $count ->
        [one] l’interrupteur { $ways } de { $bank } est dans la mauvaise position
       *[other] les interrupteurs { $ways } de { $bank } sont dans les mauvaises positions
    }
bank_means_otherwise = { $bank } est dans la mauvaise position

## What a device does: the end of a sentence that begins with the device.
## No form here agrees with the gender of the device.
does_live_metal = a du métal sous tension
does_no_ground = n’a pas de liaison à la terre
does_stay_live = est à l’arrêt, mais tous ses fils sont sous tension
does_burn_out = grille (tension supérieure à celle de la plaque)
does_hum = bourdonne, chauffe trop ou manque de puissance
does_work_weakly = fonctionne faiblement ou pas du tout
does_never_stop = ne s’arrête pas, même sur commande
does_nothing = ne fait rien
does_high_only_or_second_press = fonctionne à grande vitesse seulement, ou ne démarre qu’au deuxième appui sur sa touche
does_high_only = fonctionne à grande vitesse seulement
does_second_press = ne démarre qu’au deuxième appui sur sa touche

# A device without a button: the board commands it.
does_high_only_or_on_command = fonctionne à grande vitesse seulement, ou ne démarre que si la platine commande la grande vitesse
does_on_command = ne démarre que si la platine commande la grande vitesse
does_low_only = fonctionne à petite vitesse seulement
does_swap_speeds = fonctionne avec la petite et la grande vitesse inversées
does_run_on_button = démarre quand on appuie sur la touche { DEVICE($role, form: "du") }
does_run_on_another_button = démarre quand on appuie sur une autre touche
does_run_in_place = fonctionne à la place { DEVICE($role, form: "du") }
does_never_come_on = ne se met jamais en marche
does_heat_slowly = chauffe lentement
does_go_off = s’arrête pendant que des pompes ou des soufflantes fonctionnent à grande vitesse
does_wait = attend pendant que d’autres appareils fonctionnent
does_lack = ne fait pas partie de l’équipement installé

## The same with the numbers of a case. `$what` is one of the clauses above.
unless_it_trips = { $what } : { $volts }, sauf si la protection différentielle se déclenche
if_bonded = { $what }, si le métal est relié à la liaison équipotentielle
at_once = aussitôt
with_volts_to_ground = { $what } : { $volts } par rapport à la terre
and_nothing_runs = { $what }, et rien ne fonctionne
with_volts = { $what } : { $volts }
burns_out_on = { DEVICE($device, form: "the") } reçoit { $swings ->
        [yes] jusqu’à { $volts }
       *[no] { $volts }
    } au lieu de { $plate } et grille
on_changing_volts = { $what }, sous une tension qui change selon ce qui fonctionne en même temps
on_wrong_volts = { $what }, sous { $volts } au lieu de { $plate }
both_speeds_at_once = { $what } : les deux vitesses à la fois
even_while_off = même quand { DEVICE($device, form: "the") } est à l’arrêt
when_put_on_low = quand on met { DEVICE($device, form: "the") } à petite vitesse
when_put_on_high = quand on met { DEVICE($device, form: "the") } à grande vitesse
when_turned_on = quand on met en marche { DEVICE($device, form: "the") }
trips_when = { $what } { $when }
device_on_low = { DEVICE($device, form: "the") } à petite vitesse
device_on_high = { DEVICE($device, form: "the") } à grande vitesse
when_one_runs = quand { $what } fonctionne
when_all_run = quand { $all } fonctionnent ensemble
overload_of_wire = le courant dans { $conductor } est de { $amps } { $when }, limite des fils { $allowed }, et rien ne se déclenche
overload_of_board = le courant dans { $conductor } est de { $amps } { $when }, limite de la platine { $allowed }
breaker_trips_on = le disjoncteur de { $breaker } se déclenche { $when } : { $amps } dans { $conductor }
breaker_may_trip_on = le disjoncteur de { $breaker } peut se déclencher après un certain temps { $when } : { $amps } dans { $conductor }
header_carries = { $header } chauffe trop : { $amps }, limite { $allowed }
fuse_carries = { $what } : { $amps }, calibre { $allowed }
high_only = { DEVICE($device, form: "the") } fonctionne à grande vitesse seulement
second_press_only = { DEVICE($device, form: "the") } ne démarre qu’au deuxième appui sur sa touche
on_command_only = { DEVICE($device, form: "the") } ne démarre que si la platine commande la grande vitesse
watts_in_place_of = { $what } : { $watts } au lieu de { $full }
heater_goes_off = { $most ->
        [0] le réchauffeur s’arrête dès qu’une pompe ou une soufflante fonctionne à grande vitesse
        [1] le réchauffeur s’arrête quand plus d’une pompe ou soufflante fonctionne à grande vitesse
       *[other] le réchauffeur s’arrête quand plus de { $most } pompes et soufflantes fonctionnent à grande vitesse
    }
heater_waits = le réchauffeur attend si la somme de tous les courants devait dépasser { $amps }
should_mean = { $what } ; ce devrait être : « { $meaning } »

## What to check, and what right looks like: clauses.
layout_number = numéro de configuration { $number }
jumper_on = { $jumper } sur le groupe { $group }
jumper_on_volts = { $jumper } sur le groupe { $group }, { $volts }
plug_of_in = fiche { DEVICE($device, form: "du") } dans { $header }
cord_seen = { DEVICE($device, form: "the") } à { $header } : { $keyed ->
        [yes] ergot face à ergot ; { $pins }
       *[no] { $pins }
    }
neutral_path = le neutre sur la protection différentielle, pas sur une barre de neutre
neutral_ground = aucun chemin du neutre à la terre en aval de la protection
link_on = { $link } sur { $terminal }
pins_from = depuis { $from ->
        [top] le haut
       *[left] la gauche
    } : { $pins }
bank_all_off = { $bank } : tous les interrupteurs sur OFF
bank_all_on = { $bank } : tous les interrupteurs sur ON
bank_some_on = { $bank } : { $count ->
        [one] interrupteur { $ways }
       *[other] interrupteurs { $ways }
    } sur ON, tous les autres sur OFF
wire_on = { $wire } sur { $terminal }

# One list after another.
semicolon = { $first } ; { $rest }
ways_of = { $count ->
        [one] interrupteur { $ways } de { $bank }
       *[other] interrupteurs { $ways } de { $bank }
    }
# With its article: “avec les interrupteurs 1–4”.
count_of_ways = { $count ->
        [one] l’interrupteur { $ways }
       *[other] les interrupteurs { $ways }
    }

## The fault finder: what to check. What is correct stands beside it.
check_layout = numéro de configuration
check_jumper = cavalier
check_jumper_by_nameplate = cavalier sur la tension de la plaque
check_plug = fiche
check_plug_of = fiche { DEVICE($device, form: "du") }
check_cord = fils dans la fiche
check_cord_of = fils dans la fiche { DEVICE($device, form: "du") }
check_link = barrette
check_landing = fils d’alimentation
check_bank = bloc d’interrupteurs
check_allowance = quota de chauffage
check_fuse = fusible retiré, continuité et marquage
check_voltage = tension d’alimentation
check_voltage_running = tension pendant la marche

## The fault finder: what is correct.
layout_by_speeds = à deux vitesses : { $two } ; à une vitesse : { $one }
layout_one_of = un de ces numéros : { $layouts }
layout_of_equipment = le numéro de l’équipement installé
in_header = dans { $header }
in_header_under = dans { $header } (configurations { $layouts })
pins_by_speeds = { $pins } ; à une vitesse : { $one }
correct_at = à { $places } : { $correct }
switches_as_planned = { $switches }, comme prévu pour ce spa
link_by_supply = { $link } sur la borne de cette alimentation
landing_by_supply = { $terminals } : chaque fil sur sa borne

# Two terminals between which a meter reads.
terminal_pair = { $from } à { $to }
pairs_and_volts = { $pairs } : { $volts }
volts_under = { $volts } (alimentation : { $supplies })
volts_not_under = { $volts } (pas avec { $supplies })

# A device with `in_header`.
plug_place = { $device } { $place }

## The fault finder: where it is drawn.
see_plan = plan
see_supply = alimentation
see_voltages = tensions
see_layouts = configurations
see_panel = panneau
see_first_page = page 1
see_headers = embases

## The fault finder: what to check even if all works.
all_layout_fits = Le numéro de configuration correspond à l’équipement installé
all_layout_number = Numéro de configuration { $number }
all_jumpers = Chaque cavalier est sur le groupe à la tension de la plaque
all_plugs = Chaque fiche est dans son embase
all_plugs_in = Fiches : { $places }
all_cords_drawn = Fils de chaque fiche : dans l’ordre de l’embase
all_switches = Chaque interrupteur est réglé comme prévu pour ce spa
all_links = Chaque barrette est sur sa borne
all_landed = Le fil de terre (PE) est sur { $terminals }, chaque autre fil sur sa borne
all_neutral_path = Le neutre est sur la protection différentielle, pas sur une barre de neutre
all_neutral_ground = N débranché au disjoncteur, toutes les fiches retirées : aucune valeur mesurée de N à PE
all_voltage = tension d’arrivée { $expected }

## The fault finder: what is so otherwise, as sentences.
otherwise_all_live = Tout le métal est sous tension.
otherwise_live = Métal sous tension ({ $devices }).
otherwise_nothing_grounded = Rien n’est relié à la terre.
otherwise_neutral_grounded = Tout le métal est sous tension quand le neutre se coupe.
otherwise_no_ground = Métal sans liaison à la terre ({ $devices }).
otherwise_no_ground_or_live = Métal sans liaison à la terre ou sous tension ({ $devices }).
otherwise_stays_live = Fils encore sous tension à l’arrêt ({ $devices }).
otherwise_overload = Le courant dans les fils d’alimentation est trop élevé. { $burns ->
        [yes] Ils peuvent brûler.
       *[no] Ils chauffent trop.
    }
otherwise_header_hot = { $headers } chauffe trop{ $burns ->
        [yes] {" "}et peut brûler.
       *[no] .
    }

## The fault finder: rows that gather several signs.
some_fuse_blows = Le fusible { $fuses } fond
spare_buttons = le panneau affiche un appareil non installé : { $devices }
spare_calls = la configuration comprend un appareil non installé : { $devices }
spare_buttons_and_calls = le panneau affiche un appareil non installé ({ $devices }), ou la configuration en comprend un ({ $called })
some_spare_button = le panneau affiche un appareil non installé
some_spare_call = la configuration comprend un appareil non installé
one_of_these_holds = Une fonction ne marche pas comme voulu : { $meanings }
quoted = « { $words } »
some_setting_holds = Une fonction ne marche pas comme voulu
devices_do = { $devices } { $does }

# The kind of a fuse by the letters of IEC 60127; other letters are printed as they are.
fuse_rating = { $rating } { $kind ->
        [FF] ultra-rapide
        [F] rapide
        [M] semi-temporisé
        [T] temporisé
        [TT] très temporisé
       *[other] { $kind }
    }
fuse_and_rating = { $fuse }, { $rating }

## The fault finder: symptoms that no mistake of wiring is simulated for.
symptom_tingles = Le métal ou l’eau picote : tous hors de l’eau, alimentation coupée au tableau électrique
symptom_burnt = Odeur de brûlé, ou fiche brunie : coupez d’abord l’alimentation
symptom_test = TEST ne déclenche pas la protection différentielle : n’utilisez pas le spa
symptom_several = Plusieurs appareils à la fois ne font rien
symptom_no_water = Une pompe tourne mais ne déplace pas d’eau
symptom_too_hot = L’eau est plus chaude que le réglage : restez hors de l’eau
symptom_noise = Une pompe ou le coffret de commande fait du bruit
symptom_trips_at_random = La protection différentielle se déclenche au hasard
symptom_trips_when_wet = La protection différentielle se déclenche après la pluie ou des éclaboussures
symptom_breaker_with_heat = Le disjoncteur se déclenche quand le réchauffeur se met en marche

## The fault finder: usual causes that no mistake of wiring makes, what to check and what is correct.
## All of it is common practice.
usual_as_set = réglages sur le panneau
usual_as_set_correct = comme voulu ; le temps de filtration et le hors-gel sont normaux
usual_flow = filtre, vannes, niveau d’eau
usual_flow_correct = marche sans le filtre, vannes ouvertes, assez d’eau
usual_air = air dans la pompe, raccord union desserré
usual_air_correct = eau sans air. Séchez la zone avant la mise sous tension.
usual_air_leak = niveau d’eau, raccords unions côté aspiration
usual_air_leak_correct = aspirations couvertes d’eau, raccords serrés, pas de bulles
usual_heater_leak = élément chauffant, fils débranchés, goujon à métal
usual_heater_leak_correct = aucune valeur mesurée, à froid et en eau. Une fuite de courant peut tuer.
usual_heater_open = élément chauffant, fils débranchés, goujon à goujon
usual_heater_open_correct = environ { $ohms } ; { $amps } en marche
usual_cut_out = coupe-circuit thermique du réchauffeur, à froid
usual_cut_out_correct = reste enclenché après un seul réarmement. Ne le pontez jamais.
usual_flow_switch = détecteur de débit ou pressostat, pompe à l’arrêt
usual_flow_switch_correct = pas de continuité. Ne le pontez jamais.
usual_sensor = thermomètre près de la sonde
usual_sensor_correct = comme le panneau, à 2 °F (1 °C) près
usual_heat_rate = hausse en une heure, spa couvert, { $watts }
usual_heat_rate_correct = { $fahrenheit } ÷ gallons US en °F, ou { $celsius } ÷ litres en °C
usual_motor_cut_out = moteur chaud, après une heure d’attente
usual_motor_cut_out_correct = démarre à froid. Il démarre seul : n’y mettez pas les mains.
usual_shaft = arbre du moteur, tourné à la main
usual_shaft_correct = tourne librement, sans bruit
usual_rotor = rotor de la pompe de circulation
usual_rotor_correct = tourne librement, sans tartre
usual_capacitor = condensateur du moteur, déchargé d’abord
usual_capacitor_correct = pas gonflé ; à 10 % près de sa valeur imprimée. Il peut tuer.
usual_winding = commun à broches de vitesse, fiche du moteur retirée
usual_winding_correct = quelques ohms
usual_motor_leak = chaque broche des moteurs à la terre, fiches retirées
usual_motor_leak_correct = aucune valeur mesurée. Une fuite de courant peut tuer.
usual_frequency = fréquence sur la plaque du moteur
usual_frequency_correct = celle de l’alimentation
usual_blower_wet = soufflante et sa boucle d’air
usual_blower_wet_correct = pas d’eau à l’intérieur
usual_ozonator_wet = tuyau de l’ozonateur, fiche retirée
usual_ozonator_wet_correct = sec ; clapet antiretour au-dessus de l’eau
usual_ozonator_old = bulles d’ozone pendant la marche
usual_ozonator_old_correct = bulles ; un ozonateur dure deux à quatre ans
usual_hot_plug = contacts de la fiche et de l’embase
usual_hot_plug_correct = propres, serrés, pas brunis. Sinon, remplacez les deux moitiés.
usual_wet_plug = toutes les fiches et cartes électroniques
usual_wet_plug_correct = sèches, sans taches vertes
usual_cord = tous les cordons, sur toute la longueur
usual_cord_correct = ni coupure, ni pincement, ni morsure
usual_relay_open = bruit du relais à la commande
usual_relay_open_correct = un clic
usual_relay_welded = fusible ou cavalier à la broche grande vitesse, fiche retirée
usual_relay_welded_fixed = fusible ou languette du groupe à la broche grande vitesse, fiche retirée
usual_relay_welded_correct = pas de continuité
usual_panel_plug = fiche du panneau
usual_panel_plug_correct = sèche, enfoncée à fond
usual_panel_other = référence du panneau
usual_panel_other_correct = un panneau pour cette platine
usual_button = touches du panneau
usual_button_correct = chacune clique, et le panneau répond
usual_off = disjoncteur, interrupteur de coupure, GFCI ou DDR
usual_off_correct = enclenchés. Réarmez une seule fois. Après un nouveau déclenchement, laissez coupé.
usual_transformer = fusible du transformateur, retiré
usual_transformer_correct = continuité
usual_surge_part = parasurtenseur sur la carte électronique
usual_surge_part_correct = entier, disque non fendu
usual_line_open = chaque pôle et fil de la ligne d’alimentation
usual_line_open_correct = continuité. Une phase coupée peut rester sous tension.
usual_neutral_loose = neutre au coffret de commande, au sectionneur et au tableau électrique
usual_neutral_loose_correct = serré et brillant
usual_terminal_loose = bornes d’alimentation et goujons du réchauffeur
usual_terminal_loose_correct = serrés, isolant non bruni
usual_volts_low = lampes du bâtiment pendant le démarrage d’un moteur
usual_volts_low_correct = ne faiblissent pas
usual_other_loads = autres charges sur ce disjoncteur
usual_other_loads_correct = aucune, et pas de rallonge
usual_breaker_worn = disjoncteur, à froid, peu de charge
usual_breaker_worn_correct = ne se déclenche pas. N’installez jamais un calibre supérieur.
usual_breaker_size = calibre inscrit sur le disjoncteur
usual_breaker_size_correct = { $breaker }, pas plus
usual_breaker_size_planned = comme prévu, pas plus
usual_protection_worn = GFCI ou DDR, fils côté charge débranchés et isolés, couvercle fermé
usual_protection_worn_correct = se réarme sous tension, et TEST le déclenche. Ne le pontez jamais.
usual_neutral_bypass = neutre au disjoncteur différentiel
usual_neutral_bypass_correct = sur son neutre côté charge, pas sur la barre de neutre
usual_neutral_grounded = N à PE, N débranché au disjoncteur, fiches retirées
usual_neutral_grounded_correct = aucune valeur mesurée
usual_pigtail = fil blanc du disjoncteur différentiel
usual_pigtail_correct = serré sur la barre de neutre
usual_divide = une fiche retirée à la fois, couvercle fermé
usual_divide_correct = se déclenche encore sous tension. Sinon, cet appareil a une fuite de courant.
usual_outdoor_wet = interrupteur de coupure, conduit, boîtes de jonction
usual_outdoor_wet_correct = secs à l’intérieur
usual_stray = tension venant de l’extérieur, alimentation coupée
usual_stray_correct = un électricien la mesure ; jusque-là, tous hors de l’eau
usual_mount = pieds, tuyaux et cales des pompes
usual_mount_correct = rien ne touche la coque
usual_ground_open = borne PE à barre de terre et à métal
usual_ground_open_correct = moins de 1 Ω
