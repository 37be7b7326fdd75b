### Mistakes, what is noticed of them, and what to check.

## Mistakes: a clause that begins small and has no full stop.
layout_number_is = die Variantennummer ist { $number }
selector_is_at = Wahlschalter { $selector } steht auf { $position }
jumper_is_on = { $jumper } sitzt auf Gruppe { $group }
jumpers_swapped = { $first } und { $second } sind vertauscht
plug_is_in = der Stecker { DEVICE($device, form: "des") } steckt in { $header }
plugs_swapped = der Stecker { DEVICE($first, form: "des") } steckt in { $first_in } und der Stecker { DEVICE($second, form: "des") } in { $second_in }
way_is = Schalter { $way } von { $bank } steht auf { $on ->
        [yes] ON
       *[no] OFF
    }
ways_as_shipped = { $count ->
        [one] Schalter { $ways } von { $bank } steht wie ab Werk
       *[other] die Schalter { $ways } von { $bank } stehen wie ab Werk
    }
house_gives = die ankommende Einspeisung ist { $supply }
lines_are_one = { $line } und { $taken } kommen vom selben Außenleiter des Verteilers
neutral_is_past = der Neutralleiter (N) liegt an einer Neutralleiterschiene, nicht am Fehlerstromschutz
neutral_is_grounded = der Neutralleiter (N) berührt hinter dem Fehlerstromschutz den Schutzleiter (PE)

# A wire that has no letters.
a_wire = die Ader

# In place of a wire.
no_wire = nichts

# A supply conductor with its word, where letters alone say too little.
wire_name = { $conductor ->
        [N] der Neutralleiter (N)
        [PE] der Schutzleiter (PE)
       *[other] { $conductor }
    }
wire_not_landed = { $wire } ist nicht an { $terminal } angeschlossen
wire_is_on = { $wire } liegt an { $terminal }
link_is_on = { $link } sitzt auf { $terminal }
cord_is_right = der Stecker { DEVICE($device, form: "des") } steckt richtig in { $header }
wires_changed_ends = die Adern { DEVICE($device, form: "des") } sind an { $header } vertauscht
cord_is_turned = der Stecker { DEVICE($device, form: "des") } steckt verkehrt herum in { $header }
cord_has_no_gap = im Stecker { DEVICE($device, form: "des") } in { $header } fehlt die leere Kammer: die Adern sind in den falschen Kammern
wires_as_before = im Stecker { DEVICE($device, form: "des") } in { $header } sind die Adern in ihren alten Kammern
plug_is_out = der Stecker { DEVICE($device, form: "des") } steckt nicht in { $header }
plug_is_off = der Stecker { DEVICE($device, form: "des") } ist in { $header } um einen Stift nach { $side ->
        [up] oben
        [right] rechts
        [down] unten
       *[left] links
    } versetzt

## What is noticed: clauses.
spare_button = das Bedienfeld zeigt ein nicht eingebautes Gerät: { DEVICE($device, form: "the") }

# The board itself runs what is not fitted.
spare_call = die Variante enthält ein nicht eingebautes Gerät: { DEVICE($device, form: "the") }
metal_is_live = die Metallteile { DEVICE($device, form: "des") } stehen unter Spannung
button_runs = die Taste { DEVICE($role, form: "des") } schaltet { DEVICE($device, form: "den") } ein

# A device with what it does: one of the phrases `does_…`.
device_does = { DEVICE($device, form: "the") } { $does }
all_metal_is_live = die Metallteile der ganzen Anlage stehen unter Spannung
nothing_is_grounded = nichts ist mit dem Schutzleiter verbunden
metal_on_neutral = der Neutralleiter berührt den Schutzleiter: wenn der Neutralleiter unterbrochen wird, stehen alle Metallteile unter Spannung
board_burns = die Leiterplatte brennt durch (Spannung zu hoch)
panel_is_dead = das Bedienfeld zeigt nichts an

# The same of a board without a panel.
board_is_dead = nichts läuft
panel_is_weak = das Bedienfeld zeigt eventuell nichts an

