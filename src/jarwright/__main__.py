"""Window or command line? A command or an option goes to the command line; nothing or a file opens the window."""

from __future__ import annotations

import os
import sys
from pathlib import Path

COMMANDS = ("templates", "new", "plan", "what-if", "export", "times")


def main() -> int:
    """Run Jarwright with the words of this process and return its exit status."""
    words = sys.argv[1:]
    if words and (words[0] in COMMANDS or words[0].startswith("-") or len(words) > 1 or not is_file_name(words[0])):
        from jarwright import cli

        return cli.main(words)
    if not has_display():
        commands = ", ".join(COMMANDS)
        sys.stderr.write(f"jarwright: There is no display to open a window on; use one of the commands instead: {commands}.\n")
        return 2
    from jarwright import app

    return app.main(words)


def is_file_name(word: str) -> bool:
    """Say whether a word is meant as a class file rather than as a command that does not exist."""
    return Path(word).suffix != "" or Path(word).exists() or os.sep in word


def has_display() -> bool:
    """Say whether a window can open: everywhere but on Linux without a display server (an offscreen platform counts)."""
    if not sys.platform.startswith("linux"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))


if __name__ == "__main__":
    sys.exit(main())
