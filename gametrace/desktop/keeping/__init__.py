"""How a lot is kept: frozen, thawed, packed again, dated by hand. One form, wherever the lot is met."""
