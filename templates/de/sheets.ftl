### Short texts of wiring sheets, lid inserts, forms and the list of sheets.

## Names that several sheets use.

# A circuit board that has no title: by its name.
part_named = Leiterplatte { $name }
layout_range = { $first }–{ $last }
serves_layouts = { $several ->
        [yes] Varianten { $layouts }
       *[no] Variante { $layouts }
    }
all_layouts = alle

# An edge.
side_name = { $side ->
        [up] oben
        [right] rechts
        [down] unten
       *[left] links
    }

# The foot of every page. The mark is eight letters and digits.
foot_and_mark = { $foot } · Marke { $mark }

# Under the title, in the language and in English, while `checked_by` in language.ftl is `no`.
words_unchecked = Keine Fachperson hat die Wörter dieser Sprache geprüft. Wenn das deutsche und das englische Blatt nicht übereinstimmen, gilt das englische Blatt.
# Unter dem Titel, wenn der Spezifikation Wörter in der Sprache des Blatts fehlen.
stand_in_words = † Diese Wörter sind auf { $languages }. Die Spezifikation enthält sie nicht in der Sprache dieses Blatts.
# Der Name einer Sprache nach „auf“.
language_name = { $tag ->
    [en] Englisch
    [de] Deutsch
    [es] Spanisch
    [fr] Französisch
   *[other] einer anderen Sprache ({ $tag })
}

## Signal words of ISO 3864-2.
signal_danger = GEFAHR
signal_warning = WARNUNG
signal_caution = VORSICHT
signal_notice = HINWEIS

## Supplies.
conductor_and_name = { $letters }, { $name }
split_phase = { $volts } V, Einphasen-Dreileiternetz
wye = { $volts } V, Sternnetz
single_phase = { $volts } V, einphasig

## Switches.
copper_wire = { $size } Kupfer
aluminum_wire = { $size } Aluminium
heater_counts = Die Last rechnet die Heizung mit { $nameplate }, dem Strom ihres Typenschilds. An dieser Einspeisung nimmt sie { $drawn } auf.
wire_suits_terminals = Diese Größe passt zu einem LS-Schalter { $breaker } an Klemmen für { $celsius }{"\u00A0"}°C. Die Luft hat höchstens 30{"\u00A0"}°C, und kein anderer Stromkreis liegt daneben.
wire_suits_method = Diese Größe passt zu einem LS-Schalter { $breaker }: Verlegeart { $method }, Isolierung { $insulation }, { $loaded } belastete Adern. Die Luft hat höchstens 30{"\u00A0"}°C, und kein anderer Stromkreis liegt daneben.
wire_suits_stated = Diese Größe passt zu einem LS-Schalter { $breaker }. Ihre Strombelastbarkeit wurde für diesen Auftrag angegeben.
wire_needs_75 = Diese Größe passt zu einem LS-Schalter { $breaker } nur, wenn die Klemmen an beiden Enden mit 75{"\u00A0"}°C gekennzeichnet sind.
wire_unjudged = Ob ihre Größe zu diesem LS-Schalter passt, wurde hier nicht geprüft.
allowance_is = Lastgrenze { $number }.
layout_is = Variante { $number }.
layout_set = { $number } ({ $how })
selector_at = { $selector } auf { $position }
switches_at = { $bank }: { $ways }

## The intake form.
form_pump = mit Düsen
form_circulation = ohne Düsen, eine Stufe

## The work card and the lid insert.
links_counted = { $count ->
        [one] { $count } Lasche
       *[other] { $count } Laschen
    }
measured_between = { $one }{"\u00a0"}gegen{"\u00a0"}{ $other }
nameplate_says = { $speeds ->
        [two] zwei Stufen, { $volts }, { $load }
        [one] eine Stufe, { $volts }, { $load }
       *[none] { $volts }, { $load }
    }
load_high_and_low = { $high } auf hoher Stufe, { $low } auf niedriger Stufe
pump_by_load = { $speeds ->
        [two] Die Pumpe mit zwei Stufen und { $load } auf dem Typenschild ist { DEVICE($device, form: "the") }.
       *[one] Die Pumpe mit einer Stufe und { $load } auf dem Typenschild ist { DEVICE($device, form: "the") }.
    }
