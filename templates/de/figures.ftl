### Words in figures, and their descriptions for people who cannot see them.
### Letters of conductors, codes and the mark ON on a switch bank are printed on the things
### themselves; no language changes them.

## Where things are. Other phrases of this file put these in.

from_where = { $read_from ->
    [left] von links
   *[top] von oben
}
key_where = { $key ->
    [up] oben
    [right] rechts
    [left] links
   *[down] unten
}
on_edge = { $on_side ->
    [up] oberen
    [right] rechten
    [left] linken
   *[down] unteren
}

## What lands on which terminal.

terminals_heading = Klemmen, { from_where }
voltages_heading = Spannung zwischen den Leitern
supply_described = { $supply }. Das Bild zeigt die Klemmen { from_where }. { $terminals }
terminal_takes = { $conductor } an { $terminal } anschließen.
terminal_takes_nothing = An { $terminal } nichts anschließen.
link_moves = { $link }: von { $from } nach { $to } versetzen.
link_stays = { $link }: auf { $terminal } lassen.
step_and_words = { $step } { $words }
voltage_between = { $from } gegen { $to }: { $volts }.
connect_in_order = Die Adern in der Reihenfolge der Nummern anschließen: zuerst den Schutzleiter (PE).
connect_and_link_in_order = Die Reihenfolge der Nummern einhalten: zuerst der Schutzleiter (PE), dann die anderen Adern, dann die Laschen.
conductor_name = { $conductor ->
    [L1] Außenleiter 1
    [L2] Außenleiter 2
    [L3] Außenleiter 3
    [N] Neutralleiter
    [PE] Schutzleiter
   *[L] Außenleiter
}
nothing_lands = nichts anschließen
terminal_marked = markiert: { colour_and_letters }
colour_and_letters = { wire_colour } ({ $colour })

# By the letters of IEC 60757.
wire_colour = { $colour ->
    [BK] schwarz
    [BN] braun
    [RD] rot
    [OG] orange
    [YE] gelb
    [GN] grün
    [BU] blau
    [VT] violett
    [GY] grau
    [WH] weiß
    [PK] rosa
    [GD] gold
    [TQ] türkis
    [SR] silber
    [GNYE] grün-gelb
    [bare] blank
   *[other] { $colour }
}
wire_letters = { $colour ->
    [bare] blank
   *[other] { $colour }
}
wire_colour_in_key = { $colour ->
    [bare] ohne Isolierung
   *[other] { wire_colour }
}
group_gives = { $group } { $volts }
groups_give = Gruppen: { $groups }.
groups_not_available = { $count ->
    [one] Gruppe { $groups } betreibt bei dieser Einspeisung kein Gerät. Ihre Steckzungen können unter Spannung stehen.
   *[other] Die Gruppen { $groups } betreiben bei dieser Einspeisung kein Gerät. Ihre Steckzungen können unter Spannung stehen.
}

## Switch banks.

switch_bank_title = Schalterblock { $bank }
switch_bank_title_numbered = Schalterblock { $bank }, { $number } von { $count }
switch_bank_described = Schalterblock { $bank }. ON steht am { on_edge } Rand. Ab Werk: { $positions }.
switch_bank_shipped = Stellung ab Werk. ON ist am { on_edge } Rand. Der schwarze Schieber zeigt die Stellung. Ein schraffierter Schieber hat keine Funktion.
switches_named = { $ways ->
    [one] Schalter { $label }
   *[other] Schalter { $label }
}
switches_and_effect = { switches_named }: { effect_name }
switches_not_used = { switches_named }: nicht benutzt
allowance_alone = { $allowance }
layout_meant = Variante { $layout }
no_layout_meant = keine Variante
setting_described = { $shipped ->
    [yes] { $positions }: { $meaning }, ab Werk.
   *[no] { $positions }: { $meaning }.
}

