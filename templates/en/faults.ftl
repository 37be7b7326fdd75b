### Mistakes, what is noticed of them, and what to check.
