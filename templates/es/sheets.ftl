### Short texts of wiring sheets, lid inserts, forms and the list of sheets.

## Names that several sheets use.

# A circuit board that has no title: by its name.
part_named = circuito impreso { $name }
layout_range = { $first }–{ $last }
serves_layouts = { $several ->
        [yes] configuraciones { $layouts }
       *[no] configuración { $layouts }
    }
all_layouts = todas

# An edge.
side_name = { $side ->
        [up] borde superior
        [right] borde derecho
        [down] borde inferior
       *[left] borde izquierdo
    }

# The foot of every page. The mark is eight letters and digits.
foot_and_mark = { $foot } · Marca { $mark }

# Under the title, in the language and in English, while `checked_by` in language.ftl is `no`.
words_unchecked = Ninguna persona del oficio ha revisado las palabras de este idioma. Si esta hoja y la hoja en inglés no coinciden, vale la hoja en inglés.
# Debajo del título, donde la especificación no da palabras en el idioma de la hoja.
stand_in_words = † Estas palabras están en { $languages }. La especificación no las da en el idioma de esta hoja.
# El nombre de un idioma después de «en».
language_name = { $tag ->
    [en] inglés
    [de] alemán
    [es] español
    [fr] francés
   *[other] otro idioma ({ $tag })
}

## Signal words of ANSI Z535; in other languages as ISO 3864-2 has them.
signal_danger = PELIGRO
signal_warning = ADVERTENCIA
signal_caution = PRECAUCIÓN
signal_notice = AVISO

## Supplies.
conductor_and_name = { $letters }, { $name }
split_phase = { $volts } V, fase dividida
wye = { $volts } V, estrella
single_phase = { $volts } V, monofásica

## Switches.
copper_wire = { $size } de cobre
aluminum_wire = { $size } de aluminio
heater_counts = La carga cuenta el calentador con { $nameplate }, la corriente de su placa de características. Con esta alimentación toma { $drawn }.
wire_suits_terminals = Esta sección sirve para un interruptor automático de { $breaker } con bornes de { $celsius }{"\u00A0"}°C. El aire está a 30{"\u00A0"}°C como máximo y no hay otro circuito al lado.
wire_suits_method = Esta sección sirve para un interruptor automático de { $breaker }: método { $method }, aislamiento de { $insulation }, { $loaded } conductores cargados. El aire está a 30{"\u00A0"}°C como máximo y no hay otro circuito al lado.
wire_suits_stated = Esta sección sirve para un interruptor automático de { $breaker }. Su capacidad se indicó para este trabajo.
wire_needs_75 = Esta sección sirve para un interruptor automático de { $breaker } solo si los bornes de ambos extremos llevan la marca 75{"\u00A0"}°C.
wire_unjudged = Aquí no se evaluó la sección para este interruptor automático.
allowance_is = Cupo con calentador: { $number }.
layout_is = Configuración { $number }.
layout_set = { $number } ({ $how })
selector_at = { $selector } en { $position }
switches_at = { $bank }: { $ways }

## The intake form.
form_pump = con jets
form_circulation = sin jets, una velocidad

## The work card and the lid insert.
links_counted = { $count ->
        [one] { $count } pletina
       *[other] { $count } pletinas
    }
measured_between = { $one }{"\u00A0"}a{"\u00A0"}{ $other }
nameplate_says = { $speeds ->
        [two] dos velocidades, { $volts }, { $load }
        [one] una velocidad, { $volts }, { $load }
       *[none] { $volts }, { $load }
    }
load_high_and_low = { $high } a velocidad alta, { $low } a velocidad baja
pump_by_load = { $speeds ->
        [two] La bomba con dos velocidades y { $load } en su placa de características es { DEVICE($device, form: "the") }.
       *[one] La bomba con una velocidad y { $load } en su placa de características es { DEVICE($device, form: "the") }.
    }