# The same of a board without a panel.
board_is_weak = die Steuerplatine startet eventuell nicht
ground_fault_at_once = der Fehlerstromschutz löst sofort aus
ground_fault_with_heat = der Fehlerstromschutz löst aus, wenn die Heizung einschaltet
ground_fault_with_device = der Fehlerstromschutz löst aus, wenn ein anderes Gerät einschaltet
ground_fault_trips = der Fehlerstromschutz löst aus
overloaded = der Strom in der Zuleitung ist zu hoch, und nichts löst aus
header_is_hot = { $header } überhitzt: der Strom liegt über dem Grenzwert
breaker_trips_at_once = der LS-Schalter löst sofort aus
breaker_trips = der LS-Schalter löst aus, wenn mehrere Geräte zugleich laufen
breaker_trips_later = der LS-Schalter löst nach einiger Zeit aus
fuse_may_blow = Sicherung { $fuse } kann nach einiger Zeit durchbrennen
fuse_blows = Sicherung { $fuse } brennt durch
ways_mean_otherwise = { $count ->
        [one] Schalter { $ways } von { $bank } ist in der falschen Stellung
       *[other] die Schalter { $ways } von { $bank } sind in den falschen Stellungen
    }
bank_means_otherwise = { $bank } ist in der falschen Stellung

## What a device does: the end of a sentence that begins with the device.
does_live_metal = hat Metallteile unter Spannung
does_no_ground = hat keine Verbindung zum Schutzleiter
does_stay_live = ist aus, aber alle Adern stehen unter Spannung
does_burn_out = brennt durch (Spannung über dem Typenschild)
does_hum = brummt, überhitzt oder ist schwach
does_work_weakly = arbeitet schwach oder gar nicht
does_never_stop = lässt sich nicht ausschalten
does_nothing = tut nichts
does_high_only_or_second_press = läuft nur auf hoher Stufe oder startet erst beim zweiten Druck auf die eigene Taste
does_high_only = läuft nur auf hoher Stufe
does_second_press = startet erst beim zweiten Druck auf die eigene Taste

# A device without a button: the board commands it.
does_high_only_or_on_command = läuft nur auf hoher Stufe oder startet nur, wenn die Steuerplatine die hohe Stufe anfordert
does_on_command = startet nur, wenn die Steuerplatine die hohe Stufe anfordert
does_low_only = läuft nur auf niedriger Stufe
does_swap_speeds = läuft mit vertauschter hoher und niedriger Stufe
does_run_on_button = startet beim Druck auf die Taste { DEVICE($role, form: "des") }
does_run_on_another_button = startet beim Druck auf eine andere Taste
does_run_in_place = läuft anstelle { DEVICE($role, form: "des") }
does_never_come_on = schaltet nie ein
does_heat_slowly = heizt langsam
does_go_off = schaltet ab, während Pumpen oder Gebläse auf hoher Stufe laufen
does_wait = wartet, während andere Geräte laufen
does_lack = ist nicht eingebaut

## The same with the numbers of a case. `$what` is one of the clauses above.
unless_it_trips = { $what }: { $volts }, sofern der Fehlerstromschutz nicht auslöst
if_bonded = { $what }, falls die Metallteile im Potentialausgleich sind
# After a clause and a comma, like `when_turned_on`.
at_once = und zwar sofort
with_volts_to_ground = { $what }: { $volts } gegen PE
and_nothing_runs = { $what }, und nichts läuft
with_volts = { $what }: { $volts }
burns_out_on = { DEVICE($device, form: "the") } erhält { $swings ->
        [yes] bis zu { $volts }
       *[no] { $volts }
    } statt { $plate } und brennt durch
