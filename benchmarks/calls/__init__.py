"""Simulated callers, and policies for asking them, side by side on the same callers."""
