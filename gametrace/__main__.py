"""Start-up and nothing else: the words after `gametrace` go to the command line's room."""

from __future__ import annotations

import sys


def main() -> int:
    """The exit code: 0 done, 1 findings or a refusal, 2 words that were not understood."""
    from gametrace.headless.commands import run

    return run(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