on_changing_volts = { $what }, bei einer Spannung, die davon abhängt, was sonst läuft
on_wrong_volts = { $what }, bei { $volts } statt { $plate }
both_speeds_at_once = { $what }: beide Stufen zugleich
even_while_off = auch während { DEVICE($device, form: "the") } aus ist
when_put_on_low = wenn { DEVICE($device, form: "the") } auf niedrige Stufe gestellt wird
when_put_on_high = wenn { DEVICE($device, form: "the") } auf hohe Stufe gestellt wird
when_turned_on = wenn { DEVICE($device, form: "the") } eingeschaltet wird
trips_when = { $what }, { $when }
device_on_low = { DEVICE($device, form: "the") } auf niedriger Stufe
device_on_high = { DEVICE($device, form: "the") } auf hoher Stufe
when_one_runs = wenn { $what } läuft
when_all_run = wenn { $all } zusammen laufen
overload_of_wire = der Strom in { $conductor } beträgt { $amps }, { $when }; Grenzwert der Adern { $allowed }, und nichts löst aus
overload_of_board = der Strom in { $conductor } beträgt { $amps }, { $when }; Grenzwert der Steuerplatine { $allowed }
breaker_trips_on = der LS-Schalter ({ $breaker }) löst aus, { $when }: { $amps } in { $conductor }
breaker_may_trip_on = der LS-Schalter ({ $breaker }) kann nach einiger Zeit auslösen, { $when }: { $amps } in { $conductor }
header_carries = { $header } überhitzt: { $amps }, Grenzwert { $allowed }
fuse_carries = { $what }: { $amps }, Nennstrom { $allowed }
high_only = { DEVICE($device, form: "the") } läuft nur auf hoher Stufe
second_press_only = { DEVICE($device, form: "the") } startet erst beim zweiten Druck auf die eigene Taste
on_command_only = { DEVICE($device, form: "the") } startet nur, wenn die Steuerplatine die hohe Stufe anfordert
watts_in_place_of = { $what }: { $watts } statt { $full }
heater_goes_off = { $most ->
        [0] die Heizung schaltet ab, sobald eine Pumpe oder ein Gebläse auf hoher Stufe läuft
        [1] die Heizung schaltet ab, wenn mehr als eine Pumpe oder ein Gebläse auf hoher Stufe läuft
       *[other] die Heizung schaltet ab, wenn mehr als { $most } Pumpen und Gebläse auf hoher Stufe laufen
    }
heater_waits = die Heizung wartet, wenn die Summe aller Ströme über { $amps } läge
should_mean = { $what }; richtig ist: „{ $meaning }“

## What to check, and what right looks like: clauses.
layout_number = Variantennummer { $number }
jumper_on = { $jumper } auf Gruppe { $group }
jumper_on_volts = { $jumper } auf Gruppe { $group }, { $volts }
plug_of_in = Stecker { DEVICE($device, form: "des") } in { $header }
cord_seen = { DEVICE($device, form: "the") } an { $header }: { $keyed ->
        [yes] Nase auf Nase; { $pins }
       *[no] { $pins }
    }
neutral_path = der Neutralleiter am Fehlerstromschutz, nicht an einer Neutralleiterschiene
neutral_ground = keine Verbindung vom Neutralleiter zum Schutzleiter hinter dem Fehlerstromschutz
link_on = { $link } auf { $terminal }
pins_from = von { $from ->
        [top] oben
       *[left] links
    }: { $pins }
bank_all_off = { $bank }: alle Schalter OFF
bank_all_on = { $bank }: alle Schalter ON
bank_some_on = { $bank }: { $count ->
        [one] Schalter { $ways }
       *[other] Schalter { $ways }
    } ON, alle anderen OFF
wire_on = { $wire } an { $terminal }

# One list after another.
semicolon = { $first }; { $rest }
ways_of = { $count ->
        [one] Schalter { $ways } von { $bank }
       *[other] Schalter { $ways } von { $bank }
    }
count_of_ways = { $count ->
        [one] Schalter { $ways }
       *[other] Schalter { $ways }
    }

## The fault finder: what to check. What is correct stands beside it.
check_layout = Variantennummer
check_jumper = Steckbrücke
check_jumper_by_nameplate = Steckbrücke auf der Spannung des Typenschilds
check_plug = Stecker
check_plug_of = Stecker { DEVICE($device, form: "des") }
check_cord = Adern im Stecker
check_cord_of = Adern im Stecker { DEVICE($device, form: "des") }
check_link = Lasche
check_landing = Adern der Zuleitung
check_bank = Schalterblock
check_allowance = Lastgrenze
check_fuse = Sicherung, herausgenommen: Durchgang und Aufdruck
check_voltage = Spannung der Einspeisung
check_voltage_running = Spannung im Betrieb

