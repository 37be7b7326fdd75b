### Mistakes, what is noticed of them, and what to check.

## Mistakes: a clause that begins small and has no full stop.
layout_number_is = el número de configuración es { $number }
selector_is_at = el selector { $selector } está en { $position }
jumper_is_on = { $jumper } está en el grupo { $group }
jumpers_swapped = { $first } y { $second } están intercambiados
plug_is_in = la clavija { DEVICE($device, form: "del") } está en { $header }
plugs_swapped = la clavija { DEVICE($first, form: "del") } está en { $first_in } y la { DEVICE($second, form: "del") } en { $second_in }
way_is = el microinterruptor { $way } de { $bank } está en { $on ->
        [yes] ON
       *[no] OFF
    }
ways_as_shipped = { $count ->
        [one] el microinterruptor { $ways } de { $bank } está como de fábrica
       *[other] los microinterruptores { $ways } de { $bank } están como de fábrica
    }
house_gives = la alimentación recibida es { $supply }
lines_are_one = { $line } y { $taken } vienen de una misma línea del tablero eléctrico
neutral_is_past = el neutro (N) está en una barra de neutro, no en la protección diferencial
neutral_is_grounded = el neutro (N) toca la tierra (PE) después de la protección diferencial

# A wire that has no letters.
a_wire = el conductor

# In place of a wire.
no_wire = nada

# A supply conductor with its word, where letters alone say too little.
wire_name = { $conductor ->
        [N] el neutro (N)
        [PE] la tierra (PE)
       *[other] { $conductor }
    }
wire_not_landed = falta la conexión a { $terminal }: { $wire }
wire_is_on = { $wire } está en { $terminal }
link_is_on = { $link } está en { $terminal }
cord_is_right = la clavija { DEVICE($device, form: "del") } está correcta en { $header }
wires_changed_ends = los conductores { DEVICE($device, form: "del") } están en orden inverso en { $header }
cord_is_turned = la clavija { DEVICE($device, form: "del") } está puesta al revés en { $header }
cord_has_no_gap = falta la cavidad vacía en la clavija { DEVICE($device, form: "del") } en { $header }: los conductores están en cavidades equivocadas
wires_as_before = en la clavija { DEVICE($device, form: "del") } en { $header }, los conductores están en sus cavidades anteriores
plug_is_out = la clavija { DEVICE($device, form: "del") } no está en { $header }
plug_is_off = la clavija { DEVICE($device, form: "del") } está desplazada un pin hacia { $side ->
        [up] arriba
        [right] la derecha
        [down] abajo
       *[left] la izquierda
    } en { $header }

## What is noticed: clauses.
spare_button = el panel muestra un aparato que no está instalado: { DEVICE($device, form: "the") }

# The board itself runs what is not fitted.
spare_call = la configuración incluye un aparato que no está instalado: { DEVICE($device, form: "the") }
metal_is_live = el metal { DEVICE($device, form: "del") } tiene tensión
button_runs = el botón { DEVICE($role, form: "del") } pone en marcha { DEVICE($device, form: "the") }

# A device with what it does: one of the phrases `does_…`.
device_does = { DEVICE($device, form: "the") } { $does }
all_metal_is_live = el metal de todo el equipo tiene tensión
nothing_is_grounded = nada está conectado a tierra
metal_on_neutral = el neutro toca la tierra: si el neutro se abre, todo el metal tiene tensión
board_burns = el circuito impreso se quema (tensión demasiado alta)
panel_is_dead = el panel no muestra nada

# The same of a board without a panel.
board_is_dead = nada funciona
panel_is_weak = el panel puede no mostrar nada

# The same of a board without a panel.
board_is_weak = la tarjeta de control puede no arrancar
ground_fault_at_once = la protección diferencial se dispara de inmediato
ground_fault_with_heat = la protección diferencial se dispara cuando se enciende el calentador
ground_fault_with_device = la protección diferencial se dispara cuando se enciende otro aparato
ground_fault_trips = la protección diferencial se dispara
overloaded = la corriente en los conductores de alimentación es demasiado alta y nada se dispara
header_is_hot = { $header } se sobrecalienta: su corriente supera su límite
breaker_trips_at_once = el interruptor automático se dispara de inmediato
breaker_trips = el interruptor automático se dispara cuando funcionan varios aparatos a la vez
breaker_trips_later = el interruptor automático se dispara después de un rato
fuse_may_blow = el fusible { $fuse } puede fundirse después de un rato
fuse_blows = el fusible { $fuse } se funde
ways_mean_otherwise = { $count ->
        [one] el microinterruptor { $ways } de { $bank } está en la posición equivocada
       *[other] los microinterruptores { $ways } de { $bank } están en posiciones equivocadas
    }
