#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""count.py LOG...: adds up Meson's test logs; prints "N passed, N failed, N skipped", exit status 1 if any failed.

A test that speaks TAP counts as many as it reports; any other counts as one. One that ends badly without having
reported a failure of its own counts as one failed more.
"""
import json
import re
import sys

PASSED = {'OK', 'EXPECTEDFAIL'}
LINES_SHOWN = 60
SKIPPED = {'SKIP', 'IGNORED'}
LINE = re.compile(r'^(not )?ok\b[^#]*(#\s*(SKIP|TODO)\b)?', re.I)


def count(test):
    """Passed, failed and skipped of one test as the log has it."""
    passed = failed = skipped = 0
    for line in test.get('stdout', '').splitlines():
        found = LINE.match(line)
        if found is None:
            continue
        if found.group(3) and found.group(3).upper() == 'SKIP':
            skipped += 1
        elif found.group(1) and not found.group(3):
            failed += 1
        else:
            passed += 1
    if test['result'] in SKIPPED and passed + failed + skipped == 0:
        skipped = 1
    elif test['result'] in PASSED and passed + failed + skipped == 0:
        passed = 1
    elif test['result'] not in PASSED | SKIPPED and failed == 0:
        failed = 1
    return passed, failed, skipped


def say_why(log, test):
    """What a failed test said; Meson shows only what it wrote to stderr when the test speaks TAP."""
    lines = [line for line in test.get('stdout', '').splitlines() if not re.match(r'ok\b|# (Start|End) of', line)]
    print(f'--- {test["name"]} ({log}): {test["result"]}')
    print('\n'.join((lines + test.get('stderr', '').splitlines())[-LINES_SHOWN:]))


def main(logs):
    total = [0, 0, 0]
    for log in logs:
        try:
            with open(log, encoding='utf-8') as lines:
                for line in lines:
                    test = json.loads(line)
                    counted = count(test)
                    total = [t + n for t, n in zip(total, counted)]
                    if counted[1]:
                        say_why(log, test)
        except FileNotFoundError:
            print(f'{log} is missing: these tests did not run')
            total[1] += 1
    print('{} passed, {} failed, {} skipped'.format(*total))
    return 1 if total[1] else 0


if __name__ == '__main__':
    sys.exit(main(sys.argv[1:]))