## The fault finder: what is correct.
layout_by_speeds = mit zwei Stufen: { $two }; mit einer Stufe: { $one }
layout_one_of = eine von { $layouts }
layout_of_equipment = die Nummer für die eingebauten Geräte
in_header = in { $header }
in_header_under = in { $header } (Variante { $layouts })
pins_by_speeds = { $pins }; mit einer Stufe: { $one }
correct_at = an { $places }: { $correct }
switches_as_planned = { $switches }, wie für diesen Whirlpool geplant
link_by_supply = { $link } auf der Klemme für diese Einspeisung
landing_by_supply = { $terminals }: jede Ader an ihrer eigenen Klemme

# Two terminals between which a meter reads.
terminal_pair = { $from } gegen { $to }
pairs_and_volts = { $pairs }: { $volts }
volts_under = { $volts } (Einspeisung: { $supplies })
volts_not_under = { $volts } (nicht bei { $supplies })

# A device with `in_header`.
plug_place = { $device } { $place }

## The fault finder: where it is drawn.
see_plan = Plan
see_supply = Einspeisung
see_voltages = Spannungen
see_layouts = Varianten
see_panel = Bedienfeld
see_first_page = Seite 1
see_headers = Steckplätze

## The fault finder: what to check even if all works.
all_layout_fits = Die Variantennummer passt zu den eingebauten Geräten
all_layout_number = Variantennummer { $number }
all_jumpers = Jede Steckbrücke sitzt auf der Gruppe mit der Spannung des Typenschilds
all_plugs = Jeder Stecker steckt in seinem Steckplatz
all_plugs_in = Stecker: { $places }
all_cords_drawn = Adern in jedem Stecker: in der Reihenfolge des Steckplatzes
all_switches = Jeder Schalter steht so, wie für diesen Whirlpool geplant
all_links = Jede Lasche sitzt auf ihrer Klemme
all_landed = Der Schutzleiter (PE) liegt an { $terminals }, jede andere Ader an ihrer Klemme
all_neutral_path = Der Neutralleiter liegt am Fehlerstromschutz, nicht an einer Neutralleiterschiene
all_neutral_ground = N am LS-Schalter gelöst, alle Stecker gezogen: kein Messwert von N gegen PE
all_voltage = ankommende Netzspannung { $expected }

## The fault finder: what is so otherwise, as sentences.
otherwise_all_live = Alle Metallteile stehen unter Spannung.
otherwise_live = Metallteile unter Spannung: { $devices }.
otherwise_nothing_grounded = Nichts ist mit dem Schutzleiter verbunden.
otherwise_neutral_grounded = Alle Metallteile stehen unter Spannung, wenn der Neutralleiter unterbrochen wird.
otherwise_no_ground = Metallteile ohne Schutzleiter: { $devices }.
otherwise_no_ground_or_live = Metallteile ohne Schutzleiter oder unter Spannung: { $devices }.
otherwise_stays_live = Adern auch nach dem Ausschalten unter Spannung: { $devices }.
otherwise_overload = Der Strom in der Zuleitung ist zu hoch. { $burns ->
        [yes] Ihre Adern können brennen.
       *[no] Ihre Adern überhitzen.
    }
otherwise_header_hot = { $headers } überhitzt{ $burns ->
        [yes] {" "}und kann brennen.
       *[no] .
    }

## The fault finder: rows that gather several signs.
some_fuse_blows = Sicherung { $fuses } brennt durch
spare_buttons = das Bedienfeld zeigt ein nicht eingebautes Gerät: { $devices }
spare_calls = die Variante enthält ein nicht eingebautes Gerät: { $devices }
spare_buttons_and_calls = nicht eingebautes Gerät: das Bedienfeld zeigt { $devices }, oder die Variante enthält { $called }
some_spare_button = das Bedienfeld zeigt ein nicht eingebautes Gerät
some_spare_call = die Variante enthält ein nicht eingebautes Gerät
one_of_these_holds = Eine Funktion arbeitet nicht wie gewünscht: { $meanings }
quoted = „{ $words }“
some_setting_holds = Eine Funktion arbeitet nicht wie gewünscht
devices_do = { $devices } { $does }

# The kind of a fuse by the letters of IEC 60127; other letters are printed as they are.
fuse_rating = { $rating } { $kind ->
        [FF] superflink
        [F] flink
        [M] mittelträge
        [T] träge
        [TT] superträge
       *[other] { $kind }
    }
fuse_and_rating = { $fuse }, { $rating }

