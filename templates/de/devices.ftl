### Devices: the name as the layout matrix heads its columns, and its forms in a sentence:
### `.the` nominative (das Gebläse), `.den` accusative, `.dem` dative, `.des` genitive, `.ein` with the indefinite article.

device_heater = Heizung
    .the = die Heizung
    .den = die Heizung
    .dem = der Heizung
    .des = der Heizung
    .ein = eine Heizung
device_circulation = Zirkulation
    .the = die Zirkulationspumpe
    .den = die Zirkulationspumpe
    .dem = der Zirkulationspumpe
    .des = der Zirkulationspumpe
    .ein = eine Zirkulationspumpe
device_pump = Pumpe { $number }
    .the = Pumpe { $number }
    .den = Pumpe { $number }
    .dem = Pumpe { $number }
    .des = von Pumpe { $number }
    .ein = eine Pumpe { $number }
device_blower = Gebläse
    .the = das Gebläse
    .den = das Gebläse
    .dem = dem Gebläse
    .des = des Gebläses
    .ein = ein Gebläse
device_ozonator = Ozonator
    .the = der Ozonator
    .den = den Ozonator
    .dem = dem Ozonator
    .des = des Ozonators
    .ein = ein Ozonator
device_light = Licht
    .the = das Licht
    .den = das Licht
    .dem = dem Licht
    .des = des Lichts
    .ein = ein Licht
device_sound = Audio
    .the = die Audioanlage
    .den = die Audioanlage
    .dem = der Audioanlage
    .des = der Audioanlage
    .ein = eine Audioanlage
# One that the board's specification declares, under its own name. Its gender is not known.
device_own = { $number }
    .the = das Gerät { $number }
    .den = das Gerät { $number }
    .dem = dem Gerät { $number }
    .des = des Geräts { $number }
    .ein = ein Gerät { $number }

device_name = { DEVICE($device) }
the_device = { DEVICE($device, form: "the") }