pump_by_nameplate = La bomba con esta placa de características es { DEVICE($device, form: "the") }: { $plate }.
pump_alike = { $any ->
        [yes] Estas bombas tienen placas de características iguales: { DEVICE($all, form: "the") }. Cualquiera de ellas puede ser { DEVICE($device, form: "the") }.
       *[no] Estas bombas tienen placas de características iguales: { DEVICE($all, form: "the") }. Averigüe cuál es { DEVICE($device, form: "the") }.
    }
set_way = { $way }{"\u00A0"}{ $on ->
        [yes] ON
       *[no] OFF
    }

## Warnings of a plan.
warn_heater_weak = El calentador recibe { $volts }; su placa de características indica { $plate }. Da { $watts } en lugar de { $full }. El agua se calienta más despacio.
warn_voltage_edge = La tensión está cerca del límite para { DEVICE($device, form: "the") }. El aparato recibe { $volts }. La alimentación puede llevarla hasta { $end }. La placa de características permite de { $low } a { $high }. Mida la tensión con carga (solo una persona capacitada).
warn_odd_breaker = Un interruptor automático de { $breaker } no es de un valor normalizado. Lea el valor en el interruptor automático.
warn_wire_needs_75 = { $any ->
    [yes] Los conductores de alimentación ({ $wire }) tienen sección suficiente solo si los bornes de ambos extremos llevan la marca 75{"\u00A0"}°C. Lea las marcas en el interruptor automático y en la caja de control. Si falta una marca, se necesita { $size }.
   *[no] Los conductores de alimentación ({ $wire }) tienen sección suficiente solo si los bornes de ambos extremos llevan la marca 75{"\u00A0"}°C. Lea las marcas en el interruptor automático y en la caja de control.
}
warn_capacity_above_tables = La capacidad indicada de los conductores de alimentación es { $stated }. Ninguna tabla da más de { $most } para esta sección. Un electricista autorizado debe confirmar el valor.
warn_mark_below_load = { $largest_breaker ->
    [yes] El equipo toma { $amps } en { $line }. La placa de características permite un interruptor automático de { $marked } como máximo. La placa puede ser de un equipo anterior. Entonces están en marcha estos aparatos: { DEVICE($devices) }.
   *[no] El equipo toma { $amps } en { $line }. La capacidad mínima del circuito en la placa de características es { $marked }. La placa puede ser de un equipo anterior. Entonces están en marcha estos aparatos: { DEVICE($devices) }.
}
warn_run_drop = El cable de alimentación pierde hasta { $drop }, es decir, { $percent } de la tensión; un límite habitual es { $limit }.
warn_factor_unknown = { $any ->
        [yes] No se conoce el factor de potencia de un aparato. La corriente puede entonces llegar a { $currents }.
       *[no] No se conoce el factor de potencia de un aparato.
    }
warn_neutral_unseen = La corriente en N puede superar el valor del interruptor automático, { $breaker }. El interruptor automático no mide N.
warn_breaker_lag = La carga del interruptor automático puede ser de { $amps }. El interruptor automático es de { $breaker }. Puede dispararse.
warn_board_lag = La corriente en { $conductor } puede ser de { $amps }. La tarjeta de control no lo permite.

conductor_amps = { $conductor }{"\u00A0"}{ $amps }
fuses_listed = { $kind }: { $codes }
element_at = { $watts } a { $volts }
why_breaker = El cupo { $next } necesita un interruptor automático de { $amps } o más.
why_wire = Con el cupo { $next }, la carga de los conductores de alimentación es de { $amps }. Los conductores no lo permiten.
why_board = Con el cupo { $next }, un conductor de alimentación lleva { $amps }. La tarjeta de control no lo permite.
# Where the allowance is a current.
allowance_amps = Con el calentador en marcha, la tarjeta de control limita la suma de todas las corrientes a { $amps }. Con el calentador y su bomba en marcha, quedan { $remains }. Por encima, el calentador espera.
allowance_amps_all = Con el calentador en marcha, la tarjeta de control limita la suma de todas las corrientes a { $amps }. Todos los aparatos instalados juntos no la superan.
further_plug = Este aparato tiene más de una clavija: { DEVICE($device, form: "the") }. Conéctelas todas: { $headers }.
cord_of = Este cordón adicional { DEVICE($device, form: "del") } tiene su propia clavija: { DEVICE($cord) }. Conecte ambos cordones.
runs_with = Siempre que funciona { DEVICE($leader, form: "the") }, funciona también { DEVICE($device, form: "the") }.
allowance_amps_waits = Con el calentador en marcha, la tarjeta de control limita la suma de todas las corrientes a { $amps }. El calentador espera mientras estos funcionan juntos: { $sets }.
allowance_none = { $count ->
        [1] Con el calentador en marcha no puede funcionar a velocidad alta { DEVICE($devices, form: "the") }.
       *[other] Con el calentador en marcha, ninguno de estos aparatos puede funcionar a velocidad alta: { DEVICE($devices, form: "the") }.
    }
