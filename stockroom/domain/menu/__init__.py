"""A menu for some days from the stored food: the question, quick plan, model, account, checks."""
