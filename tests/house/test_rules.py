#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Each rule finds a fault planted for it and lets the right way pass; without this a rule that sees nothing would
look like a house in order."""
import check
import c_text
from project import Project

SPDX = '/* SPDX-License-Identifier: GPL-3.0-or-later */\n'
HEADER = SPDX + '/* thing.h - things */\n#pragma once\n'

# rule, what is tried, path, text, words in the first complaint (None: no complaint)
CASES = [
    ('layers', 'a call upwards', 'src/job/a.c', '#include "layout/passes.h"\n', 'job may not use layout'),
    ('layers', 'a call downwards', 'src/layout/a.c', '#include "job/job.h"\n', None),
    ('layers', 'sideways', 'src/metal/a.c', '#include "cooling/fans.h"\n', 'metal may not use cooling'),
    ('layers', 'own folder', 'src/job/a.c', '#include "job/job.h"\n', None),
    ('layers', 'no folder named', 'src/job/a.c', '#include "job.h"\n', 'say the folder'),
    ('layers', 'in a comment', 'src/job/a.c', '/* \n#include "app/window.h"\n*/\n', None),
    ('layers', 'toolkit below app', 'src/stage/a.c', '#include <gtk/gtk.h>\n', 'only app knows the toolkit'),
    ('layers', 'toolkit in app', 'src/app/a.c', '#include <adwaita.h>\n', None),
    ('layers', 'another folder\'s private header', 'src/layout/a.c', '#include "job/x-private.h"\n', 'private to job'),
    ('layers', 'a test sees its own private header', 'tests/job/a.c', '#include "job/x-private.h"\n', None),
    ('layers', 'a test sees another\'s', 'tests/layout/a.c', '#include "job/x-private.h"\n', 'private to job'),
    ('layers', 'private in public', 'src/job/a.h', '#include "job/x-private.h"\n', 'public header includes'),
    ('layers', 'thread below app', 'src/answer/a.c', 'void f (void)\n{\n  g_thread_new ("a", b, c);\n}\n', 'no object'),
    ('layers', 'link upwards', 'src/meson.build', "folders = [\n  ['job', ['layout'], []],\n]\n", 'job may not link layout'),
    ('headers', 'bare prototype', 'src/job/thing.h', HEADER + '\nint tw_thing_do (int a);\n', 'tw_thing_do is not'),
    ('headers', 'explained', 'src/job/thing.h', HEADER + '\n/* Does it. */\nint tw_thing_do (int a);\n', None),
    ('headers', 'group', 'src/job/thing.h', HEADER + '\n/* Do them. */\nint tw_a (void);\nint\ntw_b (int a);\n', None),
    ('headers', 'after the group', 'src/job/thing.h', HEADER + '\n/* Do. */\nint tw_a (void);\n\nint tw_b (int a);\n', 'tw_b'),
    ('headers', 'bare struct', 'src/job/thing.h', HEADER + '\ntypedef struct {\n  int a;\n} TwThing;\n', 'TwThing is not'),
    ('headers', 'no title', 'src/job/thing.h', SPDX + '#pragma once\n', 'begin with a comment'),
    ('units', 'no unit', 'src/job/a.h', '\ntypedef struct {\n  double width;\n} TwA;\n', 'TwA.width'),
    ('units', 'unit', 'src/job/a.h', '\ntypedef struct {\n  double width_mm, flow_kg_s, at_mm[3];\n} TwA;\n', None),
    ('units', 'said', 'src/job/a.h', '\ntypedef struct {\n  double share; /* dimensionless */\n} TwA;\n', None),
    ('units', 'said of another', 'src/job/a.h',
     '\ntypedef struct {\n  double share; /* dimensionless */\n  int n;\n  double width;\n} TwA;\n', 'TwA.width'),
    ('units', 'in a .c file', 'src/job/a.c', '\nstruct walk {\n  int n;\n  const double *lengths;\n};\n', 'walk.lengths'),
    ('units', 'field with another unit', 'src/job/fields/a.inc', 'TW_FIELD (LENGTH, width_in, 1)\n', 'end in _mm'),
    ('units', 'field with its unit', 'src/job/fields/a.inc', 'TW_FIELD (LENGTH, width_mm, 1)\n', None),
    ('size', 'long function', 'src/job/a.c', 'static void\nf (void)\n{\n' + '  a ();\n' * 61 + '}\n', 'f has 61 lines'),
    ('size', 'just right', 'src/job/a.c', 'static void\nf (void)\n{\n' + '  a ();\n' * 60 + '}\n', None),
    ('size', 'long file', 'src/job/a.c', '\n' * 401, '401 lines'),
    ('size', 'long widget', 'src/app/a.c', '\n' * 401, None),
    ('size', 'arguments', 'src/job/a.c', 'void\nf (int a, int b, int c, int d, int e, void (*g) (int, int), int h)\n{\n}\n',
     'f has 7 arguments'),
    ('size', 'nesting', 'src/job/a.c',
     'void\nf (int a)\n{\n  for (;;)\n    if (a)\n      while (a)\n        switch (a) {\n        case 1: b (); }\n}\n',
     'f has 4 levels'),
    ('size', 'else-if chain', 'src/job/a.c',
     'void\nf (int a)\n{\n  if (a)\n    b ();\n  else if (c)\n    d ();\n  else if (e)\n    for (;;)\n      if (f)\n        g ();\n}\n',
     None),
    ('numbers', 'float format', 'src/job/a.c', 'void\nf (void)\n{\n  g_string_append_printf (s, "%s %.3f", a, b);\n}\n', '%.3f'),
    ('numbers', 'percent sign', 'src/job/a.c', 'void\nf (void)\n{\n  g_strdup_printf ("100%% free %d", a);\n}\n', None),
    ('numbers', 'locale-free', 'src/job/a.c', 'void\nf (void)\n{\n  g_ascii_formatd (s, 9, "%.3f", b);\n}\n', None),
    ('numbers', 'reading', 'src/job/a.c', 'void\nf (void)\n{\n  a = strtod (b, NULL);\n}\n', 'strtod'),
    ('names', 'foreign prefix', 'src/job/a.h', 'int job_do (void);\n', 'job_do'),
    ('names', 'foreign type', 'src/job/a.h', 'typedef struct {\n  int a;\n} Thing;\n', 'Thing'),
    ('form', 'tab', 'src/job/a.c', '\tint a;\n', 'tab'),
    ('form', 'blank at the end', 'src/job/a.c', 'int a; \n', 'blank'),
    ('form', 'no newline', 'src/job/a.c', 'int a;', 'newline'),
    ('form', 'carriage return', 'src/job/a.c', 'int a;\r\n', 'carriage'),
    ('licence', 'no line', 'src/job/a.c', 'int a;\n', 'SPDX'),
    ('licence', 'line', 'src/job/a.c', SPDX, None),
    ('leftovers', 'mark', 'src/job/a.c', '/* TO' + 'DO: later */\n', 'TO' + 'DO'),
    ('leftovers', 'path', 'src/job/a.c', 'char *a = "/ho' + 'me/me/x";\n', 'one machine'),
    ('leftovers', 'relative path', 'src/job/a.c', '/* see tests/home/x */\n', None),
    ('words', 'anywhere', 'src/job/a.c', '/* the time' + 'line */\n', 'not a word of ours'),
    ('words', 'shown', 'src/job/a.c', 'char *a = N_ ("Part tree");\n', 'not a word of ours'),
    ('words', 'machine\'s language', 'src/job/a.c', '/* the build tree */\n', None),
    ('words', 'name', 'src/job/a.c', 'int tw_feature_add (void);\n', 'tw_feature_add'),
    ('words', 'part of a word', 'src/job/a.c', 'int tw_estimate_street (void);\n', None),
    ('words', 'vague file', 'src/job/job-utils.c', SPDX, 'does not say'),
    ('translations', 'not listed', 'src/job/a.c', 'char *a = N_ ("Core");\n', 'add the line src/job/a.c'),
    ('translations', 'macro only', 'src/job/a.c', '#define N_(s) s\nint a;\n', None),
    ('json', 'twice', 'data/a.json', '{"a": 1, "a": 2}\n', 'stands twice'),
    ('json', 'broken', 'data/a.json', '{"a": }\n', 'Expecting value'),
    ('sources', 'unknown', 'src/job/a.c', '/* [sources: SHAH-2003, eq. 3] */\n', 'SHAH-2003 is not'),
    ('sources', 'unused', 'data/sources.json', '{"SHAH-2003": {}}\n', 'used nowhere'),
    ('sources', 'awaiting', 'data/sources.json', '{"sources": [{"id": "A", "awaits": "metal"}]}\n', None),
    ('top', 'stray file', 'NOTES', 'x\n', 'does not belong'),
]


PO_HEAD = ('msgid ""\nmsgstr "Language: de\\nMIME-Version: 1.0\\nContent-Type: text/plain; charset=UTF-8\\n"\n'
           '"Content-Transfer-Encoding: 8bit\\nProject-Id-Version: a\\nPO-Revision-Date: 2026-11-25 12:00+0000\\n"\n'
           '"Last-Translator: a\\nLanguage-Team: a\\n"\n\nmsgid "Core"\nmsgstr "Netz"\n\n')
SAVE = 'msgid "_Save %s of {part}"\n'
# A second language beside a program that says "Core" and "_Save %s of {part}": what, its po file, what is said.
LANGUAGE_CASES = [
    ('right', PO_HEAD + SAVE + 'msgstr "%s von {part} _sichern"\n', None),
    ('right, in another order', PO_HEAD + SAVE + 'msgstr "{part}: %1$s _sichern"\n', None),
    ('no file', '', 'po/de.po:1: is missing'),
    ('missing', PO_HEAD, '"_Save %s of {part}" is not translated'),
    ('empty', PO_HEAD + SAVE + 'msgstr ""\n', 'po/de.po:9: "_Save %s of {part}" is not translated'),
    ('fuzzy', PO_HEAD + '#, fuzzy\n' + SAVE + 'msgstr "%s von {part} _sichern"\n', 'is fuzzy'),
    ('no mnemonic', PO_HEAD + SAVE + 'msgstr "%s von {part} sichern"\n', 'another number of _'),
    ('another name', PO_HEAD + SAVE + 'msgstr "%s von {teil} _sichern"\n', 'other placeholders'),
    ('nothing put in', PO_HEAD + SAVE + 'msgstr "{part} _sichern"\n', 'other placeholders'),
    ('another kind', PO_HEAD + '#, c-format\n' + SAVE + 'msgstr "%d von {part} _sichern"\n', 'other placeholders'),
    ('no po file', PO_HEAD + 'msgid "_Save\n', 'po/de.po:'),
]


def language_complaint(po):
    files = {'po/POTFILES.in': 'src/a.c\n', 'po/LINGUAS': '# one a line\nde\n', 'po/de.po': po,
             'src/a.c': 'char *a = _ ("_Save %s of {part}"), *b = _ ("Core");\n'}
    troubles = check.RULES['languages'](Project(files))
    return str(troubles[0]) if troubles else None


def first_complaint(rule, path, text):
    troubles = check.RULES[rule](Project({path: text}))
    troubles = [t for t in troubles if t.path in (path, 'po/POTFILES.in')]
    return str(troubles[0]) if troubles else None


def main():
    n = 0
    cases = [(rule, what, first_complaint(rule, path, text), expected) for rule, what, path, text, expected in CASES]
    cases += [('languages', what, language_complaint(po), expected) for what, po, expected in LANGUAGE_CASES]
    for rule, what, said, expected in cases:
        n += 1
        right = said is None if expected is None else said is not None and expected in said
        print(f'{"ok" if right else "not ok"} {n} - {rule}: {what}')
        if not right:
            print(f'# expected {expected!r}, the rule said {said!r}')

    project = Project({'src/job/a.c': '\n' * 401, check.EXCEPTIONS: 'size src/job/a.c one table\nsize src/job/b.c gone\n'})
    said = [str(t) for t in check.check('size', project)]
    right = len(said) == 1 and 'src/job/b.c is no longer' in said[0]
    print(f'{"ok" if right else "not ok"} {n + 1} - an exception passes, one that is not needed does not')

    found = c_text.functions('static int\nf (int a,\n   int b)\n{\n  static const int t[] = { 1, 2 };\n\n  return t[a] + b;\n}\n')
    right = [(f.name, f.line, f.lines, f.arguments, f.nesting) for f in found] == [('f', 1, 3, 2, 0)]
    print(f'{"ok" if right else "not ok"} {n + 2} - functions are read as they stand')
    print(f'1..{n + 2}')


if __name__ == '__main__':
    main()
