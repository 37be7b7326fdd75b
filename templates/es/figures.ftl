### Words in figures, and their descriptions for people who cannot see them.
### Letters of conductors, codes and the mark ON on a switch bank are printed on the things
### themselves; no language changes them.

## Where things are. Other phrases of this file put these in.

from_where = { $read_from ->
    [left] desde la izquierda
   *[top] desde arriba
}
key_where = { $key ->
    [up] arriba
    [right] a la derecha
    [left] a la izquierda
   *[down] abajo
}
on_edge = { $on_side ->
    [up] superior
    [right] derecho
    [left] izquierdo
   *[down] inferior
}

## What lands on which terminal.

terminals_heading = Bornes, { from_where }
voltages_heading = Tensión entre conductores
supply_described = { $supply }. La imagen muestra los bornes { from_where }. { $terminals }
terminal_takes = Conecte { $conductor } a { $terminal }.
terminal_takes_nothing = No conecte nada a { $terminal }.
link_moves = { $link }: mueva de { $from } a { $to }.
link_stays = { $link }: deje en { $terminal }.
step_and_words = { $step } { $words }
voltage_between = { $from } a { $to }: { $volts }.
connect_in_order = Conecte los conductores en el orden de los números: primero el conductor de tierra (PE).
connect_and_link_in_order = Siga el orden de los números: primero el conductor de tierra (PE), luego los demás conductores y después las pletinas.
conductor_name = { $conductor ->
    [L1] línea 1
    [L2] línea 2
    [L3] línea 3
    [N] neutro
    [PE] conductor de tierra
   *[L] línea
}
nothing_lands = no conectar nada
terminal_marked = marcado { colour_and_letters }
colour_and_letters = { wire_colour } ({ $colour })

# By the letters of IEC 60757.
wire_colour = { $colour ->
    [BK] negro
    [BN] marrón
    [RD] rojo
    [OG] naranja
    [YE] amarillo
    [GN] verde
    [BU] azul
    [VT] violeta
    [GY] gris
    [WH] blanco
    [PK] rosa
    [GD] dorado
    [TQ] turquesa
    [SR] plateado
    [GNYE] verde y amarillo
    [bare] desnudo
   *[other] { $colour }
}
wire_letters = { $colour ->
    [bare] desnudo
   *[other] { $colour }
}
wire_colour_in_key = { $colour ->
    [bare] sin aislamiento
   *[other] { wire_colour }
}
group_gives = { $group } { $volts }
groups_give = Grupos: { $groups }.
groups_not_available = { $count ->
    [one] El grupo { $groups } no alimenta ningún aparato con esta alimentación. Sus lengüetas pueden tener tensión.
   *[other] Los grupos { $groups } no alimentan ningún aparato con esta alimentación. Sus lengüetas pueden tener tensión.
}

## Switch banks.

switch_bank_title = Bloque de microinterruptores { $bank }
switch_bank_title_numbered = Bloque de microinterruptores { $bank }, { $number } de { $count }
switch_bank_described = Bloque de microinterruptores { $bank }. ON está impreso en el borde { on_edge }. De fábrica: { $positions }.
switch_bank_shipped = Posición de fábrica. ON está en el borde { on_edge }. El deslizador negro muestra la posición. Un deslizador rayado no tiene función.
switches_named = { $ways ->
    [one] Microinterruptor { $label }
   *[other] Microinterruptores { $label }
}
switches_and_effect = { switches_named }: { effect_name }
switches_not_used = { switches_named }: sin uso
allowance_alone = { $allowance }
layout_meant = configuración { $layout }
no_layout_meant = ninguna configuración
setting_described = { $shipped ->
    [yes] { $positions }: { $meaning }, de fábrica.
   *[no] { $positions }: { $meaning }.
}

# What a specification writes in its own words comes as it is.
effect_name = { $effect ->
    [heater_allowance] cupo con calentador
    [frequency] frecuencia
    [restore] restablecimiento
    [layout_change] cambio de configuración
    [layout_number] número de configuración
   *[other] { $effect }
}
way_position = { $on ->
    [yes] { $way } en ON
   *[no] { $way } en OFF
}
way_moved = { way_position } (cambiado)
blank_bank_described = { $ways ->
    [one] { $bank } con { $ways } microinterruptor, sin deslizador. ON está impreso en el borde { on_edge }.
   *[other] { $bank } con { $ways } microinterruptores, sin deslizadores. ON está impreso en el borde { on_edge }.
}
selector_title = Selector { $selector }
selector_described = { $moved ->
    [yes] Selector { $selector } en { $position } (cambiado).
   *[no] Selector { $selector } en { $position }.
} Sus posiciones, en sentido horario desde arriba: { $positions }.
switches_title = Microinterruptores
switches_described = { $bank }: { $positions }.

## The questions that find the layout.

questions_title = Preguntas para encontrar la configuración
questions_title_numbered = Preguntas para encontrar la configuración, { $number } de { $count }
questions_start = Empiece aquí. Un número en un marco grueso es el número de configuración.
questions_start_switches = Empiece aquí. Un número en un marco grueso es el número de configuración. { $count ->
        [one] Ponga el microinterruptor { $ways } de { $bank } como indica la tabla.
       *[other] Ponga los microinterruptores { $ways } de { $bank } como indica la tabla.
    }
