"""Visit: the officer stands in the door. Two questions, how ready the register is, one paper for a period."""
