"""Set-up: at first only what the first delivery needs; later everything about larder, people and places."""