pump_by_nameplate = Die Pumpe mit diesem Typenschild ist { DEVICE($device, form: "the") }: { $plate }.
pump_alike = { $any ->
        [yes] Diese haben gleiche Typenschilder: { DEVICE($all, form: "the") }. Jede davon kann { DEVICE($device, form: "the") } sein.
       *[no] Diese haben gleiche Typenschilder: { DEVICE($all, form: "the") }. Herausfinden, welche davon { DEVICE($device, form: "the") } ist.
    }
set_way = { $way }{"\u00A0"}{ $on ->
        [yes] ON
       *[no] OFF
    }

## Warnings of a plan.
warn_heater_weak = Die Heizung erhält { $volts }, Typenschild { $plate }. Sie leistet { $watts } statt { $full }. Das Wasser wird langsamer warm.
warn_voltage_edge = Spannung nahe am Grenzwert: { DEVICE($device, form: "the") }. Das Gerät erhält { $volts }. Durch das Netz können es { $end } werden. Das Typenschild erlaubt { $low } bis { $high }. Die Spannung unter Last messen (nur ausgebildete Person).
warn_odd_breaker = Ein LS-Schalter mit { $breaker } ist keine Normgröße. Den Nennstrom am LS-Schalter ablesen.
warn_wire_needs_75 = { $any ->
    [yes] Die Adern der Zuleitung ({ $wire }) sind nur dick genug, wenn die Klemmen an beiden Enden mit 75{"\u00A0"}°C gekennzeichnet sind. Die Kennzeichnung am LS-Schalter und in der Steuerbox lesen. Wenn sie an einer Stelle fehlt, ist { $size } nötig.
   *[no] Die Adern der Zuleitung ({ $wire }) sind nur dick genug, wenn die Klemmen an beiden Enden mit 75{"\u00A0"}°C gekennzeichnet sind. Die Kennzeichnung am LS-Schalter und in der Steuerbox lesen.
}
warn_capacity_above_tables = Für die Adern der Zuleitung ist eine Strombelastbarkeit von { $stated } angegeben. Keine Tabelle nennt für diese Größe mehr als { $most }. Eine zugelassene Elektrofachkraft muss den Wert bestätigen.
warn_mark_below_load = { $largest_breaker ->
    [yes] Die Anlage nimmt { $amps } in { $line } auf. Das Typenschild erlaubt einen LS-Schalter von höchstens { $marked }. Das Typenschild kann zu einer älteren Anlage gehören. Dabei laufen diese Geräte: { DEVICE($devices) }.
   *[no] Die Anlage nimmt { $amps } in { $line } auf. Als Mindest-Strombelastbarkeit des Stromkreises nennt das Typenschild { $marked }. Das Typenschild kann zu einer älteren Anlage gehören. Dabei laufen diese Geräte: { DEVICE($devices) }.
}
warn_run_drop = An der Zuleitung fallen bis zu { $drop } ab, das sind { $percent } der Spannung. Ein üblicher Grenzwert ist { $limit }.
warn_factor_unknown = { $any ->
        [yes] Der Leistungsfaktor eines Geräts ist nicht bekannt. Der Strom kann dann bis zu { $currents } betragen.
       *[no] Der Leistungsfaktor eines Geräts ist nicht bekannt.
    }
warn_neutral_unseen = Der Strom in N kann über dem Nennstrom des LS-Schalters liegen, { $breaker }. Der LS-Schalter misst N nicht.
warn_breaker_lag = Die Last am LS-Schalter kann { $amps } betragen. Der LS-Schalter hat { $breaker }. Er kann auslösen.
warn_board_lag = Der Strom in { $conductor } kann { $amps } betragen. Die Steuerplatine erlaubt das nicht.

