"""Says which public names in files of TypeScript's declarations have no comment; status 1 when there are any.

It reads one declaration or member a line, as keysquare.d.ts has them, and names each line that it does not understand.

usage: javascript_types.py FILE...
"""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

DECLARATION = re.compile(
    r"export (?:(?:class|interface) (?=\w+[^{]*\{$)|type (?=\w+[^{]*[{;]$)|(?:function|const) (?=\w+.*;$))(\w+)"
)
MEMBER = re.compile(r"  (?:readonly |static |get |set )*(\w+|\[[\w.]+\])\??[<(:].*[{;]$")
COMMENT_LINE = re.compile(r"(?!.*\*/.) *(/\*\*|\*)")
COMMENT = re.compile(r"/\*\*(?:(?!\*/).)*\w(?:(?!\*/).)*\*/$", re.DOTALL)
OTHER = re.compile(r"(//.*|  private .*|    .*|(  )?\}.*)?$")
"""What has no name that is public, and the rest of a member of several lines."""


def undocumented(file: Path) -> Iterator[str]:
    seen = 0
    owner = comment = ""
    for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1):
        if COMMENT_LINE.match(line):
            comment += line + "\n"
            continue
        if declared := DECLARATION.match(line):
            owner = name = declared[1]
        elif member := MEMBER.match(line):
            name = f"{owner}.{member[1]}"
        else:
            name = ""
            if not OTHER.match(line):
                yield f"{file}:{number}: not understood, so nothing is known of its comment: {line}"
        if name:
            seen += 1
            if not COMMENT.search(comment.strip()):
                yield f"{file}:{number}: {name} has no comment"
        comment = ""
    if seen < 100:
        yield f"{file}: only {seen} names were found, so the check is not to be trusted"


if __name__ == "__main__":
    faults = [fault for path in sys.argv[1:] for fault in undocumented(Path(path))]
    print("\n".join(faults), end="\n" if faults else "", file=sys.stderr)
    sys.exit(1 if faults else 0)
