#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""check.py RULE SOURCE-FOLDER BUILD-FOLDER: holds one rule of the house against the project; speaks TAP.

exceptions.txt lists what is let pass: rule, place (file, or file:name), and the reason. One that is no longer
needed is itself a failure.
"""
import os
import sys

import rules_code
import rules_po
import rules_text
from project import Project, Trouble

RULES = {
    'layers': rules_code.layers,
    'headers': rules_code.headers,
    'alone': rules_code.alone,
    'units': rules_code.units,
    'size': rules_code.size,
    'numbers': rules_code.numbers,
    'names': rules_code.names,
    'code-form': rules_code.layout_of_code,
    'top': rules_text.top,
    'form': rules_text.form,
    'licence': rules_text.licence,
    'leftovers': rules_text.leftovers,
    'words': rules_text.words,
    'translations': rules_text.translations,
    'template': rules_po.template,
    'languages': rules_po.languages,
    'json': rules_text.json_files,
    'sources': rules_text.sources,
}
EXCEPTIONS = 'tests/house/exceptions.txt'


def exceptions(project, rule):
    """{place: line number} of what this rule lets pass."""
    found = {}
    for number, line in enumerate((project.files.get(EXCEPTIONS) or '').splitlines(), 1):
        parts = line.split(None, 2)
        if line.strip() and not line.startswith('#') and parts[0] == rule:
            if len(parts) < 3:
                raise SystemExit(f'{EXCEPTIONS}:{number}: a reason is missing')
            found[parts[1]] = number
    return found


def check(rule, project):
    """What is wrong by this rule, exceptions taken into account."""
    passes = exceptions(project, rule)
    troubles = RULES[rule](project)
    used = {t.key for t in troubles} | {t.path for t in troubles}
    left = [t for t in troubles if t.key not in passes]
    left += [Trouble(EXCEPTIONS, line, f'{place} is no longer an exception to {rule}')
             for place, line in passes.items() if place not in used]
    return left


def main(rule, root, build):
    troubles = check(rule, Project.read(os.path.abspath(root), os.path.abspath(build)))
    for trouble in troubles:
        print(f'# {trouble}')
    print('{} 1 - {}'.format('not ok' if troubles else 'ok', RULES[rule].__doc__.splitlines()[0]))
    print('1..1')


if __name__ == '__main__':
    main(*sys.argv[1:])
