"""The call sheet: what stands on it, what follows from it, what is asked next."""
