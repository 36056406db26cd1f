"""Says which values of enumerations have no comment, which Doxygen 1.9 does not look at; status 1 when there are any.

usage: check_enum_values.py FOLDER      of the XML that Doxygen wrote
"""

import sys
import xml.etree.ElementTree as xml
from collections.abc import Iterator
from pathlib import Path

SELF_EXPLAINING = {"keysquare::Square"}
"""Whose values need no comment of their own: a1 to h8."""


def is_empty(element: xml.Element) -> bool:
    descriptions = (element.find(name) for name in ("briefdescription", "detaileddescription"))
    return not any("".join(found.itertext()).strip() for found in descriptions if found is not None)


def undocumented(folder: Path) -> Iterator[str]:
    enumerations = 0
    for path in sorted(folder.glob("*.xml")):
        for enumeration in xml.parse(path).iter("memberdef"):
            if enumeration.get("kind") != "enum" or enumeration.get("prot") != "public":
                continue
            enumerations += 1
            name = enumeration.findtext("qualifiedname", "")
            place = enumeration.find("location")
            assert place is not None
            for value in enumeration.iter("enumvalue"):
                if name not in SELF_EXPLAINING and is_empty(value):
                    yield f"{place.get('file')}:{place.get('line')}: {name}::{value.findtext('name')} has no comment"
    if enumerations == 0:
        yield f"{folder}: no enumeration at all, so nothing was checked"


if __name__ == "__main__":
    faults = sorted(set(undocumented(Path(sys.argv[1]))))
    print("\n".join(faults), end="\n" if faults else "", file=sys.stderr)
    sys.exit(1 if faults else 0)
