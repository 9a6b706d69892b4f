"""`python -m stockroom` is the command `stockroom`."""

from stockroom.cli.main import entry

if __name__ == "__main__":
    entry()