conductor_amps = { $conductor }{"\u00A0"}{ $amps }
fuses_listed = { $kind }: { $codes }
element_at = { $watts } bei { $volts }
why_breaker = Lastgrenze { $next } braucht einen LS-Schalter von { $amps } oder mehr.
why_wire = Mit Lastgrenze { $next } beträgt die Last der Zuleitung { $amps }. Die Adern erlauben das nicht.
why_board = Mit Lastgrenze { $next } führt eine Ader der Zuleitung { $amps }. Die Steuerplatine erlaubt das nicht.
# Where the allowance is a current.
allowance_amps = Bei eingeschalteter Heizung hält die Steuerplatine die Summe aller Ströme auf höchstens { $amps }. Wenn die Heizung und ihre Pumpe laufen, bleiben { $remains }. Darüber wartet die Heizung.
allowance_amps_all = Bei eingeschalteter Heizung hält die Steuerplatine die Summe aller Ströme auf höchstens { $amps }. Alle eingebauten Geräte zusammen überschreiten das nicht.
further_plug = { DEVICE($device, form: "the") } hat mehr als einen Stecker. Alle anschließen: { $headers }.
cord_of = { DEVICE($cord, form: "the") } ist eine weitere Geräteleitung { DEVICE($device, form: "des") }, mit eigenem Stecker. Beide anschließen.
runs_with = { DEVICE($device, form: "the") } läuft immer, wenn { DEVICE($leader, form: "the") } läuft.
allowance_amps_waits = Bei eingeschalteter Heizung hält die Steuerplatine die Summe aller Ströme auf höchstens { $amps }. Die Heizung wartet, während diese zusammen laufen: { $sets }.
allowance_none = { $count ->
        [1] Bei eingeschalteter Heizung darf { DEVICE($devices, form: "the") } nicht auf hoher Stufe laufen.
       *[other] Bei eingeschalteter Heizung darf keines dieser Geräte auf hoher Stufe laufen: { DEVICE($devices, form: "the") }.
    }
allowance_all = { $count ->
        [1] Bei eingeschalteter Heizung darf { DEVICE($devices, form: "the") } auch auf hoher Stufe laufen.
        [2] Bei eingeschalteter Heizung dürfen { DEVICE($devices, form: "the") } beide auf hoher Stufe laufen.
       *[other] Bei eingeschalteter Heizung dürfen { DEVICE($devices, form: "the") } alle auf hoher Stufe laufen.
    }
allowance_some = Bei eingeschalteter Heizung { $allowed ->
        [1] darf eines
        [2] dürfen zwei
        [3] dürfen drei
        [4] dürfen vier
        [5] dürfen fünf
        [6] dürfen sechs
        [7] dürfen sieben
        [8] dürfen acht
        [9] dürfen neun
       *[other] dürfen { $allowed }
    } dieser Geräte auf hoher Stufe laufen: { DEVICE($devices, form: "the") }.

## The wiring sheets.

# Stands for the number in the steps of a panel.
any_layout_number = die Variantennummer

## The list of sheets.
index_title = Verdrahtungsblätter, Arbeitskarten und Deckelblätter
index_job = Auftrag { $job }
index_sheets_of = Verdrahtungsblätter: { $of }
index_form_of = Aufnahmebogen: { $of }
index_work_card_of = Arbeitskarte: { $of }
index_insert_of = Deckelblatt: { $of }
index_finder_of = Fehlersuche: { $of }
index_handout_of = Kursunterlage: { $of }
index_answers_of = Kurslösungen: { $of }
index_cards_of = Kurskarten: { $of }
index_plan_of = Platinenplan: { $of }
index_drawing_of = Zeichnung { $drawing }: { $of }
index_drawings_of = Zeichnungen: { $of }
index_pdf = { $pages ->
    [0] { $what }, PDF
    [one] { $what }, PDF, { $pages } Seite
   *[other] { $what }, PDF, { $pages } Seiten
}
index_svg = { $what }, SVG
index_skip = Zu den Blättern springen
index_empty = Es gibt noch keine Blätter.
index_boards = Steuerplatinen
index_jobs = Aufträge
index_others = Andere Ordner
index_board = Steuerplatine
index_plan = Plan
index_maker = Hersteller
index_part = Teilenummer
index_revision_head = Revision
index_mark = Marke
index_in_language = { $what }, { $language }
index_revision = { $revision }, { $date }
index_files = Blätter
index_job_head = Auftrag
index_place = Ort
index_layout = Variante
index_supply = Einspeisung
index_folder = Ordner
index_unknown = –
index_refused = { $sheets ->
    [yes] { $errors ->
        [one] Abgelehnt: { $errors } Fehler. Diese Blätter stammen aus einem früheren Lauf.
       *[other] Abgelehnt: { $errors } Fehler. Diese Blätter stammen aus einem früheren Lauf.
    }
   *[no] { $errors ->
        [one] Abgelehnt: { $errors } Fehler. Es wurden keine Blätter gemacht.
       *[other] Abgelehnt: { $errors } Fehler. Es wurden keine Blätter gemacht.
    }
}
index_earlier = Aus einem früheren Lauf

# The change sheet.
width_by_height = { $width } mal { $height }
place_on_plan = { $x } von links, { $y } von oben
