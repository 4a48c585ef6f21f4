"""Answers in words; the last step before an edge prints them."""
