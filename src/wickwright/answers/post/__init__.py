"""What goes out of a call: the order, the letter, the fit sheet."""
