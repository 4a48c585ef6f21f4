"""``python -m wickwright`` is the ``wickwright`` command."""

from wickwright.app import main

if __name__ == "__main__":
    main()
