"""How an assembled lamp burns where it stands: draft, flame, light, heat, glass."""
