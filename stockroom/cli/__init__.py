"""The command line: thin commands over the services, line by line, never importing the screens."""
