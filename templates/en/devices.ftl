### Devices: the name as the layout matrix heads its columns, and `.the`, as it stands in a sentence.
### Another language adds an attribute for each form that its sentences ask for.

device_heater = heater
    .the = the heater
device_circulation = circulation
    .the = the circulation pump
device_pump = pump { $number }
    .the = pump { $number }
device_blower = blower
    .the = the blower
device_ozonator = ozonator
    .the = the ozonator
device_light = light
    .the = the light
device_sound = sound
    .the = the sound system
# One that the board's specification declares, under its own name.
device_own = { $number }
    .the = the { $number }

device_name = { DEVICE($device) }
the_device = { DEVICE($device, form: "the") }
