#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The count that closes tests/run hides nothing: logs as Meson writes them, and the line that must come of them."""
import json
import os
import subprocess
import sys
import tempfile

COUNT = os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'count.py')

# what is tried, tests of one log (result, stdout), the line
CASES = [
    ('TAP', [('OK', 'ok 1 /a\nok 2 /b\n1..2\n')], '2 passed, 0 failed, 0 skipped'),
    ('TAP, one fails', [('FAIL', 'ok 1 /a\nnot ok 2 /b\n1..2\n')], '1 passed, 1 failed, 0 skipped'),
    ('TAP, one skipped', [('OK', 'ok 1 /a\nok 2 /b # SKIP no tool\n1..2\n')], '1 passed, 0 failed, 1 skipped'),
    ('a whole program skipped', [('SKIP', '1..0 # SKIP no tool\n')], '0 passed, 0 failed, 1 skipped'),
    ('dies after its first case', [('ERROR', 'ok 1 /a\n1..2\n')], '1 passed, 1 failed, 0 skipped'),
    ('dies before any', [('ERROR', '')], '0 passed, 1 failed, 0 skipped'),
    ('takes too long', [('TIMEOUT', 'ok 1 /a\n')], '1 passed, 1 failed, 0 skipped'),
    ('fails in what it says is expected', [('OK', 'not ok 1 /a # TODO later\n1..1\n')], '1 passed, 0 failed, 0 skipped'),
    ('no TAP', [('OK', 'hello\n'), ('FAIL', 'hello\n')], '1 passed, 1 failed, 0 skipped'),
    ('indented cases of a case', [('OK', '    ok 1 inner\nok 1 /a\n1..1\n')], '1 passed, 0 failed, 0 skipped'),
    ('no test at all', [], '0 passed, 0 failed, 0 skipped'),
    ('a log that is missing', None, '0 passed, 1 failed, 0 skipped'),
]


def closing_line(tests):
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, 'log.json')
        if tests is not None:
            with open(log, 'w', encoding='utf-8') as stream:
                for result, stdout in tests:
                    stream.write(json.dumps({'name': 't', 'result': result, 'stdout': stdout}) + '\n')
        done = subprocess.run([sys.executable, COUNT, log], capture_output=True, text=True)
    return done.stdout.splitlines()[-1], done.returncode


def main():
    for number, (what, tests, expected) in enumerate(CASES, 1):
        line, status = closing_line(tests)
        good = line == expected and (status != 0) == (' 0 failed' not in expected)
        print(f'{"ok" if good else "not ok"} {number} - {what}')
        if not good:
            print(f'# expected {expected!r}, got {line!r} with status {status}')
    print(f'1..{len(CASES)}')


if __name__ == '__main__':
    main()
