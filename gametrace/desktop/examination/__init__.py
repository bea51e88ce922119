"""The examination: looked at at the door and out of the skin, the stop page, the boar's result, the claim."""
