### Wie das Deutsche Zahlen und Listen schreibt.

# The tag of the language (BCP 47). Plurals follow the rules of CLDR for it.
language_tag = de

# The person of the trade who has checked the words, or `no`: every sheet then says so.
checked_by = no

# Between whole and tenth.
decimal_mark = ,

# A number with its unit. What stands between is a no-break space.
quantity = { $number }{"\u00a0"}{ $unit }

and_two = { $first } und { $second }
and_last = { $rest } und { $last }
or_two = { $first } oder { $second }
or_last = { $rest } oder { $last }
comma = { $first }, { $rest }
