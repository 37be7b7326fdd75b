### How English writes numbers and lists.

# The tag of the language (BCP 47). Plurals follow the rules of CLDR for it.
language_tag = en

# The person of the trade who has checked the words, or `no`: every sheet then says so.
checked_by = the authors

# Between whole and tenth.
decimal_mark = .

# A number with its unit. What stands between is a no-break space.
quantity = { $number }{"\u00a0"}{ $unit }

and_two = { $first } and { $second }
and_last = { $rest } and { $last }
or_two = { $first } or { $second }
or_last = { $rest } or { $last }
comma = { $first }, { $rest }