bank_means_otherwise = { $bank } está en la posición equivocada

## What a device does: the end of a sentence that begins with the device.
## No form here agrees with the gender of the device.
does_live_metal = tiene metal con tensión
does_no_ground = no tiene conexión a tierra
does_stay_live = no está en marcha, pero todos sus conductores tienen tensión
does_burn_out = se quema (tensión superior a la de la placa de características)
does_hum = zumba, se sobrecalienta o tiene poca fuerza
does_work_weakly = funciona con poca fuerza o no funciona
does_never_stop = no se puede apagar
does_nothing = no hace nada
does_high_only_or_second_press = funciona solo a velocidad alta, o arranca solo a la segunda pulsación de su botón
does_high_only = funciona solo a velocidad alta
does_second_press = arranca solo a la segunda pulsación de su botón

# A device without a button: the board commands it.
does_high_only_or_on_command = funciona solo a velocidad alta, o arranca solo cuando la tarjeta de control ordena velocidad alta
does_on_command = arranca solo cuando la tarjeta de control ordena velocidad alta
does_low_only = funciona solo a velocidad baja
does_swap_speeds = funciona con las velocidades alta y baja invertidas
does_run_on_button = arranca al pulsar el botón { DEVICE($role, form: "del") }
does_run_on_another_button = arranca al pulsar otro botón
does_run_in_place = funciona en lugar { DEVICE($role, form: "del") }
does_never_come_on = no se enciende nunca
does_heat_slowly = calienta despacio
does_go_off = se apaga mientras funcionan bombas o sopladores a velocidad alta
does_wait = espera mientras funcionan otros aparatos
does_lack = no forma parte del equipo instalado

## The same with the numbers of a case. `$what` is one of the clauses above.
unless_it_trips = { $what }: { $volts }, salvo que se dispare la protección diferencial
if_bonded = { $what }, si el metal tiene unión equipotencial
at_once = de inmediato
with_volts_to_ground = { $what }: { $volts } a tierra
and_nothing_runs = { $what }, y nada funciona
with_volts = { $what }: { $volts }
burns_out_on = { DEVICE($device, form: "the") } recibe { $swings ->
        [yes] hasta { $volts }
       *[no] { $volts }
    } en lugar de { $plate } y se quema
on_changing_volts = { $what }, con una tensión que cambia según lo que esté en marcha
on_wrong_volts = { $what }, con { $volts } en lugar de { $plate }
both_speeds_at_once = { $what }: ambas velocidades a la vez
even_while_off = incluso con { DEVICE($device, form: "the") } en reposo
when_put_on_low = al poner { DEVICE($device, form: "the") } a velocidad baja
when_put_on_high = al poner { DEVICE($device, form: "the") } a velocidad alta
when_turned_on = al encender { DEVICE($device, form: "the") }
trips_when = { $what } { $when }
device_on_low = { DEVICE($device, form: "the") } a velocidad baja
device_on_high = { DEVICE($device, form: "the") } a velocidad alta
when_one_runs = cuando funciona { $what }
when_all_run = cuando funcionan juntos { $all }
overload_of_wire = la corriente en { $conductor } es de { $amps } { $when }; el límite de los conductores es { $allowed } y nada se dispara
overload_of_board = la corriente en { $conductor } es de { $amps } { $when }; el límite de la tarjeta de control es { $allowed }
breaker_trips_on = el interruptor automático de { $breaker } se dispara { $when }: { $amps } en { $conductor }
breaker_may_trip_on = el interruptor automático de { $breaker } puede dispararse después de un rato { $when }: { $amps } en { $conductor }
header_carries = { $header } se sobrecalienta: { $amps }, límite { $allowed }
fuse_carries = { $what }: { $amps }, valor del fusible { $allowed }
high_only = { DEVICE($device, form: "the") } funciona solo a velocidad alta
second_press_only = { DEVICE($device, form: "the") } arranca solo a la segunda pulsación de su botón
on_command_only = { DEVICE($device, form: "the") } arranca solo cuando la tarjeta de control ordena velocidad alta
watts_in_place_of = { $what }: { $watts } en lugar de { $full }
heater_goes_off = { $most ->
        [0] el calentador se apaga cuando funciona cualquier bomba o soplador a velocidad alta
        [1] el calentador se apaga cuando funciona más de una bomba o soplador a velocidad alta
       *[other] el calentador se apaga cuando funcionan más de { $most } bombas y sopladores a velocidad alta
    }
