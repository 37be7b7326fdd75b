### Short texts of wiring sheets, lid inserts, forms and the list of sheets.

## Names that several sheets use.

# A circuit board that has no title: by its name.
part_named = Carte « { $name } »
layout_range = { $first }–{ $last }
serves_layouts = { $several ->
        [yes] configurations { $layouts }
       *[no] configuration { $layouts }
    }
all_layouts = toutes

# An edge: where it is.
side_name = { $side ->
        [up] en haut
        [right] à droite
        [down] en bas
       *[left] à gauche
    }

## Signal words of ANSI Z535; in other languages as ISO 3864-2 has them.
signal_danger = DANGER
signal_warning = AVERTISSEMENT
signal_caution = ATTENTION
signal_notice = AVIS

## Supplies.
conductor_and_name = { $letters }, { $name }
split_phase = { $volts } V, monophasé à point milieu
wye = { $volts } V, triphasé en étoile
single_phase = { $volts } V, monophasé

## Switches.
copper_wire = { $size } en cuivre
aluminum_wire = { $size } en aluminium
heater_counts = La charge compte le réchauffeur pour { $nameplate }, le courant de sa plaque. Il consomme { $drawn } avec cette alimentation.
wire_suits_terminals = Cette section convient à un disjoncteur de { $breaker } avec des bornes pour { $celsius }{"\u00A0"}°C. L’air est à 30{"\u00A0"}°C au plus, sans autre circuit à côté.
wire_suits_method = Cette section convient à un disjoncteur de { $breaker } : méthode { $method }, isolant { $insulation }, fils chargés : { $loaded }. L’air est à 30{"\u00A0"}°C au plus, sans autre circuit à côté.
wire_suits_stated = Cette section convient à un disjoncteur de { $breaker }. Son courant admissible a été indiqué pour ce chantier.
wire_needs_75 = Cette section convient à un disjoncteur de { $breaker } seulement si les bornes aux deux bouts sont marquées 75{"\u00A0"}°C.
wire_unjudged = Sa section n’a pas été jugée ici pour ce disjoncteur.
allowance_is = Quota de chauffage { $number }.
layout_is = Configuration { $number }.
layout_set = { $number } ({ $how })
selector_at = { $selector } sur { $position }
switches_at = { $bank } : { $ways }

## The intake form.
form_pump = avec jets
form_circulation = sans jets, une vitesse

## The work card and the lid insert.
links_counted = { $count ->
        [one] { $count }{"\u00A0"}barrette
       *[other] { $count }{"\u00A0"}barrettes
    }
measured_between = { $one }{"\u00A0"}à{"\u00A0"}{ $other }
nameplate_says = { $speeds ->
        [two] deux vitesses, { $volts }, { $load }
        [one] une vitesse, { $volts }, { $load }
       *[none] { $volts }, { $load }
    }
load_high_and_low = { $high } à grande vitesse, { $low } à petite vitesse
pump_by_load = { $speeds ->
        [two] La pompe à deux vitesses avec { $load } sur sa plaque est { DEVICE($device, form: "the") }.
       *[one] La pompe à une vitesse avec { $load } sur sa plaque est { DEVICE($device, form: "the") }.
    }
pump_by_nameplate = La pompe qui porte cette plaque est { DEVICE($device, form: "the") } : { $plate }.
pump_alike = { $any ->
        [yes] Les plaques de ces pompes sont identiques : { DEVICE($all, form: "the") }. Chacune peut être { DEVICE($device, form: "the") }.
       *[no] Les plaques de ces pompes sont identiques : { DEVICE($all, form: "the") }. Trouvez laquelle est { DEVICE($device, form: "the") }.
    }
set_way = { $way }{"\u00A0"}{ $on ->
        [yes] ON
       *[no] OFF
    }

