### Words in figures, and their descriptions for people who cannot see them.

pin_name = { $pin }
