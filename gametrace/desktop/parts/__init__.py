"""The widgets that more than one station uses. They know values, not the register."""