## Warnings of a plan.
warn_heater_weak = Le réchauffeur reçoit { $volts }, plaque { $plate }. Il fournit { $watts } au lieu de { $full }. L’eau chauffe plus lentement.
warn_voltage_edge = La tension est près de la limite pour { DEVICE($device, form: "the") }. L’appareil reçoit { $volts }. L’alimentation peut l’amener à { $end }. La plaque permet de { $low } à { $high }. Mesurez la tension en charge (personne formée seulement).
warn_odd_breaker = Un disjoncteur de { $breaker } n’est pas un calibre normalisé. Lisez le calibre sur le disjoncteur.
warn_wire_needs_75 = { $any ->
    [yes] La section des fils d’alimentation ({ $wire }) ne suffit que si les bornes aux deux bouts sont marquées 75{"\u00A0"}°C. Lisez les marques au disjoncteur et au coffret de commande. S’il manque une marque, { $size } est nécessaire.
   *[no] La section des fils d’alimentation ({ $wire }) ne suffit que si les bornes aux deux bouts sont marquées 75{"\u00A0"}°C. Lisez les marques au disjoncteur et au coffret de commande.
}
warn_capacity_above_tables = Le courant admissible indiqué pour les fils d’alimentation est de { $stated }. Aucune table ne donne plus de { $most } pour cette section. Un électricien agréé doit confirmer la valeur.
warn_mark_below_load = { $largest_breaker ->
    [yes] L’équipement consomme { $amps } dans { $line }. La plaque permet un disjoncteur de { $marked } au plus. La plaque peut être celle d’un équipement plus ancien. Ces appareils fonctionnent alors : { DEVICE($devices) }.
   *[no] L’équipement consomme { $amps } dans { $line }. Le courant admissible minimal du circuit sur la plaque est de { $marked }. La plaque peut être celle d’un équipement plus ancien. Ces appareils fonctionnent alors : { DEVICE($devices) }.
}
warn_run_drop = La ligne d’alimentation perd jusqu’à { $drop }, soit { $percent } de la tension ; une limite usuelle est { $limit }.
warn_factor_unknown = { $any ->
        [yes] Le facteur de puissance d’un appareil n’est pas connu. Le courant peut alors monter jusqu’à { $currents }.
       *[no] Le facteur de puissance d’un appareil n’est pas connu.
    }
warn_neutral_unseen = Le courant dans N peut dépasser le calibre du disjoncteur, { $breaker }. Le disjoncteur ne mesure pas N.
warn_breaker_lag = La charge du disjoncteur peut atteindre { $amps }. Le disjoncteur est de { $breaker }. Il peut se déclencher.
warn_board_lag = Le courant dans { $conductor } peut atteindre { $amps }. La platine ne le permet pas.

conductor_amps = { $conductor }{"\u00A0"}{ $amps }
fuses_listed = { $kind } : { $codes }
element_at = { $watts } sous { $volts }
why_breaker = Le quota { $next } exige un disjoncteur de { $amps } ou plus.
why_wire = Avec le quota { $next }, la charge des fils d’alimentation est de { $amps }. Les fils ne le permettent pas.
why_board = Avec le quota { $next }, un fil d’alimentation conduit { $amps }. La platine ne le permet pas.
# Where the allowance is a current.
allowance_amps = Réchauffeur en marche, la platine maintient la somme de tous les courants à { $amps } au plus. Avec le réchauffeur et sa pompe en marche, il reste { $remains }. Au-delà, le réchauffeur attend.
allowance_amps_all = Réchauffeur en marche, la platine maintient la somme de tous les courants à { $amps } au plus. Tous les appareils installés ensemble ne dépassent pas cette valeur.
further_plug = { DEVICE($device, form: "the") } a plus d’une fiche. Branchez toutes ses fiches : { $headers }.
cord_of = { DEVICE($device, form: "the") } a un autre cordon, avec sa propre fiche : { DEVICE($cord) }. Branchez les deux cordons.
runs_with = { DEVICE($device, form: "the") } fonctionne chaque fois que { DEVICE($leader, form: "the") } fonctionne.
allowance_amps_waits = Réchauffeur en marche, la platine maintient la somme de tous les courants à { $amps } au plus. Le réchauffeur attend quand fonctionnent ensemble : { $sets }.
allowance_none = { $count ->
        [1] Réchauffeur en marche, { DEVICE($devices, form: "the") } ne peut pas fonctionner à grande vitesse.
       *[other] Réchauffeur en marche, aucun appareil de cette liste ne peut fonctionner à grande vitesse : { DEVICE($devices, form: "the") }.
    }
