"""Prints "N passed, N failed, N skipped" for a JUnit XML report.

usage: tally.py REPORT STATUS

STATUS is the exit status of the program that wrote the report. A report that is missing, broken or empty, or that shows no
failure although the program failed (a crash), counts as one failed test.
"""

import sys
import xml.etree.ElementTree as ElementTree

report, status = sys.argv[1], int(sys.argv[2])
passed = failed = skipped = 0
try:
    for case in ElementTree.parse(report).iter("testcase"):
        if case.find("failure") is not None or case.find("error") is not None:
            failed += 1
        elif case.find("skipped") is not None:
            skipped += 1
        else:
            passed += 1
except (OSError, ElementTree.ParseError) as error:
    print(f"{report}: {error}", file=sys.stderr)
    failed += 1
if failed == 0 and (status != 0 or passed == 0):
    failed = 1
print(f"{passed} passed, {failed} failed, {skipped} skipped")