heater_waits = el calentador espera cuando la suma de todas las corrientes superaría { $amps }
should_mean = { $what }; debe ser: “{ $meaning }”

## What to check, and what right looks like: clauses.
layout_number = número de configuración { $number }
jumper_on = { $jumper } en el grupo { $group }
jumper_on_volts = { $jumper } en el grupo { $group }, { $volts }
plug_of_in = clavija { DEVICE($device, form: "del") } en { $header }
cord_seen = { DEVICE($device, form: "the") } en { $header }: { $keyed ->
        [yes] guía con guía; { $pins }
       *[no] { $pins }
    }
neutral_path = el neutro en la protección diferencial, no en una barra de neutro
neutral_ground = ningún contacto del neutro con la tierra después de la protección diferencial
link_on = { $link } en { $terminal }
pins_from = desde { $from ->
        [top] arriba
       *[left] la izquierda
    }: { $pins }
bank_all_off = { $bank }: todos los microinterruptores en OFF
bank_all_on = { $bank }: todos los microinterruptores en ON
bank_some_on = { $bank }: { $count ->
        [one] microinterruptor { $ways }
       *[other] microinterruptores { $ways }
    } en ON, todos los demás en OFF
wire_on = { $wire } en { $terminal }

# One list after another.
semicolon = { $first }; { $rest }
ways_of = { $count ->
        [one] microinterruptor { $ways } de { $bank }
       *[other] microinterruptores { $ways } de { $bank }
    }
count_of_ways = { $count ->
        [one] microinterruptor { $ways }
       *[other] microinterruptores { $ways }
    }

## The fault finder: what to check. What is correct stands beside it.
check_layout = número de configuración
check_jumper = puente
check_jumper_by_nameplate = puente en la tensión de la placa de características
check_plug = clavija
check_plug_of = clavija { DEVICE($device, form: "del") }
check_cord = conductores en la clavija
check_cord_of = conductores en la clavija { DEVICE($device, form: "del") }
check_link = pletina
check_landing = conductores de alimentación
check_bank = bloque de microinterruptores
check_allowance = cupo con calentador
check_fuse = fusible, retirado: continuidad y marcado
check_voltage = tensión de alimentación
check_voltage_running = tensión mientras funciona

## The fault finder: what is correct.
layout_by_speeds = con dos velocidades: { $two }; con una velocidad: { $one }
layout_one_of = uno de { $layouts }
layout_of_equipment = el número para el equipo instalado
in_header = en { $header }
in_header_under = en { $header } (configuraciones { $layouts })
pins_by_speeds = { $pins }; con una velocidad: { $one }
correct_at = en { $places }: { $correct }
switches_as_planned = { $switches }, como está previsto para este spa
link_by_supply = { $link } en el borne para esta alimentación
landing_by_supply = { $terminals }: cada conductor en su propio borne

# Two terminals between which a meter reads.
terminal_pair = { $from } a { $to }
pairs_and_volts = { $pairs }: { $volts }
volts_under = { $volts } (alimentación: { $supplies })
volts_not_under = { $volts } (no con { $supplies })

# A device with `in_header`.
plug_place = { $device } { $place }

## The fault finder: where it is drawn.
see_plan = plano
see_supply = alimentación
see_voltages = tensiones
see_layouts = configuraciones
see_panel = panel
see_first_page = página 1
see_headers = conectores

## The fault finder: what to check even if all works.
all_layout_fits = El número de configuración corresponde al equipo instalado
all_layout_number = Número de configuración { $number }
all_jumpers = Cada puente está en el grupo con la tensión de la placa de características
all_plugs = Cada clavija está en su conector
all_plugs_in = Clavijas: { $places }
all_cords_drawn = Conductores en cada clavija: en el orden del conector
all_switches = Cada microinterruptor está como está previsto para este spa
all_links = Cada pletina está en su borne
all_landed = El conductor de tierra (PE) está en { $terminals }; cada uno de los demás, en su borne
all_neutral_path = El neutro está en la protección diferencial, no en una barra de neutro
all_neutral_ground = N desconectado en el interruptor automático, todas las clavijas fuera: sin lectura de N a PE
all_voltage = tensión de alimentación recibida { $expected }

