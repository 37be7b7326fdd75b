### Devices: the name as the layout matrix heads its columns, and its forms in a sentence:
### `.the` (la bomba 1), `.al` (a la bomba 1), `.del` (de la bomba 1), `.un` (una bomba 1).

device_heater = calentador
    .the = el calentador
    .al = al calentador
    .del = del calentador
    .un = un calentador
device_circulation = circulación
    .the = la bomba de circulación
    .al = a la bomba de circulación
    .del = de la bomba de circulación
    .un = una bomba de circulación
device_pump = bomba { $number }
    .the = la bomba { $number }
    .al = a la bomba { $number }
    .del = de la bomba { $number }
    .un = una bomba { $number }
device_blower = soplador
    .the = el soplador
    .al = al soplador
    .del = del soplador
    .un = un soplador
device_ozonator = ozonizador
    .the = el ozonizador
    .al = al ozonizador
    .del = del ozonizador
    .un = un ozonizador
device_light = luz
    .the = la luz
    .al = a la luz
    .del = de la luz
    .un = una luz
device_sound = audio
    .the = el sistema de audio
    .al = al sistema de audio
    .del = del sistema de audio
    .un = un sistema de audio
# One that the board's specification declares, under its own name. Its gender is not known.
device_own = { $number }
    .the = el aparato { $number }
    .al = al aparato { $number }
    .del = del aparato { $number }
    .un = un aparato { $number }

device_name = { DEVICE($device) }
the_device = { DEVICE($device, form: "the") }
