### Words in figures, and their descriptions for people who cannot see them.
### Letters of conductors, codes and the mark ON on a switch bank are printed on the things
### themselves; no language changes them.

## Where things are. Other phrases of this file put these in.

from_where = { $read_from ->
    [left] depuis la gauche
   *[top] depuis le haut
}
key_where = { $key ->
    [up] en haut
    [right] à droite
    [left] à gauche
   *[down] en bas
}
on_edge = { $on_side ->
    [up] supérieur
    [right] droit
    [left] gauche
   *[down] inférieur
}

## What lands on which terminal.

terminals_heading = Bornes, { from_where }
voltages_heading = Tension entre conducteurs
supply_described = { $supply }. L’image montre les bornes { from_where }. { $terminals }
terminal_takes = Raccordez { $conductor } à { $terminal }.
terminal_takes_nothing = Ne raccordez rien à { $terminal }.
link_moves = { $link } : déplacez de { $from } vers { $to }.
link_stays = { $link } : laissez sur { $terminal }.
step_and_words = { $step } { $words }
voltage_between = { $from } à { $to } : { $volts }.
connect_in_order = Raccordez les fils dans l’ordre des numéros : le fil de terre (PE) en premier.
connect_and_link_in_order = Suivez l’ordre des numéros : le fil de terre (PE) en premier, puis les autres fils, puis les barrettes.
conductor_name = { $conductor ->
    [L1] phase 1
    [L2] phase 2
    [L3] phase 3
    [N] neutre
    [PE] fil de terre
   *[L] phase
}
nothing_lands = ne rien raccorder
terminal_marked = repéré { colour_and_letters }
colour_and_letters = { wire_colour } ({ $colour })

# By the letters of IEC 60757.
wire_colour = { $colour ->
    [BK] noir
    [BN] brun
    [RD] rouge
    [OG] orange
    [YE] jaune
    [GN] vert
    [BU] bleu
    [VT] violet
    [GY] gris
    [WH] blanc
    [PK] rose
    [GD] or
    [TQ] turquoise
    [SR] argent
    [GNYE] vert et jaune
    [bare] nu
   *[other] { $colour }
}
wire_letters = { $colour ->
    [bare] nu
   *[other] { $colour }
}
wire_colour_in_key = { $colour ->
    [bare] sans isolant
   *[other] { wire_colour }
}
group_gives = { $group } { $volts }
groups_give = Groupes : { $groups }.
groups_not_available = { $count ->
    [one] Le groupe { $groups } n’alimente aucun appareil avec cette alimentation. Ses languettes peuvent être sous tension.
   *[other] Les groupes { $groups } n’alimentent aucun appareil avec cette alimentation. Leurs languettes peuvent être sous tension.
}

## Switch banks.

switch_bank_title = Bloc d’interrupteurs { $bank }
switch_bank_title_numbered = Bloc d’interrupteurs { $bank }, { $number } sur { $count }
switch_bank_described = Bloc d’interrupteurs { $bank }. ON est imprimé au bord { on_edge }. Réglage d’usine : { $positions }.
switch_bank_shipped = Réglage d’usine. ON est au bord { on_edge }. Le curseur noir montre la position. Un curseur hachuré n’a pas de fonction.
switches_named = { $ways ->
    [one] Interrupteur { $label }
   *[other] Interrupteurs { $label }
}
switches_and_effect = { switches_named } : { effect_name }
switches_not_used = { $ways ->
    [one] { switches_named } : non utilisé
   *[other] { switches_named } : non utilisés
}
allowance_alone = { $allowance }
layout_meant = configuration { $layout }
no_layout_meant = aucune configuration
setting_described = { $shipped ->
    [yes] { $positions } : { $meaning }, réglage d’usine.
   *[no] { $positions } : { $meaning }.
}

# What a specification writes in its own words comes as it is.
effect_name = { $effect ->
    [heater_allowance] quota de chauffage
    [frequency] fréquence
    [restore] réinitialisation
    [layout_change] changement de configuration
    [layout_number] numéro de configuration
   *[other] { $effect }
}
way_position = { $on ->
    [yes] { $way } sur ON
   *[no] { $way } sur OFF
}
way_moved = { way_position } (changé)
blank_bank_described = { $ways ->
    [one] { $bank } avec { $ways } interrupteur, sans curseur. ON est imprimé au bord { on_edge }.
   *[other] { $bank } avec { $ways } interrupteurs, sans curseurs. ON est imprimé au bord { on_edge }.
}
selector_title = Sélecteur { $selector }
selector_described = { $moved ->
    [yes] Sélecteur { $selector } sur { $position } (changé).
   *[no] Sélecteur { $selector } sur { $position }.
} Ses positions, dans le sens horaire depuis le haut : { $positions }.
switches_title = Interrupteurs
switches_described = { $bank } : { $positions }.

## The questions that find the layout.

questions_title = Questions pour trouver la configuration
questions_title_numbered = Questions pour trouver la configuration, { $number } sur { $count }
questions_start = Commencez ici. Un numéro dans un cadre épais est le numéro de configuration.
questions_start_switches = Commencez ici. Un numéro dans un cadre épais est le numéro de configuration. { $count ->
        [one] Réglez l’interrupteur { $ways } de { $bank } comme l’indique le tableau.
       *[other] Réglez les interrupteurs { $ways } de { $bank } comme l’indique le tableau.
    }
questions_start_selector = Commencez ici. Un numéro dans un cadre épais est le numéro de configuration. Tournez le sélecteur { $selector } comme l’indique le tableau.
questions_go_on = { $part } continue ici
question_about = { DEVICE($device) } ?
speeds_fitted = { $speeds ->
    [none] pas d’appareil
    [two] deux vitesses
   *[one] une vitesse
}
question_answered = { DEVICE($device) } ({ speeds_fitted })
layout_unasked = Configuration { $layout }.
layout_after = Configuration { $layout } : { $answers }.
part_after = Continuez à { $part } : { $answers }.