## The fault finder: what is so otherwise, as sentences.
otherwise_all_live = Todo el metal tiene tensión.
otherwise_live = Hay metal con tensión: { $devices }.
otherwise_nothing_grounded = Nada está conectado a tierra.
otherwise_neutral_grounded = Todo el metal tiene tensión cuando el neutro se abre.
otherwise_no_ground = Hay metal sin conexión a tierra: { $devices }.
otherwise_no_ground_or_live = Hay metal sin conexión a tierra o con tensión: { $devices }.
otherwise_stays_live = Los conductores siguen con tensión en reposo: { $devices }.
otherwise_overload = La corriente en los conductores de alimentación es demasiado alta. { $burns ->
        [yes] Pueden quemarse.
       *[no] Se sobrecalientan.
    }
otherwise_header_hot = Sobrecalentamiento en { $headers }{ $burns ->
        [yes] . Puede quemarse.
       *[no] .
    }

## The fault finder: rows that gather several signs.
some_fuse_blows = Se funde un fusible: { $fuses }
spare_buttons = el panel muestra un aparato que no está instalado: { $devices }
spare_calls = la configuración incluye un aparato que no está instalado: { $devices }
spare_buttons_and_calls = hay un aparato que no está instalado: el panel muestra { $devices } o la configuración incluye { $called }
some_spare_button = el panel muestra un aparato que no está instalado
some_spare_call = la configuración incluye un aparato que no está instalado
one_of_these_holds = Una función no trabaja como se desea: { $meanings }
quoted = “{ $words }”
some_setting_holds = Una función no trabaja como se desea
devices_do = { $devices } { $does }

# The kind of a fuse by the letters of IEC 60127; other letters are printed as they are.
fuse_rating = { $rating } { $kind ->
        [FF] ultrarrápido
        [F] rápido
        [M] semitemporizado
        [T] temporizado
        [TT] muy temporizado
       *[other] { $kind }
    }
fuse_and_rating = { $fuse }, { $rating }

## The fault finder: symptoms that no mistake of wiring is simulated for.
symptom_tingles = El metal o el agua dan hormigueo: todos fuera del agua, alimentación cortada en el tablero eléctrico
symptom_burnt = Huele a quemado o una clavija está marrón: primero corte la alimentación
symptom_test = TEST no dispara la protección diferencial: no use el spa
symptom_several = Varios aparatos a la vez no hacen nada
symptom_no_water = Una bomba funciona pero no mueve agua
symptom_too_hot = El agua está más caliente que el ajuste: no entre en el agua
symptom_noise = Una bomba o la caja de control hace ruido
symptom_trips_at_random = La protección diferencial se dispara al azar
symptom_trips_when_wet = La protección diferencial se dispara después de lluvia o salpicaduras
symptom_breaker_with_heat = El interruptor automático se dispara cuando se enciende el calentador

