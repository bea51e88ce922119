"""The officer's view: the register open only to be looked at, two questions, the day's page, paper."""