questions_start_selector = Empiece aquí. Un número en un marco grueso es el número de configuración. Gire el selector { $selector } como indica la tabla.
questions_go_on = { $part } sigue aquí
question_about = ¿{ DEVICE($device) }?
speeds_fitted = { $speeds ->
    [none] no instalado
    [two] dos velocidades
   *[one] una velocidad
}
question_answered = { DEVICE($device) } ({ speeds_fitted })
layout_unasked = Configuración { $layout }.
layout_after = Configuración { $layout }: { $answers }.
part_after = Siga en { $part }: { $answers }.

## Sockets.

sockets_title = Conectores vistos de frente
sockets_title_numbered = Conectores vistos de frente, { $number } de { $count }
sockets_view = Cada conector se ve de frente, tal como está montado. La cara de una clavija suelta es la imagen reflejada.
pin_name = { $pin ->
    [ground] tierra
    [common] común
    [low] baja
    [high] alta
    [positive] positivo
    [negative] negativo
    [signal] señal
   *[screen] pantalla
}
pin_and_letters = { pin_name } { wire_letters }
pin_and_colour = { pin_name } ({ wire_colour })
cavity_empty = vacía
key_mark = guía
live_mark = con tensión
can_be_live_mark = puede tener tensión
live_line_mark = con tensión, { $line }
socket_reading = Guía { key_where }. Lea { from_where }.
socket_reading_without_key = Sin guía. Lea { from_where }.
whole_socket = { $two_speeds ->
    [yes] dos velocidades
   *[no] todos los pines
}
one_speed_cord = una velocidad
header_on_plan = { $header } en el plano de la tarjeta
socket_described = { $header }, { $title }: { $reading } { $pins }.
common_is_live = El pin común tiene tensión.
common_can_be_live = El pin común puede tener tensión.
common_is_live_on = El pin común tiene tensión: { $line }.
one_speed_cord_described = Clavija de un aparato de una velocidad: { $pins }.

## Steps of a work card.

lock_off_title = Bloquee en OFF, etiquete y compruebe
lock_off_described = Un interruptor automático en OFF con un candado, una etiqueta y un medidor que indica 0{"\u00A0"}V.
off_mark = OFF
tag_mark = ETIQ.
connections_title = Conductores de alimentación, primero el de tierra
first_mark = primero
jumper_moves_title = Puentes que se mueven
jumper_moves_told = Puente { $jumper } del grupo { $from } al grupo { $to }.
link_moves_title = Pletinas que se mueven
link_moves_told = Pletina { $link } de { $from } a { $to }.
seen_from_front = visto de frente
cord_described = { $speeds ->
    [two] { $header }: { DEVICE($device) }, dos velocidades, { $volts }.
   *[other] { $header }: { DEVICE($device) }, { $volts }.
}
cord_pins_described = Pines { from_where }: { $pins }.

## Exercises.

drawn_socket_title = Conector { $header }, rellenado
drawn_socket_described = { $read_from ->
    [left] Desde la izquierda: { $pins }.
   *[top] Desde arriba: { $pins }.
}
blank_socket_title = Conector { $header }, sin rellenar
blank_socket_described = { $cavities ->
    [one] { $cavities } cavidad por nombrar { from_where }.
   *[other] { $cavities } cavidades por nombrar { from_where }.
}
turns_title = Una lista de pines, girada
turn_as_listed = como en la lista
turn_turned = girada
turn_key = guía { key_where }
turn_described = Guía { key_where }: { from_where }, lugares { $places }.

## The board plan.

board_plan_of = { $board }: plano de la tarjeta
board_set_up = { $board }: tarjeta ajustada
board_plan_described = Plano de { $board } visto de frente, a escala: { $counts }. Las tablas dicen lo mismo con palabras.
parts_counted = { $count ->
    [one] { $count } circuito impreso
   *[other] { $count } circuitos impresos
}
headers_counted = { $count ->
    [one] { $count } conector
   *[other] { $count } conectores
}
groups_counted = { $count ->
    [one] { $count } grupo de tensión
   *[other] { $count } grupos de tensión
}
jumpers_counted = { $count ->
    [one] { $count } puente
   *[other] { $count } puentes
}
switches_counted = { $count ->
    [one] { $count } microinterruptor
   *[other] { $count } microinterruptores
}
fuses_counted = { $count ->
    [one] { $count } fusible
   *[other] { $count } fusibles
}
banks_counted = { $count ->
    [one] { $count } bloque de microinterruptores
   *[other] { $count } bloques de microinterruptores
}
board_set_up_described = { $board } de frente, a escala, con los ajustes de este trabajo.
header_takes = { $header }: { DEVICE($device) }.
header_stays_empty = { $header }: deje vacío.
jumper_stands = { $moved ->
    [yes] Puente { $jumper } en el grupo { $group }, movido.
   *[no] Puente { $jumper } en el grupo { $group }.
}
see_socket = { $header } { $title }: ver sus pines
jumper_may_go = Puede ir a { $groups }.
leave_empty = deje vacío
no_voltage = no alimenta nada
moved_mark = movido

# A code and what it is about, on one line of a drawing.
group_named = grupo { $group }

# The word that is printed on the bank itself: a language leaves it as it is.
on_mark = ON
legend_title = Cómo leer el plano
legend_group = en el grupo { $group }
legend_may_go = el puente puede ir a estos grupos
legend_tag = lengüeta donde está { $jumper }
legend_shipped = de fábrica
legend_moved = distinto de la posición de fábrica
legend_flags_alone = Donde no hay línea, la bandera del puente dice su grupo.
legend_part_of_board = Esto es una parte de la tarjeta. Otras imágenes muestran el resto.
legend_key = lado de la guía de un conector
legend_on = lado ON de un bloque de microinterruptores