## The fault finder: usual causes that no mistake of wiring makes, what to check and what is correct.
## All of it is common practice.
usual_as_set = ajustes en el panel
usual_as_set_correct = como se desea; el tiempo de filtrado y la protección contra heladas son normales
usual_flow = filtro, válvulas, nivel del agua
usual_flow_correct = funciona sin el filtro, con las válvulas abiertas y agua suficiente
usual_air = aire en la bomba: afloje su unión roscada
usual_air_correct = agua sin aire. Seque la zona antes de dar tensión.
usual_air_leak = nivel del agua, uniones del lado de aspiración
usual_air_leak_correct = tomas cubiertas de agua, uniones apretadas, sin burbujas
usual_heater_leak = resistencia del calentador, sin conductores: de espárrago a metal
usual_heater_leak_correct = sin lectura, fría y mojada. Una fuga puede matar.
usual_heater_open = resistencia del calentador, sin conductores: de espárrago a espárrago
usual_heater_open_correct = unos { $ohms }; { $amps } en marcha
usual_cut_out = limitador térmico del calentador, frío
usual_cut_out_correct = queda rearmado después de un rearme. No lo puentee nunca.
usual_flow_switch = interruptor de caudal o de presión, bomba parada
usual_flow_switch_correct = sin continuidad. No lo puentee nunca.
usual_sensor = termómetro junto al sensor
usual_sensor_correct = igual que el panel, con 2 °F (1 °C) de diferencia como máximo
usual_heat_rate = subida en una hora, cubierta del spa puesta, { $watts }
usual_heat_rate_correct = { $fahrenheit } ÷ galones en °F, o { $celsius } ÷ litros en °C
usual_motor_cut_out = motor caliente: espere una hora
usual_motor_cut_out_correct = arranca en frío. Arranca por sí solo: no acerque las manos.
usual_shaft = eje del motor, girado a mano
usual_shaft_correct = gira libre, sin ruido
usual_rotor = rotor de la bomba de circulación
usual_rotor_correct = gira libre, sin cal
usual_capacitor = condensador (capacitor) del motor (descárguelo primero)
usual_capacitor_correct = sin abombar; a 10 % como máximo del valor impreso. Puede matar.
usual_winding = clavija del motor fuera: del común a los pines de velocidad
usual_winding_correct = unos pocos ohmios
usual_motor_leak = clavijas de los motores fuera: de cada pin a tierra
usual_motor_leak_correct = sin lectura. Una fuga puede matar.
usual_frequency = frecuencia en la placa de características del motor
usual_frequency_correct = la de la alimentación
usual_blower_wet = soplador y su bucle de aire
usual_blower_wet_correct = sin agua dentro
usual_ozonator_wet = manguera del ozonizador, clavija fuera
usual_ozonator_wet_correct = seca; válvula antirretorno por encima del agua
usual_ozonator_old = burbujas de ozono mientras está en marcha
usual_ozonator_old_correct = burbujas; un ozonizador dura de dos a cuatro años
usual_hot_plug = contactos de la clavija y del conector
usual_hot_plug_correct = limpios, firmes, no marrones. Si no, cambie ambas mitades.
usual_wet_plug = todas las clavijas y los circuitos impresos
usual_wet_plug_correct = secos, sin manchas verdes
usual_cord = todos los cordones, en toda su longitud
usual_cord_correct = sin cortes, aplastamientos ni mordeduras
usual_relay_open = sonido del relé al recibir la orden
usual_relay_open_correct = un clic
usual_relay_welded = clavija fuera: del fusible o puente al pin alta
usual_relay_welded_fixed = clavija fuera: del fusible o lengüeta de grupo al pin alta
usual_relay_welded_correct = sin continuidad
usual_panel_plug = clavija del panel
usual_panel_plug_correct = seca, metida hasta el fondo
usual_panel_other = número de pieza del panel
usual_panel_other_correct = un panel para esta tarjeta de control
usual_button = botones del panel
usual_button_correct = cada uno hace clic y el panel responde
usual_off = interruptor automático, interruptor de corte, GFCI o RCD
usual_off_correct = en ON. Rearme una sola vez. Si se dispara otra vez, déjelo en OFF.
usual_transformer = fusible del transformador, retirado
usual_transformer_correct = continuidad
usual_surge_part = protector contra sobretensiones en el circuito impreso
usual_surge_part_correct = entero, sin disco partido
usual_line_open = cada polo y conductor del cable de alimentación
usual_line_open_correct = continuidad. Una línea abierta todavía puede tener tensión.
usual_neutral_loose = neutro en caja de control, seccionador y tablero eléctrico
usual_neutral_loose_correct = apretado y brillante
usual_terminal_loose = bornes de alimentación y espárragos del calentador
usual_terminal_loose_correct = apretados, aislamiento no marrón
usual_volts_low = luces del edificio mientras arranca un motor
usual_volts_low_correct = no bajan de brillo
usual_other_loads = otras cargas en este interruptor automático
usual_other_loads_correct = ninguna, y ningún cable prolongador (extensión)
usual_breaker_worn = interruptor automático, frío, con poca carga
usual_breaker_worn_correct = no se dispara. No instale nunca uno mayor.
usual_breaker_size = valor en el interruptor automático
usual_breaker_size_correct = { $breaker }, no mayor
usual_breaker_size_planned = el previsto, no mayor
usual_protection_worn = GFCI o RCD, conductores de carga desconectados y aislados, tapa cerrada
usual_protection_worn_correct = con alimentación: se rearma y TEST lo dispara. No lo puentee nunca.
usual_neutral_bypass = neutro en el interruptor automático diferencial
usual_neutral_bypass_correct = en su neutro de carga, no en la barra de neutro
usual_neutral_grounded = N desconectado en el interruptor automático, clavijas fuera: de N a PE
usual_neutral_grounded_correct = sin lectura
usual_pigtail = conductor blanco del interruptor automático diferencial
usual_pigtail_correct = apretado en la barra de neutro
usual_divide = una clavija fuera cada vez, tapa cerrada
usual_divide_correct = con alimentación: se sigue disparando. Si no, ese aparato tiene una fuga.
usual_outdoor_wet = interruptor de corte, tubo, cajas de conexión
usual_outdoor_wet_correct = secos por dentro
usual_stray = tensión externa, alimentación cortada
usual_stray_correct = la mide un electricista; hasta entonces, todos fuera del agua
usual_mount = pies, tubos y soportes de las bombas
usual_mount_correct = nada toca el casco
usual_ground_open = del borne PE a la barra de tierra y al metal
usual_ground_open_correct = menos de 1 Ω
