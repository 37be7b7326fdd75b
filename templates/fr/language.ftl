### Comment le français écrit les nombres et les listes.

# The tag of the language (BCP 47). Plurals follow the rules of CLDR for it.
language_tag = fr

# The person of the trade who has checked the words, or `no`: every sheet then says so.
checked_by = no

# Between whole and tenth.
decimal_mark = ,

# A number with its unit. What stands between is a no-break space.
quantity = { $number }{"\u00a0"}{ $unit }

and_two = { $first } et { $second }
and_last = { $rest } et { $last }
or_two = { $first } ou { $second }
or_last = { $rest } ou { $last }
comma = { $first }, { $rest }
