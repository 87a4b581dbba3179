"""Numbers linked to the facts they speak of."""
