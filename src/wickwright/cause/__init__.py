"""What is wrong with a lamp: complaints, causes, what to ask and do next."""