allowance_all = { $count ->
        [1] Con el calentador en marcha, también puede funcionar a velocidad alta { DEVICE($devices, form: "the") }.
        [2] Con el calentador en marcha, estos dos aparatos pueden funcionar a velocidad alta: { DEVICE($devices, form: "the") }.
       *[other] Con el calentador en marcha, todos estos aparatos pueden funcionar a velocidad alta: { DEVICE($devices, form: "the") }.
    }
allowance_some = Con el calentador en marcha, { $allowed ->
        [1] solo uno de estos aparatos puede
        [2] solo dos de estos aparatos pueden
        [3] solo tres de estos aparatos pueden
        [4] solo cuatro de estos aparatos pueden
        [5] solo cinco de estos aparatos pueden
        [6] solo seis de estos aparatos pueden
        [7] solo siete de estos aparatos pueden
        [8] solo ocho de estos aparatos pueden
        [9] solo nueve de estos aparatos pueden
       *[other] solo { $allowed } de estos aparatos pueden
    } funcionar a velocidad alta: { DEVICE($devices, form: "the") }.

## The wiring sheets.

# Stands for the number in the steps of a panel.
any_layout_number = el número de configuración

## The list of sheets.
index_title = Hojas de cableado, hojas de trabajo y hojas de la tapa
index_job = trabajo { $job }
index_sheets_of = Hojas de cableado de { $of }
index_form_of = Formulario de toma de datos de { $of }
index_work_card_of = Hoja de trabajo de { $of }
index_insert_of = Hoja de la tapa de { $of }
index_finder_of = Búsqueda de averías de { $of }
index_handout_of = Cuaderno del curso de { $of }
index_answers_of = Respuestas del curso de { $of }
index_cards_of = Fichas del curso de { $of }
index_plan_of = Plano de la tarjeta de { $of }
index_drawing_of = Dibujo { $drawing } de { $of }
index_drawings_of = Dibujos de { $of }
index_pdf = { $pages ->
    [0] { $what }, PDF
    [one] { $what }, PDF, { $pages } página
   *[other] { $what }, PDF, { $pages } páginas
}
index_svg = { $what }, SVG
index_skip = Ir a las hojas
index_empty = Todavía no hay hojas.
index_boards = Tarjetas de control
index_jobs = Trabajos
index_others = Otras carpetas
index_board = Tarjeta de control
index_plan = Plano
index_maker = Fabricante
index_part = Número de pieza
index_revision_head = Revisión
index_mark = Marca
index_in_language = { $what }, { $language }
index_revision = { $revision }, { $date }
index_files = Hojas
index_job_head = Trabajo
index_place = Lugar
index_layout = Configuración
index_supply = Alimentación
index_folder = Carpeta
index_unknown = –
index_refused = { $sheets ->
    [yes] { $errors ->
        [one] Rechazado: { $errors } error. Estas hojas son de una creación anterior.
       *[other] Rechazado: { $errors } errores. Estas hojas son de una creación anterior.
    }
   *[no] { $errors ->
        [one] Rechazado: { $errors } error. No se crearon hojas.
       *[other] Rechazado: { $errors } errores. No se crearon hojas.
    }
}
index_earlier = De una creación anterior

# The change sheet.
width_by_height = { $width } por { $height }
place_on_plan = { $x } desde la izquierda, { $y } desde arriba
