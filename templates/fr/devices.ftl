### Devices: the name as the layout matrix heads its columns, and its forms in a sentence:
### `.the` (la pompe 1), `.du` (de la pompe 1), `.au` (à la pompe 1), `.a` (une pompe 1).

device_heater = réchauffeur
    .the = le réchauffeur
    .du = du réchauffeur
    .au = au réchauffeur
    .a = un réchauffeur
device_circulation = circulation
    .the = la pompe de circulation
    .du = de la pompe de circulation
    .au = à la pompe de circulation
    .a = une pompe de circulation
device_pump = pompe { $number }
    .the = la pompe { $number }
    .du = de la pompe { $number }
    .au = à la pompe { $number }
    .a = une pompe { $number }
device_blower = soufflante
    .the = la soufflante
    .du = de la soufflante
    .au = à la soufflante
    .a = une soufflante
device_ozonator = ozonateur
    .the = l’ozonateur
    .du = de l’ozonateur
    .au = à l’ozonateur
    .a = un ozonateur
device_light = éclairage
    .the = l’éclairage
    .du = de l’éclairage
    .au = à l’éclairage
    .a = un éclairage
device_sound = audio
    .the = le système audio
    .du = du système audio
    .au = au système audio
    .a = un système audio
# One that the board's specification declares, under its own name. Its gender is not known.
device_own = { $number }
    .the = l’appareil { $number }
    .du = de l’appareil { $number }
    .au = à l’appareil { $number }
    .a = un appareil { $number }

device_name = { DEVICE($device) }
the_device = { DEVICE($device, form: "the") }