## Sockets.

sockets_title = Embases vues de face
sockets_title_numbered = Embases vues de face, { $number } sur { $count }
sockets_view = Chaque embase est vue de face, telle qu’elle est montée. La face d’une fiche débranchée est l’image en miroir.
pin_name = { $pin ->
    [ground] terre
    [common] commun
    [low] petite vit.
    [high] grande vit.
    [positive] positif
    [negative] négatif
    [signal] signal
   *[screen] blindage
}
pin_and_letters = { pin_name } { wire_letters }
pin_and_colour = { pin_name } ({ wire_colour })
cavity_empty = vide
key_mark = ergot
live_mark = sous tension
can_be_live_mark = peut être sous tension
live_line_mark = sous tension, { $line }
socket_reading = Ergot { key_where }. À lire { from_where }.
socket_reading_without_key = Pas d’ergot. À lire { from_where }.
whole_socket = { $two_speeds ->
    [yes] deux vitesses
   *[no] toutes les broches
}
one_speed_cord = une vitesse
header_on_plan = { $header } sur le plan de la platine
socket_described = { $header }, { $title } : { $reading } Broches ({ $pins }).
common_is_live = Le commun est sous tension.
common_can_be_live = Le commun peut être sous tension.
common_is_live_on = Le commun est sous tension : { $line }.
one_speed_cord_described = Fiche d’un appareil à une vitesse ({ $pins }).

## Steps of a work card.

lock_off_title = Cadenassez, étiquetez et vérifiez l’absence de tension
lock_off_described = Un disjoncteur sur OFF, un cadenas dessus, une étiquette et un instrument de mesure qui indique 0{"\u00A0"}V.
off_mark = OFF
tag_mark = ÉTIQU.
connections_title = Fils d’alimentation, fil de terre en premier
first_mark = premier
jumper_moves_title = Cavaliers à déplacer
jumper_moves_told = Cavalier { $jumper } du groupe { $from } au groupe { $to }.
link_moves_title = Barrettes à déplacer
link_moves_told = Barrette { $link } de { $from } à { $to }.
seen_from_front = vue de face
cord_described = { $speeds ->
    [two] { $header } : { DEVICE($device) }, deux vitesses, { $volts }.
   *[other] { $header } : { DEVICE($device) }, { $volts }.
}
cord_pins_described = Broches { from_where } ({ $pins }).

## Exercises.

drawn_socket_title = Embase { $header }, remplie
drawn_socket_described = { $read_from ->
    [left] Depuis la gauche ({ $pins }).
   *[top] Depuis le haut ({ $pins }).
}
blank_socket_title = Embase { $header }, à remplir
blank_socket_described = { $cavities ->
    [one] { $cavities } alvéole à nommer { from_where }.
   *[other] { $cavities } alvéoles à nommer { from_where }.
}
turns_title = Une liste de broches, tournée
turn_as_listed = comme dans la liste
turn_turned = tournée
turn_key = ergot { key_where }
turn_described = Ergot { key_where } : { from_where }, places { $places }.

## The board plan.

board_plan_of = { $board } : plan de la platine
board_set_up = { $board } : platine réglée
board_plan_described = Plan de { $board } vu de face, à l’échelle : { $counts }. Les tableaux disent la même chose en mots.
parts_counted = { $count ->
    [one] { $count } carte électronique
   *[other] { $count } cartes électroniques
}
headers_counted = { $count ->
    [one] { $count } embase
   *[other] { $count } embases
}
groups_counted = { $count ->
    [one] { $count } groupe de tension
   *[other] { $count } groupes de tension
}
jumpers_counted = { $count ->
    [one] { $count }{"\u00A0"}cavalier
   *[other] { $count }{"\u00A0"}cavaliers
}
switches_counted = { $count ->
    [one] { $count }{"\u00A0"}interrupteur
   *[other] { $count }{"\u00A0"}interrupteurs
}
fuses_counted = { $count ->
    [one] { $count } fusible
   *[other] { $count } fusibles
}
banks_counted = { $count ->
    [one] { $count } bloc d’interrupteurs
   *[other] { $count } blocs d’interrupteurs
}
board_set_up_described = { $board } vue de face, à l’échelle, avec les réglages de ce chantier.
header_takes = { $header } : { DEVICE($device) }.
header_stays_empty = { $header } : laissez vide.
jumper_stands = { $moved ->
    [yes] Cavalier { $jumper } sur le groupe { $group }, déplacé.
   *[no] Cavalier { $jumper } sur le groupe { $group }.
}
see_socket = { $header } { $title } : voir ses broches
jumper_may_go = Autres groupes possibles : { $groups }.
leave_empty = laissez vide
no_voltage = n’alimente rien
moved_mark = déplacé

# A code and what it is about, on one line of a drawing.
group_named = groupe { $group }

# The word that is printed on the bank itself: a language leaves it as it is.
on_mark = ON
legend_title = Lecture du plan
legend_group = sur le groupe { $group }
legend_may_go = groupes possibles pour le cavalier
legend_tag = la languette du cavalier { $jumper }
legend_shipped = position d’usine
legend_moved = différent de la position d’usine
legend_flags_alone = Sans trait, le drapeau près du cavalier indique son groupe.
legend_part_of_board = Ceci est une partie de la platine. D’autres images montrent le reste.
legend_key = côté de l’ergot d’une embase
legend_on = côté ON d’un bloc d’interrupteurs
