"""What a beast came to and what it cost: the picture of its cost, its yields, a dish and its price."""