## The fault finder: symptoms that no mistake of wiring is simulated for.
symptom_tingles = Metall oder Wasser kribbelt: alle aus dem Wasser, Einspeisung am Verteiler ausschalten
symptom_burnt = Es riecht verbrannt, oder ein Stecker ist braun: zuerst Einspeisung ausschalten
symptom_test = TEST löst den Fehlerstromschutz nicht aus: den Whirlpool nicht benutzen
symptom_several = Mehrere Geräte zugleich tun nichts
symptom_no_water = Eine Pumpe läuft, fördert aber kein Wasser
symptom_too_hot = Das Wasser ist heißer als eingestellt: nicht hineingehen
symptom_noise = Eine Pumpe oder die Steuerbox macht Geräusche
symptom_trips_at_random = Der Fehlerstromschutz löst unregelmäßig aus
symptom_trips_when_wet = Der Fehlerstromschutz löst nach Regen oder Spritzwasser aus
symptom_breaker_with_heat = Der LS-Schalter löst aus, wenn die Heizung einschaltet

## The fault finder: usual causes that no mistake of wiring makes, what to check and what is correct.
## All of it is common practice.
usual_as_set = Einstellungen am Bedienfeld
usual_as_set_correct = wie gewünscht; Filterzeit und Frostschutz sind normal
usual_flow = Filter, Ventile, Wasserstand
usual_flow_correct = läuft ohne Filter, Ventile offen, genug Wasser
usual_air = Luft in der Pumpe: ihre Verschraubung lösen
usual_air_correct = Wasser ohne Luft. Vor dem Einschalten alles trocknen.
usual_air_leak = Wasserstand, Verschraubungen der Saugseite
usual_air_leak_correct = Ansaugungen unter Wasser, Verschraubungen dicht, keine Blasen
usual_heater_leak = Heizelement, Adern gelöst: Bolzen gegen Metall
usual_heater_leak_correct = kein Messwert, kalt und nass. Ein Isolationsfehler kann töten.
usual_heater_open = Heizelement, Adern gelöst: Bolzen gegen Bolzen
usual_heater_open_correct = etwa { $ohms }; eingeschaltet { $amps }
usual_cut_out = Temperaturbegrenzer der Heizung, kalt
usual_cut_out_correct = hält nach einmaligem Rückstellen. Nie überbrücken.
usual_flow_switch = Strömungs- oder Druckschalter, Pumpe steht
usual_flow_switch_correct = kein Durchgang. Nie überbrücken.
usual_sensor = Thermometer neben dem Fühler
usual_sensor_correct = wie am Bedienfeld, auf 1 °C (2 °F) genau
usual_heat_rate = Erwärmung in einer Stunde, Whirlpool-Abdeckung zu, { $watts }
usual_heat_rate_correct = { $fahrenheit } ÷ Gallonen in °F oder { $celsius } ÷ Liter in °C
usual_motor_cut_out = heißer Motor: eine Stunde warten
usual_motor_cut_out_correct = startet kalt. Er startet von selbst: Hände weg.
usual_shaft = Motorwelle, von Hand gedreht
usual_shaft_correct = dreht leicht, ohne Geräusch
usual_rotor = Läufer der Zirkulationspumpe
usual_rotor_correct = dreht leicht, kein Kalk
usual_capacitor = Motorkondensator (zuerst entladen)
usual_capacitor_correct = nicht gewölbt; höchstens 10 % neben dem Aufdruck. Er kann töten.
usual_winding = Motorstecker gezogen: Stift „gemeinsam“ gegen Stufenstifte
usual_winding_correct = einige Ohm
usual_motor_leak = Motorstecker gezogen: jeder Stift gegen PE
usual_motor_leak_correct = kein Messwert. Ein Isolationsfehler kann töten.
usual_frequency = Frequenz auf dem Typenschild des Motors
usual_frequency_correct = die der Einspeisung
usual_blower_wet = Gebläse und seine Luftschleife
usual_blower_wet_correct = kein Wasser darin
usual_ozonator_wet = Schlauch des Ozonators, Stecker gezogen
usual_ozonator_wet_correct = trocken; Rückschlagventil über dem Wasser
usual_ozonator_old = Ozonblasen, während er läuft
usual_ozonator_old_correct = Blasen; ein Ozonator hält zwei bis vier Jahre
usual_hot_plug = Kontakte von Stecker und Steckplatz
usual_hot_plug_correct = sauber, fest, nicht braun. Sonst beide Hälften ersetzen.
usual_wet_plug = alle Stecker und Leiterplatten
usual_wet_plug_correct = trocken, ohne grüne Stellen
usual_cord = alle Geräteleitungen, ganze Länge
usual_cord_correct = kein Schnitt, keine Quetschung, kein Biss
usual_relay_open = Geräusch des Relais beim Schalten
usual_relay_open_correct = ein Klick
usual_relay_welded = Stecker gezogen: Sicherung oder Steckbrücke gegen Stift „hoch“
usual_relay_welded_fixed = Stecker gezogen: Sicherung oder Steckzunge der Gruppe gegen Stift „hoch“
usual_relay_welded_correct = kein Durchgang
usual_panel_plug = Stecker des Bedienfelds
usual_panel_plug_correct = trocken, ganz eingesteckt
usual_panel_other = Teilenummer des Bedienfelds
usual_panel_other_correct = ein Bedienfeld für diese Steuerplatine
usual_button = Tasten des Bedienfelds
usual_button_correct = jede klickt, und das Bedienfeld reagiert
usual_off = LS-Schalter, Trennschalter, FI/RCD oder GFCI
usual_off_correct = ein. Nur einmal wieder einschalten. Wenn er erneut auslöst, ausgeschaltet lassen.
usual_transformer = Sicherung des Transformators, herausgenommen
usual_transformer_correct = Durchgang
usual_surge_part = Überspannungsschutz auf der Leiterplatte
usual_surge_part_correct = ganz, keine geplatzte Scheibe
usual_line_open = jeder Pol und jede Ader der Zuleitung
usual_line_open_correct = Durchgang. Auch ein unterbrochener Außenleiter kann unter Spannung stehen.
usual_neutral_loose = Neutralleiter an Steuerbox, Trennschalter und Verteiler
usual_neutral_loose_correct = fest und blank
usual_terminal_loose = Klemmen der Einspeisung und Bolzen der Heizung
usual_terminal_loose_correct = fest, Isolierung nicht braun
usual_volts_low = Licht im Gebäude, während ein Motor startet
usual_volts_low_correct = wird nicht dunkler
usual_other_loads = andere Lasten an diesem LS-Schalter
usual_other_loads_correct = keine, und kein Verlängerungskabel
usual_breaker_worn = LS-Schalter, kalt, kleine Last
usual_breaker_worn_correct = löst nicht aus. Nie einen größeren einbauen.
usual_breaker_size = Nennstrom am LS-Schalter
usual_breaker_size_correct = { $breaker }, nicht größer
usual_breaker_size_planned = wie geplant, nicht größer
usual_protection_worn = FI/RCD oder GFCI, Lastadern gelöst und isoliert, Abdeckung zu
usual_protection_worn_correct = Einspeisung ein: lässt sich einschalten, und TEST löst ihn aus. Nie überbrücken.
usual_neutral_bypass = Neutralleiter am FI/LS-Schalter
usual_neutral_bypass_correct = an dessen N-Klemme der Lastseite, nicht an der Neutralleiterschiene
usual_neutral_grounded = N am LS-Schalter gelöst, Stecker gezogen: N gegen PE
usual_neutral_grounded_correct = kein Messwert
usual_pigtail = weiße Ader des FI/LS-Schalters
usual_pigtail_correct = fest an der Neutralleiterschiene
usual_divide = je einen Stecker ziehen, Deckel zu
usual_divide_correct = Einspeisung ein: löst weiter aus. Wenn nicht, hat dieses Gerät einen Isolationsfehler.
usual_outdoor_wet = Trennschalter, Installationsrohr, Abzweigdosen
usual_outdoor_wet_correct = innen trocken
usual_stray = Spannung von außen, Einspeisung aus
usual_stray_correct = eine Elektrofachkraft misst sie; bis dahin bleiben alle aus dem Wasser
usual_mount = Füße, Rohre und Auflagen der Pumpen
usual_mount_correct = nichts berührt die Wanne
usual_ground_open = PE-Klemme gegen Schutzleiterschiene und gegen Metall
usual_ground_open_correct = unter 1 Ω
