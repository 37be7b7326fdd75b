### Short texts of the course handout, its answers and cards.