# What a specification writes in its own words comes as it is.
effect_name = { $effect ->
    [heater_allowance] Lastgrenze
    [frequency] Frequenz
    [restore] Rücksetzen
    [layout_change] Variantenwechsel
    [layout_number] Variantennummer
   *[other] { $effect }
}
way_position = { $on ->
    [yes] { $way } ON
   *[no] { $way } OFF
}
way_moved = { way_position } (verstellt)
blank_bank_described = { $ways ->
    [one] { $bank } mit { $ways } Schalter, ohne Schieber. ON steht am { on_edge } Rand.
   *[other] { $bank } mit { $ways } Schaltern, ohne Schieber. ON steht am { on_edge } Rand.
}
selector_title = Wahlschalter { $selector }
selector_described = { $moved ->
    [yes] Wahlschalter { $selector } auf { $position } (verstellt).
   *[no] Wahlschalter { $selector } auf { $position }.
} Seine Stellungen, im Uhrzeigersinn von oben: { $positions }.
switches_title = Schalter
switches_described = { $bank }: { $positions }.

## The questions that find the layout.

questions_title = Fragen zum Finden der Variante
questions_title_numbered = Fragen zum Finden der Variante, { $number } von { $count }
questions_start = Hier beginnen. Eine Zahl im dicken Rahmen ist die Variantennummer.
questions_start_switches = Hier beginnen. Eine Zahl im dicken Rahmen ist die Variantennummer. { $count ->
        [one] Schalter { $ways } von { $bank } einstellen, wie die Tabelle zeigt.
       *[other] Die Schalter { $ways } von { $bank } einstellen, wie die Tabelle zeigt.
    }
questions_start_selector = Hier beginnen. Eine Zahl im dicken Rahmen ist die Variantennummer. Den Wahlschalter { $selector } drehen, wie die Tabelle zeigt.
questions_go_on = { $part } geht hier weiter
question_about = { DEVICE($device) }?
speeds_fitted = { $speeds ->
    [none] nicht eingebaut
    [two] zwei Stufen
   *[one] eine Stufe
}
question_answered = { DEVICE($device) }: { speeds_fitted }
layout_unasked = Variante { $layout }.
layout_after = Variante { $layout }: { $answers }.
part_after = Weiter bei { $part }: { $answers }.

## Sockets.

sockets_title = Steckplätze von vorn
sockets_title_numbered = Steckplätze von vorn, { $number } von { $count }
sockets_view = Jeder Steckplatz ist von vorn gezeigt, so wie er montiert ist. Die Steckseite eines losen Steckers ist spiegelbildlich.
pin_name = { $pin ->
    [ground] PE
    [common] gemeinsam
    [low] niedrig
    [high] hoch
    [positive] plus
    [negative] minus
    [signal] Signal
   *[screen] Schirm
}
pin_and_letters = { pin_name } { wire_letters }
pin_and_colour = { pin_name } ({ wire_colour })
cavity_empty = leer
key_mark = Nase
live_mark = unter Spannung
can_be_live_mark = evtl. Spannung
live_line_mark = unter Spannung, { $line }
socket_reading = Nase { key_where }. Reihenfolge { from_where }.
socket_reading_without_key = Ohne Nase. Reihenfolge { from_where }.
whole_socket = { $two_speeds ->
    [yes] zwei Stufen
   *[no] alle Stifte
}
one_speed_cord = eine Stufe
header_on_plan = { $header } im Platinenplan
socket_described = { $header }, { $title }: { $reading } { $pins }.
common_is_live = Stift „gemeinsam“ steht unter Spannung.
common_can_be_live = Stift „gemeinsam“ kann unter Spannung stehen.
common_is_live_on = Stift „gemeinsam“ steht unter Spannung: { $line }.
one_speed_cord_described = Stecker eines Geräts mit einer Stufe: { $pins }.

## Steps of a work card.

