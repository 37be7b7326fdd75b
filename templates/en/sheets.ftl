### Short texts of wiring sheets, lid inserts, forms and the list of sheets.
