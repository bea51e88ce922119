"""Today: what wants a person, in sentences, each with the one act it asks for."""