allowance_all = { $count ->
        [1] Réchauffeur en marche, { DEVICE($devices, form: "the") } peut aussi fonctionner à grande vitesse.
       *[other] Réchauffeur en marche, { DEVICE($devices, form: "the") } peuvent fonctionner ensemble à grande vitesse.
    }
allowance_some = Réchauffeur en marche, au plus { $allowed ->
        [1] un appareil
        [2] deux appareils
        [3] trois appareils
        [4] quatre appareils
        [5] cinq appareils
        [6] six appareils
        [7] sept appareils
        [8] huit appareils
        [9] neuf appareils
       *[other] { $allowed } appareils
    } de cette liste à grande vitesse : { DEVICE($devices, form: "the") }.

## The wiring sheets.

# Stands for the number in the steps of a panel.
any_layout_number = le numéro de configuration

## The list of sheets.
index_title = Feuilles de câblage, bons de travail et feuilles de couvercle
index_job = chantier { $job }
index_sheets_of = Feuilles de câblage : { $of }
index_form_of = Formulaire de relevé : { $of }
index_work_card_of = Bon de travail : { $of }
index_insert_of = Feuille de couvercle : { $of }
index_finder_of = Recherche de pannes : { $of }
index_handout_of = Support de cours : { $of }
index_answers_of = Réponses du cours : { $of }
index_cards_of = Cartes d’exercices : { $of }
index_plan_of = Plan de la platine : { $of }
index_drawing_of = Dessin { $drawing } : { $of }
index_drawings_of = Dessins : { $of }
index_pdf = { $pages ->
    [0] { $what }, PDF
    [one] { $what }, PDF, { $pages } page
   *[other] { $what }, PDF, { $pages } pages
}
index_svg = { $what }, SVG
index_skip = Aller aux feuilles
index_empty = Il n’y a pas encore de feuilles.
index_boards = Platines
index_jobs = Chantiers
index_others = Autres dossiers
index_board = Platine
index_plan = Plan
index_maker = Fabricant
index_part = Référence
index_revision_head = Révision
index_revision = { $revision }, { $date }
index_files = Feuilles
index_job_head = Chantier
index_place = Lieu
index_layout = Configuration
index_supply = Alimentation
index_folder = Dossier
index_unknown = –
index_refused = { $sheets ->
    [yes] { $errors ->
        [one] Refusé : { $errors } erreur. Ces feuilles datent d’une version antérieure.
       *[other] Refusé : { $errors } erreurs. Ces feuilles datent d’une version antérieure.
    }
   *[no] { $errors ->
        [one] Refusé : { $errors } erreur. Aucune feuille n’a été créée.
       *[other] Refusé : { $errors } erreurs. Aucune feuille n’a été créée.
    }
}
index_earlier = Créé par une version antérieure

# The foot of every page. The mark is eight letters and digits.
foot_and_mark = { $foot } · Marque { $mark }
words_unchecked = Aucune personne du métier n’a vérifié les mots de cette langue. Si la feuille française et la feuille anglaise ne disent pas la même chose, la feuille anglaise fait foi.
# Sous le titre, là où la spécification ne donne pas de mots dans la langue de la feuille.
stand_in_words = † Ces mots sont en { $languages }. La spécification ne les donne pas dans la langue de cette feuille.
# Le nom d’une langue après « en ».
language_name = { $tag ->
    [en] anglais
    [de] allemand
    [es] espagnol
    [fr] français
   *[other] une autre langue ({ $tag })
}
index_mark = Marque
index_in_language = { $what }, { $language }

# The change sheet.
width_by_height = { $width } sur { $height }
place_on_plan = { $x } depuis la gauche, { $y } depuis le haut