lock_off_title = Ausschalten, sichern, Schild anhängen, prüfen
lock_off_described = Ein ausgeschalteter LS-Schalter mit Vorhängeschloss und Warnschild, und ein Messgerät, das 0{"\u00A0"}V anzeigt.
off_mark = AUS
tag_mark = SCHILD
connections_title = Adern der Zuleitung, Schutzleiter zuerst
first_mark = zuerst
jumper_moves_title = Steckbrücken, die versetzt werden
jumper_moves_told = Steckbrücke { $jumper } von Gruppe { $from } nach Gruppe { $to }.
link_moves_title = Laschen, die versetzt werden
link_moves_told = Lasche { $link } von { $from } nach { $to }.
seen_from_front = von vorn gesehen
cord_described = { $speeds ->
    [two] { $header }: { DEVICE($device) }, zwei Stufen, { $volts }.
   *[other] { $header }: { DEVICE($device) }, { $volts }.
}
cord_pins_described = Stifte { from_where }: { $pins }.

## Exercises.

drawn_socket_title = Steckplatz { $header }, ausgefüllt
drawn_socket_described = { $read_from ->
    [left] Von links: { $pins }.
   *[top] Von oben: { $pins }.
}
blank_socket_title = Steckplatz { $header }, nicht ausgefüllt
blank_socket_described = { $cavities ->
    [one] { $cavities } Kammer, { from_where } zu benennen.
   *[other] { $cavities } Kammern, { from_where } zu benennen.
}
turns_title = Eine Stiftliste, gedreht
turn_as_listed = wie in der Liste
turn_turned = gedreht
turn_key = Nase { key_where }
turn_described = Nase { key_where }: { from_where }, Plätze { $places }.

## The board plan.

board_plan_of = { $board }: Platinenplan
board_set_up = { $board }, eingestellt
board_plan_described = Plan der Steuerplatine { $board }, von vorn gesehen, maßstäblich: { $counts }. Die Tabellen sagen dasselbe in Worten.
parts_counted = { $count ->
    [one] { $count } Leiterplatte
   *[other] { $count } Leiterplatten
}
headers_counted = { $count ->
    [one] { $count } Steckplatz
   *[other] { $count } Steckplätze
}
groups_counted = { $count ->
    [one] { $count } Spannungsgruppe
   *[other] { $count } Spannungsgruppen
}
jumpers_counted = { $count ->
    [one] { $count } Steckbrücke
   *[other] { $count } Steckbrücken
}
switches_counted = { $count ->
    [one] { $count } Schalter
   *[other] { $count } Schalter
}
fuses_counted = { $count ->
    [one] { $count } Sicherung
   *[other] { $count } Sicherungen
}
banks_counted = { $count ->
    [one] { $count } Schalterblock
   *[other] { $count } Schalterblöcke
}
board_set_up_described = { $board }, von vorn gesehen, maßstäblich, so wie dieser Auftrag die Steuerplatine einstellt.
header_takes = { $header }: { DEVICE($device) }.
header_stays_empty = { $header }: leer lassen.
jumper_stands = { $moved ->
    [yes] Steckbrücke { $jumper } auf Gruppe { $group }, versetzt.
   *[no] Steckbrücke { $jumper } auf Gruppe { $group }.
}
see_socket = { $header } { $title }: siehe die Stifte
jumper_may_go = Sie darf auf { $groups }.
leave_empty = leer lassen
no_voltage = kein Betrieb
moved_mark = versetzt

# A code and what it is about, on one line of a drawing.
group_named = Gruppe { $group }

# The word that is printed on the bank itself: a language leaves it as it is.
on_mark = ON
legend_title = So ist der Plan zu lesen
legend_group = auf Gruppe { $group }
legend_may_go = auf diese Gruppen darf die Steckbrücke
legend_tag = die Steckzunge, auf der { $jumper } sitzt
legend_shipped = wie ab Werk
legend_moved = gegenüber ab Werk geändert
legend_flags_alone = Wo keine Linie ist, nennt das Fähnchen an der Steckbrücke ihre Gruppe.
legend_part_of_board = Dies ist ein Teil der Steuerplatine. Andere Bilder zeigen den Rest.
legend_key = Nasenseite eines Steckplatzes
legend_on = ON-Seite eines Schalterblocks
