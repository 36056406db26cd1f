"""Says what lacks a comment where Doxygen 1.9 does not look; status 1 when anything does.

Those are headers without a comment of their own, of which it passes over every name that is in no namespace,
enumerations without a name, and values of enumerations.

usage: check_cpp_reference.py FOLDER HEADERS    FOLDER: of the XML that Doxygen wrote
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


def undescribed_headers(pages: list[xml.Element], folder: Path) -> Iterator[str]:
    described = set()
    for page in pages:
        for compound in page.iter("compounddef"):
            place = compound.find("location")
            if compound.get("kind") == "file" and place is not None and not is_empty(compound):
                described.add(folder.parent / place.get("file", ""))
    for path in sorted(folder.rglob("*.h*")):
        if not path.name.endswith("_impl.hpp") and path not in described:
            yield f"{path}: the header has no comment of its own"


def undescribed_enumerations(pages: list[xml.Element]) -> Iterator[str]:
    enumerations = 0
    for page in pages:
        for enumeration in page.iter("memberdef"):
            if enumeration.get("kind") != "enum" or enumeration.get("prot") != "public":
                continue
            enumerations += 1
            name = enumeration.findtext("qualifiedname", "")  # none of one without a name, as in C
            location = enumeration.find("location")
            assert location is not None
            place = f"{location.get('file')}:{location.get('line')}"
            if not name and is_empty(enumeration):
                yield f"{place}: an enumeration without a name has no comment"
            for value in enumeration.iter("enumvalue"):
                if name not in SELF_EXPLAINING and is_empty(value):
                    yield f"{place}: {f'{name}::' if name else ''}{value.findtext('name')} has no comment"
    if enumerations == 0:
        yield "there is no enumeration at all, so nothing was checked"


def main(folder: Path, headers: Path) -> int:
    pages = [xml.parse(path).getroot() for path in sorted(folder.glob("*.xml"))]
    faults = sorted({*undescribed_headers(pages, headers), *undescribed_enumerations(pages)})
    print("\n".join(faults), end="\n" if faults else "", file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2])))
