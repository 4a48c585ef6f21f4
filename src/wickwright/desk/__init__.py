"""The desk in a browser: pages, forms, and the interface for machines."""
